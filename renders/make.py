"""Makes the committed pictures from models/: `python -m renders.make`.

Sheets are turned into pictures by pypdfium2, which comes with the test requirements.
"""

from __future__ import annotations

import tempfile
from datetime import date
from pathlib import Path

import pypdfium2

from exporters.packet import Output, PacketSettings, write_packet
from tests.models import piece_of

HERE = Path(__file__).resolve().parent
DATED = date(2026, 1, 1)
SHEETS = {"general arrangement": "general-arrangement", "post": "post"}
DOTS_PER_INCH = 110


def main() -> None:
    """Writes the herb stand's and the other models' pictures and two of the herb stand's sheets."""
    settings = PacketSettings(outputs=frozenset({Output.PICTURES, Output.SHEETS}), dated=DATED)
    with tempfile.TemporaryDirectory() as name:
        for model in ("herb_stand", "tea_box", "yarn_steps", "key_rack"):
            folder = Path(name) / model
            packet = write_packet(piece_of(model), folder, settings)
            picture = HERE / f"{model}.png"
            picture.write_bytes((folder / "pictures" / "isometric.png").read_bytes())
            if model == "herb_stand":
                _sheets(folder, packet.files)


def _sheets(folder: Path, files: tuple[str, ...]) -> None:
    names = [file for file in files if file.endswith(".dxf")]
    pages = pypdfium2.PdfDocument(folder / "sheets.pdf")
    for what in SHEETS.values():
        index = next(place for place, file in enumerate(names) if what in file)
        image = pages[index].render(scale=DOTS_PER_INCH / 72).to_pil()
        image.convert("L").save(HERE / f"herb_stand-{what}.png", optimize=True)


if __name__ == "__main__":
    main()
