"""Makes the demo photo of a board: `python -m renders.photos`.

Nothing is borrowed: the board is sawn from a log of our own arithmetic, with the knots and pale
wood that its file lists, eight dark discs lie on it, and a lens that bends lines looks at it askew
on a bench. The same board gives the same photo.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from exporters.designs import piece_of
from exporters.grain.board import wood_of_board
from exporters.watch.script import given_by
from furniture.shop.boards import cutting_job
from furniture.shop.cutting.values import Board

Array = NDArray[np.float64]
MODELS = Path(__file__).resolve().parent.parent / "models"
MODEL, BOARD = "seedling_steps", "C"
WIDE, HIGH = 2400, 600
"""Of the photo [dots]."""
BEND = -0.03
"""How far the lens draws its corners in, as a share. A usual phone's. Own choice."""
MARK_MM, IN_MM = 8.0, 14.0
"""A disc's radius, and how far its middle lies in from the edges [mm]."""
_LEAN, _TURN = np.radians(21.0), np.radians(1.6)
_LINE_MM = 0.5
"""Dots of the board that the photo is taken of [mm]."""
_GRIT = 0.012
"""Noise of the photo, as a share of white. Own choice by eye."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """A lens that looks at a board from above its near edge [mm]."""

    board: Board

    @property
    def _middle(self) -> Array:
        return np.array((self.board.length_mm / 2, self.board.greatest_width_mm / 2))

    @property
    def _away(self) -> float:
        return 1.5 * self.board.length_mm

    @property
    def _zoom(self) -> float:
        return 0.92 * WIDE * self._away / self.board.length_mm

    def dots(self, places: Array) -> Array:
        """Column and row where places of the board are seen."""
        x, y = (places - self._middle).T
        along, across = np.cos(_TURN) * x - np.sin(_TURN) * y, np.sin(_TURN) * x + np.cos(_TURN) * y
        depth = self._away + np.sin(_LEAN) * across
        seen = np.column_stack((along, -np.cos(_LEAN) * across)) / depth[:, None] * self._zoom
        half = WIDE / 2.0
        bent = seen * (1.0 + BEND * (seen**2).sum(axis=1, keepdims=True) / half**2)
        return bent + np.array((WIDE, HIGH)) / 2.0

    def places(self, dots: Array) -> Array:
        """Places of the board's plane that are seen at columns and rows."""
        bent = dots - np.array((WIDE, HIGH)) / 2.0
        seen, half = bent.copy(), WIDE / 2.0
        for _ in range(8):  # the bending undone step by step; each step errs a tenth as much
            seen = bent / (1.0 + BEND * (seen**2).sum(axis=1, keepdims=True) / half**2)
        u, v = (seen / self._zoom).T
        # v = -cos across / (away + sin across), so across = -away v / (cos + v sin)
        across = -self._away * v / (np.cos(_LEAN) + v * np.sin(_LEAN))
        along = u * (self._away + np.sin(_LEAN) * across)
        turned = np.column_stack(
            (np.cos(_TURN) * along + np.sin(_TURN) * across,
             -np.sin(_TURN) * along + np.cos(_TURN) * across)
        )  # fmt: skip
        found: Array = turned + self._middle
        return found


def marks_of(board: Board) -> list[tuple[float, float]]:
    """Where the eight discs lie [mm]: in four rows along both edges."""
    along = np.linspace(IN_MM, board.length_mm - IN_MM, 4)
    return [(float(x), y) for x in along for y in (IN_MM, board.greatest_width_mm - IN_MM)]


