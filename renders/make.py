"""Makes the committed pictures from models/: `python -m renders.make`, or only those of one kind:
`python -m renders.make pieces` or `python -m renders.make boards`.

Sheets are turned into pictures by pypdfium2, which comes with the test requirements.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import pypdfium2
from PIL import Image

from exporters.cutting.picture import write_boards_picture
from exporters.cutting.sheets import cutting_sheets
from exporters.packet import Output, PacketSettings, write_packet
from exporters.pdf import write_pdf
from exporters.sheets.dxf import document_of
from exporters.sheets.sheets import numbered
from exporters.sheets.values import SheetSettings
from tests.models import piece_of
from tests.shop.boards.bench import outcome_of_model

HERE = Path(__file__).resolve().parent
DATED = date(2026, 1, 1)
SHEETS = ("general-arrangement", "exploded-view", "post")
DOTS_PER_INCH = 110
BOARDS_WIDE = 1200


def main(kinds: Sequence[str]) -> None:
    """Writes the pictures of these kinds.

    Args:
        kinds: names in `MAKERS`; none makes all.
    """
    for kind in kinds or MAKERS:
        MAKERS[kind]()


def of_pieces() -> None:
    """The models' pictures and some of the herb stand's sheets."""
    settings = PacketSettings(outputs=frozenset({Output.PICTURES, Output.SHEETS}), dated=DATED)
    with tempfile.TemporaryDirectory() as name:
        for model in ("herb_stand", "tea_box", "yarn_steps", "key_rack"):
            folder = Path(name) / model
            packet = write_packet(piece_of(model), folder, settings)
            picture = HERE / f"{model}.png"
            picture.write_bytes((folder / "pictures" / "isometric.png").read_bytes())
            if model == "herb_stand":
                _sheets(folder, packet.files)


def of_boards() -> None:
    """The herb stand's boards on one page, and the sheet of the first of them."""
    piece, outcome = piece_of("herb_stand"), outcome_of_model("herb_stand")
    with tempfile.TemporaryDirectory() as name:
        path = write_boards_picture(piece, outcome, Path(name) / "boards.png")
        image = Image.open(path).convert("RGB")
        image.thumbnail((BOARDS_WIDE, BOARDS_WIDE))
        image.quantize(96).save(HERE / "herb_stand-boards.png", optimize=True)
        sheets = numbered(cutting_sheets(piece, outcome, SheetSettings(dated=DATED), 1))
        pdf = write_pdf([document_of(sheets[0])], Path(name) / "board.pdf", piece.name)
        _save_page(pypdfium2.PdfDocument(pdf)[0], "herb_stand-board-a.png")


def _sheets(folder: Path, files: tuple[str, ...]) -> None:
    names = [file for file in files if file.endswith(".dxf")]
    pages = pypdfium2.PdfDocument(folder / "sheets.pdf")
    for what in SHEETS:
        index = next(place for place, file in enumerate(names) if what in file)
        _save_page(pages[index], f"herb_stand-{what}.png")


def _save_page(page: Any, name: str) -> None:
    image = page.render(scale=DOTS_PER_INCH / 72).to_pil()
    image.convert("L").save(HERE / name, optimize=True)


MAKERS: dict[str, Callable[[], None]] = {"pieces": of_pieces, "boards": of_boards}

if __name__ == "__main__":
    main(sys.argv[1:])
