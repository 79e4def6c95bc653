"""What is planed level and cut to length once joints are home, off the parts in their places."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from furniture.assembly.seen import Scene, Sheet, turn_of
from furniture.joints.joint import Joining, Role
from furniture.joints.mitre_plane import planes_on
from furniture.joints.reading import is_face_to_face
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import BACK, DOWN, FRONT, LEFT, RIGHT, UP, Vector, dot, scaled
from furniture.pieces.piece import Piece
from furniture.rules import Rules
from furniture.rules.tools import PLANE_ASIDE, PLANE_HIGH, PLANE_PAST_ENDS

_MOST_PROUD_MM = 1.5
_LEAST_PROUD_MM = 0.05
"""A face so little above its neighbour's is meant to be planed flush; more is meant to stand off.
Own rule."""
_SQUARE = 0.999
_SIDES: tuple[tuple[Vector, Vector], ...] = ((LEFT, RIGHT), (FRONT, BACK), (DOWN, UP))
_CLEAR_MM = 0.05
_HAIR_MM2 = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Proud:
    """A face of `high` that stands a little past the same face of `low`.

    `side` is the unit vector out of it, piece frame, and `by_mm` how far it stands past [mm].
    """

    high: str
    low: str
    side: Vector
    by_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftLong:
    """An end that stays long until all joints of `waits_for` are closed, and where it is cut.

    Args:
        instance: whose end it is.
        end: of that part.
        way: unit vector out of it, piece frame.
        at_mm: where along that way it is cut [mm].
        long_by_mm: how much was left [mm].
        length_mm: of the part from its other end, once it is cut [mm].
        measured_from: the joined instance whose face lies next below the cut, and that face; the
            part's own other end where none does.
        distance_mm: from there to the cut [mm].
        waits_for: joints as (into, incoming); ends at one height are cut level with one another.
            What is stuck on by a face, such as a foot, is not waited for, nor what reaches past.
        before: joints of parts that reach past the end and so cover it.
    """

    instance: str
    end: Face
    way: Vector
    at_mm: float
    long_by_mm: float
    length_mm: float
    measured_from: tuple[str, Face]
    distance_mm: float
    waits_for: frozenset[tuple[str, str]]
    before: frozenset[tuple[str, str]]


def proud_faces(first: Placed, second: Placed) -> Iterator[Proud]:
    """Sides on which one of two parts stands a little past the other.

    Parts that stand askew have none.
    """
    boxes = [box_of(each.part.blank, each.placement) for each in (first, second)]
    if not all(_is_square(each) for each in (first, second)):
        return
    names = (first.instance, second.instance)
    for axis, sides in enumerate(_SIDES):
        for end, sign in ((0, -1.0), (1, 1.0)):
            past = sign * (boxes[0][end][axis] - boxes[1][end][axis])
            if _LEAST_PROUD_MM < abs(past) < _MOST_PROUD_MM:
                high, low = names if past > 0 else names[::-1]
                yield Proud(high=high, low=low, side=sides[end], by_mm=abs(past))


def proud_of(piece: Piece) -> tuple[Proud, ...]:
    """Every face of the piece that is planed level with that of a part joined to it.

    A foot that stands a little in from the edge of its rail is meant to; a mitred end is no face.
    What turns is hung when all planing is done: the face is planed to what that hangs on, where
    the two lie level.
    """
    placed = {each.instance: each for each in piece.placed}
    pairs = dict.fromkeys(
        (each.into, each.incoming) for each in piece.joinings if not _is_foot(each)
    )
    found = [
        proud
        for a, b in pairs
        for proud in proud_faces(placed[a], placed[b])
        if not _is_mitred(placed[proud.high], proud.side)
    ]
    on = {each.incoming: each.into for each in piece.joinings if each.role is Role.HINGE}
    return tuple(dict.fromkeys(_planed_to(each, on, placed) for each in found))


def _planed_to(proud: Proud, on: Mapping[str, str], placed: Mapping[str, Placed]) -> Proud:
    """The face as it is planed to what is there by then.

    Args:
        proud: a face and what it is level with in the end.
        on: of what turns, what it hangs on.
        placed: the parts by instance.
    """
    held = on.get(proud.low)
    if held is None or held == proud.high:
        return proud
    for other in proud_faces(placed[proud.high], placed[held]):
        if (other.high, other.side) == (proud.high, proud.side) and _is_near(other, proud):
            return replace(proud, low=held)
    return proud


def _is_near(first: Proud, second: Proud) -> bool:
    return abs(first.by_mm - second.by_mm) < _CLEAR_MM


def _is_mitred(placed: Placed, side: Vector) -> bool:
    end = placed.placement.face_towards(side)
    return any(plane.end is end for plane in planes_on(placed))


def left_long_of(piece: Piece) -> tuple[LeftLong, ...]:
    """Every end that is cut to length once its joints are home."""
    found = [
        _left_long(piece, each, each.part.trimmed_last)
        for each in piece.placed
        if each.part.trimmed_last is not None
    ]
    return tuple(
        replace(
            each,
            waits_for=frozenset().union(
                *(other.waits_for for other in found if _is_level(other, each))
            ),
        )
        for each in found
    )


def _is_level(first: LeftLong, second: LeftLong) -> bool:
    return first.way == second.way and abs(first.at_mm - second.at_mm) < _CLEAR_MM


def _left_long(piece: Piece, placed: Placed, end: Face) -> LeftLong:
    way = placed.placement.direction_to_piece(end.normal)
    blank = placed.part.blank
    joints = [
        (each.into, each.incoming)
        for each in piece.joinings
        if placed.instance in (each.into, each.incoming) and not _is_foot(each)
    ]
    names = {name for pair in joints for name in pair} - {placed.instance}
    joined = [each for each in piece.placed if each.instance in names]
    cut = _farthest(placed, way)
    beyond = {each.instance for each in joined if _farthest(each, way) > cut + _CLEAR_MM}
    past = frozenset(pair for pair in joints if beyond & set(pair))
    below = [(_farthest(each, way), each) for each in joined]
    near = max(
        ((at, each) for at, each in below if at < cut - _CLEAR_MM),
        key=lambda pair: pair[0],
        default=(cut - blank.length_mm, None),
    )
    from_part = placed if near[1] is None else near[1]
    return LeftLong(
        instance=placed.instance,
        end=end,
        way=way,
        at_mm=cut,
        long_by_mm=placed.part.rough.length_mm,
        length_mm=blank.length_mm,
        measured_from=(
            from_part.instance,
            end.opposite if near[1] is None else from_part.placement.face_towards(way),
        ),
        distance_mm=round(cut - near[0], 9),
        waits_for=frozenset(joints) - past,
        before=past,
    )


def _is_foot(joining: Joining) -> bool:
    return joining.role is Role.SEAT and is_face_to_face(joining)


def in_a_planes_way(scene: Scene, placed: Placed, proud: Proud, rules: Rules) -> frozenset[str]:
    """The parts that would stand in the way of a plane that levels a face, all of them in place.

    Args:
        scene: all parts in their places.
        placed: the part whose face is levelled.
        proud: the face.
        rules: the shop's own limits.

    **Source:** own rule: the plane goes along the longer side of the face, with its room past the
    ends, beside it and above it.
    """
    room, level = _room(box_of(placed.part.blank, placed.placement), proud, rules)
    backs, fronts = scene.seen(proud.side)
    tops = fronts.only(_lies_over(fronts, room) & (fronts.farthest > level + _CLEAR_MM))
    unders = backs.only(_lies_over(backs, room) & (backs.nearest < level + rules[PLANE_HIGH]))
    rows = set(tops.owner.tolist()) & set(unders.owner.tolist())
    return frozenset(scene.bodies[row].name for row in rows) - {placed.instance}


def _lies_over(sheet: Sheet, room: shapely.Polygon) -> NDArray[np.bool_]:
    found: NDArray[np.bool_] = shapely.area(shapely.intersection(sheet.outline, room)) > _HAIR_MM2
    return found


def _room(box: Box, proud: Proud, rules: Rules) -> tuple[shapely.Polygon, float]:
    """The plane's room seen along the way out of the face, and the level of the face as cut.

    What stands no higher than that is planed along with it.
    """
    axis = max(range(3), key=lambda each: abs(proud.side[each]))
    long = max((each for each in range(3) if each != axis),
               key=lambda each: box[1][each] - box[0][each])  # fmt: skip
    low, high = list(box[0]), list(box[1])
    for each in range(3):
        more = 0.0 if each == axis else rules[PLANE_PAST_ENDS if each == long else PLANE_ASIDE]
        low[each] -= more
        high[each] += more
    turn = turn_of(proud.side)
    corners = np.array([[low[0], low[1], low[2]], [high[0], high[1], high[2]]]) @ turn.T
    room = shapely.box(
        min(corners[:, 0]), min(corners[:, 1]), max(corners[:, 0]), max(corners[:, 1])
    )
    return room, float(max(corners[:, 2]))


def _farthest(placed: Placed, way: Vector) -> float:
    """How far the blank reaches along a way [mm]."""
    size = placed.part.blank.size
    start = dot(placed.placement.origin, way)
    return start + sum(
        max(0.0, dot(scaled(axis, length), way))
        for axis, length in zip(placed.placement.axes, size, strict=True)
    )


def _is_square(placed: Placed) -> bool:
    """Whether the part stands square in the piece, so that its box is itself."""
    axes = (placed.placement.x_axis, placed.placement.y_axis)
    return all(max(abs(value) for value in axis) > _SQUARE for axis in axes)
