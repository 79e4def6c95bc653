"""Drawing documents written as one PDF, a page for each."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

from ezdxf.document import Drawing
from reportlab.pdfgen.canvas import Canvas

from exporters.pdf.draw import POINTS_PER_MM, Sketcher
from exporters.pdf.page import PdfPage, page_of


def write_pdf(documents: Sequence[Drawing | PdfPage], path: Path, title: str = "") -> Path:
    """The path of the PDF that was written: one vector page a document, at exact scale.

    Black on white with true pen widths; text can be searched and its font travels along; a print
    dialogue is asked not to rescale. Equal documents give equal bytes.

    Args:
        documents: drawings whose paper-space layout says how they are printed, or pages.
        path: of the file to write.
        title: of the document, as readers show it.

    Raises:
        ValueError: no documents, or one that cannot be printed as a sheet.
        OSError: the file cannot be written.
    """
    if not documents:
        raise ValueError("a PDF needs at least one page")
    memory = io.BytesIO()
    canvas = Canvas(memory, invariant=1, pageCompression=1)
    canvas.setTitle(title or path.stem)
    canvas.setAuthor("knifewall")
    canvas.setCreator("knifewall")
    canvas.setViewerPreference("PrintScaling", "None")
    for document in documents:
        page = document if isinstance(document, PdfPage) else page_of(document)
        width, height = (side * POINTS_PER_MM for side in page.paper_mm)
        canvas.setPageSize((width, height))
        sketcher = Sketcher(canvas, page.document, page.scale, page.model_origin)
        sketcher.draw(page.document.modelspace())
        canvas.showPage()
    canvas.save()
    path.write_bytes(memory.getvalue())
    return path
