"""What presses a glue-up: heads clear of wood, blocks and cauls below them, throats that reach."""

from __future__ import annotations

from dataclasses import replace

import pytest

from exporters.work.clamp_words import pressed_in_words
from furniture import Bracket, FootedStand, Lip, LipEdge, Stock, Tier
from furniture.assembly import assembly_of
from furniture.checks.check import Verdict
from furniture.making.amounts import Reach, gluing_of
from furniture.making.clamp_room import clamp_findings
from furniture.making.glue_ups import (
    Caul,
    GlueUps,
    clusters,
    stages_of,
)
from furniture.pieces import Piece
from furniture.rules import Rules
from furniture.rules.tools import LEAST_BLOCK
from furniture.shop.tools.reading import usual_or
from tests.everywhere.designs import drawn
from tests.making.glue_checker import faults_of
from tests.making.test_glue_ups import SLOW, glued, is_without_fault

pytestmark = pytest.mark.some_models


@pytest.mark.some(few=2)
@pytest.mark.some(few=3)
@pytest.mark.parametrize(
    "seed",
    [621220, 781136, 862908, 918060, 485297, 5032],
    ids=["a bar beside a post", "a head beside a bored post", "play before a lid",
         "play behind a lid", "a rail between uprights", "a block on a slope"],
)  # fmt: skip
def test_clamps_that_once_met_wood_go_by_it(seed: int) -> None:
    """A post that stood right through from head to head was no wood to a bar; a bore's wall, which
    is many facets, none to a head. Across a lid's play nothing is pressed. A rail between uprights
    that tiers hold does not swing. On the slope of a bracket, below a tier, a block would tip."""
    is_without_fault(seed)


BESIDE_A_RIM = 212
"""A design whose heads stand beside wood that rises 6.4 mm: they want blocks."""


def test_a_head_beside_higher_wood_stands_on_a_block_that_clears_it() -> None:
    piece = drawn(BESIDE_A_RIM).piece
    found = stages_of(piece, assembly_of(piece), bench=SLOW)
    assert isinstance(found, GlueUps)
    assert not [each for each in faults_of(piece, found) if "clamp" in each]
    at, stage = next(
        (at, stage)
        for at, stage in enumerate(found.stages)
        if any(pad.caul is Caul.BLOCK for line in stage.clamps for pad in line.pads)
    )
    pads = [pad for line in stage.clamps for pad in line.pads if pad.caul is Caul.BLOCK]
    assert all(pad.rise_mm > 1.0 and pad.free_mm >= 12.0 for pad in pads)
    for changes in ({"caul": Caul.NONE, "rise_mm": 0.0}, {"rise_mm": 2.0}, {"free_mm": 29.0}):
        lines = tuple(
            replace(line, pads=tuple(
                replace(pad, **changes) if pad.caul is Caul.BLOCK else pad for pad in line.pads
            ))
            for line in stage.clamps
        )  # fmt: skip
        stages = (*found.stages[:at], replace(stage, clamps=lines), *found.stages[at + 1 :])
        told = faults_of(piece, replace(found, stages=stages))
        assert any("a clamp" in each and "meets" in each for each in told), changes


def lipped() -> Piece:
    """Two tiers on a post; a strip stands on the lower one, 80 mm below the upper."""
    thick = Stock(name="thick", species="cherry", thickness="22 mm")
    thin = Stock(name="thin", species="cherry", thickness="12 mm")
    tier = Tier(width="220 mm", depth="110 mm", rise="120 mm")
    stand = FootedStand(
        name="lipped", thick=thick, thin=thin, base_width="260 mm", base_depth="200 mm",
        post_width="100 mm", tiers=[tier, tier],
        lips=[Lip(on="tier 1", height="28 mm", edges=[LipEdge.FRONT])],
        brackets=[Bracket(on="tier 1")],
    )  # fmt: skip
    return stand.build()


