"""How far two parts that fill the same space must go apart, and which of them can."""

from __future__ import annotations

from dataclasses import dataclass, replace

from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, add, dot, scaled
from furniture.parts.ways import PIECE_WAYS
from furniture.pieces.piece import Piece, placed_named
from furniture.solids.proof import LEAST_OVERLAP_MM3, Interference, common_volume
from furniture.solids.proof_wood import box_of_tool, shared_box, tool_in

_ROUNDING_MM = 1e-6
_NEAR_MM = 0.01
"""As near as the least way is looked for [mm]. Own rule: finer than a rule shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayApart:
    """The shortest way that frees two parts of each other, and which of them may go it.

    `way` is one of the six ways of the piece, as the second part goes; `moves` is the instance
    that meets nothing else on it, with the way that it goes itself, or None.
    """

    way: Vector
    by_mm: float
    moves: tuple[str, Vector] | None


def way_apart(piece: Piece, overlap: Interference) -> WayApart:
    """The shortest straight way along the piece that frees two parts.

    Args:
        piece: that they are in.
        overlap: of the two.
    """
    first, second = placed_named(piece, overlap.first), placed_named(piece, overlap.second)
    ways = sorted(
        (_until_clear(_box(first), _box(second), way), number, way)
        for number, (way, _) in enumerate(PIECE_WAYS)
    )
    best_mm, _, best = ways[0]
    for behind_mm, _, way in ways:
        found = _least(first, second, way, min(behind_mm, best_mm))
        if found is not None:
            best_mm, best = found, way
    return WayApart(way=best, by_mm=best_mm, moves=_free(piece, first, second, best, best_mm))


def _free(
    piece: Piece, first: Placed, second: Placed, way: Vector, by_mm: float
) -> tuple[str, Vector] | None:
    for part, goes in ((second, way), (first, scaled(way, -1.0))):
        there = _moved(part, goes, by_mm + _NEAR_MM)
        if all(
            _is_clear(other, there) for other in piece.placed if other.instance != part.instance
        ):
            return part.instance, goes
    return None


def _least(first: Placed, second: Placed, way: Vector, within_mm: float) -> float | None:
    """The least way within a length that frees the second part, or None.

    It is not enough to halve: a shelf lifted out of its play is free again on the way down before
    it meets the other wall. Parts come free where a face of one passes a face of the other.
    """
    swept = _round_both(_box(second), _box(_moved(second, way, within_mm)))
    passed = {
        there - here
        for there in _faces(first, way, swept)
        for here in _faces(second, way, swept)
        if _ROUNDING_MM < there - here < within_mm + _ROUNDING_MM
    }
    low = 0.0
    for high in sorted(passed):
        if _is_clear(first, _moved(second, way, high)):
            return _halved(first, second, way, low, high)
        low = high
    return None


def _halved(first: Placed, second: Placed, way: Vector, low: float, high: float) -> float:
    """Where between two faces they come free: square parts at the face, others before it."""
    if not _is_clear(first, _moved(second, way, high - _NEAR_MM)):
        return high
    while high - low > _NEAR_MM:
        middle = (low + high) / 2.0
        if _is_clear(first, _moved(second, way, middle)):
            high = middle
        else:
            low = middle
    return high


def _faces(placed: Placed, way: Vector, within: Box) -> set[float]:
    """Where along a way the part and its cuts near a block begin and end [mm]."""
    tools = (tool for cut in placed.part.cuts for tool in cut.tools(placed.part.blank))
    boxes = [_box(placed), *(box_of_tool(tool_in(tool, placed.placement)) for tool in tools)]
    near = (each for each in boxes if shared_box(each, within) is not None)
    return {dot(corner, way) for box in near for corner in box}


def _round_both(first: Box, second: Box) -> Box:
    low = tuple(min(a, b) for a, b in zip(first[0], second[0], strict=True))
    high = tuple(max(a, b) for a, b in zip(first[1], second[1], strict=True))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _is_clear(first: Placed, second: Placed) -> bool:
    if shared_box(_box(first), _box(second)) is None:
        return True
    return common_volume(first, second) < LEAST_OVERLAP_MM3


def _until_clear(fixed: Box, moving: Box, way: Vector) -> float:
    """How far a box goes until the other is behind it [mm]."""
    return max(dot(corner, way) for corner in fixed) - min(dot(corner, way) for corner in moving)


def _moved(placed: Placed, way: Vector, by_mm: float) -> Placed:
    place = placed.placement
    return replace(placed, placement=replace(place, origin=add(place.origin, scaled(way, by_mm))))


def _box(placed: Placed) -> Box:
    return box_of(placed.part.blank, placed.placement)
