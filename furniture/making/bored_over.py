"""Round holes that run into one another: a drill's point needs wood where it starts."""

from __future__ import annotations

import math
from collections.abc import Iterator

from furniture.parts.blank import Blank
from furniture.parts.cuts import Hole, Shape
from furniture.parts.cuts.shapes import level_of
from furniture.parts.part import Part

_SAME_MM = 1e-6


def bored_before(part: Part, index: int) -> Iterator[int]:
    """Which holes of a part are bored before one of them, by their places among its cuts.

    Those in whose middle it leaves no wood; of two that take each other's middle, the earlier.

    Args:
        part: with its cuts.
        index: of the hole among them.
    """
    blank = part.blank
    shapes = [cut.shape(blank) for cut in part.cuts]
    hole = shapes[index]
    for at, other in enumerate(shapes):
        is_mutual = _takes_middle(other, hole, blank)
        if at != index and _takes_middle(hole, other, blank) and (at < index or not is_mutual):
            yield at


def has_no_point(part: Part, index: int) -> bool:
    """Whether a drill's point starts in the air, in a hole that is bored before.

    Args:
        part: with its cuts.
        index: of the hole among them.
    """
    blank = part.blank
    hole = part.cuts[index].shape(blank)
    before = [part.cuts[at].shape(blank) for at in bored_before(part, index)]
    return any(_takes_middle(each, hole, blank) for each in before)


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
