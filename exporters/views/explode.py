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
_MOST_TRIES = 8


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


def shifts_to_be_seen(
    placed: Sequence[Placed],
    joinings: Sequence[Joining],
    distance_mm: float,
    frame: ViewFrame,
    least_share: float = 0.25,
) -> Shifts:
    """The shifts of `shifts_against_assembly`, parts that others hide moved on until they show.

    Where no number of steps shows every part, the shifts that show the worst of them best.

    Args:
        placed: the parts in their places.
        joinings: the piece's joints.
        distance_mm: how far each joint opens at least [mm].
        frame: how they are looked at, in the piece frame.
        least_share: of a part's edges that shall be seen, 0 to 0.75 [-].

    Raises:
        SolidError: a part cannot be made.
    """
    from exporters.views.kernel import seen_shares
    from furniture.solids.make import placed_solid

    more_steps: dict[str, int] = {}
    best: tuple[float, Shifts] = (-1.0, {})
    for _ in range(_MOST_TRIES):
        shifts = opened(placed, joinings, distance_mm, more_steps)
        moved = exploded(placed, shifts)
        solids = [placed_solid(each.part, each.placement).wrapped for each in moved]
        shares = seen_shares(solids, frame.right, frame.towards_eye, frame.origin)
        share, hidden = min(zip(shares, (each.instance for each in moved), strict=True))
        if share > best[0]:
            best = (share, shifts)
        if share >= least_share:
            break
        more_steps[hidden] = more_steps.get(hidden, 0) + 1
    return best[1]


def trails(
    placed: Sequence[Placed],
    shifts: Mapping[str, Vector],
    frame: ViewFrame,
    joinings: Sequence[Joining] = (),
) -> tuple[Line, ...]:
    """Lines between parts moved apart, where no part hides them, on paper at 1:1 [mm].

    With joints given, a line runs from each joint's place on the one part to its place on the
    other, if they part along a way in which they go together. Without, a line runs from the middle
    of each part that moves to where that middle was.

    Args:
        placed: the parts in their places.
        shifts: by instance, how far it is moved, piece frame [mm].
        frame: how they are looked at, in the piece frame.
        joinings: the piece's joints, or none.

    Raises:
        SolidError: a part cannot be made.
    """
    from exporters.views.kernel import seen_stretches
    from furniture.solids.make import placed_solid

    if joinings:
        legs = [leg for joining in joinings if (leg := _leg_of(joining, shifts)) is not None]
    else:
        moved = [each for each in placed if length(shifts.get(each.instance, _STILL)) > 0.0]
        middles = [(middle_of(each), shifts[each.instance]) for each in moved]
        legs = [(middle, add(middle, shift)) for middle, shift in middles]
    if not legs:
        return ()
    solids = [placed_solid(each.part, each.placement).wrapped for each in exploded(placed, shifts)]
    found = seen_stretches(solids, legs, frame.right, frame.towards_eye, frame.origin)
    return tuple(line for line in found if _run(line) > _LEAST_TRAIL_MM)


def middle_of(placed: Placed) -> Vector:
    """The middle of a placed part's blank, piece frame [mm]."""
    low, high = box_of(placed.part.blank, placed.placement)
    return scaled(add(low, high), 0.5)


def _leg_of(joining: Joining, shifts: Mapping[str, Vector]) -> tuple[Vector, Vector] | None:
    """Where a joint's place has come on either part, if they part along one of its ways in."""
    if not joining.contacts:
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
    count = len(joining.contacts)
    at = _STILL
    for contact in joining.contacts:
        at = add(at, scaled(contact.at, 1.0 / count))
    return (add(at, of_incoming), add(at, of_into))


def _run(line: Line) -> float:
    dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
    return float((dx * dx + dy * dy) ** 0.5)