def test_a_clamp_presses_through_wood_and_not_across_the_room_above_a_lip() -> None:
    """Its head stands on the lip, 80 mm below the tier above; a head on that tier presses none."""
    piece = lipped()
    found = stages_of(piece, assembly_of(piece), bench=SLOW)
    assert isinstance(found, GlueUps)
    assert faults_of(piece, found) == []
    at, stage, line = next(
        (at, stage, line)
        for at, stage in enumerate(found.stages)
        for line in stage.clamps
        if ("tier 1", "tier 1 front lip") in [pair for pair, _ in line.pressed]
    )
    assert {pad.instance for pad in line.pads} == {"tier 1", "tier 1 front lip"}
    low, high = sorted(pad.at[2] for pad in line.pads)
    assert high - low == pytest.approx(12.0 + 28.0)
    above = next(each for each in piece.placed if each.instance == "tier 2").placement.origin[2]
    far = tuple(
        replace(pad, instance="tier 2", at=(*pad.at[:2], above + 12.0))
        if pad.push[2] < 0.0 else pad
        for pad in line.pads
    )  # fmt: skip
    lines = tuple(replace(line, pads=far) if each is line else each for each in stage.clamps)
    planted = (*found.stages[:at], replace(stage, clamps=lines), *found.stages[at + 1 :])
    told = faults_of(piece, replace(found, stages=planted))
    assert any("presses on tier 2" in each for each in told), told


def test_lips_that_are_glued_to_each_other_go_on_their_tier_at_once(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Two strips end to side, with nothing round them, were glued in one stage with the tiers."""
    thin = Stock(name="thin", species="cherry", thickness="12 mm")
    tier = Tier(width="220 mm", depth="110 mm", rise="120 mm")
    piece = FootedStand(
        name="lipped", thick=Stock(name="thick", species="cherry", thickness="22 mm"), thin=thin,
        base_width="260 mm", base_depth="200 mm", post_width="100 mm", tiers=[tier, tier, tier],
        lips=[Lip(on="tier 1", height="28 mm", edges=[LipEdge.FRONT, LipEdge.LEFT])],
    ).build()  # fmt: skip
    found = stages_of(piece, assembly_of(piece))
    assert isinstance(found, GlueUps)
    assert faults_of(piece, found) == []
    (stage,) = [each for each in found.stages if each.at_once]
    lips = ("tier 1 front lip", "tier 1 left lip")
    assert [(each.carrier, each.parts) for each in stage.at_once] == [("tier 1", lips)]
    assert len(stage.glued) == 3
    monkeypatch.setattr(clusters, "on_carriers", lambda joinings: {})
    apart = stages_of(piece, assembly_of(piece))
    assert isinstance(apart, GlueUps)
    assert any("in the air" in each for each in faults_of(piece, apart))


def test_where_no_head_has_room_it_is_told_and_no_clamp_is_counted() -> None:
    """Planted: blocks may not be narrower than 60 mm, so that none fits beside the rim."""
    piece = drawn(BESIDE_A_RIM).piece
    wide = replace(piece, rules=Rules(changed=((LEAST_BLOCK, 60.0),)))
    found = stages_of(wide, assembly_of(wide), bench=SLOW)
    assert isinstance(found, GlueUps)
    told = [each for each in clamp_findings(found) if each.verdict is Verdict.CAUTION]
    shut = [each for each in found.stages if each.unpressed]
    assert len(told) == len(shut) > 0
    for stage in shut:
        lines = {pair for line in stage.clamps for pair, _ in line.pressed}
        assert not lines & set(stage.unpressed)
        assert any("no clamp has room" in each for each in pressed_in_words(stage, None, wide))


def test_what_lies_further_in_than_a_throat_is_pressed_by_a_caul_across() -> None:
    """The lines of the herb stand's tiers lie 56 mm in: tier 1 is 142 deep, the post 112 wide."""
    piece, found = glued("herb_stand")
    (stage,) = [
        each for each in found.stages
        if any("tier 1" in pair for line in each.clamps for pair, _ in line.pressed)
    ]  # fmt: skip
    shop = usual_or(None, piece.shown)
    usual = gluing_of(piece, stage, shop)
    assert {each.reach for each in usual.pressing} == {Reach.HEADS}
    short = replace(shop, clamps=tuple(replace(lot, throat_mm=40.0) for lot in shop.clamps))
    pressing = gluing_of(piece, stage, short).pressing
    far = [each for each in pressing if each.line.throat_mm > 40.0]
    assert len(far) == 3
    assert {each.reach for each in far} == {Reach.CAUL_ACROSS}
    assert all(each.clamps.count >= 2 for each in far)
    assert all(each.reach is Reach.HEADS for each in pressing if each not in far)
