"""Placed parts moved apart, and the lines along which they go together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from exporters.views.opening import Shifts, opened
from exporters.views.values import Line, ViewFrame
from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, add, cross, length, scaled, subtract

_STILL: Vector = (0.0, 0.0, 0.0)
_LEAST_TRAIL_MM = 1.0


def exploded(placed: Sequence[Placed], shifts: Mapping[str, Vector]) -> tuple[Placed, ...]:
    """The same parts, each moved by the shift of its instance; one without a shift stays.

    Args:
        placed: the parts in their places.
        shifts: by instance, how far it is moved, piece frame [mm].
    """
    return tuple(
        replace(
            each,
            placement=replace(
                each.placement, origin=add(each.placement.origin, shifts.get(each.instance, _STILL))
            ),
        )
        for each in placed
    )


def shifts_against_assembly(
    placed: Sequence[Placed], joinings: Sequence[Joining], distance_mm: float
) -> Shifts:
    """How far each part is moved so that every joint opens the way it was pushed home.

    The part that holds most joints stays. From it outwards each part goes along with those it
    joins and from there away from them, along the way that most of its joints allow, as far as
    keeps it clear of every part that has moved. Parts without joints stay. Own rule: a part is
    drawn on the line along which the maker will push it.

    Args:
        placed: the parts in their places.
        joinings: the piece's joints.
        distance_mm: how far each joint opens at least [mm].
    """
    return opened(placed, joinings, distance_mm)


def trails(
    placed: Sequence[Placed],
    shifts: Mapping[str, Vector],
    frame: ViewFrame,
    legs: Sequence[tuple[Vector, Vector]],
) -> tuple[Line, ...]:
    """Lines between parts moved apart, where no part hides them, on paper at 1:1 [mm].

    Args:
        placed: the parts in their places.
        shifts: by instance, how far it is moved, piece frame [mm].
        frame: how they are looked at, in the piece frame.
        legs: both ends of each line, piece frame [mm].

    Raises:
        SolidError: a part cannot be made.
    """
    from exporters.views.kernel import seen_stretches
    from furniture.solids.make import placed_solid

    if not legs:
        return ()
    solids = [placed_solid(each.part, each.placement).wrapped for each in exploded(placed, shifts)]
    found = seen_stretches(solids, list(legs), frame.right, frame.towards_eye, frame.origin)
    return tuple(line for line in found if _run(line) > _LEAST_TRAIL_MM)


def legs_between(
    joinings: Sequence[Joining], shifts: Mapping[str, Vector]
) -> tuple[tuple[Vector, Vector], ...]:
    """From each joint's place on the incoming part to its place on the other, piece frame [mm].

    Only joints whose parts stand apart along a way in which they go together have one.

    Args:
        joinings: the piece's joints.
        shifts: by instance, how far it is moved, piece frame [mm].
    """
    legs = (_leg_of(joining, shifts) for joining in joinings)
    return tuple(leg for leg in legs if leg is not None)


def middle_of(placed: Placed) -> Vector:
    """The middle of a placed part's blank, piece frame [mm]."""
    low, high = box_of(placed.part.blank, placed.placement)
    return scaled(add(low, high), 0.5)


def place_of(joining: Joining) -> Vector:
    """The middle of where the two parts of a joint meet, piece frame [mm]."""
    at = _STILL
    for face in joining.faces:
        at = add(at, scaled(face.centre, 1.0 / len(joining.faces)))
    return at


def _leg_of(joining: Joining, shifts: Mapping[str, Vector]) -> tuple[Vector, Vector] | None:
    """Where a joint's place has come on either part, if they part along one of its ways in."""
    if not joining.faces:
        return None
    of_incoming = shifts.get(joining.incoming, _STILL)
    of_into = shifts.get(joining.into, _STILL)
    apart = subtract(of_incoming, of_into)
    reach = length(apart)
    if reach < _LEAST_TRAIL_MM:
        return None
    along = (
        length(cross(apart, way)) < 1e-6 * reach and length(add(scaled(way, reach), apart)) < reach
        for way in joining.ways_in
    )
    if not any(along):
        return None
    at = place_of(joining)
    return (add(at, of_incoming), add(at, of_into))


def _run(line: Line) -> float:
    dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
    return float((dx * dx + dy * dy) ** 0.5)
