"""Makes the committed pictures from models/: `python -m renders.make`, or only those of one kind:
`python -m renders.make pieces` or `reference`.

Sheets are turned into pictures by pypdfium2, which comes with the test requirements.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import pypdfium2
from PIL import Image

import furniture
from exporters.reference import reference_page

HERE = Path(__file__).resolve().parent
MODELS = (
    "herb_stand", "tea_box", "yarn_steps", "key_rack", "seedling_steps", "button_box",
)  # fmt: skip
SHEETS = ("general-arrangement", "exploded-view", "post", "board-a")
WRITTEN = ("sheets", "pictures", "checks", "cutting")
DATED = "2026-01-01"
DOTS_PER_INCH = 110
PIECE_SIDE, BOARDS_WIDE = 1000, 1200


def main(kinds: Sequence[str]) -> None:
    """Writes the pictures of these kinds.

    Args:
        kinds: names in `MAKERS`; none makes all.
    """
    for kind in kinds or MAKERS:
        MAKERS[kind](HERE)


def of_pieces(into: Path) -> None:
    """The pictures of all models, each in the wood of its own boards."""
    for model in MODELS:
        of_piece(model, into)


def of_piece(model: str, into: Path) -> str:
    """A model's picture, of the herb stand some sheets and its boards too; what the run said.

    Args:
        model: the script's name.
        into: the folder for the pictures.
    """
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / model
        said = _run(model, folder)
        _save_small(folder / "pictures" / "piece.png", into / f"{model}.png", PIECE_SIDE)
        if model == "herb_stand":
            _sheets(folder, into)
            boards = folder / "pictures" / "boards.png"
            _save_small(boards, into / "herb_stand-boards.png", BOARDS_WIDE)
    return said


def _save_small(picture: Path, path: Path, side: int) -> None:
    """In all its colours, so that wood is not mottled, and no larger than a page shows it."""
    image = Image.open(picture).convert("RGB")
    image.thumbnail((side, side), Image.Resampling.LANCZOS)
    image.save(path, optimize=True)


def of_reference(into: Path) -> None:
    """Every parameter that a script may write, with its default and an example."""
    (into / "parameters.md").write_text(reference_page(vars(furniture)), encoding="utf-8")


def _run(model: str, folder: Path) -> str:
    """Run the model's script as a maker does; what it says."""
    script = HERE.parent / "models" / f"{model}.py"
    only = [word for what in WRITTEN for word in ("--only", what)]
    command = [sys.executable, str(script), "--out", str(folder), "--date", DATED, *only]
    done = subprocess.run(command, check=True, capture_output=True, text=True, cwd=HERE.parent)
    return done.stdout


def _sheets(folder: Path, into: Path) -> None:
    drawings = json.loads((folder / "piece.json").read_text(encoding="utf-8"))["sheets"]
    pages = pypdfium2.PdfDocument(folder / "sheets.pdf")
    for what in SHEETS:
        index = next(place for place, each in enumerate(drawings) if _shows(each, what))
        _save_page(pages[index], into / f"herb_stand-{what}.png")


def _shows(drawing: dict[str, Any], what: str) -> bool:
    """Whether a sheet is named so, or a part or board of that name is drawn on it under its
    heading."""
    name = re.escape(what.replace("-", " "))
    heading = re.compile(rf"(?:\d+ )?{name}(?:: .*)? \(.*\)", re.IGNORECASE)
    return what in drawing["name"] or any(map(heading.fullmatch, drawing["says"]))


def _save_page(page: Any, path: Path) -> None:
    image = page.render(scale=DOTS_PER_INCH / 72).to_pil()
    image.convert("L").save(path, optimize=True)


MAKERS: dict[str, Callable[[Path], None]] = {"pieces": of_pieces, "reference": of_reference}

if __name__ == "__main__":
    main(sys.argv[1:])
