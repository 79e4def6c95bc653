"""The free inside of a box: where ballast lies or would lie."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.builders.base_box import BoxFigures
from furniture.builders.lid_fixing import CleatFigures
from furniture.pieces import FixedBody, Inside
from furniture.rules import Rules
from furniture.rules.building import LEAST_BALLAST_ROOM, WANTED_BOTTOM


def inside_of(
    box: BoxFigures,
    *,
    bottom_thickness: float,
    free_depth: float,
    cleats: CleatFigures | None,
    ballast: Sequence[FixedBody],
    rules: Rules,
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
    floor = rules[WANTED_BOTTOM] if is_open else bottom_thickness
    tops = (body.centre_mm[2] + body.size_mm[2] / 2 for body in ballast)
    low = (box.rail, box.rail, max([floor, *tops]))
    below_lid = 0.0 if cleats is None else cleats.timber.thickness_mm
    high = (box.width - box.rail, free_depth, box.ceiling - below_lid)
    if any(high[axis] - low[axis] < rules[LEAST_BALLAST_ROOM] for axis in range(3)):
        return None
    return Inside(low=low, high=high, is_open_below=is_open)
