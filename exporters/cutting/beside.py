"""Words above or below a board's drawing, led to what they name."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.cutting.draft import Draft, box_at, corners_of, led_out
from exporters.cutting.ground import Spot
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Filled
from furniture.parts.vectors import Point2

MOST_TARGETS = 7
_APART_MM = 4.0
"""Between callouts side by side, so that they are not read as one [mm on paper]. Own rule."""


MOST_LED_OUT = 48
"""So many zones, and widths, a board's drawing leads out at most; for more no place is looked for.
Own rule: measured, a few seconds a board."""


def call_out(
    draft: Draft,
    ways: Sequence[Sequence[str]],
    targets: Sequence[Point2],
    *,
    has_dot: bool = False,
) -> bool:
    """Whether words stand above or below the board, with a leader to one of the targets.

    Args:
        ways: to break the words, best first.
        targets: where the leader may end [mm].
        has_dot: the leader ends in a dot, for a surface; else at a line.
    """
    spot, lines = _first_place(draft, [tuple(way) for way in ways], list(targets)[:MOST_TARGETS])
    if spot is None or spot.leader is None:
        return False
    draft.write(lines, spot.box)
    draft.draw_leader(spot.leader)
    if has_dot:
        _dot(draft, spot.leader[1])
    return True


def _first_place(
    draft: Draft, ways: Sequence[tuple[str, ...]], targets: Sequence[Point2]
) -> tuple[Spot | None, tuple[str, ...]]:
    """The first place with room: near rows first, leaders that cross no other first."""
    for may_cross in (False, True):
        for lines in dict.fromkeys(ways):
            size_of = draft.size_of(lines)
            spot = led_out(draft, *size_of, targets, may_cross=may_cross, beside=_APART_MM)
            if spot is not None:
                return spot, lines
    return None, ()


def _dot(draft: Draft, at: Point2) -> None:
    box = box_at(at, 0.9, 0.9)
    draft.items.append(Filled(corners=corners_of(box), line_class=LineClass.LEADER))
    draft.ground.add_lines([((box.left, at[1]), (box.right, at[1]))])
