"""The order of the work: every precedence kept, and no more changes of rig than an exact search."""

from __future__ import annotations

import heapq
import random
from dataclasses import replace
from itertools import count

import pytest

from furniture.making.bearing import faces_used
from furniture.making.making import Making
from furniture.making.operations import After, Kind, Operation, Stage
from furniture.making.order import in_order
from furniture.making.set_once import set_once
from furniture.making.set_ups import set_ups_of
from furniture.making.settings import (
    Bored,
    Cutter,
    CutterKind,
    Guide,
    Hold,
    Machine,
    Rig,
    Skim,
    Slice,
    Trench,
)
from furniture.making.why import Why
from furniture.parts.faces import Face
from tests.making.set_twice import set_twice

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


def test_what_a_pass_is_measured_from_is_told_in_the_same_order_in_every_run():
    """Of a set of faces each run made another order, and another work.csv."""
    hold = Hold(down=Face.BACK_EDGE, against=Face.FAR_END, stop=Face.NAMED_END)
    bore = Bored(
        face=Face.FACE_EDGE, off=(Face.FAR_END, Face.FACE_SIDE), at_mm=(20.0, 9.0), diameter_mm=8.0,
        depth_mm=None,
    )  # fmt: skip
    used = (Face.FACE_EDGE, Face.BACK_EDGE, Face.NAMED_END, Face.FAR_END)
    assert faces_used(hold, bore) == used


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


def slice_at(key, at_mm, after=(), stage=Stage.JOIN):
    sled = Rig(machine=Machine.TABLE_SAW, cutter=Cutter(kind=CutterKind.BLADE), guide=Guide.SLED)
    setting = (
        Skim(face=Face.NAMED_END, takes_mm=0.5, kerf_mm=3.2)
        if at_mm is None
        else Slice(off=Face.NAMED_END, at_mm=at_mm, kerf_mm=3.2)
    )
    return operation(key, sled, after, setting, stage)


def keys(work):
    return [each.key for each in work]


def test_figures_rise_though_the_first_to_be_ready_is_not_the_least():
    work = [
        slice_at("edge 1", None), slice_at("rip 1", 142.0, ["edge 1"]),
        slice_at("edge 2", None), slice_at("rip 2", 112.0, ["edge 2"]), slice_at("end", None),
    ]  # fmt: skip
    assert keys(in_order(work))[-2:] == ["rip 2", "rip 1"]


def test_parts_that_wait_for_one_another_at_one_stop_keep_their_turn_among_the_others():
    work = [slice_at("foot 1", 36.0), slice_at("foot 2", 36.0, ["foot 1"]), slice_at("tier", 210.0)]
    assert keys(in_order(work)) == ["foot 1", "foot 2", "tier"]


def test_a_jig_waits_for_the_end_that_the_saw_lays_bare():
    jig = rig(Machine.DOWEL_JIG, 6)
    work = [operation("first end", jig), slice_at("saw", 36.0), operation("other", jig, ["saw"])]
    assert keys(in_order(work)) == ["saw", "first end", "other"]


def test_what_is_set_alike_in_two_stages_waits_for_the_later():
    """With its chop at the bench; not where something needs it before."""
    bench = rig(Machine.BENCH, 0)
    work = [
        slice_at("gain", 20.0, stage=Stage.SHAPE),
        operation("chop", bench, ["gain"], stage=Stage.SHAPE),
        slice_at("needed", 20.0, stage=Stage.SHAPE),
        operation("dry", None, ["needed"], stage=Stage.DRY),
        slice_at("its mate", 20.0, ["dry"], stage=Stage.FIT),
    ]
    stages = [each.stage for each in set_once(work)]
    assert stages == [Stage.FIT, Stage.FIT, Stage.SHAPE, Stage.DRY, Stage.FIT]


def test_a_stop_that_is_set_twice_for_nothing_is_found():
    """Between the two another stop is set, which need not be there; where it must, it may be."""

    def found(*waits):
        work = [slice_at("a", 20.0), slice_at("b", 30.0, waits[:1]), slice_at("c", 20.0, waits[1:])]
        return set_twice(Making(workpieces=(), operations=tuple(work), set_ups=set_ups_of(work)))

    assert [(each.first, each.again) for each in found()] == [("a", "c")]
    assert len(found("a")) == 1
    assert found("a", "b") == []


def test_a_pass_to_a_mark_leaves_the_stop_where_it_is():
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
