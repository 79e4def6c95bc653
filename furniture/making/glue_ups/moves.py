"""How the bodies of a stage come together: moves one after another, each with its way home."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.assembly.directions import opposite, rank_of
from furniture.assembly.values import LegBefore, Step
from furniture.joints.joint import Joining
from furniture.making.glue_ups.clusters import is_glued
from furniture.making.glue_ups.looked import Bodies, Looked, Parting, Rigid
from furniture.parts.vectors import Vector, dot
from furniture.rules.bench import GLUE_LINE

_CLOSING = 0.1
"""A face closes when the move goes into it by this share; less only wipes along it. Own rule."""


def moves_of(looked: Looked, bodies: Bodies, liked: Sequence[Step] = ()) -> tuple[Step, ...]:
    """The moves that bring rigid bodies together, first move first.

    They are taken apart, what leaves nothing hanging and wipes no glue off first, and the film is
    reversed, as in the order of assembly; where a step of that parts just these, it is taken.

    Args:
        looked: the piece.
        bodies: that come together by such moves.
        liked: the steps of the order of assembly.
    """
    steps: list[Step] = []
    waiting = [bodies]
    while waiting:
        group = waiting.pop()
        if len(group) < 2:
            continue
        step = _liked(looked, group, liked) or _step(looked, group, _best(looked, group))
        steps.append(step)
        moving = {looked.row_of[name] for name in step.moving}
        waiting.append(tuple(body for body in group if not body & moving))
        waiting.append(tuple(body for body in group if body <= moving))
    return tuple(reversed(steps))  # what stands still is built first


def _liked(looked: Looked, group: Bodies, liked: Sequence[Step]) -> Step | None:
    whole = set(looked.names_of(row for body in group for row in body))
    for step in liked:
        moving = {looked.row_of[name] for name in step.moving}
        is_whole = all(body <= moving or not body & moving for body in group)
        if is_whole and {*step.moving, *step.onto} == whole:
            return step
    return None


def _best(looked: Looked, group: Bodies) -> Parting:
    found = list(looked.partings(group))
    if not found:
        legs = looked.in_two_legs(group)
        assert legs is not None, "the bodies were proved to come apart"
        return legs
    return min(found, key=lambda each: _cost(looked, group, each))


def _cost(looked: Looked, group: Bodies, parting: Parting) -> tuple[object, ...]:
    leaving, rest = _rows(group, parting)
    crossing = _between(looked, leaving, rest)
    moving, _, home = _sides(looked, leaving, rest, parting)
    return (
        _hanging(looked, group, leaving) + _hanging(looked, group, rest),
        sum(_only_wiped(each, parting.away) for each in crossing),
        sum(is_glued(each) for each in crossing),
        len(moving),
        rank_of(home),
        tuple(-each for each in sorted(moving)),
    )


def _rows(group: Bodies, parting: Parting) -> tuple[Rigid, Rigid]:
    return parting.leaving, frozenset[int]().union(*group) - parting.leaving


def _hanging(looked: Looked, group: Bodies, side: Rigid) -> int:
    """Into how many lots the joints between them keep the bodies of a side."""
    lots = [set(body) for body in group if body <= side]
    for each in looked.joinings:
        ends = set(looked.ends_of(each))
        touched = [lot for lot in lots if lot & ends]
        if len(touched) == 2 and ends <= side:
            lots.remove(touched[1])
            touched[0] |= touched[1]
    return len(lots)


def _between(looked: Looked, first: Rigid, second: Rigid) -> list[Joining]:
    return [
        each
        for each, (a, b) in ((each, looked.ends_of(each)) for each in looked.joinings)
        if (a in first and b in second) or (a in second and b in first)
    ]


def _only_wiped(joining: Joining, line: Vector) -> bool:
    """Whether a joint has glue and no glued face closes along the line."""
    if joining.glue_area_mm2 <= 0.0:
        return False
    closing = [face.normal for face in joining.faces if face.play_mm <= GLUE_LINE.value]
    return not any(abs(dot(way, line)) > _CLOSING for way in (*joining.ways_in[:1], *closing))


def _sides(
    looked: Looked, leaving: Rigid, rest: Rigid, parting: Parting
) -> tuple[Rigid, Rigid, Vector]:
    """What moves, which is the lighter, what stands still, and the way home."""
    wood = [sum(looked.parts[row].volume_mm3 for row in side) for side in (leaving, rest)]
    if wood[0] <= wood[1]:
        return leaving, rest, opposite(parting.away)
    return rest, leaving, parting.away


def _step(looked: Looked, group: Bodies, parting: Parting) -> Step:
    leaving, rest = _rows(group, parting)
    moving, onto, home = _sides(looked, leaving, rest, parting)
    before = None
    if parting.then is not None and parting.first_mm is not None:
        way = opposite(parting.then) if moving == leaving else parting.then
        before = LegBefore(way=way, left_mm=parting.first_mm)
    return Step(
        moving=looked.names_of(moving),
        onto=looked.names_of(onto),
        direction=home,
        joints=tuple((each.into, each.incoming) for each in _between(looked, leaving, rest)),
        before=before,
    )
