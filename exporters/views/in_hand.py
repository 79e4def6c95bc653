"""The wood in hand, pass by pass, from settings alone: a box, and what is gone from it.

Light enough for a picture of every set-up. Each workpiece begins as the box that it says of itself;
a pass makes the box smaller or takes a prism out of it, which it may leave, such as the wood behind
a leaning cut. What no setting tells, such as work by hand, is not taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from shapely.geometry import GeometryCollection, LineString, Point, Polygon, box
from shapely.ops import unary_union

from furniture.making.making import Making
from furniture.making.operations import Operation
from furniture.making.settings import (
    Bored,
    ByHand,
    Easing,
    MitreGroove,
    Notched,
    Parallel,
    Setting,
    Skim,
    Slice,
    Surface,
    Trench,
)
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.faces import Face
from furniture.parts.vectors import Point2, Vector

_FAR_MM = 1e4
"""Beyond any wood."""
_INSIDE_MM = 1e-4
"""How far inside a face what lies in its plane is looked at."""
_ROUND_STEPS = 8
"""Straight sides to a quarter of a circle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """A prism that wood is gone from.

    Args:
        along: the axis that it runs along, 0 to 2.
        outline: over the two other axes, the lesser one first [mm].
        low: where it begins along its axis [mm].
        high: where it ends [mm].
    """

    along: int
    outline: tuple[Point2, ...]
    low: float = -_FAR_MM
    high: float = _FAR_MM

    def moved(self, by: Vector) -> Gone:
        """The same in a frame whose origin lies at `by` in this one."""
        a, b = _others(self.along)
        return Gone(
            along=self.along,
            outline=tuple((u - by[a], v - by[b]) for u, v in self.outline),
            low=self.low - by[self.along],
            high=self.high - by[self.along],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Wood in hand: the box that it just fills, and what is gone from it, in its own frame [mm]."""

    low: Vector
    high: Vector
    gone: tuple[Gone, ...] = ()

    def level(self, face: Face) -> float:
        """Where it ends towards a face, on that face's axis [mm]."""
        return (self.high if face.is_far else self.low)[face.axis]

    def size(self, axis: int) -> float:
        """How far it reaches along an axis [mm]."""
        return self.high[axis] - self.low[axis]

    def less(self, *gone: Gone) -> Held:
        """The wood without these."""
        return replace(self, gone=(*self.gone, *gone))

    def ending(self, face: Face, at: float) -> Held:
        """The wood cut off square, so that it ends at `at` towards a face."""
        corner = list(self.high if face.is_far else self.low)
        corner[face.axis] = at
        moved = (corner[0], corner[1], corner[2])
        return replace(self, high=moved) if face.is_far else replace(self, low=moved)


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """One pass on one piece of wood: before it, after it, and what a blade leaves beyond it."""

    before: Held
    after: Held
    beyond: Held | None = None


def passes_on(making: Making) -> Mapping[str, Passed]:
    """Every pass that a setting tells, by the key of its operation, on the first wood it takes.

    Args:
        making: of a piece.
    """
    return _followed(making)[0]


def left_of(making: Making) -> Mapping[str, Held]:
    """Every piece of wood as its last pass leaves it, by its id.

    Args:
        making: of a piece.
    """
    return _followed(making)[1]


def _followed(making: Making) -> tuple[Mapping[str, Passed], Mapping[str, Held]]:
    known = {each.id: each for each in making.workpieces}
    wood = {each.id: _at_first(each) for each in making.workpieces if each.source is None}
    found: dict[str, Passed] = {}
    for each in making.operations:
        done = [(name, _passed(wood[name], each)) for name in each.takes if name in wood]
        if each.setting is None or not done:
            continue
        found[each.key] = done[0][1]
        given = each.gives if len(done) == 1 else each.takes
        for name, one in done:
            wood[name] = one.after
        name, one = done[0]
        for new, held in zip(given, (one.after, one.beyond), strict=False):
            if held is not None:
                wood[new] = held if new == name else _begun(known[new], known[name], held)
    return found, wood


def _at_first(piece: Workpiece) -> Held:
    return Held(low=piece.low, high=piece.high)


def _begun(piece: Workpiece, source: Workpiece, held: Held) -> Held:
    """A workpiece that comes into being, with what is gone from the wood that it was part of."""
    first = _at_first(piece)
    if piece.source != source.id or piece.what is not Wood.PART:
        return first
    return first.less(*(each.moved(piece.at_mm) for each in held.gone))


def section_of(wood: Held, across: int, at: float) -> Any:
    """What a plane square to an axis cuts, a shapely area over the other two, the lesser first.

    Args:
        wood: in its own frame.
        across: the axis that the plane stands square to.
        at: where it stands [mm].
    """
    a, b = _others(across)
    whole = box(wood.low[a], wood.low[b], wood.high[a], wood.high[b])
    return whole.difference(unary_union([_where(each, across, at) for each in wood.gone]))


def _where(gone: Gone, across: int, at: float) -> Any:
    """Where a plane meets a prism."""
    shape = Polygon(gone.outline)
    if gone.along == across:
        return shape if gone.low < at < gone.high else GeometryCollection()
    a, b = _others(gone.along)
    cut = LineString([(at, -_FAR_MM), (at, _FAR_MM)] if across == a else
                     [(-_FAR_MM, at), (_FAR_MM, at)])  # fmt: skip
    found = shape.intersection(cut)
    lines = [each for each in getattr(found, "geoms", [found]) if isinstance(each, LineString)]
    other = b if across == a else a
    index = 1 if across == a else 0
    pieces = []
    for each in lines:
        if each.is_empty:
            continue
        low, high = sorted(point[index] for point in (each.coords[0], each.coords[-1]))
        if other < gone.along:
            pieces.append(box(low, gone.low, high, gone.high))
        else:
            pieces.append(box(gone.low, low, gone.high, high))
    return unary_union(pieces)


def _others(axis: int) -> tuple[int, int]:
    first, second = (each for each in range(3) if each != axis)
    return first, second


def _inwards(face: Face) -> float:
    return -1.0 if face.is_far else 1.0


def _passed(wood: Held, operation: Operation) -> Passed:
    setting = operation.setting
    match setting:
        case Surface():
            at = wood.level(setting.face) + _inwards(setting.face) * setting.takes_mm
            return Passed(before=wood, after=wood.ending(setting.face, at))
        case Parallel():
            at = wood.level(setting.off) + _inwards(setting.off) * setting.at_mm
            return Passed(before=wood, after=wood.ending(setting.off.opposite, at))
        case Slice():
            return _sliced(wood, setting)
        case Skim():
            at = _end_of(wood, setting.face, setting.long_face)
            at += _inwards(setting.face) * setting.takes_mm
            leaning = _beyond(wood, setting.face, at, setting)
            return Passed(before=wood, after=wood.ending(setting.face, at).less(*leaning))
        case None | ByHand():
            return Passed(before=wood, after=wood)
        case _:
            return Passed(before=wood, after=wood.less(*_taken(wood, setting)))


def _sliced(wood: Held, setting: Slice) -> Passed:
    """The two sides of a blade right through; what leans is longest in the plane of its face."""
    off, kerf = setting.off, setting.kerf_mm
    at = _end_of(wood, off, setting.long_face) + _inwards(off) * setting.at_mm
    kept = wood.ending(off.opposite, at).less(*_beyond(wood, off.opposite, at, setting))
    lean = math.radians(setting.lean_deg)
    far = at + _inwards(off) * kerf / math.cos(lean)
    long = setting.long_face
    if long is None:
        return Passed(before=wood, after=kept, beyond=wood.ending(off, far))
    reach = far - _inwards(off) * wood.size(long.axis) * math.tan(lean)
    other = _half(wood, off.opposite, far, setting, is_beyond=False)
    return Passed(before=wood, after=kept, beyond=wood.ending(off, reach).less(other))


def _end_of(wood: Held, face: Face, on: Face | None) -> float:
    """Where the wood ends towards a face: all of it, or what lies in the plane of `on` [mm]."""
    if on is None:
        return wood.level(face)
    there = section_of(wood, on.axis, wood.level(on) + _inwards(on) * _INSIDE_MM)
    index = _others(on.axis).index(face.axis)
    return float(there.bounds[index + (2 if face.is_far else 0)])


def _beyond(wood: Held, face: Face, at: float, setting: Slice | Skim) -> Iterator[Gone]:
    """What lies beyond a leaning cut; a square one leaves nothing of it in the box."""
    if setting.long_face is not None and setting.lean_deg:
        yield _half(wood, face, at, setting, is_beyond=True)


def _half(wood: Held, face: Face, at: float, setting: Slice | Skim, *, is_beyond: bool) -> Gone:
    """All on one side of a leaning plane that meets the long face at `at`, towards `face`."""
    long = setting.long_face
    assert long is not None
    lean = math.tan(math.radians(setting.lean_deg))
    way = -_inwards(face)  # towards the face
    level, deep = wood.level(long), _inwards(long)
    side = way * _FAR_MM if is_beyond else -way * _FAR_MM
    corners = []
    for down in (-_FAR_MM, _FAR_MM):  # below the long face, and above it
        corners.append((at - way * down * lean, level + deep * down))
    (x0, y0), (x1, y1) = corners
    points = [(x0, y0), (x1, y1), (x1 + 3 * side, y1), (x0 + 3 * side, y0)]
    if face.axis > long.axis:
        points = [(y, x) for x, y in points]
    run = 3 - face.axis - long.axis
    return Gone(along=run, outline=tuple(points))


def _taken(wood: Held, setting: Setting) -> Iterator[Gone]:
    match setting:
        case Trench():
            spans = {
                setting.off.axis: _span(wood, setting.off, setting.near_mm, setting.width_mm),
                setting.face.axis: _span(wood, setting.face, 0.0, setting.depth_mm),
            }
            low = wood.low[setting.along] + (setting.whole_low_mm or -_FAR_MM)
            high = wood.high[setting.along] - (setting.whole_high_mm or -_FAR_MM)
            yield replace(_block(setting.along, spans), low=low, high=high)
        case Bored():
            yield _bore(wood, setting)
        case Notched():
            spans = {
                setting.off.axis: _span(wood, setting.off, setting.near_mm, setting.length_mm),
                setting.edge.axis: _span(wood, setting.edge, 0.0, setting.depth_mm),
            }
            yield _rounded(_block(2, spans), setting.corner_mm)
        case Easing():
            yield _eased(wood, setting)
        case MitreGroove():
            yield _grooved(wood, setting)


def _grooved(wood: Held, setting: MitreGroove) -> Gone:
    """A groove square into the slope; run out of the wood where the slope is open."""
    lean, run = math.radians(setting.lean_deg), setting.sharp_axis
    end, long = setting.end, setting.long_face
    point, level = _end_of(wood, end, long), wood.level(long)
    inwards, down = _inwards(end), _inwards(long)
    if setting.off.axis == run:  # from wall to wall along the sharp line, all down the slope
        spans = (0.0, wood.size(long.axis) / math.cos(lean))
        low, high = _span(wood, setting.off, setting.near_mm, setting.width_mm)
    else:
        spans = (setting.near_mm, setting.near_mm + setting.width_mm)
        low = wood.low[run] + (setting.whole_low_mm or -_FAR_MM)
        high = wood.high[run] - (setting.whole_high_mm or -_FAR_MM)
    corners = [
        (
            point + inwards * (along * math.sin(lean) + deep * math.cos(lean)),
            level + down * (along * math.cos(lean) - deep * math.sin(lean)),
        )
        for along, deep in (
            (spans[0], -1.0), (spans[1], -1.0), (spans[1], setting.depth_mm),
            (spans[0], setting.depth_mm),
        )
    ]  # fmt: skip
    if end.axis > long.axis:
        corners = [(b, a) for a, b in corners]
    return Gone(along=run, outline=tuple(corners), low=low, high=high)


def _span(wood: Held, off: Face, near: float, wide: float) -> tuple[float, float]:
    """A span measured inwards from a face, run past it where it starts at nought."""
    at, way = wood.level(off), _inwards(off)
    start = at - way * _FAR_MM if near <= 0.0 else at + way * near
    low, high = sorted((start, at + way * (near + wide)))
    return low, high


def _block(along: int, spans: Mapping[int, tuple[float, float]]) -> Gone:
    a, b = _others(along)
    (left, right), (low, high) = spans[a], spans[b]
    return Gone(along=along, outline=((left, low), (right, low), (right, high), (left, high)))


def _rounded(gone: Gone, radius: float) -> Gone:
    """Its corners as a round cutter leaves them; those outside the wood are far from it."""
    if radius <= 0.0:
        return gone
    us, vs = ({point[axis] for point in gone.outline} for axis in range(2))
    centres = [
        Point(u + (radius if u == min(us) else -radius), v + (radius if v == min(vs) else -radius))
        for u in us
        for v in vs
    ]
    corners = [each.buffer(radius, quad_segs=_ROUND_STEPS) for each in centres]
    shape = unary_union(corners).convex_hull
    return replace(gone, outline=tuple((x, y) for x, y in shape.exterior.coords[:-1]))


def _bore(wood: Held, setting: Bored) -> Gone:
    places = [setting.at_mm] if setting.to_mm is None else [setting.at_mm, setting.to_mm]
    centres = []
    for far in places:
        where = {
            off.axis: wood.level(off) + _inwards(off) * mm
            for off, mm in zip(setting.off, far, strict=True)
        }
        a, b = _others(setting.face.axis)
        centres.append((where[a], where[b]))
    shape = LineString(centres) if len(centres) > 1 else Point(centres[0])
    round_it = shape.buffer(setting.diameter_mm / 2, quad_segs=_ROUND_STEPS)
    low, high = (
        (-_FAR_MM, _FAR_MM)
        if setting.depth_mm is None
        else _span(wood, setting.face, 0.0, setting.depth_mm)
    )
    outline = tuple((float(x), float(y)) for x, y in round_it.exterior.coords[:-1])
    return Gone(along=setting.face.axis, outline=outline, low=low, high=high)


def _eased(wood: Held, setting: Easing) -> Gone:
    """What a round or a flat leaves of an arris."""
    run, size = setting.arris.run_axis, setting.size_mm
    faces = sorted((setting.arris.first, setting.arris.second), key=lambda each: each.axis)
    (u, du), (v, dv) = ((wood.level(face), _inwards(face)) for face in faces)
    curve = [(1.0, 0.0), (0.0, 1.0)]
    if setting.is_round:
        turns = [math.pi / 2 * step / _ROUND_STEPS for step in range(_ROUND_STEPS + 1)]
        curve = [(1.0 - math.sin(turn), 1.0 - math.cos(turn)) for turn in turns]
    outline = (*curve, (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0))
    return Gone(along=run, outline=tuple((u + du * size * p, v + dv * size * q)
                                         for p, q in outline))  # fmt: skip
