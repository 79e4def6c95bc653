"""The order of the work: the fewest changes of rig, of those few set-ups, of those few ways.

With a rig on, doing all that it can reach is never worse for the rigs than leaving some of it. So a
state is what is done and what stands on each machine, and the search goes breadth first from state
to state: the first that has all done has the fewest changes. What would have to be set again for
work that is not there yet may wait for it, where that asks for no other rig.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from furniture.making.operations import Kind, Operation, Stage
from furniture.making.set_ups import Standing, figures_rise, standing_of
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
    """What is done in which order, and the rig and the last pass on each machine.

    `at` is the machine that the last pass was made on; `ways` how often one went to another.
    """

    done: frozenset[str]
    standing: OnMachines
    order: tuple[str, ...]
    last: Mapping[str, _Pass]
    set_ups: int = 0
    at: str = ""
    ways: int = 0

    @property
    def effort(self) -> tuple[int, int]:
        """What decides between orders that change rigs as often."""
        return self.set_ups, self.ways


def in_order(operations: Sequence[Operation]) -> tuple[Operation, ...]:
    """The operations in an order that keeps every precedence, stage by stage.

    Args:
        operations: all of them; what comes before each is among them.

    Raises:
        ValueError: the precedences go round in a circle.
    """
    by_key = {each.key: each for each in operations}
    state = _State(frozenset(), (), (), {})
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
    """The fewest changes of rig through one stage; of what is found so, the fewest set-ups."""
    wanted = frozenset(each.key for some in todo.values() for each in some)
    layer = _fewest((), [_free(start, todo)])
    while layer:
        reached = list(layer.values())
        while reached and len(layer) < 2 * MOST_STATES:  # all that the rigs that stand can do
            further = _fewest(
                layer,
                (
                    _free(_all_with(each, held), todo)
                    for each in reached
                    for held in _all_held(each, todo)
                ),
            )
            layer |= further
            reached = list(further.values())
        whole = [state for state in layer.values() if wanted <= state.done]
        if whole:
            return min(whole, key=lambda state: state.effort)
        following = _fewest(
            (),
            (
                _free(_with_rig(state, rig, todo), todo)
                for state in layer.values()
                for rig in _rigs_ready(state, todo)
            ),
        )
        most_done = sorted(following.items(), key=lambda each: -len(each[1].done))
        layer = dict(most_done[:MOST_STATES])
    missing = sorted(wanted - start.done)
    raise ValueError(f"no order of {missing}: each waits for another")


_Reached = dict[tuple[frozenset[str], OnMachines], _State]


def _fewest(known: Container[object], states: Iterable[_State]) -> _Reached:
    """Of the states that are not known yet, of those alike the first with the fewest set-ups."""
    found: _Reached = {}
    for state in states:
        key = (state.done, state.standing)
        if key not in known and (key not in found or state.effort < found[key].effort):
            found[key] = state
    return found


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
    """All that is ready at the bench or on the machines, but set-ups that are wanted later too."""
    while True:
        before = len(state.done)
        state = _all_with(state, todo[None])
        for _, rig in state.standing:
            state = _all_with(state, todo.get(rig, ()), waits=True)
        if len(state.done) == before:
            return state


def _all_held(state: _State, todo: _Todo) -> Iterator[list[_Pass]]:
    """What is ready with the rigs that stand but will be set again, set-up by set-up."""
    for _, rig in state.standing:
        several: dict[int | None, list[_Pass]] = {}
        for each in todo.get(rig, ()):
            if each.key not in state.done and each.after <= state.done:
                several.setdefault(each.standing, []).append(each)
        yield from several.values()


def _with_rig(state: _State, rig: int, todo: _Todo) -> _State:
    machine = todo[rig][0].machine
    standing = tuple(sorted((dict(state.standing) | {machine: rig}).items()))
    last = {each: own for each, own in state.last.items() if each != machine}
    return replace(state, standing=standing, last=last)


def _all_with(state: _State, todo: Sequence[_Pass], waits: bool = False) -> _State:
    """All of these that can be reached one after another, set-up after set-up.

    Where it `waits`, a set-up is left that is wanted again for what is not there yet.
    """
    waiting = [each for each in todo if each.key not in state.done]
    if not any(each.after <= state.done for each in waiting):
        return state
    done, order, last = set(state.done), list(state.order), dict(state.last)
    set_ups, ways, at = state.set_ups, state.ways, state.at
    while True:
        ready = [each for each in waiting if each.after <= done]
        held = _held(waiting, done)
        ranked = [(_rank(each, last.get(each.machine), held), each) for each in ready]
        if waits:
            ranked = [each for each in ranked if not (each[0].is_new and each[0].is_held)]
        if not ranked:
            return _State(
                frozenset(done), state.standing, tuple(order), last, set_ups, at=at, ways=ways
            )
        rank, chosen = min(ranked, key=lambda each: each[0])
        done.add(chosen.key)
        order.append(chosen.key)
        waiting.remove(chosen)
        set_ups += rank.is_new
        ways += bool(chosen.machine) and chosen.machine != at
        at = chosen.machine or at
        last[chosen.machine] = _stands(last.get(chosen.machine), chosen)


def _stands(last: _Pass | None, own: _Pass) -> _Pass:
    """Whose set-up stands after a pass: one to a mark leaves the stop as it is."""
    if last is None or last.stands is None or own.stands is None:
        return own
    is_marked = not own.stands.figures and last.stands.rig == own.stands.rig
    return last if is_marked else own


def _held(waiting: Sequence[_Pass], done: Iterable[str]) -> set[int | None]:
    """What would have to be set again: some of its passes wait for more than itself and marks."""
    found: set[int | None] = set()
    for standing in {each.standing for each in waiting}:
        served = [
            each
            for each in waiting
            if each.standing == standing or (each.stands is not None and not each.stands.figures)
        ]
        there = set(done)
        while more := [each for each in served if each.after <= there]:
            there |= {each.key for each in more}
            served = [each for each in served if each.key not in there]
        if any(each.standing == standing for each in served):
            found.add(standing)
    return found


class _Rank(NamedTuple):
    is_new: bool
    is_held: bool
    rises: tuple[float, ...]
    turn: int


def _rank(each: _Pass, last: _Pass | None, held: Container[int | None]) -> _Rank:
    """First what needs no new set-up, then a set-up of which nothing waits, figures rising.

    A pass to a mark needs none, and nothing is set yet where one stands. Of equals the one that was
    named first: boards and parts come in their own order.
    """
    standing = None if last is None else last.stands
    if each.stands is not None and not each.stands.figures:
        is_ready = standing is not None and standing.rig == each.stands.rig
        return _Rank(False, not is_ready, each.rises, each.turn)
    is_new = each.stands is not None and each.stands != standing
    return _Rank(is_new, each.standing in held, each.rises, each.turn)
