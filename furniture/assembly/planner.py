"""Finding the order: the finished piece is taken apart, best move first, and the film reversed.

Taking apart never runs into a dead end: whatever can be taken apart, any lesser group of its parts
can be too, by the same moves with fewer parts in the way. So the best move may be chosen at each
stage, and when no move is left, no order along the tried lines exists.

A move has one straight leg, or two where one does not serve or would close a joint square to its
natural way: `two_legs.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.assembly.blocking import blocked_along
from furniture.assembly.body import Body
from furniture.assembly.directions import lines_of, opposite, rank_of
from furniture.assembly.locked import locked
from furniture.assembly.seen import Scene
from furniture.assembly.splitting import leaving_groups
from furniture.assembly.two_legs import TwoLegs, any_two_legs, unhooked
from furniture.assembly.values import AssemblyPlan, LegBefore, NoOrder, Step
from furniture.joints.joint import Joining, Role
from furniture.joints.reading import is_face_to_face
from furniture.parts.vectors import UP, Vector, dot
from furniture.rules.bench import GLUE_LINE

_LIFTED = 0.5
_SAME = 1e-6
_CLOSING = 0.1
"""A face closes when the move goes into it by this share; less only slides along it. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bench:
    """All that is known of the piece, worked out once."""

    bodies: Sequence[Body]
    scene: Scene
    joinings: Sequence[Joining]
    ends: NDArray[np.intp]
    is_glued: NDArray[np.bool_]
    lines: Sequence[Vector]
    tables: Sequence[NDArray[np.bool_]]
    slides: NDArray[np.bool_]
    """By line and joint: whether a glued joint would only be wiped along its faces."""
    is_glue_up: NDArray[np.bool_]
    """Whether a joint glues long grain to long grain: such boards are one before all else."""
    is_stuck_on: NDArray[np.bool_]
    """Whether a joint only sticks a face on another, as a pad is stuck under a rail."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Split:
    """A group, and how the group `leaving` goes away from the rest, in one leg or in two."""

    leaving: frozenset[int]
    away: Vector
    first_mm: float | None = None
    then: Vector | None = None


def plan_of(bodies: Scene | Sequence[Body], joinings: Sequence[Joining]) -> AssemblyPlan | NoOrder:
    """The order of assembly of parts in their places, or the parts that lock one another.

    At each stage the move is chosen that leaves nothing hanging loose, brings a part that is only
    stuck on (a pad under a rail waits until all else is together), closes no upright glue-up along
    the grain that can be closed before, wipes the fewest glued faces, closes the fewest glued
    joints at once, moves the fewest parts, and goes the way that a maker would rather push; the
    lighter side moves. Where the same parts can also close their joints the natural way, they do.
    Own rule, after what makers do.

    Args:
        bodies: no two of one name.
        joinings: the joints between them, by name.
    """
    bench = _bench(bodies if isinstance(bodies, Scene) else Scene(bodies), joinings)
    bodies = bench.bodies
    steps: list[Step] = []
    waiting = [tuple(range(len(bodies)))]
    while waiting:
        group = waiting.pop()
        if len(group) < 2:
            continue
        split = _best_split(bench, group)
        if split is None:
            return locked(bodies, bench.lines, bench.tables, group)
        step, moving, onto = _step(bench, group, split)
        steps.append(step)
        waiting.extend((onto, moving))  # reversed below: what stands still is built first
    return AssemblyPlan(steps=tuple(reversed(steps)))


def _bench(scene: Scene, joinings: Sequence[Joining]) -> _Bench:
    bodies = scene.bodies
    number = {body.name: index for index, body in enumerate(bodies)}
    lines = lines_of(joinings)
    return _Bench(
        bodies=bodies,
        scene=scene,
        joinings=joinings,
        ends=np.array(
            [(number[each.into], number[each.incoming]) for each in joinings], dtype=np.intp
        ).reshape(-1, 2),
        is_glued=np.array([each.glue_area_mm2 > 0 for each in joinings], dtype=np.bool_),
        lines=lines,
        tables=[blocked_along(scene, line) for line in lines],
        slides=np.array(
            [[_only_slides(each, line) for each in joinings] for line in lines], dtype=np.bool_
        ).reshape(len(lines), -1),
        is_glue_up=np.array([_is_glue_up(each) for each in joinings], dtype=np.bool_),
        is_stuck_on=np.array([_is_stuck_on(each) for each in joinings], dtype=np.bool_),
    )


def _is_glue_up(joining: Joining) -> bool:
    """Whether a joint makes one board of two by an upright glue line, as of a post's strips.

    A level one, such as that of a lip on a shelf, can wait until the others are together.
    """
    is_upright = not any(abs(dot(face.normal, UP)) > _LIFTED for face in joining.glued_faces)
    return joining.role is Role.EDGE_GLUE and joining.glue_area_mm2 > 0.0 and is_upright


def _is_stuck_on(joining: Joining) -> bool:
    """Whether nothing but glue holds the joint: plain faces that no cut or dowel locates."""
    return is_face_to_face(joining) and joining.glue_area_mm2 > 0.0 and not _is_glue_up(joining)


def _only_slides(joining: Joining, line: Vector) -> bool:
    """Whether a joint has glue and no glued face closes along the line.

    A face closes when the move goes the joint's own first way, or across a play that glue fills.
    """
    if joining.glue_area_mm2 <= 0.0:
        return False
    closing = [face.normal for face in joining.faces if face.play_mm <= GLUE_LINE.value]
    return not any(abs(dot(way, line)) > _CLOSING for way in (*joining.ways_in[:1], *closing))


def _best_split(bench: _Bench, group: tuple[int, ...]) -> _Split | None:
    rows = np.array(group)
    found: list[tuple[tuple[object, ...], _Split]] = []
    for line, table in enumerate(bench.tables):
        for chosen in leaving_groups(table[np.ix_(rows, rows)]):
            leaving = frozenset(group[row] for row in chosen)
            split = _Split(leaving=leaving, away=bench.lines[line])
            found.append((_cost(bench, group, split, line), split))
    if not found:
        legs = any_two_legs(bench.bodies, group, bench.lines)
        return None if legs is None else _in_two(legs)
    best = min(found, key=lambda each: each[0])[1]
    return _natural(bench, group, best, [split for _, split in found]) or best


def _natural(
    bench: _Bench, group: tuple[int, ...], best: _Split, others: Sequence[_Split]
) -> _Split | None:
    """The same parting by the way that is natural to all its joints, in one leg or in two."""
    rest = frozenset(group) - best.leaving
    ways = _ways_home(bench, best.leaving, rest)
    if not ways or any(dot(way, ways[0]) < 1.0 - _SAME for way in ways[1:]):
        return None
    out = opposite(ways[0])
    if abs(dot(out, best.away)) > _CLOSING:
        return None
    for split in others:
        is_same = split.leaving == best.leaving and dot(split.away, out) > 1.0 - _SAME
        is_other_side = split.leaving == rest and dot(split.away, out) < _SAME - 1.0
        if is_same or is_other_side:
            return split
    legs = unhooked(bench.scene, sorted(best.leaving), sorted(rest), out, bench.lines)
    splits = [_in_two(each) for each in legs]
    return min(splits, key=lambda split: rank_of(_way_before(bench, group, split)), default=None)


def _way_before(bench: _Bench, group: tuple[int, ...], split: _Split) -> Vector:
    """The way of the leg from afar, for the side that moves."""
    assert split.then is not None, "a move in two has a second leg"
    is_leaving = dot(_sides(bench, group, split)[2], split.away) < 0.0
    return opposite(split.then) if is_leaving else split.then


def _ways_home(bench: _Bench, leaving: frozenset[int], rest: frozenset[int]) -> list[Vector]:
    """The natural way home of each joint between two sides, for the side that leaves."""
    found = []
    for joining, (into, incoming) in zip(bench.joinings, bench.ends.tolist(), strict=True):
        for way in joining.ways_in[:1]:
            if into in rest and incoming in leaving:
                found.append(way)
            if into in leaving and incoming in rest:
                found.append(opposite(way))
    return found


def _in_two(legs: TwoLegs) -> _Split:
    return _Split(leaving=legs.leaving, away=legs.first, first_mm=legs.first_mm, then=legs.then)


def _cost(bench: _Bench, group: tuple[int, ...], split: _Split, line: int) -> tuple[object, ...]:
    is_leaving = np.zeros(len(bench.bodies), dtype=np.bool_)
    is_leaving[list(split.leaving)] = True
    is_in = np.zeros(len(bench.bodies), dtype=np.bool_)
    is_in[list(group)] = True
    ends = bench.ends
    is_inside = is_in[ends].all(axis=1)
    is_crossing = is_inside & (is_leaving[ends[:, 0]] != is_leaving[ends[:, 1]])
    kept = ends[is_inside & ~is_crossing]
    moving, _, home = _sides(bench, group, split)
    return (
        _count_pieces(group, kept),
        _last_in(bench, is_crossing, moving, home),
        int((is_crossing & bench.is_glue_up).sum()),
        int((is_crossing & bench.slides[line]).sum()),
        int((is_crossing & bench.is_glued).sum()),
        len(moving),
        rank_of(home),
        -max(round(bench.bodies[each].centre[2], 6) for each in moving),
        moving,
    )


def _last_in(
    bench: _Bench, is_crossing: NDArray[np.bool_], moving: tuple[int, ...], home: Vector
) -> int:
    """0 for one loose part, like a lid that lifts off; 1 for what is stuck on; 2 for others."""
    if len(moving) == 1 and not (is_crossing & bench.is_glued).any():
        return 0
    return 1 if _is_only_stuck_on(bench, is_crossing, moving, home) else 2


def _is_only_stuck_on(
    bench: _Bench, is_crossing: NDArray[np.bool_], moving: tuple[int, ...], home: Vector
) -> bool:
    """Whether one part moves that is stuck on by faces of one side, and straight towards them."""
    crossing = [int(each) for each in np.flatnonzero(is_crossing)]
    return bool(crossing) and all(
        bench.is_stuck_on[joint]
        and moving == (bench.ends[joint, 1],)
        and all(dot(face.normal, home) > 1.0 - _SAME for face in bench.joinings[joint].faces)
        for joint in crossing
    )


def _count_pieces(group: tuple[int, ...], joined: NDArray[np.intp]) -> int:
    """Into how many pieces the group falls when only these joints hold it."""
    leader = {each: each for each in group}

    def top(each: int) -> int:
        while leader[each] != each:
            leader[each] = leader[leader[each]]
            each = leader[each]
        return each

    count = len(group)
    for first, second in joined.tolist():
        a, b = top(first), top(second)
        if a != b:
            leader[a] = b
            count -= 1
    return count


def _sides(
    bench: _Bench, group: tuple[int, ...], split: _Split
) -> tuple[tuple[int, ...], tuple[int, ...], Vector]:
    """What moves, what stands still, and the way home.

    The lighter side moves; but it is not lifted into parts that are let into it: a wall cleat
    stands still, and what hangs on it is lowered.
    """
    leaving = tuple(each for each in group if each in split.leaving)
    rest = tuple(each for each in group if each not in split.leaving)
    home = opposite(split.away)
    if _wood(bench, leaving) <= _wood(bench, rest):
        light, heavy = leaving, rest
    else:
        light, heavy, home = rest, leaving, opposite(home)
    if dot(home, UP) > _LIFTED and _takes_everything_in(bench, light, heavy):
        return heavy, light, opposite(home)
    return light, heavy, home


def _wood(bench: _Bench, side: tuple[int, ...]) -> float:
    return sum(bench.bodies[each].volume_mm3 for each in side)


def _takes_everything_in(bench: _Bench, side: tuple[int, ...], other: tuple[int, ...]) -> bool:
    """Whether each joint between the two sides is let into this one."""
    into, incoming = bench.ends[:, 0], bench.ends[:, 1]
    ins = np.isin(into, side) & np.isin(incoming, other)
    outs = np.isin(into, other) & np.isin(incoming, side)
    return bool(ins.any() and not outs.any())


def _step(
    bench: _Bench, group: tuple[int, ...], split: _Split
) -> tuple[Step, tuple[int, ...], tuple[int, ...]]:
    moving, onto, home = _sides(bench, group, split)
    names = [body.name for body in bench.bodies]
    sides = ({names[each] for each in moving}, {names[each] for each in onto})
    joints = tuple(
        (each.into, each.incoming)
        for each in bench.joinings
        if (each.into in sides[0] and each.incoming in sides[1])
        or (each.into in sides[1] and each.incoming in sides[0])
    )
    before = None
    if split.then is not None and split.first_mm is not None:
        before = LegBefore(way=_way_before(bench, group, split), left_mm=split.first_mm)
    step = Step(
        moving=tuple(names[each] for each in moving),
        onto=tuple(names[each] for each in onto),
        direction=home,
        joints=joints,
        before=before,
    )
    return step, moving, onto
