"""What a cutting plan adds to a packet beside its sheets: cutting.csv and pictures/boards.png."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from exporters.cutting.picture import write_boards_picture
from exporters.cutting.tables import CUTTING_HEADER, cutting_rows
from exporters.grain.wood import Wood
from exporters.subject import Subject
from exporters.tables import write_table
from furniture.shop.boards.outcome import CuttingOutcome


def write_cutting_table(outcome: CuttingOutcome, folder: Path) -> Path:
    """The path of cutting.csv, written.

    Args:
        folder: that takes it; it exists.

    Raises:
        OSError: the file cannot be written.
    """
    return write_table(CUTTING_HEADER, cutting_rows(outcome), folder / "cutting.csv")


def write_cutting(
    of: Subject, outcome: CuttingOutcome, folder: Path, woods: Mapping[str, Wood] | None = None
) -> list[Path]:
    """The paths of cutting.csv and pictures/boards.png, written; none without a plan.

    Args:
        folder: of the packet; it exists.
        woods: of the boards by name; one without is shown in its species' plain colour.

    Raises:
        OSError: a file cannot be written.
    """
    if outcome.plan is None:
        return []
    pictures = folder / "pictures"
    pictures.mkdir(exist_ok=True)
    return [
        write_cutting_table(outcome, folder),
        write_boards_picture(of, outcome, pictures / "boards.png", woods),
    ]
