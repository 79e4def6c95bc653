"""A ruler laid on the printed sheets: the post's outline measures its length over the scale."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pdfplumber
import pypdfium2
import pytest

from exporters.pdf import page_of, write_pdf
from exporters.sheets import SheetSettings
from furniture.pieces.piece import Piece
from furniture.units import inches, millimetres
from tests.exporters.documents import sheet_documents
from tests.exporters.test_pdf import MM, PAPERS
from tests.exporters.test_views import placed_at, post


@pytest.mark.some(few=3)
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_posts_edge_measures_true_on_paper(tmp_path: Path, paper: str, unit: str) -> None:
    """The length of a part that is drawn whole, and the width of one that is drawn broken."""
    for length, true_mm in ((300.0, 300.0), (500.0, 90.0)):
        _measure(tmp_path, paper, unit, length, true_mm)


def _measure(tmp_path: Path, paper: str, unit: str, length: float, true_mm: float) -> None:
    shown = millimetres() if unit == "mm" else inches(64)
    placed = placed_at("post", (length, 90.0, 22.0), (0.0, 0.0, 0.0))
    piece = Piece(name="Post", shown=shown, placed=(placed,))
    settings = SheetSettings(paper=paper, dated=date(2026, 1, 2))
    documents = [
        sheet.document
        for sheet in sheet_documents(piece, settings)
        if "work-in-order" not in sheet.name  # words alone
    ]
    path = write_pdf(documents, tmp_path / "s.pdf", "Post")
    with pdfplumber.open(path) as pdf:
        assert len(pdf.pages) == len(documents)
        for page, document in zip(pdf.pages, documents, strict=True):
            stated = page_of(document)
            assert sorted((page.width * MM, page.height * MM)) == pytest.approx(
                sorted(PAPERS[paper]), abs=0.01
            )
            true = true_mm / stated.scale
            reaches = [
                max(line["x1"] - line["x0"], line["y1"] - line["y0"]) * MM
                for line in page.lines
                if line["linewidth"] * MM > 0.4
            ]
            assert min(abs(reach - true) for reach in reaches) < 0.1
            assert page.extract_text().strip()
            assert all(char["fontname"].endswith("DejaVuSans") for char in page.chars)
            colours = {line["stroking_color"] for line in page.lines}
            assert colours <= {0.0, (0.0,), (0,)}


def test_every_page_shows_ink_inside_its_borders_only(tmp_path: Path) -> None:
    part = post(4)
    placed = placed_at("post", part.blank.size, (0.0, 0.0, 0.0))
    piece = Piece(name="Post", shown=millimetres(), placed=(placed,))
    documents = [sheet.document for sheet in sheet_documents(piece, SheetSettings())]
    path = write_pdf(documents, tmp_path / "s.pdf")
    document = pypdfium2.PdfDocument(path)
    for page in document:
        grey = page.render(scale=2.0, grayscale=True).to_numpy().squeeze()
        dark = (grey < 128).mean()
        assert 0.001 < dark < 0.2
        border = round(5.0 / MM * 2.0)  # 5 mm: no printer of this kind reaches further out
        assert grey[:border].min() == grey[-border:].min() == 255
        assert grey[:, :border].min() == grey[:, -border:].min() == 255
    document.close()
