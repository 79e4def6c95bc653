"""The wood that all cuts of a part leave together: behind, beside and between them.

Every cut says where it leaves wood (`Cut.leaves`). Along lines through each of those places, square
to the cut, the tools of all other cuts are taken off, and what stands between the cut and the next
opening counts. Lines are laid through the middle of every stretch that no cut begins or ends in,
and through the centre of what is round, so that square cuts are measured exactly. What lies between
cuts that no such line joins is measured from core to core, seen along each axis.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations, pairwise, product
from typing import assert_never

import shapely

from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    Bite,
    Channel,
    Cut,
    Eased,
    Hole,
    InSlope,
    Left,
    Leftover,
    Shape,
    Slope,
    Stub,
    TongueEnd,
)
from furniture.parts.cuts.left import SKIN_MM, put
from furniture.parts.faces import face_on
from furniture.parts.lines import Reach, bounds_of, reaches
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, add, scaled

_TOUCHING_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodLeft:
    """The least wood at one place beside a cut, when all cuts are made.

    Args:
        left: the place.
        cut: which of the part's cuts it lies beside, counted from 0.
        other: the cut that it ends at; None where it ends at the outside.
        wood_mm: how much [mm]; 0 where the two meet and nothing is left between them, less by as
            much as they overlap.
    """

    left: Left
    cut: int
    other: int | None
    wood_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Made:
    """A cut of the part as the lines meet it."""

    index: int
    cut: Cut
    shape: Shape
    box: Box

    def on_line(self, axis: int, at: Vector, blank: Blank) -> list[Reach]:
        """What it takes of a line, as coordinates on the axis [mm]."""
        return [reach for tool in self.cut.tools(blank) for reach in reaches(tool, axis, at)]


@lru_cache(maxsize=512)
def wood_left(blank: Blank, cuts: tuple[Cut, ...]) -> tuple[WoodLeft, ...]:
    """The least wood at every place where a cut leaves some, in the order of the cuts.

    A place that another cut takes whole by itself, as a hole in a trench's floor does, is none.

    Args:
        blank: the part's wood.
        cuts: all of its cuts.
    """
    made = [_made(index, cut, blank) for index, cut in enumerate(cuts)]
    found = []
    for each in made:
        for left in each.cut.leaves(blank):
            least = _least(each, left, made, blank)
            if least is not None:
                found.append(least)
    return (*found, *_aslant(made, blank))


def cut_through(blank: Blank, cuts: tuple[Cut, ...]) -> tuple[WoodLeft, ...]:
    """Where two cuts meet from opposite sides, so that no wood is left: each pair once.

    Args:
        blank: the part's wood.
        cuts: all of its cuts, each of which fits the blank.
    """
    met: dict[frozenset[int], WoodLeft] = {}
    for each in wood_left(blank, cuts):
        if each.wood_mm <= _TOUCHING_MM and each.other is not None:
            pair = frozenset({each.cut, each.other})
            met[pair] = min(met.get(pair, each), each, key=lambda one: one.wood_mm)
    return tuple(met.values())


def _made(index: int, cut: Cut, blank: Blank) -> _Made:
    boxes = [bounds_of(tool) for tool in cut.tools(blank)]
    low, high = (
        [pick(box[end][axis] for box in boxes) for axis in range(3)]
        for end, pick in ((0, min), (1, max))
    )
    box = ((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    return _Made(index=index, cut=cut, shape=cut.shape(blank), box=box)


def _least(own: _Made, left: Left, made: Sequence[_Made], blank: Blank) -> WoodLeft | None:
    """The least wood on the lines through one place; none where no line has any of its own."""
    alone = WoodLeft(left=left, cut=own.index, other=None, wood_mm=left.wood_mm)
    if isinstance(own.shape, (Eased, TongueEnd, InSlope)):
        return alone  # judged on the bare blank: two profiles that meet make a nosing
    block = _block_of(left)
    others = [
        each
        for each in made
        if each is not own and _ends_wood(each.shape) and _overlap(each.box, block)
    ]
    if not others:
        return alone
    lines = (_on_line(own, left, at, others, blank) for at in _places(left, others))
    return min((each for each in lines if each), key=lambda each: each.wood_mm, default=None)


def _ends_wood(shape: Shape) -> bool:
    """Whether wood counts as ending at a cut of this shape; an eased arris weakens nothing."""
    match shape:
        case Channel() | Bite() | Hole() | Slope() | Stub():
            return True
        case InSlope() | Eased() | TongueEnd():
            return False
        case _:
            assert_never(shape)


def _on_line(
    own: _Made, left: Left, at: Vector, others: Sequence[_Made], blank: Blank
) -> WoodLeft | None:
    axis, is_far = left.towards.axis, left.towards.is_far
    start, extent = at[axis], blank.size[axis]
    taken: list[tuple[float, float, _Made]] = []
    for other in others:
        spans = other.on_line(axis, at, blank)
        if any(low <= _TOUCHING_MM and high >= extent - _TOUCHING_MM for low, high in spans):
            return None
        taken += [
            (low - start, high - start, other) if is_far else (start - high, start - low, other)
            for low, high in spans
        ]
    taken.sort(key=lambda each: each[:2])
    gone, begins, last = 0.0, 0.0, own
    for low, high, other in taken:
        if low > gone + _TOUCHING_MM:
            break
        if high > gone:
            gone, begins, last = high, low, other
    if gone >= left.wood_mm - _TOUCHING_MM:
        meets = _meets_from_behind(own, last, left)
        return _told(own, left, last, min(0.0, begins)) if meets else None
    if gone > _TOUCHING_MM:
        return None  # the other cut begins in this one and says itself what is behind it
    ahead = [(low, other) for low, _, other in taken if low > 0.0 and low < left.wood_mm]
    if not ahead:
        return _told(own, left, None, left.wood_mm)
    wood, other = min(ahead, key=lambda each: each[0])
    if isinstance(other.shape, Slope) and other.shape.face.axis != axis:
        return None  # a slope's own sharp edge is no weak place
    if _make_a_point(own.shape, other.shape, wood):
        return None
    return _told(own, left, other, wood)


def _make_a_point(own: Shape, other: Shape, wood_mm: float) -> bool:
    """Whether two slopes run together in a point that is square or blunter, as a key's do.

    Wood widens from there both ways, so that no wall is wanted; a sharper point breaks off. Where
    more is left than either slope sets back, it is a rail between its mitres.
    """
    return (
        isinstance(own, Slope)
        and isinstance(other, Slope)
        and own.long_point is other.long_point
        and own.angle_deg + other.angle_deg >= 90.0 - _TOUCHING_MM
        and wood_mm < min(own.setback_mm, other.setback_mm)
    )


def _told(own: _Made, left: Left, other: _Made | None, wood: float) -> WoodLeft:
    index = None if other is None else other.index
    return WoodLeft(left=left, cut=own.index, other=index, wood_mm=wood)


def _meets_from_behind(own: _Made, other: _Made, left: Left) -> bool:
    """Whether the other cut comes from the far side and takes the floor of this one.

    A hole that opens into a trench, or into another hole, is meant to.
    """
    is_hole = isinstance(own.shape, Hole) or isinstance(other.shape, Hole)
    if is_hole or isinstance(other.shape, Slope):
        return False
    return left.what is Leftover.BEHIND and left.towards in other.shape.mouths


def _places(left: Left, others: Sequence[_Made]) -> Iterator[Vector]:
    """Points on the cut's surface, one for each line that is looked along."""
    spans = [_side_of(side, left.at) for side in left.sides]
    chosen = [_coordinates(axis, span, others) for axis, span in spans]
    for values in product(*chosen):
        at = left.at
        for (axis, _), value in zip(spans, values, strict=True):
            if axis is not None:
                at = put(at, axis, value)
        yield at


