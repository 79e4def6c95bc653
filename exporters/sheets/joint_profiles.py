"""What the joints of a piece look like when they are cut across, in figures.

Every figure comes from a cut of the model, from the places of the parts or from what a joint says
of its faces; nothing is measured on a drawing. All points are in the piece frame [mm].
"""

from __future__ import annotations

from collections.abc import Iterator

from exporters.sheets.joint_dowels import dowelled
from exporters.sheets.joint_hinges import hinged
from exporters.sheets.joint_values import (
    BEYOND_MM,
    Clearance,
    JointProfile,
    Proud,
    SlopeSeen,
    Span,
    SpanKind,
)
from furniture.joints.fit import play_to_hold_mm
from furniture.joints.joint import Joining, Role
from furniture.parts.blank import Blank
from furniture.parts.cuts import Channel, Slope, shapes_of
from furniture.parts.cuts.shapes import level_of
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, add, scaled
from furniture.pieces.datums import datums_of
from furniture.pieces.piece import Piece, placed_named

_STAND_OFF_MM = 0.004
_ASIDE_MM = 0.6
_WIDEST_MM = 60.0
"""A part let in by its width, as a post in a rail, shows nothing large beyond this [mm]."""


def joint_profiles(piece: Piece) -> tuple[JointProfile, ...]:
    """Every joint of the piece that shows its shape in a square section, in order.

    Args:
        piece: its parts in their places and its joints.
    """
    found = []
    datums = datums_of(piece)
    for joining in piece.joinings:
        into = placed_named(piece, joining.into)
        incoming = placed_named(piece, joining.incoming)
        profile = hinged(joining, into, incoming)
        profile = profile or _housing(joining, into, incoming) or _sloped(joining, into, incoming)
        if profile is None:
            sides = datums[into.part.id], datums[incoming.part.id]
            profile = dowelled(joining, into, incoming, sides)
        if profile is not None:
            found.append(profile)
    return tuple(found)


def _housing(joining: Joining, into: Placed, incoming: Placed) -> JointProfile | None:
    points = [into.placement.to_part(face.centre) for face in joining.faces]
    blank, place = into.part.blank, into.placement
    counted = [
        (sum(_holds(each, point, blank) for point in points), each)
        for each in shapes_of(into.part.cuts, blank, Channel)
    ]
    most, channel = max(counted, key=lambda pair: pair[0], default=(0, None))
    if channel is None or most < 2:
        return None
    (low, high), deep_axis = channel.wide, channel.face.axis
    wide_axis = channel.wide_axis
    if high - low > _WIDEST_MM and not _is_thickness(into, incoming, wide_axis):
        return None
    axis, run = _run_in_piece(into, channel.along, channel.run, incoming)
    if axis is None or run[1] - run[0] < 1.0:
        return None
    along = (place.to_part(_at_level((0.0, 0.0, 0.0), axis, (run[0] + run[1]) / 2)))[channel.along]

    def point(wide: float, deep: float) -> Vector:
        at = [0.0, 0.0, 0.0]
        at[channel.along], at[wide_axis], at[deep_axis] = along, wide, deep
        return place.to_piece((at[0], at[1], at[2]))

    def span(kind: SpanKind, first: tuple[float, float], second: tuple[float, float]) -> Span:
        value = abs(first[0] - second[0]) + abs(first[1] - second[1])
        return Span(kind=kind, start=point(*first), end=point(*second), value_mm=value)

    surface, floor = channel.surface_mm(blank), channel.floor_mm
    back = blank.size[deep_axis] - surface
    out = 1.0 if surface > 0 else -1.0
    is_at_end = high >= blank.size[wide_axis] - 1e-6
    solid = low - BEYOND_MM if is_at_end or low > 1e-6 else high + BEYOND_MM
    mouth = high if is_at_end else low
    spans = [
        span(SpanKind.DEPTH, (mouth, surface), (mouth, floor)),
        span(SpanKind.WIDTH, (low, back), (high, back)),
    ]
    if deep_axis == 2:
        inner = low if is_at_end or low > 1e-6 else high
        spans.append(span(SpanKind.LEFT, (inner, floor), (inner, back)))
        spans.append(span(SpanKind.WALL, (solid, surface), (solid, back)))
    let_in = _extent_in(into, incoming, wide_axis)
    beyond = surface + out * BEYOND_MM
    if _is_thickness(into, incoming, wide_axis):
        spans.append(span(SpanKind.INCOMING, (let_in[0], beyond), (let_in[1], beyond)))
    prouds = []
    edge = blank.size[wide_axis] if is_at_end else 0.0
    is_open = is_at_end or low <= 1e-6
    proud = edge - let_in[1] if is_at_end else let_in[0] - edge
    if is_open and proud > 0.02:
        inside = (edge - proud / 2 if is_at_end else edge + proud / 2, (floor + back) / 2)
        prouds.append(Proud(at=point(edge, inside[1]), value_mm=proud))
    corners = [point(wide, deep) for wide in (low, high) for deep in (back, beyond)]
    corners += [point(solid, back), point(solid, surface)]
    if not is_open:
        corners.append(point(high + BEYOND_MM, back))
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


