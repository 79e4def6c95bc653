"""How the wood of each part is hatched: one way within a part, another way in its neighbours."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from furniture.parts.cuts import Slope, shapes_of
from furniture.parts.placement import Box, box_of
from furniture.pieces.piece import Piece

_NEAR_MM = 0.5


@dataclass(frozen=True, slots=True)
class Hatch:
    """The slope of the lines [deg] and how far apart they stand on paper [mm]."""

    angle_deg: float
    spacing_mm: float


ALONE = Hatch(45.0, 2.5)
_SPACINGS_MM = (2.5, 1.6, 3.6)
"""Adjacent parts differ in slope, or in spacing. **Source:** ISO 128-3 (from memory)."""
_SQUARE_DEG, _BESIDE_MITRES_DEG = 45.0, 30.0
"""Lines at 45 degrees would run along a mitre and hide it. Own rule."""


def hatches_of(piece: Piece) -> Mapping[str, Hatch]:
    """The hatching of every instance, the same in all sections of the piece.

    Args:
        piece: its parts in their places.
    """
    boxes = {each.instance: box_of(each.part.blank, each.placement) for each in piece.placed}
    first = _BESIDE_MITRES_DEG if _has_mitres(piece) else _SQUARE_DEG
    hatches = [Hatch(angle, spacing) for spacing in _SPACINGS_MM for angle in (first, first + 90.0)]
    taken: dict[str, Hatch] = {}
    for name, box in boxes.items():
        near = {taken[other] for other in taken if _touch(box, boxes[other])}
        taken[name] = next((each for each in hatches if each not in near), hatches[-1])
    return taken


def _has_mitres(piece: Piece) -> bool:
    return any(
        abs(slope.angle_deg - _SQUARE_DEG) < 10.0
        for each in piece.placed
        for slope in shapes_of(each.part.cuts, each.part.blank, Slope)
    )


def _touch(first: Box, second: Box) -> bool:
    return all(
        first[0][axis] < second[1][axis] + _NEAR_MM and second[0][axis] < first[1][axis] + _NEAR_MM
        for axis in range(3)
    )
