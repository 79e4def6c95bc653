"""The wood that cuts turn to dust, no further than the piece in hand and the wood of the board."""

from __future__ import annotations

from itertools import pairwise

from furniture.parts.vectors import Point2
from furniture.shop.cutting.plan import CutDirection, NumberedCut, Rectangle
from furniture.shop.cutting.values import Board
from furniture.shop.cutting.zones import width_at

_NO_WOOD_MM = 1e-6

KerfShape = tuple[Point2, Point2, Point2, Point2]


def kerf_shapes(cut: NumberedCut, board: Board) -> tuple[KerfShape, ...]:
    """The kerf as shapes of four corners in board coordinates, side by side along the board [mm].

    One where the board's far edge is clear of it; more where that edge runs into it; none where it
    lies in no wood.
    """
    piece, saw_end = cut.workpiece, cut.position_mm + cut.kerf_mm
    if cut.direction is CutDirection.CROSSCUT:
        left, right = max(cut.position_mm, piece.x_mm), min(saw_end, piece.x_end_mm)
        low, high = piece.y_mm, piece.y_end_mm
    else:
        left, right = piece.x_mm, piece.x_end_mm
        low, high = max(cut.position_mm, piece.y_mm), min(saw_end, piece.y_end_mm)
    if right - left <= _NO_WOOD_MM or high - low <= _NO_WOOD_MM:
        return ()
    shapes: list[KerfShape] = []
    for start, end in pairwise(_marks(board, left, right, (low, high))):
        tops = [min(max(width_at(board, x), low), high) for x in (start, end)]
        if max(tops) - low <= _NO_WOOD_MM:
            continue
        is_whole = min(tops) >= high - _NO_WOOD_MM
        if is_whole and shapes and shapes[-1][1][0] == start and _is_whole(shapes[-1], high):
            start = shapes.pop()[0][0]
        shapes.append(((start, low), (end, low), (end, tops[1]), (start, tops[0])))
    return tuple(shapes)


def kerf_of(cut: NumberedCut, board: Board) -> Rectangle:
    """The rectangle round the longest shape of a kerf; of no size where it lies in no wood [mm]."""
    shapes = kerf_shapes(cut, board)
    if not shapes:
        x, y = cut.workpiece.x_mm, cut.workpiece.y_mm
        if cut.direction is CutDirection.CROSSCUT:
            return Rectangle(x_mm=cut.position_mm, y_mm=y, length_mm=0.0, width_mm=0.0)
        return Rectangle(x_mm=x, y_mm=cut.position_mm, length_mm=0.0, width_mm=0.0)
    longest = max(shapes, key=lambda shape: shape[1][0] - shape[0][0])
    left, low = longest[0]
    top = max(corner[1] for corner in longest)
    return Rectangle(x_mm=left, y_mm=low, length_mm=longest[1][0] - left, width_mm=top - low)


def _marks(board: Board, left: float, right: float, levels: tuple[float, float]) -> list[float]:
    """Where along the board its far edge bends or passes one of these levels, ends included."""
    stations = sorted(board.stations, key=lambda each: each.at_mm)
    marks = {left, right, *(s.at_mm for s in stations)}
    for first, second in pairwise(stations):
        for level in levels:
            run = second.width_mm - first.width_mm
            if (first.width_mm - level) * (second.width_mm - level) < 0.0:
                share = (level - first.width_mm) / run
                marks.add(first.at_mm + share * (second.at_mm - first.at_mm))
    return sorted(x for x in marks if left <= x <= right)


def _is_whole(shape: KerfShape, high: float) -> bool:
    return min(shape[2][1], shape[3][1]) >= high - _NO_WOOD_MM
