"""The order of the work: every precedence kept, and no more changes of rig than an exact search."""

from __future__ import annotations

import heapq
import random
from dataclasses import replace
from itertools import count

import pytest

from furniture.making.operations import After, Kind, Operation, Stage
from furniture.making.order import in_order
from furniture.making.set_ups import set_ups_of
from furniture.making.settings import (
    Cutter,
    CutterKind,
    Guide,
    Hold,
    Machine,
    Rig,
    Slice,
    Trench,
)
from furniture.making.why import Why
from furniture.parts.faces import Face

MACHINES = (Machine.TABLE_SAW, Machine.ROUTER_TABLE, Machine.DRILL_PRESS)


def operation(key, rig, after=(), setting=None, stage=Stage.JOIN):
    return Operation(
        key=key, kind=Kind.DADO, stage=stage, takes=("wood",), gives=("wood",), rig=rig,
        hold=Hold(stop=Face.NAMED_END), setting=setting,
        after=tuple(After(each, Why.BEARS_ON) for each in after),
    )  # fmt: skip


def rig(machine, size):
    return Rig(
        machine=machine,
        cutter=Cutter(kind=CutterKind.STRAIGHT_BIT, size_mm=float(size)),
        guide=Guide.FENCE,
    )


def random_work(dice):
    """Up to nine operations on a few rigs, some at the bench, each after some earlier ones."""
    rigs = [rig(dice.choice(MACHINES), size) for size in range(dice.randint(2, 5))]
    found = []
    for index in range(dice.randint(3, 9)):
        earlier = [each.key for each in found]
        after = dice.sample(earlier, min(len(earlier), dice.randint(0, 2)))
        found.append(operation(f"op {index}", dice.choice([*rigs, None]), after))
    dice.shuffle(found)
    return found


def fewest_changes(operations):
    """By trying every order, operation by operation, cheapest first."""
    by_key = {each.key: each for each in operations}
    tie = count()
    heap = [(0, next(tie), frozenset(), ())]
    seen = {}
    while heap:
        cost, _, done, standing = heapq.heappop(heap)
        if len(done) == len(by_key):
            return cost
        if seen.get((done, standing), 1 << 30) <= cost:
            continue
        seen[done, standing] = cost
        now = dict(standing)
        for key, each in by_key.items():
            if key in done or any(after.key not in done for after in each.after):
                continue
            then, more = dict(now), 0
            if each.rig is not None and now.get(each.rig.machine) != each.rig:
                then[each.rig.machine], more = each.rig, 1
            state = tuple(sorted(then.items(), key=lambda item: item[0].value))
            heapq.heappush(heap, (cost + more, next(tie), done | {key}, state))
    raise AssertionError("no order")


def rig_changes(operations):
    """How often a machine has to be made ready anew."""
    now, count = {}, 0
    for each in operations:
        if each.rig is not None and now.get(each.rig.machine) != each.rig:
            now[each.rig.machine] = each.rig
            count += 1
    return count


@pytest.mark.seeds(few=40, full=1000)
def test_no_order_changes_rigs_less_often(seed):
    work = random_work(random.Random(seed))
    assert rig_changes(in_order(work)) == fewest_changes(work)


@pytest.mark.seeds(few=40, full=1000)
def test_every_operation_stands_once_and_after_what_it_waits_for(seed):
    work = random_work(random.Random(seed))
    order = [each.key for each in in_order(work)]
    assert sorted(order) == sorted(each.key for each in work)
    for each in work:
        for after in each.after:
            assert order.index(after.key) < order.index(each.key)


def test_a_circle_of_waits_is_refused_by_name():
    work = [operation("first", None, ["second"]), operation("second", None, ["first"])]
    with pytest.raises(ValueError, match="first"):
        in_order(work)


def dado(key, near):
    saw = rig(Machine.TABLE_SAW, 13)
    setting = Trench(
        face=Face.FACE_SIDE, along=1, off=Face.NAMED_END, near_mm=near, width_mm=13.0, depth_mm=7.0
    )
    return operation(key, saw, setting=setting)


def test_equal_rises_are_one_set_up_with_a_spacer():
    (set_up,) = set_ups_of([dado("a", 70.0), dado("b", 220.0), dado("c", 370.0)])
    assert set_up.times == 2
    assert [value for _, value in set_up.figures] == [7.0, 70.0, 150.0]


def test_unequal_rises_are_set_each_by_itself():
    assert len(set_ups_of([dado("a", 70.0), dado("b", 220.0), dado("c", 371.0)])) == 3


def test_a_pass_to_a_mark_leaves_the_stop_where_it_is():
    from furniture.making.settings import Skim

    sled = Rig(machine=Machine.TABLE_SAW, cutter=Cutter(kind=CutterKind.BLADE), guide=Guide.SLED)
    stop = Slice(off=Face.NAMED_END, at_mm=105.0, kerf_mm=3.2)
    skim = Skim(face=Face.NAMED_END, takes_mm=0.5, kerf_mm=3.2)
    work = [
        operation("first", sled, setting=stop),
        operation("trim", sled, setting=skim),
        operation("second", sled, setting=stop),
    ]
    (set_up,) = set_ups_of(work)
    assert set_up.operations == ("first", "trim", "second")


def test_a_board_is_sawn_up_before_the_next_though_another_begins_with_a_rip():
    """A rip of board B came first, and the rest of B after all of A."""
    saw = Rig(machine=Machine.TABLE_SAW, cutter=Cutter(kind=CutterKind.BLADE), guide=Guide.LINE)
    kinds = {"A1": Kind.CROSSCUT, "A2": Kind.RIP, "B1": Kind.RIP, "B2": Kind.CROSSCUT}
    work = [
        replace(
            operation(key, saw, [f"{key[0]}1"] if key[1] == "2" else [], stage=Stage.BREAK_OUT),
            kind=kind, is_rough=True,
        )
        for key, kind in kinds.items()
    ]  # fmt: skip
    assert [each.key for each in in_order(work)] == list(kinds)
