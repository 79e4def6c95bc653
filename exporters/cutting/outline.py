"""The outline of a board as it was measured."""

from __future__ import annotations

from furniture.parts.vectors import Point2
from furniture.shop.cutting.values import Board
from furniture.shop.cutting.zones import width_at


def outline_of(board: Board) -> tuple[Point2, ...]:
    """The board's corners in order, from its datum corner [mm]."""
    places = sorted({0.0, board.length, *(station.at for station in board.stations)})
    upper = [(x, width_at(board, x)) for x in reversed(places)]
    return ((0.0, 0.0), (board.length, 0.0), *upper)
