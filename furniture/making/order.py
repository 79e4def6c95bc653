"""The order of the work: the fewest changes of rig, and within a rig the fewest set-ups.

With a rig on, doing all that it can reach is never worse than leaving some of it. So a state is
what is done and what stands on each machine, and the search goes breadth first from state to state:
the first that has all done has the fewest changes.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

from furniture.making.operations import Kind, Operation, Stage
from furniture.making.set_ups import Standing, figures_rise, serves, standing_of
from furniture.making.settings import Machine, Rig

OnMachines = tuple[tuple[str, int], ...]
"""The number of what stands on each machine."""

_TURN = {kind: turn for turn, kind in enumerate(Kind)}
"""Like work together: kinds in the order in which they are listed."""

MOST_STATES = 2000
"""Beyond so many states the best so far goes on alone. Search effort."""


@dataclass(frozen=True, slots=True)
class _Pass:
    """An operation, and what the search asks of it again and again.

    `rig` and `standing` number what it is made with and what must stand on the machine, equal ones
    alike; none asks for nothing, and no rig says that no machine has to be made ready. `place` is
    among those that were named.
    """

    key: str
    place: int
    machine: str
    rig: int | None
    after: frozenset[str]
    stands: Standing | None
    standing: int | None
    rises: tuple[float, ...]
    turn: int


_Todo = Mapping[int | None, Sequence[_Pass]]
"""What is to be done, by the number of its rig."""


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
    numbers: dict[Rig | Standing, int] = {}
    for stage in Stage:
        todo: dict[int | None, list[_Pass]] = {None: []}
        for place, operation in enumerate(operations):
            if operation.stage is stage:
                own = _pass(operation, place, numbers)
                todo.setdefault(own.rig, []).append(own)
        state = _through(todo, state)
    return tuple(by_key[key] for key in state.order)


def _pass(operation: Operation, place: int, numbers: dict[Rig | Standing, int]) -> _Pass:
    stands, rig = standing_of(operation), operation.rig
    is_free = rig is None or rig.machine is Machine.BENCH or operation.is_rough
    return _Pass(
        key=operation.key,
        place=place,
        machine="" if rig is None else rig.machine.value,
        rig=None if rig is None or is_free else numbers.setdefault(rig, len(numbers)),
        after=frozenset(after.key for after in operation.after),
        stands=stands,
        standing=None if stands is None else numbers.setdefault(stands, len(numbers)),
        rises=figures_rise(operation),
        turn=-1 if operation.is_rough else _TURN[operation.kind],  # board after board, as planned
    )


def _through(todo: _Todo, start: _State) -> _State:
    """The fewest changes of rig through one stage."""
    wanted = frozenset(each.key for some in todo.values() for each in some)
    first = _free(start, todo)
    layer = {(first.done, first.standing): first}
    while layer:
        for state in layer.values():
            if wanted <= state.done:
                return state
        following: dict[tuple[frozenset[str], OnMachines], _State] = {}
        for state in layer.values():
            for rig in _rigs_ready(state, todo):
                reached = _free(_with_rig(state, rig, todo), todo)
                following.setdefault((reached.done, reached.standing), reached)
        most_done = sorted(following.items(), key=lambda each: -len(each[1].done))
        layer = dict(most_done[:MOST_STATES])
    missing = sorted(wanted - start.done)
    raise ValueError(f"no order of {missing}: each waits for another")


def _rigs_ready(state: _State, todo: _Todo) -> list[int]:
    """The rigs with which something can be done, in the order in which that was named."""
    first: dict[int, int] = {}
    for rig, some in todo.items():
        ready = (e.place for e in some if e.key not in state.done and e.after <= state.done)
        place = None if rig is None else next(ready, None)
        if rig is not None and place is not None:
            first[rig] = place
    return sorted(first, key=lambda rig: first[rig])


def _free(state: _State, todo: _Todo) -> _State:
    """All that is ready at the bench or with what stands on the machines."""
    while True:
        before = len(state.done)
        state = _all_with(state, todo[None])
        for _, rig in state.standing:
            state = _all_with(state, todo.get(rig, ()))
        if len(state.done) == before:
            return state


def _with_rig(state: _State, rig: int, todo: _Todo) -> _State:
    machine = todo[rig][0].machine
    standing = tuple(sorted((dict(state.standing) | {machine: rig}).items()))
    return _all_with(_State(state.done, standing, state.order), todo[rig])


def _all_with(state: _State, todo: Sequence[_Pass]) -> _State:
    """All of these that can be reached one after another, set-up after set-up."""
    waiting = [each for each in todo if each.key not in state.done]
    if not any(each.after <= state.done for each in waiting):
        return state
    done, order = set(state.done), list(state.order)
    last: _Pass | None = None
    while True:
        ready = [each for each in waiting if each.after <= done]
        if not ready:
            return _State(frozenset(done), state.standing, tuple(order))
        held = {each.standing for each in waiting if not each.after <= done}
        chosen = min(ready, key=lambda each: _rank(each, last, held))
        done.add(chosen.key)
        order.append(chosen.key)
        waiting.remove(chosen)
        last = _stands(last, chosen)


def _stands(last: _Pass | None, own: _Pass) -> _Pass:
    """Whose set-up stands after a pass: one to a mark leaves the stop as it is."""
    if last is None or last.stands is None or own.stands is None:
        return own
    is_marked = not own.stands.figures and last.stands.rig == own.stands.rig
    return last if is_marked else own


def _rank(each: _Pass, last: _Pass | None, held: Container[int | None]) -> tuple[object, ...]:
    """First what needs no new set-up, then a set-up of which nothing waits, figures rising.

    Of equals the one that was named first: boards and parts come in their own order.
    """
    standing = None if last is None else last.stands
    is_new = each.stands is not None and (standing is None or not serves(standing, each.stands))
    return (is_new, each.standing in held, each.rises, each.turn)
