"""How far each part of a piece is drawn from its place so that all its joints stand open."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from furniture.joints.joint import Joining
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Vector, add, scaled

Shifts = dict[str, Vector]
"""By instance, how far it is moved, piece frame [mm]."""

_STILL: Vector = (0.0, 0.0, 0.0)
_MOST_STEPS = 6
_TOUCH_MM = 0.5
_STRAIGHT = 0.999
"""Ways that run this much along an axis of the piece are drawn; a slanting one opens unevenly."""


def opened(
    placed: Sequence[Placed],
    joinings: Sequence[Joining],
    distance_mm: float,
) -> Shifts:
    """Every part's shift from its place, from the part with the most joints outwards.

    Args:
        placed: the parts in their places.
        joinings: the piece's joints.
        distance_mm: how far each joint opens at least [mm].
    """
    boxes = {each.instance: box_of(each.part.blank, each.placement) for each in placed}
    known = [one for one in joinings if one.into in boxes and one.incoming in boxes]
    shifts: Shifts = {}
    while len(shifts) < len(boxes):
        reached = [
            name
            for name in boxes
            if name not in shifts and any(_other(one, name) in shifts for one in known)
        ]
        if not reached:
            shifts[_stem(boxes, known, shifts)] = _STILL
            continue
        # a ring at a time: parts as far from the stem as each other must not push one another
        before = dict(shifts)
        for name in reached:
            shifts[name] = _shift_of(name, known, distance_mm, boxes, before, shifts)
    return shifts


def _stem(boxes: dict[str, Box], joinings: Sequence[Joining], shifts: Shifts) -> str:
    """The waiting part that stays: if it can be one that goes into no other, with most joints."""
    incoming = {one.incoming for one in joinings}

    def rank(name: str) -> tuple[bool, int]:
        return (name not in incoming, sum(1 for one in joinings if _other(one, name) is not None))

    return max((name for name in boxes if name not in shifts), key=rank)


def _shift_of(
    name: str,
    joinings: Sequence[Joining],
    step: float,
    boxes: dict[str, Box],
    before: Shifts,
    shifts: Shifts,
) -> Vector:
    """A part's shift: with those it joins, then out to where it is clear of all that has moved."""
    partners = [(one, other) for one in joinings if (other := _other(one, name)) in before]
    base = _between(before[other] for _, other in partners if other is not None)
    beside = [boxes[other] for _, other in partners if other is not None]
    own = [one for one in joinings if _other(one, name) is not None]
    out = _way_out(name, [one for one, _ in partners], own, boxes[name], beside)
    return _clear(base, scaled(out, step), boxes, shifts, name)


def _other(joining: Joining, name: str) -> str | None:
    """The part that a joint joins to the named one; none if it has no share in the joint."""
    if joining.into == name:
        return joining.incoming
    return joining.into if joining.incoming == name else None


def _way_out(
    name: str,
    to_moved: Sequence[Joining],
    all_own: Sequence[Joining],
    mine: Box,
    beside: Sequence[Box],
) -> Vector:
    """The way along an axis that opens most joints to moved parts, then most in all, then shortest.

    Where no way runs along an axis it is the first joint's first way.
    """
    votes, votes_in_all = _votes(name, to_moved), _votes(name, all_own)
    if votes:
        return max(
            votes,
            key=lambda out: (
                votes[out],
                votes_in_all[out],
                -max(_way(mine, box, out) for box in beside),
            ),
        )
    ways = to_moved[0].ways_in
    return scaled(ways[0], _sign(to_moved[0], name)) if ways else _STILL


def _votes(name: str, joinings: Sequence[Joining]) -> dict[Vector, int]:
    """By way along an axis, how many of the joints let the part out that way."""
    votes: dict[Vector, int] = {}
    for joining in joinings:
        for way in joining.ways_in:
            if max(abs(part) for part in way) > _STRAIGHT:
                x, y, z = (round(part * _sign(joining, name)) + 0.0 for part in way)
                votes[(x, y, z)] = votes.get((x, y, z), 0) + 1
    return votes


def _sign(joining: Joining, name: str) -> float:
    """Which way a part leaves: against the way in if it goes in, along it if it is gone into."""
    return -1.0 if joining.incoming == name else 1.0


def _way(mine: Box, other: Box, out: Vector) -> float:
    """How far a box must go along an axis to be clear of another [mm]."""
    axis = max(range(3), key=lambda each: abs(out[each]))
    if out[axis] > 0:
        return other[1][axis] - mine[0][axis]
    return mine[1][axis] - other[0][axis]


def _clear(base: Vector, step: Vector, boxes: dict[str, Box], shifts: Shifts, name: str) -> Vector:
    """The least whole number of steps on the way out that keeps the part clear of the moved."""
    shift = base
    for count in range(1, 1 + _MOST_STEPS):
        shift = add(base, scaled(step, count))
        mine = _moved(boxes[name], shift)
        if not any(_meets(mine, _moved(boxes[other], moved)) for other, moved in shifts.items()):
            break
    return shift


def _moved(box: Box, shift: Vector) -> Box:
    return (add(box[0], shift), add(box[1], shift))


def _meets(first: Box, second: Box) -> bool:
    return all(
        first[0][axis] < second[1][axis] - _TOUCH_MM
        and second[0][axis] < first[1][axis] - _TOUCH_MM
        for axis in range(3)
    )


def _between(points: Iterable[Vector]) -> Vector:
    """Half way between the extremes of some points, axis by axis [mm]."""
    xs, ys, zs = zip(*points, strict=True)
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2, (min(zs) + max(zs)) / 2)
