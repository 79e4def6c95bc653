"""How cut wood is hatched: end grain slants, long grain runs with its fibres, sheets are steep.

One way within a part in a view, another way in its neighbours.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from exporters.views.values import ViewFrame
from furniture.parts.cuts import Slope, shapes_of
from furniture.parts.faces import EDGES
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import dot
from furniture.pieces.piece import Piece
from furniture.timber.wood import Kind

_NEAR_MM = 0.5


@dataclass(frozen=True, slots=True)
class Hatch:
    """The slope of the lines [deg] and how far apart they stand on paper [mm]."""

    angle_deg: float
    spacing_mm: float


ALONE = Hatch(45.0, 1.8)
_SPACINGS_MM = (1.8, 1.2, 2.6, 3.4)
"""Adjacent parts differ in slope, or in spacing. **Source:** ISO 128-3 (from memory)."""
_SLANT_DEG, _BESIDE_MITRES_DEG = 45.0, 30.0
"""End grain slants; at 45 degrees lines would run along a mitre and hide it. Own rule."""
_OF_SHEETS_DEG = 60.0
"""Plies and fibres of a sheet lie all ways. Own rule."""
_END_GRAIN = math.cos(math.radians(45.0))
"""Nearer than this to square across the fibres a cut shows end grain, else long grain."""


def hatches_of(piece: Piece, frame: ViewFrame) -> Mapping[str, Hatch]:
    """The hatching of every instance in a section.

    Args:
        piece: its parts in their places.
        frame: the way that the section is looked at.
    """
    boxes = {each.instance: box_of(each.part.blank, each.placement) for each in piece.placed}
    slant = _BESIDE_MITRES_DEG if _has_mitred_edges(piece) else _SLANT_DEG
    taken: dict[str, Hatch] = {}
    for each in piece.placed:
        box = boxes[each.instance]
        near = {taken[other] for other in taken if _touch(box, boxes[other])}
        ways = _ways(each, frame, slant)
        tries = [Hatch(angle, spacing) for spacing in _SPACINGS_MM for angle in ways]
        taken[each.instance] = next((one for one in tries if one not in near), tries[-1])
    return taken


def _ways(placed: Placed, frame: ViewFrame, slant: float) -> tuple[float, ...]:
    """The slopes that a part's lines may have in a view, the better one first [deg]."""
    if placed.part.timber.species.kind is Kind.SHEET:
        return (_OF_SHEETS_DEG, 180.0 - _OF_SHEETS_DEG)
    grain = placed.placement.x_axis
    if abs(dot(grain, frame.towards_eye)) > _END_GRAIN:
        return (slant, slant + 90.0)
    along = math.degrees(math.atan2(dot(grain, frame.up), dot(grain, frame.right)))
    return (round(along % 180.0, 3),)


def _has_mitred_edges(piece: Piece) -> bool:
    """Whether a mitre runs along the grain, so that it shows where the end grain does."""
    return any(
        slope.face in EDGES and abs(slope.angle_deg - _SLANT_DEG) < 10.0
        for each in piece.placed
        for slope in shapes_of(each.part.cuts, each.part.blank, Slope)
    )


def _touch(first: Box, second: Box) -> bool:
    return all(
        first[0][axis] < second[1][axis] + _NEAR_MM and second[0][axis] < first[1][axis] + _NEAR_MM
        for axis in range(3)
    )
