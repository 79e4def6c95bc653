"""Wood that is too small for a machine, or has none: the next tool does it, and says why."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.work import WorkWords
from furniture.making.operations import Kind
from furniture.making.settings import Guide, Machine, Skim
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import TooMuch
from tests.making.made import amiss, made
from tests.making.targets import SAME_MM3
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models


def _made(name, **without):
    piece = piece_of(name)
    shop = replace(usual_or(None, piece.shown), **without)
    return made(piece, shop=shop)


def test_tiers_shorter_than_the_fence_takes_are_ripped_on_the_sled():
    made = _made("herb_stand")
    widths = {each.takes[0]: each for each in made.making.operations
              if each.key.endswith(": width")}  # fmt: skip
    for name in ("tier 2", "tier 3", "tier 4"):
        rip = widths[name]
        assert rip.kind is Kind.RIP
        assert rip.rig.guide is Guide.SLED
        assert rip.refused.why == (TooMuch.SHORT,)
        assert rip.in_hand.length_mm < made.shop.saw.shortest_rip_mm
    feet = next(each for name, each in widths.items() if name == "foot strip")
    assert feet.kind is Kind.PLANE_WIDTH
    assert feet.refused.why == (TooMuch.NARROW,)


@pytest.mark.parametrize("name", NAMES)
def test_without_a_jointer_no_long_edge_is_planed_by_hand(name):
    made = _made(name, jointer=None)
    for each in made.making.operations:
        if each.kind is Kind.JOINT_EDGE:
            assert each.refused.machine is Machine.JOINTER
            assert each.refused.why == ()
            wide = each.in_hand.width_mm >= made.shop.saw.narrowest_rip_mm
            if wide and each.in_hand.length_mm >= made.shop.saw.shortest_rip_mm:
                assert each.rig.guide is Guide.CARRIER
                assert isinstance(each.setting, Skim)
            if each.rig.machine is Machine.BENCH:
                said = WorkWords(made.piece, made.making).line_of(each)
                assert "no jointer on hand" in said


@pytest.mark.parametrize("without", [{}, {"jointer": None}, {"jointer": None, "planer": None}])
@pytest.mark.parametrize("name", NAMES)
def test_the_parts_come_out_as_they_should_and_in_order(name, without):
    found = amiss(_made(name, **without))
    assert max(found.parts.values(), default=0.0) < SAME_MM3
    assert not found.faults
