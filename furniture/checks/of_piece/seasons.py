"""The seasons: every part that moves where another holds it, against the room that it has."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import Enum

from furniture.checks.finding import Finding, Show
from furniture.checks.of_piece.reading import (
    axis_towards,
    box_round,
    patch_of,
    shown_by,
    worst_alone,
)
from furniture.checks.of_piece.reading import side_of as _side_of
from furniture.checks.of_piece.sections import reach_along
from furniture.checks.of_piece.setting import Setting
from furniture.checks.seasons import (
    GluedHow,
    Shift,
    Side,
    difference_across,
    gap_to_leave_mm,
    glued_across_finding,
    loose_fit_finding,
    shift_of,
    swelling_finding,
)
from furniture.joints.joint import GrainRelation, Joining, Role
from furniture.joints.reading import closes_on_both_sides, edge_face, housing_of
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, dot
from furniture.pieces import Piece, placed_named
from furniture.pieces.in_rows import named_in, woods_in_words
from furniture.rules import Rules
from furniture.rules.checking import LEAST_PANEL_BEARING, STILL
from furniture.rules.wood import GLUED_CAUTION
from furniture.timber.movement import NoCoefficient, coefficient


class Hold(Enum):
    """How a moving part is held."""

    LOOSE = "loose in a gap"
    GLUED = "glued across"
    HOUSED = "thickness in a dado"


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """A size of one part that moves where another part holds it.

    `room_mm` is the gap as made, both sides together, or the housing's clearance; a glued meeting
    has none. `most_room_mm` is the gap at which a panel would fall through. Parts that meet in the
    same way are named together.
    """

    hold: Hold
    inner: Side
    outer: Side
    room_mm: float = 0.0
    most_room_mm: float = math.inf
    how: GluedHow = GluedHow.LAPPED


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """A moving part season by season [mm]: how it changes against what holds it, and its room.

    `limit_mm` is the change at which it jams or strains, `wanted_mm` the gap to leave when made.
    """

    meeting: Meeting
    shift: Shift
    limit_mm: float
    wanted_mm: float | None
    finding: Finding


def season_findings_of(piece: Piece, setting: Setting) -> tuple[Finding, ...]:
    """Gaps of loose parts, parts glued across the grain, and thicknesses in their housings.

    Args:
        piece: the piece as cut
        setting: the place where it stands
    """
    return worst_alone(each.finding for each in movements_of(piece, setting))


def movements_of(piece: Piece, setting: Setting) -> tuple[Movement, ...]:
    """Every part of the piece that moves where another holds it, equal ones told once.

    Args:
        piece: the piece as cut
        setting: the place where it stands
    """
    show = shown_by(piece)
    meetings = [*_panels(piece, setting.rules), *_glued(piece, setting), *_housed(piece)]
    found = []
    for each in _alike_once(piece, meetings):
        try:
            found.append(_movement(each, setting, show))
        except NoCoefficient:
            found.append(_unknown(each, setting, show))
    return tuple(found)


def _movement(meeting: Meeting, setting: Setting, show: Show) -> Movement:
    inner, outer, climate = meeting.inner, meeting.outer, setting.climate
    shift = difference_across(inner, outer, climate)
    is_loose = meeting.hold is Hold.LOOSE
    return Movement(
        meeting=meeting,
        shift=shift,
        limit_mm=setting.rules[GLUED_CAUTION] if meeting.hold is Hold.GLUED else meeting.room_mm,
        wanted_mm=gap_to_leave_mm(inner, outer, climate, setting.rules) if is_loose else None,
        finding=_finding(meeting, setting, show),
    )


def _unknown(meeting: Meeting, setting: Setting, show: Show) -> Movement:
    return Movement(
        meeting=meeting,
        shift=Shift(driest_mm=0.0, dampest_mm=0.0),
        limit_mm=meeting.room_mm,
        wanted_mm=None,
        finding=_finding(meeting, setting, show),
    )


def _finding(meeting: Meeting, setting: Setting, show: Show) -> Finding:
    inner, outer, climate = meeting.inner, meeting.outer, setting.climate
    if meeting.hold is Hold.LOOSE:
        return loose_fit_finding(
            inner, outer, meeting.room_mm, climate, show, meeting.most_room_mm, setting.rules
        )
    if meeting.hold is Hold.GLUED:
        return glued_across_finding(inner, outer, climate, show, meeting.how, setting.rules)
    return swelling_finding(inner, outer, meeting.room_mm, climate, show, setting.rules)


def _panels(piece: Piece, rules: Rules) -> list[Meeting]:
    """Panels held at opposite edges: loose in their gaps, or glued at both and not free to move."""
    found = []
    for panel in piece.placed:
        edges = _edges_of(piece, panel)
        for axis in (0, 1):
            low = [each for each in edges if each.axis == axis and not each.is_far]
            high = [each for each in edges if each.axis == axis and each.is_far]
            outer = _spanning(piece, panel, axis, low, high) if low and high else None
            side = _side_of(panel, axis)
            if outer is None or not _travels(side):
                continue
            if _is_loose(piece, panel):
                room = sum(min(each.gap_mm for each in ends) for ends in (low, high))
                bearing = sum(
                    min(each.gap_mm + _lies_on(panel, each) for each in ends)
                    for ends in (low, high)
                )
                most = bearing - 2.0 * rules[LEAST_PANEL_BEARING]
                found.append(
                    Meeting(
                        hold=Hold.LOOSE, inner=side, outer=outer, room_mm=room, most_room_mm=most
                    )
                )
            elif all(any(each.joining.glued_faces for each in ends) for ends in (low, high)):
                is_housed = all(each.joining.role is Role.HOUSING for each in (*low, *high))
                how = GluedHow.BETWEEN if is_housed else GluedHow.HELD_IN_FRAME
                found.append(Meeting(hold=Hold.GLUED, inner=side, outer=outer, how=how))
    return found


def _lies_on(panel: Placed, edge: _Edge) -> float:
    """How far a panel lies on what bears its edge, at right angles to that edge [mm]."""
    direction = panel.placement.axes[edge.axis]
    own, other = (reach_along(box_round(each), direction) for each in (panel, edge.holder))
    return max(0.0, min(own[1], other[1]) - max(own[0], other[0]))


def _is_loose(piece: Piece, panel: Placed) -> bool:
    """Whether none of the rails that the panel lies in is glued to it.

    What captures its edge in a housing besides is then not glued either.
    """
    edges = _edges_of(piece, panel)
    along_rails = [each for each in edges if each.joining.role is Role.RIM] or edges
    return len(edges) > 1 and not any(each.joining.glued_faces for each in along_rails)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Edge:
    """A panel's edge or end in a rabbet or groove: the panel's axis, which side, and the gap."""

    joining: Joining
    holder: Placed
    axis: int
    is_far: bool
    gap_mm: float


def _edges_of(piece: Piece, panel: Placed) -> list[_Edge]:
    found = []
    for joining in piece.joinings:
        if joining.incoming != panel.instance:
            continue
        wall = edge_face(joining, panel)
        if joining.role not in (Role.RIM, Role.HOUSING) or wall is None:
            continue
        axis = axis_towards(panel, wall.normal)
        found.append(
            _Edge(
                joining=joining,
                holder=placed_named(piece, joining.into),
                axis=axis,
                is_far=dot(panel.placement.axes[axis], wall.normal) > 0.0,
                gap_mm=wall.play_mm,
            )
        )
    return found


def _spanning(
    piece: Piece, panel: Placed, axis: int, low: Sequence[_Edge], high: Sequence[_Edge]
) -> Side | None:
    """The size that keeps the two holders of a panel apart: of a part that runs between them."""
    edges = [*low, *high]
    direction = panel.placement.axes[axis]
    others = [
        placed_named(piece, each.into)
        for each in piece.joinings
        if each.incoming == panel.instance
        and each.into not in {edge.joining.into for edge in edges}
    ]
    size = panel.part.blank.size[axis]
    if not others and (spans := _between(piece, panel, low, high)):
        ways = [_side_of(each, axis_towards(each, direction), size) for each in spans]
        return min(ways, key=_liveliness)
    holders = [*others, *(edge.holder for edge in edges)]
    if not holders:
        return None
    chosen = max(holders, key=lambda each: _reach(each, direction))
    turned = axis_towards(chosen, direction)
    return _side_of(chosen, turned, size)


def _between(
    piece: Piece, panel: Placed, low: Sequence[_Edge], high: Sequence[_Edge]
) -> list[Placed]:
    """The other parts that are joined to a holder at either side, whichever goes into which."""
    ends = [{each.joining.into for each in edges} for edges in (low, high)]
    mates: dict[str, set[str]] = {}
    for each in piece.joinings:
        mates.setdefault(each.into, set()).add(each.incoming)
        mates.setdefault(each.incoming, set()).add(each.into)
    taken = {panel.instance, *ends[0], *ends[1]}
    return [
        each
        for each in piece.placed
        if each.instance not in taken and all(mates.get(each.instance, set()) & end for end in ends)
    ]


def _liveliness(side: Side) -> float:
    """How much a size moves; one that is not known most, so that it is told only where alone."""
    try:
        return coefficient(side.species, side.sawn, side.across)
    except NoCoefficient:
        return math.inf


def _reach(placed: Placed, direction: Vector) -> float:
    """How far a part reaches along a direction [mm]."""
    blank = placed.part.blank
    corners = [
        dot(placed.placement.to_piece((x, y, z)), direction)
        for x in (0.0, blank.length_mm)
        for y in (0.0, blank.width_mm)
        for z in (0.0, blank.thickness_mm)
    ]
    return max(corners) - min(corners)


def _glued(piece: Piece, setting: Setting) -> list[Meeting]:
    """Every glued joint in that way of its face in which its two parts differ most."""
    found = []
    for joining in piece.joinings:
        if not joining.glued_faces or joining.role is Role.LOOSE_TONGUE:
            continue
        into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
        is_end_to_end = all(face.glue is GrainRelation.END_TO_END for face in joining.glued_faces)
        if is_end_to_end or _is_loose(piece, incoming):
            continue
        ways = []
        for into_axis, own_axis, size in patch_of(into, incoming):
            one, other = _side_of(into, into_axis, size), _side_of(incoming, own_axis, size)
            if not _moves_alike(one, other):
                ways.append(_apart(one, other, setting))
        if ways:
            shift, (inner, outer) = max(ways, key=lambda each: each[0])
            if shift > setting.rules[STILL]:
                found.append(Meeting(hold=Hold.GLUED, inner=inner, outer=outer))
    return found


def _moves_alike(one: Side, other: Side) -> bool:
    """Whether two sizes move together whatever their wood does: of one stock, the same way."""
    return replace(one, part=other.part) == other


def _apart(one: Side, other: Side, setting: Setting) -> tuple[float, tuple[Side, Side]]:
    """How far two glued sizes part [mm], the livelier first; without end where it is not known."""
    try:
        shift = difference_across(one, other, setting.climate).greatest_mm
        livelier = _range(one, setting) >= _range(other, setting)
    except NoCoefficient:
        return math.inf, (one, other) if _travels(one) else (other, one)
    return shift, (one, other) if livelier else (other, one)


def _housed(piece: Piece) -> list[Meeting]:
    """Thicknesses in trenches that close on both sides of them."""
    found = []
    for joining in piece.joinings:
        into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
        housing = housing_of(joining, incoming)
        is_closed = closes_on_both_sides(joining, incoming)
        if joining.role is not Role.HOUSING or housing is None or not is_closed:
            continue
        direction = incoming.placement.z_axis
        found.append(
            Meeting(
                hold=Hold.HOUSED,
                inner=_side_of(incoming, 2),
                outer=_side_of(into, axis_towards(into, direction), housing.thickness_mm),
                room_mm=joining.clearance_mm,
            )
        )
    return found


def _alike_once(piece: Piece, meetings: Iterable[Meeting]) -> list[Meeting]:
    """Meetings that differ only in the names of their parts, told as one."""
    groups: dict[object, list[Meeting]] = {}
    for each in meetings:
        key = (
            each.hold,
            replace(each.inner, part="", size_mm=round(each.inner.size_mm, 3)),
            replace(each.outer, part="", size_mm=round(each.outer.size_mm, 3)),
            round(each.room_mm, 4),
            each.how,
        )
        groups.setdefault(key, []).append(each)
    return [_as_one(piece, group) for group in groups.values()]


def _as_one(piece: Piece, group: Sequence[Meeting]) -> Meeting:
    first = group[0]
    inner = woods_in_words(named_in(piece, (each.inner.part for each in group)))
    outer = woods_in_words(named_in(piece, (each.outer.part for each in group)))
    return replace(
        first, inner=replace(first.inner, part=inner), outer=replace(first.outer, part=outer)
    )


def _travels(side: Side) -> bool:
    """Whether the size moves with the seasons at all; one that is not known may."""
    try:
        return coefficient(side.species, side.sawn, side.across) > 0.0
    except NoCoefficient:
        return True


def _range(side: Side, setting: Setting) -> float:
    return shift_of(side, setting.climate).range_mm