def _side_of(side: Vector, at: Vector) -> tuple[int | None, Reach]:
    """The axis that a side lies along and from where to where; no axis without a length."""
    axis = max(range(3), key=lambda each: abs(side[each]))
    if abs(side[axis]) < _TOUCHING_MM:
        return None, (0.0, 0.0)
    ends = sorted((at[axis], at[axis] + side[axis]))
    return axis, (ends[0], ends[1])


def _coordinates(axis: int | None, span: Reach, others: Iterable[_Made]) -> list[float]:
    if axis is None:
        return [0.0]
    low, high = span
    marks = {low, high}
    chosen = set()
    for other in others:
        marks |= {end for end in (other.box[0][axis], other.box[1][axis]) if low < end < high}
        middle = (other.box[0][axis] + other.box[1][axis]) / 2
        if isinstance(other.shape, (Hole, Bite)) and low < middle < high:
            chosen.add(middle)
        if isinstance(other.shape, Slope) and high - low > 2 * SKIN_MM:
            chosen |= {low + SKIN_MM, high - SKIN_MM}
    chosen |= {(a + b) / 2 for a, b in pairwise(sorted(marks)) if b - a > _TOUCHING_MM}
    return sorted(chosen)


def _aslant(made: Sequence[_Made], blank: Blank) -> Iterator[WoodLeft]:
    """The wood between cuts that lie aslant from one another, seen along an axis that both reach.

    Lines square to a cut miss it: two trenches from opposite sides, the one just past the other,
    leave a neck between their corners. Of holes that go in the same way it is told whichever way
    they lie.
    """
    seen = [(axis, each, _seen(each.shape, axis, blank)) for axis in range(3) for each in made]
    for (axis, own, first), (beside, other, second) in combinations(seen, 2):
        if axis != beside or first is None or second is None:
            continue
        low = max(first.reach[0], second.reach[0])
        high = min(first.reach[1], second.reach[1])
        if high - low <= _TOUCHING_MM or not _lie_aslant(first, second):
            continue
        line = shapely.shortest_line(first.core, second.core)
        wood = line.length - first.radius_mm - second.radius_mm
        if wood <= -_TOUCHING_MM or (first.is_hole and second.is_hole and wood <= 0.0):
            continue  # they share wood: the proof of clashing joints tells that
        left = _left_between(line, first.radius_mm, wood, axis, (low + high) / 2)
        if not _is_taken(left, axis, made, (own, other), blank):
            yield WoodLeft(left=left, cut=own.index, other=other.index, wood_mm=max(wood, 0.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    """A cut as it is seen along an axis: a core with a rim of one radius, and from where to where.

    Args:
        core: in the plane of the other two axes, in their order [mm].
        radius_mm: how far it reaches round its core [mm].
        reach: on the axis that is looked along [mm].
        is_hole: whether it is a hole that is looked into.
    """

    core: shapely.Geometry
    radius_mm: float
    reach: Reach
    is_hole: bool = False


def _seen(shape: Shape, axis: int, blank: Blank) -> _Seen | None:
    """How a cut of this shape is seen; none where another rule tells of the wood beside it."""
    match shape:
        case Hole() if axis == shape.face.axis:
            return _hole_seen(shape, blank)
        case Hole():
            low, high = replace(shape, mouth_radius_mm=shape.radius_mm).corners(blank)
            deepest = _bounds(shape.first[axis], shape.last[axis])
            return _Seen(core=_flat(low, high, axis), radius_mm=0.0, reach=deepest)
        case Channel():
            low, high = shape.corners(blank)
            return _Seen(core=_flat(low, high, axis), radius_mm=0.0, reach=(low[axis], high[axis]))
        case Bite() if axis == 2:  # else it reaches from face to face
            core = _flat(*shape.core(blank), axis)
            return _Seen(core=core, radius_mm=shape.corner_mm, reach=(0.0, blank.thickness_mm))
        case Bite() | Slope() | InSlope() | Eased() | TongueEnd() | Stub():
            return None
        case _:
            assert_never(shape)


def _hole_seen(hole: Hole, blank: Blank) -> _Seen:
    axis = hole.face.axis
    low, high = hole.corners(blank)
    ends = [[end[each] for each in range(3) if each != axis] for end in (hole.first, hole.last)]
    core = shapely.Point(ends[0]) if hole.is_round else shapely.LineString(ends)
    return _Seen(core=core, radius_mm=hole.radius_mm, reach=(low[axis], high[axis]), is_hole=True)


def _bounds(one: float, other: float) -> Reach:
    """From the one to the other, and a skin past both, so that a round hole has some reach."""
    return min(one, other) - SKIN_MM, max(one, other) + SKIN_MM


def _flat(low: Vector, high: Vector, axis: int) -> shapely.Geometry:
    u, v = (each for each in range(3) if each != axis)
    return shapely.box(low[u], low[v], high[u], high[v])


def _lie_aslant(first: _Seen, second: _Seen) -> bool:
    """Whether no line square to either meets both, or both are holes that are looked into."""
    if first.is_hole and second.is_hole:
        return True
    one, two = first.core.bounds, second.core.bounds
    return all(
        one[at] >= two[at + 2] - _TOUCHING_MM or two[at] >= one[at + 2] - _TOUCHING_MM
        for at in (0, 1)
    )


def _is_taken(
    left: Left, axis: int, made: Sequence[_Made], but: tuple[_Made, _Made], blank: Blank
) -> bool:
    """Whether a third cut takes the wood in the middle of it."""
    middle = add(left.at, scaled(left.way, 0.5))
    return any(
        low <= middle[axis] <= high
        for each in made
        if each not in but and _ends_wood(each.shape)
        for low, high in each.on_line(axis, middle, blank)
    )


def _left_between(
    line: shapely.LineString, from_core_mm: float, wood: float, axis: int, level: float
) -> Left:
    """The wood on a line between two cores, in the plane that is looked at."""
    (u0, v0), (u1, v1) = line.coords
    u, v = (each for each in range(3) if each != axis)
    towards = ((u1 - u0) / (line.length or 1.0), (v1 - v0) / (line.length or 1.0))
    way, at = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
    way[u], way[v] = towards[0] * wood, towards[1] * wood
    at[u], at[v], at[axis] = u0 + towards[0] * from_core_mm, v0 + towards[1] * from_core_mm, level
    most = u if abs(way[u]) >= abs(way[v]) else v
    return Left(
        what=Leftover.BESIDE,
        at=(at[0], at[1], at[2]),
        way=(way[0], way[1], way[2]),
        sides=((0.0, 0.0, 0.0), (0.0, 0.0, 0.0)),
        towards=face_on(most, way[most] > 0.0),
    )


def _block_of(left: Left) -> Box:
    corners = [left.at]
    for side in (*left.sides, left.way):
        corners += [add(corner, side) for corner in corners]
    low, high = ([pick(corner[a] for corner in corners) for a in range(3)] for pick in (min, max))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _overlap(first: Box, second: Box) -> bool:
    return all(_overlap_on(first, second, axis) for axis in range(3))


def _overlap_on(first: Box, second: Box, axis: int) -> bool:
    return (
        first[0][axis] <= second[1][axis] + _TOUCHING_MM
        and second[0][axis] <= first[1][axis] + _TOUCHING_MM
    )
