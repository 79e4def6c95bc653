"""Photos beside a file of boards: `herb_stand_boards.csv` may have `herb_stand_boards_photos.toml`.

    [A]                        the name chalked on the board
    file = "board_a.jpg"       beside this file
    marks = [
        { x = "20 mm", y = "20 mm", at = [612, 1804] },
        ...
    ]

A mark is a dark disc on the board, measured from the end the tape was hooked on and from the
straight edge; `at` is its column and row in the photo, and need only be near.
Eight marks tell the lens too.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from exporters.photo.camera import Mark
from exporters.photo.wood import PhotoWood, wood_of_photo
from furniture.errors import KnifewallError
from furniture.shop.cutting.values import Board
from furniture.units.reading import read_length


class PhotoError(KnifewallError):
    """A photo, or what is told of it, cannot be used."""


def photos_beside(path: object, boards: Sequence[Board]) -> dict[str, PhotoWood]:
    """The boards that have a photo, by name; none where no file of photos stands there.

    Args:
        path: of the file of boards, as a script gives it.
        boards: as they were read.

    Raises:
        PhotoError: with every board whose photo cannot be used, and why.
    """
    file = photos_file(path)
    if file is None:
        return {}
    known = {board.name: board for board in boards}
    found, wrong = {}, []
    try:
        rows = tomllib.loads(file.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        raise PhotoError(f"{file.name}: {error}") from error
    for name, row in rows.items():
        try:
            board = known[name]
        except KeyError:
            wrong.append(f"{name}: there is no board of that name; there are {', '.join(known)}")
            continue
        try:
            found[name] = _photo(file.parent, row, board)
        except (OSError, ValueError, KeyError, TypeError) as error:
            wrong.append(f"{name}: {error}")
    if wrong:
        raise PhotoError("\n  ".join((f"{file.name} cannot be used:", *wrong)))
    return found


def photos_file(path: object) -> Path | None:
    """The file of photos that belongs to a file of boards, where it stands."""
    if not isinstance(path, str | Path):
        return None
    file = Path(path)
    beside = file.with_name(f"{file.stem}_photos.toml")
    return beside if beside.is_file() else None


def _photo(folder: Path, row: Any, board: Board) -> PhotoWood:
    marks = [
        Mark(
            x_mm=read_length(each["x"]), y_mm=read_length(each["y"]),
            column=float(each["at"][0]), row=float(each["at"][1]),
        )
        for each in row["marks"]
    ]  # fmt: skip
    size = (board.length_mm, board.greatest_width_mm, board.thickness_mm)
    return wood_of_photo(folder / str(row["file"]), marks, size)
