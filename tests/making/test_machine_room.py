"""Drill press, router and router table have room in every work; where they are robbed of it, the
work goes another way and says so, or a checker of solids finds it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from exporters.work import WorkWords
from furniture import (
    Along,
    Bore,
    Composition,
    EdgeProfile,
    Face,
    MitredBox,
    PlacedPart,
    ProfileKind,
    Slot,
    cut,
)
from furniture.making.in_hand import base_bears
from furniture.making.operations import Kind, Operation, Refused, Support
from furniture.making.settings import Bored, Easing, Guide, Machine, Notched, Trench
from furniture.parts.cuts import Notch
from furniture.parts.faces import Arris
from furniture.shop.tools.on_hand import Would
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import ShopRead, TooMuch
from tests.making.hand_made import HandMade
from tests.making.history import moments_of
from tests.making.machine_room import machine_faults
from tests.making.made import Made, amiss, is_found, made, model
from tests.making.replay import replay
from tests.making.test_corners import THIN
from tests.making.test_notches import OAK
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


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


def test_a_bit_goes_down_by_a_pass_at_a_time_and_says_to_where() -> None:
    """The dados are a quarter of an inch deep: an eighth, and an eighth more."""
    whole = _routed_yarn()
    dados = _on(whole, Machine.ROUTER, Trench)
    assert {each.depths_mm for each in dados} == {(3.175, 6.35)}
    words = WorkWords(whole.piece, whole.making)
    assert all(words.set_for(each).endswith("bit set to 1/8, then 1/4") for each in dados)
    assert told(whole) == []
    for wrong in ((), (3.175,), (6.35,), (1.0, 6.35), (3.175, 6.35, 9.525)):
        assert told(whole, None, replace(dados[0], depths_mm=wrong)), wrong
    at_once = _routed_yarn(each_pass_mm=6.35)
    assert not any(each.depths_mm for each in at_once.making.operations)
    assert told(at_once) == []
    assert any("at once" in each for each in told(at_once, whole.shop))


def test_small_parts_are_profiled_on_a_carrier() -> None:
    """Rails of 140 mm are long enough for no hand beside a bit; one of 160 is."""
    whole = made(
        MitredBox(
            name="Small", rails=OAK, lid=THIN, width="160 mm", depth="140 mm", height="70 mm",
            profiles=[EdgeProfile(on="rails", edges=[Arris(Face.FACE_SIDE, Face.FACE_EDGE)],
                                  kind=ProfileKind.ROUND_OVER, radius="3 mm")],
        ).build()
    )  # fmt: skip
    eased = _on(whole, Machine.ROUTER_TABLE, Easing)
    on = {each.takes[0]: each.support for each in eased}
    assert on["left side rail"] is on["right side rail"] is Support.CARRIED
    assert on["front rail"] is on["back rail"] is None
    assert told(whole) == []
    words = WorkWords(whole.piece, whole.making)
    (left,) = [each for each in eased if each.takes == ("left side rail",)]
    assert "clamped to a carrier" in words.line_of(left)
    wrong = [replace(each, support=None if each.support else Support.CARRIED) for each in eased]
    assert len(told(whole, None, *wrong)) == len(eased)


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


def test_without_saw_and_table_the_edge_guide_rides_along_the_edge_and_says_how_far() -> None:
    """The groove of the key rack lies 95 from the bottom edge, and is 11.93 wide: 10 and 1.93."""
    rack = piece_of("key_rack")
    usual = usual_or(None, rack.shown)
    assert usual.bits is not None
    bits = replace(usual.bits, has_table=False)
    whole = made(rack, shop=replace(usual, head=None, bits=bits))
    (groove,) = (each for each in _on(whole, Machine.ROUTER, Trench) if each.begins)
    assert groove.rig is not None
    assert groove.rig.guide is Guide.EDGE_GUIDE
    found = amiss(whole)
    assert (found.parts, sorted(map(str, found.faults))) == ({}, [])
    words = WorkWords(rack, whole.making)
    assert "guide 95 from the bit" in words.set_for(groove)
    assert "guide along the bottom edge" in words.line_of(groove)
    eased = _on(whole, Machine.ROUTER, Easing)
    assert {each.rig.guide for each in eased if each.rig is not None} == {Guide.BEARING}

    short = replace(whole.shop, bits=replace(bits, edge_guide_mm=100.0))
    assert any("not so long" in each for each in told(whole, short))
    (along,) = (each for each in _on(made(rack, shop=short), Machine.ROUTER, Trench)
                if each.begins)  # fmt: skip
    assert along.rig is not None
    assert along.rig.guide is Guide.LINE
    assert isinstance(groove.setting, Trench)
    other = replace(groove, setting=replace(groove.setting, off=groove.setting.off.opposite))
    making = [other if each is groove else each for each in whole.making.operations]
    assert is_found(whole, HandMade(whole.making.workpieces, tuple(making)), found)


def test_a_guide_has_no_edge_to_ride_along_where_that_is_gone() -> None:
    piece = Composition(
        name="Slotted",
        parts=[PlacedPart(name="rail", stock=OAK, length="500 mm", width="100 mm", cuts=[
            cut(Notch, edge=Face.FACE_EDGE, start="50 mm", length="400 mm", depth="20 mm"),
            cut(Slot, face=Face.FACE_SIDE, x="200 mm", y="60 mm", width="8 mm", length="40 mm",
                along=Along.GRAIN),
        ])],
    ).build()  # fmt: skip
    whole = made(piece)
    (slot,) = _on(whole, Machine.ROUTER, Bored)
    (notch,) = (each for each in whole.making.operations if isinstance(each.setting, Notched))
    assert slot.rig is not None
    assert slot.rig.guide is Guide.EDGE_GUIDE
    assert told(whole) == []
    order = [each for each in whole.making.operations if each is not notch]
    order.insert(order.index(slot), notch)
    making = HandMade(whole.making.workpieces, tuple(order))
    done = replay(making, whole.target.tool, whole.target.segments)
    found = [str(each) for each in machine_faults(moments_of(making, done), whole.shop)]
    assert any("rides along is not there" in each for each in found)


def test_a_head_and_a_drill_go_only_so_deep_and_then_the_work_goes_another_way() -> None:
    """Rabbets 10 deep, the head rises 8; drains through 13.4, the press comes down 10."""
    herb = piece_of("herb_stand")
    usual = usual_or(None, herb.shown)
    assert usual.head is not None
    less = replace(usual, head=replace(usual.head, deepest_mm=8.0),
                   drills=replace(usual.drills, travel_mm=10.0))  # fmt: skip
    whole = made(herb, shop=less)
    found = amiss(whole)
    assert (found.parts, sorted(map(str, found.faults))) == ({}, [])
    rabbets = [each for each in whole.making.operations if each.kind is Kind.RABBET]
    assert {each.rig.machine for each in rabbets if each.rig} == {Machine.ROUTER_TABLE}
    assert {each.kind for each in _on(whole, Machine.TABLE_SAW, Trench)} == {Kind.DADO}
    begun = [each for each in _on(whole, Machine.DRILL_PRESS, Bored) if each.begins]
    assert len(begun) == 4
    by_hand = [each for each in whole.making.operations if each.key.endswith("on by hand")]
    assert len(by_hand) == 4
    words = WorkWords(herb, whole.making)
    assert all("go on by hand in the same hole" in words.line_of(each) for each in by_hand)
    robbed = told(model("herb_stand"), less)
    assert any("does not come down so far" in each for each in robbed)
    assert any("does not rise so far" in each for each in robbed)


def test_how_much_of_a_base_bears_at_an_edge_and_on_a_strip() -> None:
    """A strip as wide as the radius, R to R/2 each way: by hand 0.609 of the disc."""
    far = 1000.0
    assert base_bears(75.0, ((0.0, far), (far, far))) == pytest.approx(0.5)
    assert base_bears(75.0, ((far, far), (far, far))) == pytest.approx(1.0)
    assert base_bears(75.0, ((37.5, 37.5), (far, far))) == pytest.approx(0.609, abs=1e-3)
    assert base_bears(75.0, ((10.0, 10.0), (10.0, 10.0))) == pytest.approx(400 / (math.pi * 75**2))


def two_holes(first: tuple[str, str], second: tuple[str, str]) -> Made:
    """A board with two holes, each by how far up it is and how wide; one beside the other."""
    board = PlacedPart(
        name="board", stock=OAK, length="300 mm", width="90 mm",
        cuts=[cut(Bore, face=Face.FACE_SIDE, x=x, y="40 mm", diameter=wide)
              for x, wide in (first, second)],
    )  # fmt: skip
    return made(Composition(name="two holes", parts=[board]).build())


def test_a_hole_that_takes_the_middle_of_another_is_bored_after_it() -> None:
    """12 mm wide, its edge lies 6 mm out: the 4 mm hole's middle, 5 mm off, would be in the air."""
    whole = two_holes(("100 mm", "12 mm"), ("105 mm", "4 mm"))
    bored = _on(whole, Machine.DRILL_PRESS, Bored)
    assert [each.setting.diameter_mm for each in bored] == [4.0, 12.0]  # type: ignore[union-attr]
    assert sorted(map(str, amiss(whole).faults)) == []
    order = list(whole.making.operations)
    one, other = (order.index(each) for each in bored)
    order[one], order[other] = order[other], order[one]
    turned = replace(whole.making, operations=tuple(order))
    assert is_found(whole, turned, amiss(whole))


def test_oftwo_holes_that_take_each_others_middle_one_is_filed() -> None:
    whole = two_holes(("100 mm", "10 mm"), ("102 mm", "12 mm"))
    (bored,) = _on(whole, Machine.DRILL_PRESS, Bored)
    (filed,) = [each for each in whole.making.operations if each.refused is not None]
    assert bored.key in [each.key for each in filed.after]
    assert filed.refused == Refused(machine=Machine.DRILL_PRESS, why=(TooMuch.NO_WOOD,))
    assert amiss(whole).parts == {}
    assert sorted(map(str, amiss(whole).faults)) == []
    told = WorkWords(whole.piece, whole.making).line_of(filed)
    assert TooMuch.NO_WOOD.value in told
