"""A shop without a tool: each cut that it cannot make is a caution of the bench."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture import (
    Composition,
    LidFixing,
    PlacedPart,
    ShopRules,
    Slot,
    Stock,
    cut,
    inches,
    millimetres,
)
from furniture.blanks import common_blanks, runs_round_corners
from furniture.checks.finding import Kind, Verdict
from furniture.making.making import making_of
from furniture.making.operations import Kind as Making
from furniture.making.settings import CutterKind
from furniture.making.tools_wanting import tool_findings
from furniture.parts.faces import Face
from furniture.shop.tools.on_hand import ByHand
from furniture.shop.tools.reading import usual_or
from furniture.units import Amounts
from tests.builders.bench import a_box
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


def _found(name, **without):
    return _found_of(piece_of(name), **without)


def _found_of(piece, **without):
    shop = replace(usual_or(None, piece.shown), **without)
    commons = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf_mm)
    making = making_of(piece, commons, shop)
    return making, tool_findings(making, Amounts(shown=piece.shown))


@pytest.mark.parametrize("name", NAMES)
def test_what_the_usual_shop_makes_is_in_order_and_what_it_cannot_make_is_counted(name):
    making, found = _found(name)
    wanting = [each for each in making.operations if each.wanting is not None]
    assert sum(each.value for each in found) == len(wanting)
    assert {each.verdict for each in found} == {Verdict.CAUTION if wanting else Verdict.OK}
    assert {each.check.kind for each in found} == {Kind.BENCH}


@pytest.mark.parametrize("name", NAMES)
def test_each_cut_that_a_bare_shop_cannot_make_has_its_row_with_what_would(name):
    making, found = _found(name, bits=None, head=None)
    wanting = [each for each in making.operations if each.wanting is not None]
    assert wanting
    subjects = {f"{each.takes[0]}, {each.kind.value}" for each in wanting}
    assert {each.subject for each in found} == subjects
    assert sum(each.value for each in found) == len(wanting)
    for each in found:
        assert each.verdict is Verdict.CAUTION
        assert each.basis == "none on hand"
    for each in wanting:
        (row,) = (
            one for one in found
            if one.subject == f"{each.takes[0]}, {each.kind.value}"
            and one.advice.startswith(each.wanting.would.value)
            and Amounts(shown=piece_of(name).shown)(each.wanting.size_mm) in one.advice
        )  # fmt: skip
        assert each.wanting.by_hand.value in row.advice


def test_the_nearest_tool_on_hand_is_named():
    _, found = _found("herb_stand", drills=_drills_without("herb_stand", 12.0))
    (hole,) = {each for each in found if each.is_amiss and "tier 1" in each.subject}
    assert hole.advice.startswith("a drill of 12 mm")
    assert hole.basis.startswith("the nearest on hand is ")


def test_a_slot_that_no_tool_makes_is_called_a_slot():
    slot = cut(Slot, face=Face.FACE_SIDE, x="100 mm", y="30 mm", width="8 mm", length="40 mm")
    board = PlacedPart(
        name="back", stock=Stock(name="oak", species="white oak", thickness="19 mm"),
        length="200 mm", width="60 mm", cuts=slot,
    )  # fmt: skip
    making, found = _found_of(Composition(parts=board).build(), bits=None)
    assert [each.subject for each in found if each.is_amiss] == ["back, rout a slot"]
    (slotted,) = [each for each in making.operations if each.kind is Making.SLOT]
    assert slotted.rig.cutter.kind is CutterKind.SAW_AND_FILE
    assert slotted.wanting.by_hand is ByHand.BORE_AND_FILE, "what has no floor is not chopped"


def test_by_hand_a_plane_runs_along_the_grain_and_only_what_lies_across_is_chopped():
    """A rabbet a metre long was to be sawn down its walls and chopped out."""
    making, _ = _found("herb_stand", head=None, bits=None)
    by_hand = {
        each.kind: each.wanting.by_hand for each in making.operations
        if each.wanting is not None and each.kind in (Making.RABBET, Making.DADO)
    }  # fmt: skip
    assert by_hand == {
        Making.RABBET: ByHand.RABBET_PLANE, Making.DADO: ByHand.SAW_AND_CHISEL,
    }  # fmt: skip


def _drills_without(name, size_mm):
    drills = usual_or(None, piece_of(name).shown).drills
    kept = tuple(each for each in drills.diameters_mm if abs(each - size_mm) > 0.2)
    return replace(drills, diameters_mm=kept)


@pytest.mark.parametrize("shown", [millimetres(0.1), inches(32)], ids=["mm", "in"])
def test_the_usual_shop_routs_the_slots_of_the_usual_cleats(shown):
    piece = a_box(lid_fixing=LidFixing.CLEATS, shown=shown).build()
    _, found = _found_of(piece)
    assert not [each for each in found if "cleat" in each.subject]
    narrow = a_box(lid_fixing=LidFixing.CLEATS, shown=shown).build(
        ShopRules(slot_width="5 mm", slot_width_inch="5 mm")
    )
    _, told = _found_of(narrow)
    assert {each.subject.partition(",")[0] for each in told} >= {"left cleat", "right cleat"}
