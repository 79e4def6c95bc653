"""Stopped cuts: a round cutter ends short of a square end, and the chisel cuts the rest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.work import WorkWords
from furniture.blanks import common_blanks, runs_round_corners
from furniture.making.making import making_of
from furniture.making.operations import Kind
from furniture.making.settings import CutterKind, Trench
from furniture.making.why import Why
from furniture.parts.faces import Face
from furniture.shop.tools.on_hand import Would
from furniture.shop.tools.reading import usual_or
from tests.making.made import amiss, made
from tests.making.targets import SAME_MM3
from tests.models import piece_of

pytestmark = pytest.mark.some_models


def _made(name, **without):
    piece = piece_of(name)
    shop = replace(usual_or(None, piece.shown), **without)
    commons = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf_mm)
    return piece, shop, making_of(piece, commons, shop)


def _begun(making):
    return [each for each in making.operations if each.begins]


def test_without_a_router_the_head_stops_short_by_its_run_out_and_a_chisel_goes_on():
    """By hand: sqrt(101.6^2 - (101.6 - 6.35)^2) = 35.36 beyond full depth, for 8 in and 1/4 in."""
    _, _, making = _made("yarn_steps", bits=None)
    begun = _begun(making)
    assert len(begun) == 10
    for each in begun:
        assert each.rig.cutter.kind is CutterKind.DADO_HEAD
        assert each.setting.run_out_mm == pytest.approx(35.36, abs=0.01)
        assert each.setting.marks_mm == (pytest.approx(12.7), 0.0) or (
            each.setting.marks_mm == (0.0, pytest.approx(12.7))
        )
        stopped = Face.FACE_EDGE if each.setting.whole_low_mm else Face.BACK_EDGE
        assert each.hold.against is stopped, "the saw comes last to the edge at the sled's fence"
        (chopped,) = (one for one in making.operations if set(one.cuts) & set(each.begins))
        assert chopped.kind is Kind.CHOP
        assert chopped.setting.run_out_mm == 0.0
        assert [one.why for one in chopped.after if one.key == each.key] == [Why.DEPTH_FIRST]


@pytest.mark.parametrize("name", ["yarn_steps", "key_rack"])
def test_with_a_router_the_radius_of_its_bit_is_left_for_the_chisel(name):
    _, _, making = _made(name)
    assert _begun(making)
    for each in _begun(making):
        assert each.rig.cutter.kind is CutterKind.STRAIGHT_BIT
        assert each.setting.corner_mm == each.rig.cutter.size_mm / 2


def test_no_wood_is_lowered_onto_a_head_between_two_stops():
    _, shop, making = _made("key_rack", bits=None)
    assert shop.head is not None
    (groove,) = (each for each in making.operations if each.kind is Kind.GROOVE)
    assert not _begun(making)
    assert groove.rig.cutter.kind is CutterKind.CHISEL
    assert groove.wanting.would is Would.STRAIGHT_BIT


@pytest.mark.parametrize("without", [{"bits": None}, {"head": None}, {"bits": None, "head": None}])
@pytest.mark.parametrize("name", ["yarn_steps", "key_rack"])
def test_the_parts_come_out_of_the_settings_whatever_is_on_hand(name, without):
    piece, shop, _ = _made(name, **without)
    found = amiss(made(piece, shop=shop))
    assert max(found.parts.values(), default=0.0) < SAME_MM3
    assert not found.faults


@pytest.mark.parametrize("name", ["yarn_steps", "key_rack"])
def test_what_no_tool_makes_says_what_would(name):
    piece, _, making = _made(name, bits=None, head=None)
    words = WorkWords(piece, making)
    wanting = [each for each in making.operations if each.wanting is not None]
    assert {each.kind for each in wanting} >= {Kind.PROFILE}
    for each in wanting:
        assert each.wanting.would.value in words.line_of(each)
    channels = [each for each in making.operations if isinstance(each.setting, Trench)]
    assert all(each.wanting is not None for each in channels)