def photo_of(board: Board, wood: Any) -> Image.Image:
    """The board on a bench, as the lens sees it.

    Args:
        board: as it was measured.
        wood: a `Wood` of that board.
    """
    eye = Eye(board=board)
    columns, rows = np.meshgrid(np.arange(WIDE) + 0.5, np.arange(HIGH) + 0.5)
    places = eye.places(np.column_stack((columns.ravel(), rows.ravel())))
    is_board = (
        (places[:, 0] >= 0) & (places[:, 0] <= board.length_mm)
        & (places[:, 1] >= 0) & (places[:, 1] <= board.greatest_width_mm)
    )  # fmt: skip
    drawn = np.random.default_rng(WIDE)
    light = 1.06 - 0.16 * (columns.ravel() / WIDE) - 0.05 * (rows.ravel() / HIGH)
    dots = _bench(places, board) * light[:, None]
    face = np.column_stack((places[is_board], np.full(is_board.sum(), board.thickness_mm - 0.01)))
    dots[is_board] = wood.colours(face, _LINE_MM) * light[is_board, None]
    for x, y in marks_of(board):
        away = np.hypot(places[:, 0] - x, places[:, 1] - y)
        covered = np.clip(MARK_MM + 0.4 - away, 0.0, 0.8)[:, None] / 0.8
        dots += (np.array((0.07, 0.07, 0.08)) - dots) * covered
    dots += drawn.normal(0.0, _GRIT, len(dots))[:, None]
    image = (255 * np.clip(dots, 0.0, 1.0)).astype(np.uint8).reshape(HIGH, WIDE, 3)
    return Image.fromarray(image)


def _bench(places: Array, board: Board) -> Array:
    """A grey bench top, darker where the board shades it along its edges."""
    out = np.maximum(
        np.maximum(-places, places - np.array((board.length_mm, board.greatest_width_mm))), 0.0
    )
    shade = 1.0 - 0.35 * np.exp(-np.hypot(out[:, 0], out[:, 1]) / 14.0)
    streaks = 0.015 * np.sin(places[:, 1] / 3.1 + 2.0 * np.sin(places[:, 0] / 90.0))
    return (np.array((0.47, 0.46, 0.44)) + streaks[:, None]) * shade[:, None]


def board_and_wood(model: str, name: str) -> tuple[Board, Any]:
    """A board of a model as it was measured, and its wood.

    Args:
        model: the script's name.
        name: chalked on the board.
    """
    given = given_by(MODELS / f"{model}.py")
    piece = piece_of(given.design, None)
    job = cutting_job(piece, given.more["boards"], given.more["wishes"])
    board = next(each for each in job.boards if each.name == name)
    keys = {part.species: job.stocks[part.name] for part in job.request.parts}
    planned = next(each for each in job.request.boards if each.name == name)
    timber = next(
        each.part.timber for each in piece.placed
        if each.part.timber.name == keys[planned.species]
    )  # fmt: skip
    return board, wood_of_board(board, timber.species, timber.sawn)


def told_of(board: Board, photo: str) -> str:
    """The file that says what the photo shows, its marks pointed at as roughly as by hand."""
    places = marks_of(board)
    seen = Eye(board=board).dots(np.array(places))
    rows = [
        f'    {{ x = "{x:.1f} mm", y = "{y:.1f} mm", at = [{column:.0f}, {row:.0f}] }},'
        for (x, y), (column, row) in zip(places, seen + np.array((4.0, -3.0)), strict=True)
    ]
    head = (
        f"# The photo of board {board.name}. It was not taken: `python -m renders.photos` works it "
        "out,\n# board, discs, bench and lens, so nothing is borrowed.\n"
    )
    marks = "\n".join(rows)
    return f'{head}[{board.name}]\nfile = "{photo}"\nmarks = [\n{marks}\n]\n'


def make(into: Path) -> tuple[Path, Path]:
    """The paths of the photo and of the file beside the boards that names it.

    Args:
        into: the folder.
    """
    board, wood = board_and_wood(MODEL, BOARD)
    photo = into / f"{MODEL}_board_{BOARD.lower()}.jpg"
    photo_of(board, wood).save(photo, quality=82, optimize=True)
    told = into / f"{MODEL}_boards_photos.toml"
    told.write_text(told_of(board, photo.name), encoding="utf-8")
    return photo, told


def main(arguments: Sequence[str]) -> None:
    """Makes them beside the models, or in the folder that is named.

    Args:
        arguments: none, or one folder.
    """
    make(Path(arguments[0]) if arguments else MODELS)


if __name__ == "__main__":
    main(sys.argv[1:])
