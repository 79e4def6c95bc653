"""Whether the order serves for glue and finish: made ready, sized, sanded, coated, in reach."""

from __future__ import annotations

from collections.abc import Iterator

from furniture.making.operations import Kind
from tests.making.bench import GLUED, Bench, Rule
from tests.making.order import Fault


def _shut_in(bench: Bench) -> Iterator[Fault]:
    """What glue shuts in is sanded, masked and finished while it can be reached, in that order."""
    has_finish = bool(bench.of_kind(Kind.COAT))
    asked = [Kind.SAND, Kind.MASK, Kind.COAT] if has_finish else [Kind.SAND]
    glued = {name for pair in bench.placed.glued_pairs for name in pair}
    first: dict[tuple[str, Kind], int] = {}
    for at, each in bench.done:
        if each.kind in asked:
            for name in set(each.takes) & glued:
                first.setdefault((name, each.kind), at)
        if each.kind in GLUED:
            for name in set(each.takes) & glued:
                order = [first.get((name, kind), at) for kind in asked]
                if order != sorted(set(order)) or order[-1] >= at:
                    yield Fault(each.key, f"the inside of {name} was not made ready before")


def _thirsty(bench: Bench) -> Iterator[Fault]:
    """End grain that is glued is sized before."""
    sized: set[str] = set()
    for each in bench.making.operations:
        names = bench.instances_of(each)
        if each.kind is Kind.SIZE_END_GRAIN:
            sized |= names
        if each.kind in GLUED:
            inside = [set(bench.instances_in(wood)) for wood in each.takes]
            for pair in bench.placed.end_grain_pairs:
                is_closed = any(pair[0] in one and pair[1] not in one for one in inside)
                if is_closed and set(pair) <= names and not set(pair) <= sized:
                    yield Fault(each.key, f"the end grain of {' and '.join(pair)} is dry")


def _sized_and_left(bench: Bench) -> Iterator[Fault]:
    """What is sized is glued next: dust and hands spoil it."""
    waiting: dict[str, str] = {}
    for each in bench.making.operations:
        names = bench.instances_of(each)
        if each.kind is Kind.SIZE_END_GRAIN:
            waiting |= dict.fromkeys(names, each.key)
        for name in names & set(waiting):
            if each.kind in GLUED:
                del waiting[name]
            elif each.kind is not Kind.SIZE_END_GRAIN:
                yield Fault(each.key, f"{name} is sized by then, and not glued")


def _finished_last(bench: Bench) -> Iterator[Fault]:
    """Tools, then paper, then the finish, then what is screwed on or laid in."""
    bodies = bench.of_kind(Kind.GLUE, Kind.PUT_TOGETHER, Kind.LEVEL, Kind.KEY_SLOT, Kind.FLUSH)
    driven = [(at, each) for at, each in bench.of_kind(Kind.FIX) if each.glue_up is not None]
    last = bench.of_kind(Kind.FIX, Kind.LAY_IN, Kind.HANG)
    hung = [(at, each) for at, each in last if each.glue_up is None]
    tools = max((at for at, _ in (*bodies, *driven)), default=-1)
    sanded = max((at for at, _ in bench.of_kind(Kind.SAND)), default=tools)
    coated = max((at for at, _ in bench.of_kind(Kind.COAT)), default=sanded)
    if bodies and sanded < tools:
        yield Fault(bench.making.operations[tools].key, "it comes when all was sanded")
    if coated < sanded:
        yield Fault(bench.making.operations[sanded].key, "it sands through the finish")
    for at, each in hung:
        if at < coated or at < sanded:
            yield Fault(each.key, "the finish comes over it")


def _no_room_for_a_plane(bench: Bench) -> Iterator[Fault]:
    """A plane is swept over the face among what stands there at that moment."""
    for _, each in bench.of_kind(Kind.LEVEL):
        assert each.levelled is not None
        others = bench.instances_of(each) - {each.levelled.instance}
        for name in bench.placed.in_a_planes_way(each.levelled, others):
            yield Fault(each.key, f"{name} stands in the plane's way")


FINISH_RULES: tuple[Rule, ...] = (
    _shut_in,
    _thirsty,
    _sized_and_left,
    _finished_last,
    _no_room_for_a_plane,
)
"""What is asked of every order, whatever the piece."""
