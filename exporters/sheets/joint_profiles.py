"""What the joints of a piece look like when they are cut across, in figures.

Every figure comes from a cut of the model, from the places of the parts or from what a joint says
of its contacts; nothing is measured on a drawing. All points are in the piece frame [mm].
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from functools import singledispatch

from furniture.joints.joint import Joining
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bevel, Cut, Dado, FlatMitre, Groove, Mitre, Rabbet
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.piece import Piece, placed_named

_STAND_OFF_MM = 0.004
_ASIDE_MM = 0.6
_WIDEST_MM = 60.0
"""A part let in by its width, as a post in a rail, shows nothing large beyond this [mm]."""
_BEYOND_MM = 9.0
"""How much of the wood beside a joint is shown with it. Own rule."""


class SpanKind(Enum):
    """What a figure of a joint in section tells."""

    WIDTH = "width of the cut"
    DEPTH = "depth of the cut"
    LEFT = "wood left behind the cut"
    WALL = "thickness of the part that is cut"
    INCOMING = "thickness of the part let in"


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A distance across a joint, between two points."""

    kind: SpanKind
    start: Vector
    end: Vector
    value_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """A gap that the joint leaves on purpose, and its middle."""

    at: Vector
    value_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """Two parts that meet on a slope: the cut's name, its angle [deg], a point of the slope."""

    noun: str
    angle_deg: float
    at: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Proud:
    """How far the part that is cut stands higher than the one in it, as cut, and where."""

    at: Vector
    value_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JointProfile:
    """One joint cut square across.

    Args:
        into: instance that is cut.
        incoming: instance that is let in.
        axis: of the piece that the cutting plane stands square to.
        run: from where to where along that axis the joint looks the same [mm].
        spans: figures between two points.
        clearances: gaps.
        slopes: where the two meet on a slope.
        prouds: what stands higher as cut.
        corners: points that a picture of it must hold.
    """

    into: str
    incoming: str
    axis: int
    run: tuple[float, float]
    spans: tuple[Span, ...] = ()
    clearances: tuple[Clearance, ...] = ()
    slopes: tuple[Slope, ...] = ()
    prouds: tuple[Proud, ...] = ()
    corners: tuple[Vector, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Channel:
    """A cut with a square profile, in the part frame.

    `wide` and `deep` are the axes of its profile; it is open at `surface`, closed at `floor`.
    """

    wide: int
    low: float
    high: float
    deep: int
    surface: float
    floor: float
    run: tuple[float, float]

    @property
    def along(self) -> int:
        """The axis it runs along."""
        return 3 - self.wide - self.deep


@singledispatch
def _channel(cut: Cut, blank: Blank) -> _Channel | None:
    del cut, blank
    return None


@_channel.register
def _dado(cut: Dado, blank: Blank) -> _Channel:
    surface = blank.thickness_mm if cut.face is Face.FACE_SIDE else 0.0
    return _Channel(
        wide=0,
        low=cut.lower_shoulder_mm,
        high=cut.lower_shoulder_mm + cut.width_mm,
        deep=2,
        surface=surface,
        floor=abs(surface - cut.depth_mm),
        run=(cut.stop_from_face_edge_mm, blank.width_mm - cut.stop_from_back_edge_mm),
    )


@_channel.register
def _groove(cut: Groove, blank: Blank) -> _Channel:
    deep = cut.face.axis
    low = cut.offset_mm if deep == 2 else blank.thickness_mm - cut.offset_mm - cut.width_mm
    surface = blank.size[deep] if cut.face.is_far else 0.0
    return _Channel(
        wide=3 - deep,
        low=low,
        high=low + cut.width_mm,
        deep=deep,
        surface=surface,
        floor=abs(surface - cut.depth_mm),
        run=(cut.stop_from_named_end_mm, blank.length_mm - cut.stop_from_far_end_mm),
    )


@_channel.register
def _rabbet(cut: Rabbet, blank: Blank) -> _Channel:
    wide, extent = cut.edge.axis, blank.across(cut.edge)
    edge = extent if cut.edge.is_far else 0.0
    inner = abs(edge - cut.down_from_edge_mm)
    surface = blank.thickness_mm if cut.face is Face.FACE_SIDE else 0.0
    return _Channel(
        wide=wide,
        low=min(edge, inner),
        high=max(edge, inner),
        deep=2,
        surface=surface,
        floor=abs(surface - cut.into_thickness_mm),
        run=(cut.stop_at_low_mm, blank.size[1 - wide] - cut.stop_at_high_mm),
    )


def joint_profiles(piece: Piece) -> tuple[JointProfile, ...]:
    """Every joint of the piece that shows its shape in a square section, in order.

    Args:
        piece: its parts in their places and its joints.
    """
    found = []
    for joining in piece.joinings:
        into = placed_named(piece, joining.into)
        incoming = placed_named(piece, joining.incoming)
        profile = _housing(joining, into, incoming) or _sloped(joining, into, incoming)
        if profile is not None:
            found.append(profile)
    return tuple(found)


def _housing(joining: Joining, into: Placed, incoming: Placed) -> JointProfile | None:
    points = [into.placement.to_part(contact.at) for contact in joining.contacts]
    channels = [_channel(cut, into.part.blank) for cut in into.part.cuts]
    counted = [(sum(_holds(each, p) for p in points), each) for each in channels if each]
    most, channel = max(counted, key=lambda pair: pair[0], default=(0, None))
    if channel is None or most < 2:
        return None
    if channel.high - channel.low > _WIDEST_MM and not _is_thickness(into, incoming, channel.wide):
        return None
    axis, run = _run_in_piece(into, channel.along, channel.run, incoming)
    if axis is None or run[1] - run[0] < 1.0:
        return None
    blank, place = into.part.blank, into.placement
    along = (place.to_part(_at_level((0.0, 0.0, 0.0), axis, (run[0] + run[1]) / 2)))[channel.along]

    def point(wide: float, deep: float) -> Vector:
        at = [0.0, 0.0, 0.0]
        at[channel.along], at[channel.wide], at[channel.deep] = along, wide, deep
        return place.to_piece((at[0], at[1], at[2]))

    def span(kind: SpanKind, first: tuple[float, float], second: tuple[float, float]) -> Span:
        value = abs(first[0] - second[0]) + abs(first[1] - second[1])
        return Span(kind=kind, start=point(*first), end=point(*second), value_mm=value)

    low, high, surface, floor = channel.low, channel.high, channel.surface, channel.floor
    back = blank.size[channel.deep] - surface
    out = 1.0 if surface > 0 else -1.0
    is_at_end = high >= blank.size[channel.wide] - 1e-6
    solid = low - _BEYOND_MM if is_at_end or low > 1e-6 else high + _BEYOND_MM
    mouth = high if is_at_end else low
    spans = [
        span(SpanKind.DEPTH, (mouth, surface), (mouth, floor)),
        span(SpanKind.WIDTH, (low, back), (high, back)),
    ]
    if channel.deep == 2:
        inner = low if is_at_end or low > 1e-6 else high
        spans.append(span(SpanKind.LEFT, (inner, floor), (inner, back)))
        spans.append(span(SpanKind.WALL, (solid, surface), (solid, back)))
    let_in = _extent_in(into, incoming, channel.wide)
    beyond = surface + out * _BEYOND_MM
    if _is_thickness(into, incoming, channel.wide):
        spans.append(span(SpanKind.INCOMING, (let_in[0], beyond), (let_in[1], beyond)))
    prouds = []
    edge = blank.size[channel.wide] if is_at_end else 0.0
    is_open = is_at_end or low <= 1e-6
    proud = edge - let_in[1] if is_at_end else let_in[0] - edge
    if is_open and proud > 0.02:
        inside = (edge - proud / 2 if is_at_end else edge + proud / 2, (floor + back) / 2)
        prouds.append(Proud(at=point(edge, inside[1]), value_mm=proud))
    corners = [point(wide, deep) for wide in (low, high) for deep in (back, beyond)]
    corners += [point(solid, back), point(solid, surface)]
    if not is_open:
        corners.append(point(high + _BEYOND_MM, back))
    return JointProfile(
        into=joining.into,
        incoming=joining.incoming,
        axis=axis,
        run=run,
        spans=tuple(spans),
        clearances=tuple(_clearances(joining, axis)),
        prouds=tuple(prouds),
        corners=tuple(corners),
    )


def _holds(channel: _Channel, point: Vector) -> bool:
    deep = sorted((channel.surface, channel.floor))
    return (
        channel.low - _ASIDE_MM < point[channel.wide] < channel.high + _ASIDE_MM
        and deep[0] - _ASIDE_MM < point[channel.deep] < deep[1] + _ASIDE_MM
        and channel.run[0] - _ASIDE_MM < point[channel.along] < channel.run[1] + _ASIDE_MM
    )


def _clearances(joining: Joining, axis: int) -> Iterator[Clearance]:
    for contact in joining.contacts:
        if contact.stand_off_mm > _STAND_OFF_MM and abs(contact.towards[axis]) < 1e-6:
            middle = add(contact.at, scaled(contact.towards, contact.stand_off_mm / 2))
            yield Clearance(at=middle, value_mm=contact.stand_off_mm)


def _run_in_piece(
    into: Placed, along: int, run: tuple[float, float], incoming: Placed
) -> tuple[int | None, tuple[float, float]]:
    """The axis of the piece that a cut runs along, and how far the incoming part runs with it."""
    axis = _piece_axis(into.placement.axes[along])
    if axis is None:
        return None, run
    ends = [into.placement.to_piece(_on_axis(along, at))[axis] for at in run]
    low, high = box_of(incoming.part.blank, incoming.placement)
    return axis, (max(min(ends), low[axis]), min(max(ends), high[axis]))


def _piece_axis(direction: Vector) -> int | None:
    return next((axis for axis in range(3) if abs(direction[axis]) > 1.0 - 1e-9), None)


def _on_axis(axis: int, value: float) -> Vector:
    return (
        value if axis == 0 else 0.0,
        value if axis == 1 else 0.0,
        value if axis == 2 else 0.0,
    )


def _at_level(point: Vector, axis: int, value: float) -> Vector:
    moved = list(point)
    moved[axis] = value
    return (moved[0], moved[1], moved[2])


def _extent_in(into: Placed, other: Placed, axis: int) -> tuple[float, float]:
    """From where to where another part's blank reaches along an axis of this part [mm]."""
    blank = other.part.blank
    values = [
        into.placement.to_part(other.placement.to_piece((x, y, z)))[axis]
        for x in (0.0, blank.length_mm)
        for y in (0.0, blank.width_mm)
        for z in (0.0, blank.thickness_mm)
    ]
    return (min(values), max(values))


def _is_thickness(into: Placed, other: Placed, axis: int) -> bool:
    """Whether the other part's thickness lies along an axis of this part."""
    way = into.placement.axes[axis]
    across = other.placement.z_axis
    return abs(sum(a * b for a, b in zip(way, across, strict=True))) > 1.0 - 1e-9


def _sloped(joining: Joining, into: Placed, incoming: Placed) -> JointProfile | None:
    """A mitre or a bevel, seen so that its angle is true."""
    if not joining.contacts:
        return None
    contact = joining.contacts[0]
    square = [axis for axis in range(3) if abs(contact.towards[axis]) < 1e-6]
    if len(square) != 1:
        return None
    axis = square[0]
    at_part = into.placement.to_part(contact.at)
    cut = min(
        (each for each in into.part.cuts if isinstance(each, (Mitre, FlatMitre, Bevel))),
        key=lambda each: _away(each, into.part.blank, at_part),
        default=None,
    )
    if cut is None:
        return None
    at = into.placement.to_piece(_slope_middle(cut, into.part.blank, at_part))
    low, high = box_of(into.part.blank, into.placement)
    other_low, other_high = box_of(incoming.part.blank, incoming.placement)
    run = (max(low[axis], other_low[axis]), min(high[axis], other_high[axis]))
    if run[1] - run[0] < 1.0:
        return None
    reach = max(into.part.blank.thickness_mm, incoming.part.blank.thickness_mm) / 2 + _BEYOND_MM
    corners = []
    for first in (-1.0, 1.0):
        for second in (-1.0, 1.0):
            signs = [first, second]
            moved = [
                value if other == axis else value + signs.pop() * reach
                for other, value in enumerate(at)
            ]
            corners.append((moved[0], moved[1], moved[2]))
    slope = Slope(noun=cut.kind, angle_deg=_angle(cut), at=at)
    return JointProfile(
        into=joining.into,
        incoming=joining.incoming,
        axis=axis,
        run=run,
        spans=_wall_of(into, at, axis, reach),
        slopes=(slope,),
        corners=tuple(corners),
    )


def _wall_of(into: Placed, at: Vector, axis: int, reach: float) -> tuple[Span, ...]:
    """The thickness of a part that meets another on a slope, a little beside the slope."""
    if abs(into.placement.z_axis[axis]) > 0.5:
        return ()
    blank, here = into.part.blank, list(into.placement.to_part(at))
    along = next(a for a in (0, 1) if abs(into.placement.axes[a][axis]) < 0.5)
    middle = blank.size[along] / 2
    here[along] += (reach - 2.0) * (1.0 if here[along] < middle else -1.0)
    ends = []
    for level in (0.0, blank.thickness_mm):
        here[2] = level
        ends.append(into.placement.to_piece((here[0], here[1], here[2])))
    return (Span(kind=SpanKind.WALL, start=ends[0], end=ends[1], value_mm=blank.thickness_mm),)


def _slope_middle(cut: Mitre | FlatMitre | Bevel, blank: Blank, near: Vector) -> Vector:
    """The middle of a slope, at the place along it that is nearest to a point [mm]."""
    face = cut.edge if isinstance(cut, Bevel) else cut.end
    long_point = cut.long_point_edge if isinstance(cut, FlatMitre) else cut.long_point_face
    setback = cut.setback_mm(blank)
    middle = list(near)
    extent = blank.across(face)
    middle[face.axis] = extent - setback / 2 if face.is_far else setback / 2
    middle[long_point.axis] = blank.across(long_point) / 2
    return (middle[0], middle[1], middle[2])


def _angle(cut: Mitre | FlatMitre | Bevel) -> float:
    return cut.gauge_angle_deg if isinstance(cut, FlatMitre) else cut.blade_tilt_deg


def _away(cut: Mitre | FlatMitre | Bevel, blank: Blank, point: Vector) -> float:
    face = cut.edge if isinstance(cut, Bevel) else cut.end
    edge = blank.across(face) if face.is_far else 0.0
    return abs(point[face.axis] - edge)
