"""Faults of order and of setting that are planted are found: a replay alone would miss most."""

from __future__ import annotations

import random
from dataclasses import replace
from functools import cache

import pytest

from furniture.making.settings import Cutter, CutterKind, Guide, Machine, Rig, Trench
from furniture.parts.faces import Face
from furniture.shop.cutting.values import Saw
from tests.making.glued_up import of_strips
from tests.making.hand_made import HandMade, post, rails
from tests.making.made import Amiss, amiss, amiss_in, is_found, model
from tests.making.order import faults_of
from tests.making.plant import OUT_MM, Planted, a_fault_of_setting
from tests.making.replay import LIGHT, replay
from tests.making.targets import target_of, unlike
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

SAW = Saw(kerf_mm=3.2, shortest_rip_mm=300.0, narrowest_rip_mm=50.0, shortest_crosscut_mm=200.0)


def told(making: HandMade) -> list[str]:
    """What is amiss in the order of work written by hand."""
    found = faults_of(making, replay(making, None, LIGHT), piece_of("herb_stand"), SAW)
    return [str(each) for each in found]


@pytest.mark.parametrize("making", [rails(), post()], ids=["rails", "post"])
def test_nothing_is_amiss_in_an_order_that_serves(making: HandMade) -> None:
    assert told(making) == []


@pytest.mark.parametrize(
    ("making", "first", "second", "why"),
    [
        (rails(), "A: joint the face", "A: joint the edge", "its back side is cut away later"),
        (post(), "post: square the foot", "post: dado a", "its named end is cut away later"),
        (post(), "post: dado a", "post: trim the top", "trimmed to length before it"),
        (rails(), "left stub: part", "strip: rabbet at the face edge", None),
        (rails(), "strip: square the named end", "left stub: dowel a", "its named end is cut"),
        (rails(), "left side rail: trim", "left side rail: part", "its named end slopes"),
    ],
)
def test_what_comes_too_early_is_told_with_its_reason(
    making: HandMade, first: str, second: str, why: str | None
) -> None:
    if why is None:  # rabbets after mitres: the same wood comes out, and no fence could guide it
        late = next(each for each in making.operations if each.key == second)
        order = [each for each in making.operations if each.key != second]
        order.insert(next(i for i, each in enumerate(order) if each.key == first) + 1, late)
        making, why = HandMade(making.workpieces, tuple(order)), "a mitred end"
    else:
        making = making.swapped(first, second)
    assert any(why in each for each in told(making))


def test_a_replay_alone_sees_no_order() -> None:
    making = post().swapped("post: dado a", "post: trim the top")
    herb = target_of(piece_of("herb_stand"))
    done = replay(making)
    assert {name for name in unlike(done, herb) if name in done.parts} == set()
    assert told(making)


def _changed(making: HandMade, key: str, **changes: object) -> HandMade:
    found = [
        replace(each, **changes) if each.key == key else each  # type: ignore[arg-type]
        for each in making.operations
    ]
    return HandMade(making.workpieces, tuple(found))


def test_a_pass_made_twice_cuts_air() -> None:
    making = post()
    dado = next(each for each in making.operations if each.key == "post: dado c")
    at = making.operations.index(dado)
    twice = (*making.operations[:at], dado, *making.operations[at:])
    assert told(HandMade(making.workpieces, twice)) == ["post: dado c: it takes no wood"]


BLADE = Rig(machine=Machine.TABLE_SAW, cutter=Cutter(kind=CutterKind.BLADE), guide=Guide.FENCE)


def test_what_falls_off_between_fence_and_blade_is_told() -> None:
    making = _changed(post(), "B: rip", rig=BLADE)
    assert told(making) == []
    hold = next(each.hold for each in making.operations if each.key == "B: rip")
    turned = _changed(making, "B: rip", hold=replace(hold, against=Face.BACK_EDGE))
    assert any("between fence and blade" in each for each in told(turned))


def test_a_tilted_blade_asks_for_the_long_face_up_and_the_right_edge() -> None:
    tilted = replace(BLADE, guide=Guide.SLED, tilt_deg=45.0)
    making = rails()
    mitres = [each for each in making.operations if each.key.endswith((": part", ": trim"))]
    for each in mitres:
        making = _changed(making, each.key, rig=tilted)
    small = "too small to crosscut"
    assert [each for each in told(making) if small not in each] == []
    for each in mitres[1:]:
        over = _changed(making, each.key, hold=replace(each.hold, down=Face.FACE_SIDE))
        assert any(each.key in line and "trapped" in line for line in told(over))
        assert each.hold.against is not None
        other = replace(each.hold, against=each.hold.against.opposite)
        turned = _changed(making, each.key, hold=other)
        assert any(each.key in line and "leans the other way" in line for line in told(turned))


def test_wood_too_small_for_a_machine_is_told() -> None:
    jointer = replace(BLADE, machine=Machine.JOINTER, cutter=Cutter(kind=CutterKind.KNIVES))
    making = _changed(rails(), "front rail: part", rig=replace(BLADE, guide=Guide.SLED))
    assert told(making) == []
    short = _changed(rails(), "A: joint the edge", rig=jointer)
    boards = (replace(short.workpieces[0], high=(280.0, 95.0, 21.0)), *short.workpieces[1:])
    done = replay(HandMade(boards, short.operations[:2]), None, LIGHT)
    found = faults_of(HandMade(boards, short.operations[:2]), done, piece_of("herb_stand"), SAW)
    assert [str(each) for each in found] == [
        "A: joint the edge: 280.0 mm is too short for the jointer"
    ]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.seeds(few=3, full=50)
def test_a_planted_fault_of_setting_is_found(name: str, seed: int) -> None:
    known = amiss_in(name)
    faulty = a_fault_of_setting(model(name).making, known.done, random.Random(seed))
    assert is_found(model(name), faulty, known), faulty.what


@pytest.mark.parametrize("by", [OUT_MM, -OUT_MM])
def test_a_width_that_its_passes_do_not_reach_is_found(by: float) -> None:
    """The words tell the fence by the width, while the wood comes out as the passes go."""
    whole, known = model("herb_stand"), amiss_in("herb_stand")
    operation = next(
        each for each in whole.making.operations
        if len(each.near_mm) > 1 and isinstance(each.setting, Trench) and not each.begins
    )  # fmt: skip
    wrong = replace(operation.setting, width_mm=operation.setting.width_mm + by)
    operations = [
        replace(each, setting=wrong) if each is operation else each
        for each in whole.making.operations
    ]
    faulty = Planted(whole.making.workpieces, operations, "width")
    assert is_found(whole, faulty, known)


@cache
def strips_amiss() -> Amiss:
    """What is amiss in work with strips: nothing."""
    return amiss(of_strips())


@pytest.mark.seeds(few=3, full=50)
def test_a_planted_fault_of_setting_is_found_in_strips_too(seed: int) -> None:
    faulty = a_fault_of_setting(of_strips().making, strips_amiss().done, random.Random(seed))
    assert is_found(of_strips(), faulty, strips_amiss()), faulty.what
