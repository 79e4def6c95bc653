"""Drill press, router and router table have room in every work; where they are robbed of it, the
work goes another way and says so, or a checker of solids finds it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture.making.in_hand import base_bears
from furniture.making.operations import Operation, Support
from furniture.making.settings import Bored, Machine, Trench
from furniture.shop.tools.on_hand import Would
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import ShopRead, TooMuch
from tests.making.hand_made import HandMade
from tests.making.history import moments_of
from tests.making.machine_room import machine_faults
from tests.making.made import Made, amiss, made, model
from tests.making.replay import replay
from tests.models import NAMES, piece_of


def told(whole: Made, shop: ShopRead | None = None, *changed: Operation) -> list[str]:
    """What has no room; `shop` has other machines than the work was made for."""
    given = {each.key: each for each in changed}
    operations = tuple(given.get(each.key, each) for each in whole.making.operations)
    making = HandMade(whole.making.workpieces, operations)
    done = replay(making, whole.target.tool, whole.target.segments, standing=whole.placed.matrices)
    return [str(each) for each in machine_faults(moments_of(making, done), shop or whole.shop)]


def _on(whole: Made, machine: Machine, kind: type) -> list[Operation]:
    return [
        each
        for each in whole.making.operations
        if each.rig is not None and each.rig.machine is machine and isinstance(each.setting, kind)
    ]


@pytest.mark.parametrize("name", NAMES)
def test_every_machine_has_room_in_a_model(name: str) -> None:
    assert told(model(name)) == []


def test_a_bore_beyond_the_throat_is_drilled_by_hand_and_says_so() -> None:
    """The drains of the herb stand lie 55 mm from the front edge, and nearest to that."""
    usual = usual_or(None, piece_of("herb_stand").shown)
    assert _on(model("herb_stand"), Machine.DRILL_PRESS, Bored)
    short = replace(usual, drills=replace(usual.drills, throat_mm=50.0))
    whole = made(piece_of("herb_stand"), shop=short)
    far = [each for each in whole.making.operations if each.refused is not None
           and each.refused.machine is Machine.DRILL_PRESS]  # fmt: skip
    assert far
    assert all(each.refused is not None and each.refused.why == (TooMuch.FAR_IN,) for each in far)
    assert all(each.rig is not None and each.rig.machine is Machine.BENCH for each in far)
    assert sorted(map(str, amiss(whole).faults)) == []
    assert any("the column stands" in each for each in told(model("herb_stand"), short))


def _routed_yarn(**bits: float) -> Made:
    steps = piece_of("yarn_steps")
    usual = usual_or(None, steps.shown)
    assert usual.bits is not None
    return made(steps, shop=replace(usual, bits=replace(usual.bits, **bits)))


def test_a_channel_deeper_than_any_bit_reaches_is_cut_by_hand_and_names_what_would() -> None:
    """The stopped dados of the uprights are a quarter of an inch deep."""
    whole = _routed_yarn(deepest_mm=5.0)
    deep = [
        each
        for each in whole.making.operations
        if each.wanting is not None and each.wanting.would is Would.LONG_BIT
    ]
    sawn = _on(whole, Machine.TABLE_SAW, Trench)
    assert deep or any(each.begins for each in sawn)
    assert not _on(whole, Machine.ROUTER, Trench)
    assert told(whole) == []
    assert any("too short" in each for each in told(model("yarn_steps"), whole.shop))


def test_a_part_too_narrow_for_the_routers_base_is_packed_out() -> None:
    """Of a base of 400 mm too little bears on an upright 5 3/4 in wide."""
    whole = _routed_yarn(base_mm=400.0)
    routed = _on(whole, Machine.ROUTER, Trench)
    assert routed
    assert {each.support for each in routed} == {Support.PACKED}
    assert told(whole) == []
    bare = [replace(each, support=None) for each in routed]
    assert told(whole, None, *bare)
    plain = _on(model("yarn_steps"), Machine.ROUTER, Trench)
    assert {each.support for each in plain} == {None}


def test_what_lies_further_in_than_the_tables_fence_moves_is_routed_along_a_straight_edge() -> None:
    """Without a dado head the grooves of a box are routed."""
    box = piece_of("button_box")
    usual = usual_or(None, box.shown)
    assert usual.bits is not None
    routed = replace(usual, head=None)
    near = made(box, shop=routed)
    assert _on(near, Machine.ROUTER_TABLE, Trench)
    none = made(box, shop=replace(routed, bits=replace(usual.bits, reach_mm=0.5)))
    assert not _on(none, Machine.ROUTER_TABLE, Trench)
    assert told(none) == []
    assert any("not so far" in each for each in told(near, none.shop))


def test_how_much_of_a_base_bears_at_an_edge_and_on_a_strip() -> None:
    """A strip as wide as the radius, R to R/2 each way: by hand 0.609 of the disc."""
    far = 1000.0
    assert base_bears(75.0, ((0.0, far), (far, far))) == pytest.approx(0.5)
    assert base_bears(75.0, ((far, far), (far, far))) == pytest.approx(1.0)
    assert base_bears(75.0, ((37.5, 37.5), (far, far))) == pytest.approx(0.609, abs=1e-3)
    assert base_bears(75.0, ((10.0, 10.0), (10.0, 10.0))) == pytest.approx(400 / (math.pi * 75**2))
