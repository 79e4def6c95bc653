"""The free inside of a box: where ballast lies or would lie."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.builders.base_box import BoxFigures
from furniture.builders.lid_fixing import CleatFigures
from furniture.pieces import FixedBody, Inside

LEAST_ROOM_MM = 20.0
"""The least inside of a box in which ballast lies [mm]. Own rule."""
WANTED_BOTTOM_MM = 10.0
"""What a bottom that is still wanted takes of a box's height [mm]. Own rule."""


def inside_of(
    box: BoxFigures,
    *,
    bottom_thickness: float,
    free_depth: float,
    cleats: CleatFigures | None,
    ballast: Sequence[FixedBody],
) -> Inside | None:
    """What is free between rails, support, lid and bottom; none where next to nothing is.

    Args:
        box: its figures.
        bottom_thickness: 0 for none [mm].
        free_depth: how far back it is free, from the front [mm].
        cleats: below the lid, which take their thickness of the height.
        ballast: that lies on the bottom already.
    """
    is_open = bottom_thickness == 0.0
    floor = WANTED_BOTTOM_MM if is_open else bottom_thickness
    tops = (body.centre_mm[2] + body.size_mm[2] / 2 for body in ballast)
    low = (box.rail, box.rail, max([floor, *tops]))
    below_lid = 0.0 if cleats is None else cleats.timber.thickness_mm
    high = (box.width - box.rail, free_depth, box.rabbet_floor - below_lid)
    if any(high[axis] - low[axis] < LEAST_ROOM_MM for axis in range(3)):
        return None
    return Inside(low=low, high=high, is_open_below=is_open)