def _holds(channel: Channel, point: Vector, blank: Blank) -> bool:
    low, high = channel.corners(blank)
    return all(low[axis] - _ASIDE_MM < point[axis] < high[axis] + _ASIDE_MM for axis in range(3))


def _clearances(joining: Joining, axis: int) -> Iterator[Clearance]:
    """The plays that show in the section, each once where a face is in several rectangles."""
    said: set[tuple[float, ...]] = set()
    for face in joining.faces:
        if face.play_mm <= _STAND_OFF_MM or abs(face.normal[axis]) >= 1e-6:
            continue
        middle = add(face.centre, scaled(face.normal, face.drawn_play_mm / 2))
        place = tuple(round(value, 3) for other, value in enumerate(middle) if other != axis)
        if place not in said:
            said.add(place)
            held = None if face.glue is None else play_to_hold_mm(face.play_mm)
            yield Clearance(at=middle, value_mm=face.play_mm, to_hold_mm=held)


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
    """A mitre or a bevel, seen so that its angle is true.

    A spline or a key lies across the slope of another joint and is none itself.
    """
    if not joining.faces or joining.role is Role.LOOSE_TONGUE:
        return None
    face = joining.faces[0]
    square = [axis for axis in range(3) if abs(face.normal[axis]) < 1e-6]
    if len(square) != 1:
        return None
    axis = square[0]
    at_part, blank = into.placement.to_part(face.centre), into.part.blank
    sloping = [(cut.kind, slope) for cut in into.part.cuts
               for slope in shapes_of((cut,), blank, Slope)]  # fmt: skip
    noun, cut = min(sloping, key=lambda each: _away(each[1], blank, at_part), default=("", None))
    if cut is None:
        return None
    at = into.placement.to_piece(cut.middle(blank, at_part))
    low, high = box_of(into.part.blank, into.placement)
    other_low, other_high = box_of(incoming.part.blank, incoming.placement)
    run = (max(low[axis], other_low[axis]), min(high[axis], other_high[axis]))
    if run[1] - run[0] < 1.0:
        return None
    reach = max(into.part.blank.thickness_mm, incoming.part.blank.thickness_mm) / 2 + BEYOND_MM
    corners = []
    for first in (-1.0, 1.0):
        for second in (-1.0, 1.0):
            signs = [first, second]
            moved = [
                value if other == axis else value + signs.pop() * reach
                for other, value in enumerate(at)
            ]
            corners.append((moved[0], moved[1], moved[2]))
    slope = SlopeSeen(noun=noun, angle_deg=cut.angle_deg, at=at)
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


def _away(slope: Slope, blank: Blank, point: Vector) -> float:
    return abs(point[slope.face.axis] - level_of(slope.face, blank))
