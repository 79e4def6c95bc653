"""Where a new part may lie in an old one: the grain stays along the grain, nothing is mirrored.

What stands in the way are the old part's cuts, boxes nearly all. So if there is any place, there is
one where on each axis something just touches: an end of the new part an end of the old, a wall of a
new cut the wall of an old one, an end a wall. All of these are tried. How far a sloped wall reaches
hangs on where the part lies on the other two axes: what touches it there is tried after the others.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain, product

from furniture.job.old import OldPart
from furniture.job.values import Place, Turn
from furniture.job.voids import HAIR_MM
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.cuts.left import put
from furniture.parts.lines import bounds_of, reaches
from furniture.parts.placement import Box, Placement
from furniture.parts.tools import Prism, Tool
from furniture.parts.vectors import Vector

_MOST_PLACES = 3000
_INSIDE = 1e-9
"""How far within its box a part's edge is looked at, so that it lies in no face of a tool."""


def places_in(old: OldPart, blank: Blank, cuts: Sequence[Cut]) -> Iterator[Place]:
    """Every place to try, those first that need nothing turned.

    Args:
        old: the wood.
        blank: of the new part.
        cuts: of the new part.
    """
    spare = [had - needed for had, needed in zip(old.blank.size, blank.size, strict=True)]
    if any(each < -HAIR_MM for each in spare):
        return
    own = [_within(tool, blank.size) for cut in cuts for tool in cut.tools(blank)]
    for turn in Turn:
        there = [
            _within(_turned(tool, turn, old.blank.size), old.blank.size)
            for cut in old.cuts
            for tool in cut.tools(old.blank)
        ]
        slopes = [
            _turned(tool, turn, old.blank.size)
            for cut in old.cuts
            for tool in cut.tools(old.blank)
            if _is_sloped(tool)
        ]
        lows = [
            _touching(axis, max(0.0, spare[axis]), there, own, old.blank.size, blank.size)
            for axis in range(3)
        ]
        while len(lows[0]) * len(lows[1]) * len(lows[2]) > _MOST_PLACES:
            longest = max(range(3), key=lambda axis: len(lows[axis]))
            lows[longest] = sorted({lows[longest][0], lows[longest][-1], *lows[longest][::2]})
        square = ((x, y, z) for x, y, z in product(*lows))
        for low in chain(square, _on_slopes(lows, spare, slopes, blank, cuts)):
            high = [max(0.0, each) - at for each, at in zip(spare, low, strict=True)]
            yield Place(
                turn=turn, off_low=low, off_high=(high[0] + 0.0, high[1] + 0.0, high[2] + 0.0)
            )


def _is_sloped(tool: Tool) -> bool:
    """Whether it has a wall that is square to none of the axes, and is none of a mere bore."""
    if not isinstance(tool, Prism):
        return False
    outline = zip(tool.outline, (*tool.outline[1:], tool.outline[0]), strict=True)
    return any(
        abs(two.u - one.u) > HAIR_MM and abs(two.v - one.v) > HAIR_MM for one, two in outline
    )


def _on_slopes(
    lows: Sequence[Sequence[float]],
    spare: Sequence[float],
    slopes: Sequence[Tool],
    blank: Blank,
    cuts: Sequence[Cut],
) -> Iterator[Vector]:
    """Where an end, or a slope of the new part, just touches an old slope, told by the lines along
    the edges of the new part's box; most of them only slide along it from a place known already."""
    if not slopes:
        return
    own = [tool for cut in cuts for tool in cut.tools(blank) if _is_sloped(tool)]
    tried = 0
    for axis in range(3):
        if spare[axis] <= HAIR_MM:
            continue
        one, two = (each for each in range(3) if each != axis)
        known = {round(each, 6) for each in lows[axis]}
        for at in product(lows[one], lows[two]):
            for share in product((_INSIDE, 1.0 - _INSIDE), repeat=2):
                there, here = [0.0] * 3, [0.0] * 3
                for each, low, part in zip((one, two), at, share, strict=True):
                    here[each] = part * blank.size[each]
                    there[each] = low + here[each]
                marks = [0.0, blank.size[axis], *_ends(own, axis, here)]
                for end, mark in product(_ends(slopes, axis, there), marks):
                    low = round(end - mark, 6)
                    if HAIR_MM < low < spare[axis] - HAIR_MM and low not in known:
                        tried += 1
                        if tried > _MOST_PLACES:
                            return
                        yield put(put(put((0.0, 0.0, 0.0), one, at[0]), two, at[1]), axis, low)


def _ends(tools: Sequence[Tool], axis: int, at: Sequence[float]) -> list[float]:
    """Where a line along an axis goes into tools and out of them [mm]."""
    point = (at[0], at[1], at[2])
    return [end for tool in tools for reach in reaches(tool, axis, point) for end in reach]


def in_new_frame(tool: Tool, old: Blank, place: Place) -> Tool:
    """A tool of the old part where the new part sees it.

    Args:
        tool: in the old part's frame.
        old: the old part's blank.
        place: where the new part lies in it.
    """
    from furniture.solids.proof_wood import tool_in

    return tool_in(tool, frame_in_new(old, place))


def frame_in_new(old: Blank, place: Place) -> Placement:
    """The old part's frame as the new part sees it."""
    signs = place.turn.signs
    origin = [
        -low if sign > 0 else size - low
        for low, sign, size in zip(place.off_low, signs, old.size, strict=True)
    ]
    return Placement(
        origin=(origin[0], origin[1], origin[2]),
        x_axis=(float(signs[0]), 0.0, 0.0),
        y_axis=(0.0, float(signs[1]), 0.0),
    )


def _turned(tool: Tool, turn: Turn, size: Vector) -> Tool:
    whole = Blank(length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    stays = Place(turn=turn, off_low=(0.0, 0.0, 0.0), off_high=(0.0, 0.0, 0.0))
    return in_new_frame(tool, whole, stays)


def _within(tool: Tool, size: Vector) -> Box:
    """The bounds of a tool inside a blank, open sides at the blank's own."""
    low, high = bounds_of(tool)
    lows = [min(max(each, 0.0), most) for each, most in zip(low, size, strict=True)]
    highs = [min(max(each, 0.0), most) for each, most in zip(high, size, strict=True)]
    return ((lows[0], lows[1], lows[2]), (highs[0], highs[1], highs[2]))


def _touching(
    axis: int,
    spare: float,
    there: Sequence[Box],
    own: Sequence[Box],
    old_size: Vector,
    new_size: Vector,
) -> list[float]:
    """The offsets on one axis at which something of both parts just touches [mm]."""
    if spare <= HAIR_MM:
        return [0.0]
    old_marks = {0.0, old_size[axis], *(end[axis] for box in there for end in box)}
    new_marks = {0.0, new_size[axis], *(end[axis] for box in own for end in box)}
    found = {0.0, spare}
    for old_mark, new_mark in product(old_marks, new_marks):
        at = old_mark - new_mark
        if HAIR_MM < at < spare - HAIR_MM:
            found.add(round(at, 9))
    return sorted(found)
