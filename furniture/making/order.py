"""The order of the work: the fewest changes of rig, and within a rig the fewest set-ups.

With a rig on, doing all that it can reach is never worse than leaving some of it. So a state is
what is done and what stands on each machine, and the search goes breadth first from state to state:
the first that has all done has the fewest changes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from furniture.making.operations import Kind, Operation, Stage
from furniture.making.set_ups import Standing, figures_rise, serves, standing_of
from furniture.making.settings import Machine, Rig

OnMachines = tuple[tuple[Machine, Rig], ...]
"""What stands on each machine."""

_TURN = {kind: turn for turn, kind in enumerate(Kind)}
"""Like work together: kinds in the order in which they are listed."""

MOST_STATES = 2000
"""Beyond so many states the best so far goes on alone. Search effort."""


@dataclass(frozen=True, slots=True)
class _State:
    done: frozenset[str]
    standing: OnMachines
    order: tuple[str, ...]


def in_order(operations: Sequence[Operation]) -> tuple[Operation, ...]:
    """The operations in an order that keeps every precedence, stage by stage.

    Args:
        operations: all of them; what comes before each is among them.

    Raises:
        ValueError: the precedences go round in a circle.
    """
    by_key = {each.key: each for each in operations}
    state = _State(frozenset(), (), ())
    for stage in Stage:
        todo = [each for each in operations if each.stage is stage]
        if todo:
            state = _through(todo, state)
    return tuple(by_key[key] for key in state.order)


def _through(todo: Sequence[Operation], start: _State) -> _State:
    """The fewest changes of rig through one stage."""
    wanted = frozenset(each.key for each in todo)
    layer = {_known(start, todo): _free(start, todo)}
    while layer:
        for state in layer.values():
            if wanted <= state.done:
                return state
        following: dict[object, _State] = {}
        for state in layer.values():
            for rig in _rigs_ready(state, todo):
                reached = _free(_with_rig(state, rig, todo), todo)
                following.setdefault(_known(reached, todo), reached)
        most_done = sorted(following.items(), key=lambda each: -len(each[1].done))
        layer = dict(most_done[:MOST_STATES])
    missing = sorted(wanted - start.done)
    raise ValueError(f"no order of {missing}: each waits for another")


def _known(state: _State, todo: Iterable[Operation]) -> object:
    return state.done, state.standing


def _ready(state: _State, each: Operation) -> bool:
    return each.key not in state.done and all(after.key in state.done for after in each.after)


def _rigs_ready(state: _State, todo: Iterable[Operation]) -> tuple[Rig, ...]:
    return tuple(
        dict.fromkeys(
            each.rig
            for each in todo
            if each.rig is not None and not _is_free(each) and _ready(state, each)
        )
    )


def _is_free(operation: Operation) -> bool:
    """Whether no machine has to be made ready for it."""
    rig = operation.rig
    return rig is None or rig.machine is Machine.BENCH or operation.is_rough


def _free(state: _State, todo: Sequence[Operation]) -> _State:
    """All that is ready at the bench or with what stands on the machines."""
    standing = dict(state.standing)
    while True:
        before = len(state.done)
        state = _all_with(state, [each for each in todo if _is_free(each)])
        for rig in standing.values():
            state = _all_with(state, [each for each in todo if each.rig == rig])
        if len(state.done) == before:
            return state


def _with_rig(state: _State, rig: Rig, todo: Sequence[Operation]) -> _State:
    standing = dict(state.standing) | {rig.machine: rig}
    ordered = tuple(sorted(standing.items(), key=lambda each: each[0].value))
    ready = _State(state.done, ordered, state.order)
    return _all_with(ready, [each for each in todo if each.rig == rig])


def _all_with(state: _State, todo: Sequence[Operation]) -> _State:
    """All of these that can be reached one after another, set-up after set-up."""
    done, order = set(state.done), list(state.order)
    mine = [each for each in todo if each.key not in done]
    last: Standing | None = None
    while True:
        ready = [
            each
            for each in mine
            if each.key not in done and all(after.key in done for after in each.after)
        ]
        if not ready:
            return _State(frozenset(done), state.standing, tuple(order))
        waiting = [each for each in mine if each.key not in done]
        chosen = min(ready, key=lambda each: _rank(each, last, ready, waiting))
        done.add(chosen.key)
        order.append(chosen.key)
        last = _stands(last, standing_of(chosen))


def _stands(last: Standing | None, own: Standing | None) -> Standing | None:
    """What stands after a pass: one to a mark leaves the stop as it is."""
    is_marked = own is not None and not own.figures and last is not None and last.rig == own.rig
    return last if is_marked else own


def _rank(
    each: Operation, last: Standing | None, ready: Sequence[Operation], waiting: Sequence[Operation]
) -> tuple[object, ...]:
    """First what needs no new set-up, then a set-up of which nothing waits, figures rising.

    Of equals the one that was named first: boards and parts come in their own order.
    """
    own = standing_of(each)
    is_whole = all(other in ready for other in waiting if standing_of(other) == own)
    is_new = own is not None and (last is None or not serves(last, own))
    return (is_new, not is_whole, figures_rise(each), _TURN[each.kind])
