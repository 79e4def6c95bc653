"""What is set to the same figures in two stages of the work waits for the later one, if it may."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from graphlib import TopologicalSorter

from furniture.making.operations import Follows, Operation, Stage
from furniture.making.set_ups import Standing, standing_of
from furniture.making.settings import Machine

_TURN = {stage: turn for turn, stage in enumerate(Stage)}


def set_once(operations: Sequence[Operation]) -> tuple[Operation, ...]:
    """The operations, each in the last stage that has its set-up and that nothing needs it before.

    A stop that stands for one hinge stands for its mate, and a jig for both ends of a rail, though
    one of them is there earlier. What is made to a measure taken at the bench is set to that.

    Args:
        operations: all but those that break out the wood.
    """
    by_key = {each.key: each for each in operations}
    waits = {each.key: [a.key for a in each.after if a.key in by_key] for each in operations}
    stages: dict[Standing, set[int]] = defaultdict(set)
    for each in operations:
        standing = _set_to(each)
        if standing is not None:
            stages[standing].add(_TURN[each.stage])
    followed: dict[str, list[str]] = defaultdict(list)
    for key, firsts in waits.items():
        for first in firsts:
            followed[first].append(key)
    order = list(TopologicalSorter(waits).static_order())
    latest: dict[str, int] = {}
    for key in reversed(order):
        followers = (latest[other] for other in followed[key])
        latest[key] = _latest(by_key[key], stages, min(followers, default=_TURN[_LAST]))
    turns: dict[str, int] = {}
    for key in order:
        each = by_key[key]
        earliest = max(_TURN[each.stage], *(turns[first] for first in waits[key]), 0)
        turns[key] = earliest if _set_to(each) is None else latest[key]
    every = list(Stage)
    return tuple(replace(each, stage=every[turns[each.key]]) for each in operations)


_LAST = list(Stage)[-1]


def _set_to(operation: Operation) -> Standing | None:
    """What stands for it, where that is known before: no mark, and nothing that is measured."""
    standing = standing_of(operation)
    is_measured = any(each.figure is Follows.SIZE for each in operation.fit_to)
    return None if standing is None or not standing.figures or is_measured else standing


def _latest(
    operation: Operation, stages: Mapping[Standing, Iterable[int]], before_turn: int
) -> int:
    """The last stage that has its set-up; at the bench whichever it must be done in."""
    own, standing = _TURN[operation.stage], _set_to(operation)
    if standing is not None:
        return max(turn for turn in stages[standing] if turn == own or own < turn <= before_turn)
    is_free = operation.rig is not None and operation.rig.machine is Machine.BENCH
    return max(own, before_turn) if is_free else own
