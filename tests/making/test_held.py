"""Wood in hand as the replay has it, within what the shop's machines take: faults are planted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from furniture.making import rigs
from furniture.making.in_hand import within_limits
from furniture.making.operations import InHand, Kind, Operation, Refused, Stage
from furniture.making.settings import (
    Guide,
    Hold,
    Machine,
    Parallel,
    Setting,
    Skim,
    Slice,
    Surface,
)
from furniture.parts.faces import Face
from furniture.rules import USUAL_RULES
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import TooMuch
from tests.making.hand_made import HandMade
from tests.making.held import held_faults
from tests.making.history import moments_of
from tests.making.made import Made, made, model
from tests.making.replay import replay
from tests.making.test_from_boards import from_boards
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

SHOP = usual_or(None, piece_of("herb_stand").shown)


def told(whole: Made, **changed: Operation) -> list[str]:
    """What is amiss in the wood in hand of a making; `changed` are other operations by key."""
    given = {each.key: each for each in changed.values()}
    operations = tuple(given.get(each.key, each) for each in whole.making.operations)
    making = HandMade(whole.making.workpieces, operations)
    done = replay(making, whole.target.tool, whole.target.segments, standing=whole.placed.matrices)
    return [str(each) for each in held_faults(moments_of(making, done), whole.shop)]


@pytest.mark.parametrize("name", NAMES)
def test_wood_in_hand_is_as_told_and_as_machines_take_it(name: str) -> None:
    assert told(model(name)) == []
    assert told(from_boards(name)[0]) == []


@pytest.mark.parametrize("name", NAMES)
def test_a_shop_without_jointer_or_planer_is_told_so(name: str) -> None:
    shop = replace(usual_or(None, piece_of(name).shown), jointer=None, planer=None)
    assert told(made(piece_of(name), shop=shop)) == []


def _first(machine: Machine) -> Iterator[Operation]:
    for each in model("herb_stand").making.operations:
        if each.rig is not None and each.rig.machine is machine and each.setting is not None:
            yield each


def test_wood_is_guided_as_its_machine_guides_it() -> None:
    """The sled is a jointer's and a router table's as little as a long rip's."""
    for machine, kind in (
        (Machine.JOINTER, Kind.JOINT_EDGE),
        (Machine.TABLE_SAW, Kind.RIP),
        (Machine.ROUTER_TABLE, Kind.PROFILE),
    ):
        at_the_fence = (one for one in _first(machine) if one.rig and one.rig.guide is Guide.FENCE)
        each = next(one for one in at_the_fence if one.kind is kind)
        assert each.rig is not None
        on_a_sled = replace(each, rig=replace(each.rig, guide=Guide.SLED))
        assert any("sled" in line for line in told(model("herb_stand"), it=on_a_sled))


def test_a_kerf_that_is_not_the_blades_is_found() -> None:
    """Half a millimetre more changes no part: only what falls off."""
    sawn = [each for each in _first(Machine.TABLE_SAW) if isinstance(each.setting, Slice | Skim)]
    for each in (sawn[0], sawn[-1]):
        assert isinstance(each.setting, Slice | Skim)
        wide = replace(each.setting, kerf_mm=each.setting.kerf_mm + 0.5)
        found = told(model("herb_stand"), it=replace(each, setting=wide))
        assert any("kerf is not that" in line for line in found)


def test_wood_that_is_told_a_little_too_long_is_found() -> None:
    each = next(_first(Machine.TABLE_SAW))
    assert each.in_hand is not None
    long = replace(each.in_hand, length_mm=each.in_hand.length_mm + 0.1)
    (found,) = told(model("herb_stand"), it=replace(each, in_hand=long))
    assert "in hand is said to be" in found
    (found,) = told(model("herb_stand"), it=replace(each, in_hand=None))
    assert "does not say how large" in found


def test_what_a_machine_does_not_take_is_found() -> None:
    operations = model("herb_stand").making.operations
    by_hand = next(each for each in operations if each.kind is Kind.PLANE_WIDTH)
    at_saw = replace(by_hand, rig=rigs.RIPPING, refused=None)
    assert any("table saw" in each for each in told(model("herb_stand"), it=at_saw))


def test_a_reason_that_is_not_true_or_not_said_is_found() -> None:
    by_hand = next(
        each
        for each in model("herb_stand").making.operations
        if each.refused and each.rig and each.rig.machine is Machine.BENCH
    )
    untrue = Refused(machine=Machine.PLANER, why=(TooMuch.WIDE,))
    assert any("truly for" in each for each in told(model("herb_stand"),
               it=replace(by_hand, refused=untrue)))  # fmt: skip
    silent = replace(by_hand, refused=None)
    assert any("does not say why" in each for each in told(model("herb_stand"), it=silent))


def _milled(kind: Kind, rig: object, setting: Setting) -> Operation:
    return Operation(
        key="board: mill", kind=kind, stage=Stage.BREAK_OUT, takes=("board",), gives=("board",),
        rig=rig, hold=Hold(down=Face.BACK_SIDE), setting=setting,
    )  # type: ignore[arg-type]  # fmt: skip


def test_a_face_wider_than_the_jointer_is_planed_by_hand() -> None:
    """The face lies on its bed, not the edge."""
    assert SHOP.jointer is not None
    wide = InHand(length_mm=900.0, width_mm=SHOP.jointer.widest_mm + 1.0, thickness_mm=25.0)
    face = _milled(Kind.JOINT_FACE, rigs.JOINTED, Surface(face=Face.BACK_SIDE, takes_mm=1.0))
    done = within_limits(face, wide, SHOP, USUAL_RULES)
    assert done.rig == rigs.HAND_PLANED
    assert done.refused == Refused(machine=Machine.JOINTER, why=(TooMuch.WIDE,))
    assert within_limits(face, replace(wide, width_mm=100.0), SHOP, USUAL_RULES).refused is None


def test_a_planer_is_asked_for_what_is_left_under_it() -> None:
    assert SHOP.planer is not None
    left = SHOP.planer.thinnest_mm - 0.5
    thin = _milled(Kind.PLANE, rigs.PLANED, Parallel(off=Face.BACK_SIDE, at_mm=left))
    done = within_limits(
        thin, InHand(length_mm=900.0, width_mm=100.0, thickness_mm=8.0), SHOP, USUAL_RULES
    )
    assert done.refused == Refused(machine=Machine.PLANER, why=(TooMuch.THIN,))
