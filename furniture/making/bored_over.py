"""Round holes that run into one another: a drill's point needs wood where it starts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from furniture.parts.blank import Blank
from furniture.parts.cuts import Hole, Shape
from furniture.parts.cuts.shapes import level_of

_SAME_MM = 1e-6


def bored_before(shapes: Sequence[Shape], index: int, blank: Blank) -> Iterator[int]:
    """Which holes of a part are bored before one of them, by their places among its cuts.

    Those in whose middle it leaves no wood; of two that take each other's middle, the earlier.

    Args:
        shapes: that all its cuts leave.
        index: of the hole.
        blank: of the part.
    """
    hole = shapes[index]
    for at, other in enumerate(shapes):
        is_mutual = _takes_middle(other, hole, blank)
        if at != index and _takes_middle(hole, other, blank) and (at < index or not is_mutual):
            yield at


def has_no_point(shapes: Sequence[Shape], index: int, blank: Blank) -> bool:
    """Whether a drill's point starts in the air, in a hole that is bored before.

    Args:
        shapes: that all cuts of the part leave.
        index: of the hole.
        blank: of the part.
    """
    first = bored_before(shapes, index, blank)
    return any(_takes_middle(shapes[at], shapes[index], blank) for at in first)


def _takes_middle(one: Shape, other: Shape, blank: Blank) -> bool:
    """Whether a round hole takes the wood that another one's drill starts in, beside its own."""
    if not (isinstance(one, Hole) and isinstance(other, Hole)):
        return False
    if not (one.is_round and other.is_round) or one.face.axis != other.face.axis:
        return False
    axis = one.face.axis
    apart = math.dist(*([*each.first[:axis], *each.first[axis + 1 :]] for each in (one, other)))
    (low, high), (start, end) = (_span(each, blank) for each in (one, other))
    do_meet = low < end - _SAME_MM and start < high - _SAME_MM
    return do_meet and _SAME_MM < apart < one.radius_mm - _SAME_MM


def _span(hole: Hole, blank: Blank) -> tuple[float, float]:
    """From where to where it runs through the wood."""
    size, level = blank.size[hole.face.axis], level_of(hole.face, blank)
    if hole.depth_mm is None:
        return 0.0, size
    end = level - hole.depth_mm if hole.face.is_far else level + hole.depth_mm
    return min(level, end), max(level, end)
