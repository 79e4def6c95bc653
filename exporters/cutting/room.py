"""Finding room on a board's drawing for a text or a number: inside a rectangle, off everything."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.sheets.paper import Box2
from furniture.parts.vectors import Point2

CLEAR_MM = 0.5
"""Between a text and anything else [mm on paper]."""
_STEPS = 12
_SHYNESS = 8.0
"""How many millimetres farther from the middle a text goes to uncover a square millimetre."""


def box_at(centre: Point2, wide: float, high: float) -> Box2:
    """The rectangle of this size round a point [mm]."""
    x, y = centre
    return Box2(left=x - wide / 2, right=x + wide / 2, bottom=y - high / 2, top=y + high / 2)


def is_clear(box: Box2, taken: Sequence[Box2]) -> bool:
    """Whether a box with its clearance is off all that is taken."""
    grown = box.grown(CLEAR_MM)
    return not any(grown.overlaps(other) for other in taken)


def place_in(
    room: Box2, wide: float, high: float, taken: Sequence[Box2], shy_of: Sequence[Box2] = ()
) -> Box2 | None:
    """Where a box of this size fits in a room, nearest its middle; none when it does not.

    Args:
        room: it has to lie inside, with its clearance [mm].
        wide: of the box [mm].
        high: of the box [mm].
        taken: where it must not lie [mm].
        shy_of: where it lies only when it has to [mm].
    """
    inner = room.grown(-CLEAR_MM)
    spare_x, spare_y = inner.width - wide, inner.height - high
    if spare_x < -1e-9 or spare_y < -1e-9:
        return None
    centre = inner.centre
    best: tuple[float, Box2] | None = None
    for column in range(_STEPS + 1):
        for row in range(_STEPS + 1):
            dx = spare_x * (column / _STEPS - 0.5)
            dy = spare_y * (row / _STEPS - 0.5)
            box = box_at((centre[0] + dx, centre[1] + dy), wide, high)
            if not is_clear(box, taken):
                continue
            covered = sum(_shared(box, other) for other in shy_of)
            cost = abs(dx) + abs(dy) + _SHYNESS * covered
            if best is None or cost < best[0] - 1e-9:
                best = (cost, box)
    return None if best is None else best[1]


def _shared(first: Box2, second: Box2) -> float:
    wide = min(first.right, second.right) - max(first.left, second.left)
    high = min(first.top, second.top) - max(first.bottom, second.bottom)
    return max(wide, 0.0) * max(high, 0.0)
