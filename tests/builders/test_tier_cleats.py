"""Cleats under tiers between uprights: worked by hand, proved, counted by the checks, refused."""

from __future__ import annotations

import math
from typing import Any

import pytest

from furniture import (
    Arris,
    BackPanel,
    Bracket,
    DadoEnds,
    EdgeProfile,
    Face,
    FootedStand,
    Lip,
    Load,
    Opening,
    Screw,
    ShopRules,
    SteppedStand,
    Tier,
    TierCleat,
    TierRule,
    Uprights,
    inches,
)
from furniture.checks.finding import Verdict
from furniture.checks.of_piece import Setting
from furniture.checks.of_piece.slots import slot_findings_of
from furniture.checks.rows.shelves import SAG
from furniture.joints import HoldBy, Role
from furniture.parts.cuts import Bore, Slot
from furniture.parts.placement import box_of
from furniture.pieces import Piece, bought_parts, placed_named
from furniture.solids.make import solid_of
from tests.builders.bench import (
    THICK,
    THIN,
    a_stand,
    bending_of,
    by_uprights,
    oak,
    part,
    problems_of,
    proved,
)
from tests.builders.test_bad_input import changed, plain_name, problems_left, stated


@pytest.fixture(scope="module")
def piece() -> Piece:
    """Tiers 160, 130 and 100 deep on uprights 120 deep and 20 thick, a pair under each."""
    return by_uprights(tier_cleats=[TierCleat()]).build()


def cleats_of(piece: Piece) -> list[str]:
    """Their names."""
    return [each.instance for each in piece.placed if each.instance.endswith("cleat")]


def test_a_cleat_is_a_strip_with_a_hole_and_two_slots(piece: Piece) -> None:
    """120 less 10 in front and 1 behind: 109 by 20 by 10, less slots 6 by 14 and a hole of 4.5."""
    made = part(piece, "tier 1 left cleat")
    slot = 8 * 6 + math.pi * 3**2
    bored = math.pi * 2.25**2
    assert solid_of(made).Volume() == pytest.approx(109 * 20 * 10 - 2 * slot * 10 - bored * 10)
    slots = [each.x_mm for each in made.cuts if isinstance(each, Slot)]
    (hole,) = [each for each in made.cuts if isinstance(each, Bore)]
    assert slots == pytest.approx([0.2 * 109, 0.8 * 109])
    assert hole.x_mm == pytest.approx(54.5)
    assert len(cleats_of(piece)) == 6
    assert part(piece, "tier 3 left cleat").blank.length_mm == pytest.approx(100 - 11)


def test_it_lies_under_its_tier_against_its_upright(piece: Piece) -> None:
    underside = 79.5 + 120 - 10
    for name, x in (("tier 1 left cleat", (20.0, 30.0)), ("tier 1 right cleat", (270.0, 280.0))):
        made = placed_named(piece, name)
        low, high = box_of(made.part.blank, made.placement)
        assert (low[0], high[0]) == pytest.approx(x)
        assert (low[1], high[1]) == pytest.approx((90.0, 199.0))
        assert (low[2], high[2]) == pytest.approx((underside - 20, underside))
        assert abs(made.placement.x_axis[1]) == 1.0  # its grain runs front to back


def test_three_screws_hold_it_without_glue_and_the_outer_two_let_the_upright_move(
    piece: Piece,
) -> None:
    """10 of cleat and 20 of upright less 3: the longest that is sold is 25."""
    held, rests = (each for each in piece.joinings if each.incoming == "tier 1 left cleat")
    assert (held.into, rests.into, rests.fasteners) == ("left upright", "tier 1", ())
    assert held.role is rests.role is Role.SEAT
    assert not held.glue_area_mm2
    assert not rests.glue_area_mm2
    front, middle, back = sorted(held.fasteners, key=lambda each: each.at[1])
    assert {(each.by, each.length_mm, each.into_mm) for each in held.fasteners} == {
        (HoldBy.SCREW, 25.0, 15.0)
    }
    assert middle.slot is None
    assert middle.at == pytest.approx((20.0, 144.5, 79.5 + 110 - 10))
    for outer in (front, back):
        assert outer.slot is not None
        assert abs(outer.slot.along[1]) == 1.0
        assert outer.slot.across_n == middle.side_n  # it bears what stands on it, across the slot
    (bought,) = [each for each in bought_parts(piece) if "screw" in each.name]
    assert (bought.quantity, bought.length_mm) == (18, 25.0)
    assert not [each for each in part(piece, "left upright").cuts if isinstance(each, Bore)]


def test_in_inches_it_is_of_inch_sizes() -> None:
    """3/4 high, 3/8 in from the front; a number 8 in 3/16 and in slots of 1/4."""
    made = part(
        by_uprights(tier_cleats=[TierCleat(on="tier 1")], shown=inches()).build(),
        "tier 1 left cleat",
    )
    assert made.blank.width_mm == pytest.approx(19.05)
    assert made.blank.length_mm == pytest.approx(120 - 9.525 - 1)
    (hole,) = [each for each in made.cuts if isinstance(each, Bore)]
    assert hole.diameter_mm == pytest.approx(25.4 * 3 / 16)
    assert {each.width_mm for each in made.cuts if isinstance(each, Slot)} == {6.35}


HARD: list[tuple[str, SteppedStand | FootedStand, int]] = [
    ("before a back, over a lip, unlike thicknesses", by_uprights(
        tier_cleats=[TierCleat(on="tier 1", stock=THICK, height="35 mm", set_back="0 mm"),
                     TierCleat(on="tier 2")],
        brackets=[Bracket(on="tier 3")], back_panel=BackPanel(stock=oak("6 mm")),
        lips=[Lip(on="tier 1", height="12 mm")], own_stock={"tier 2 right cleat": oak("14 mm")},
        profiles=[EdgeProfile(on="tier 1 left cleat",
                              edges=[Arris(Face.FACE_SIDE, Face.FACE_EDGE)])],
        shown=inches(),
    ), 4),
    ("on a foot board", FootedStand(
        thick=THICK, thin=THIN, base_width="360 mm", base_depth="220 mm",
        uprights=Uprights(depth="120 mm", dado_ends=DadoEnds.THROUGH),
        tiers=TierRule(count=2, depth="150 mm", rise="120 mm", step_back_depth="30 mm"),
        tier_cleats=[TierCleat(screw=Screw(diameter="3.5 mm", length="22 mm", name="brass"))],
    ), 4),
    ("as short as they may be", by_uprights(
        uprights=Uprights(depth="64 mm"), tier_cleats=[TierCleat(on="tier 2")],
        tiers=TierRule(count=2, depth="80 mm", rise="120 mm"),
    ), 2),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved_and_go_together(hard: tuple[str, Any, int]) -> None:
    _, stand, count = hard
    piece = stand.build()
    plan = proved(piece)
    cleats = cleats_of(piece)
    assert len(cleats) == count
    order = [name for each in plan.steps for name in each.moving]
    for each in cleats:  # pressed up under a tier that is there
        assert order.index(each) > order.index(each[:6])


def test_its_slots_let_the_upright_travel_from_the_screw_that_holds_still(piece: Piece) -> None:
    """Told of the upright and not of the tier that lies over them; too short ones are told."""
    (found,) = [each for each in slot_findings_of(piece, Setting()) if "cleat" in each.subject]
    assert "on left upright" in found.subject
    assert "32.7 mm from the screw that holds it still" in found.basis
    assert found.verdict is Verdict.OK
    short = by_uprights(tier_cleats=[TierCleat()]).build(ShopRules(slot_length="6.3 mm"))
    (found,) = [each for each in slot_findings_of(short, Setting()) if "cleat" in each.subject]
    assert found.verdict is Verdict.CAUTION


@pytest.mark.parametrize("under", [{"tier_cleats": [TierCleat()]}, {"brackets": [Bracket()]}])
def test_what_is_under_a_tier_follows_its_measured_thickness(under: dict[str, Any]) -> None:
    """The tier's top stays where it is, and so does a cleat's upright; a short screw follows."""
    given = {"tier 1": 9.4, "tier 2 left cleat": 12.3, "left upright": 17.2}
    piece = by_uprights(**under).build(thicknesses=given)
    lower = [each for each in piece.placed if each.instance.startswith("tier 1 ")]
    tops = [box_of(each.part.blank, each.placement)[1][2] for each in lower]
    assert tops == pytest.approx([79.5 + 120 - 9.4] * 2)
    for each in piece.joinings:
        for screw in each.fasteners:
            assert screw.into_mm <= given["left upright"] - 3


def test_cleats_shorten_the_span_that_sags() -> None:
    """A wide one takes more of it than a narrow one."""
    load = Load(on="tier 1", mass="20 kg", footprint=("90 mm", "60 mm"), centre_height="50 mm")

    def sag(**given: Any) -> float:
        one = TierRule(count=1, depth="160 mm", rise="120 mm")
        made = by_uprights(base_width="800 mm", tiers=one, loads=[load], **given).build()
        (found,) = [each for each in bending_of(made, SAG) if "tier 1" in each.subject]
        assert found.value is not None
        return found.value

    wide = sag(tier_cleats=[TierCleat(on="tier 1", stock=oak("60 mm"))])
    narrow = sag(tier_cleats=[TierCleat(on="tier 1", stock=THICK)])
    assert wide < 0.9 * narrow < 0.9 * sag()


REFUSED: list[tuple[SteppedStand, str]] = [
    (by_uprights(tier_cleats=[TierCleat(on="lid")]), "tier cleat 1 on"),
    (by_uprights(tier_cleats=[TierCleat(), TierCleat(on="tier 1")]), "tier cleat 2 on"),
    (by_uprights(tier_cleats=[TierCleat(on="tier 1")], brackets=[Bracket(on="tier 1")]),
     "tier cleat 1 on"),
    (by_uprights(tier_cleats=["tier 1"]), "tier cleat 1"),
    (by_uprights(tier_cleats=[TierCleat(height="15 mm")]), "tier cleat 1 height"),
    (by_uprights(tier_cleats=[TierCleat(height="120 mm")]), "tier cleat 1 height"),
    (by_uprights(tier_cleats=[TierCleat(set_back="60 mm")]), "tier cleat 1 set_back"),
    (by_uprights(tier_cleats=[TierCleat(stock=oak("4 mm"))]), "tier cleat 1 stock thickness"),
    (by_uprights(tier_cleats=[TierCleat(stock=oak("90 mm"))]), "tier cleat 1 stock thickness"),
    (by_uprights(tier_cleats=[TierCleat(stock="oak")]), "tier cleat 1 stock"),  # type: ignore[arg-type]
    (by_uprights(tier_cleats=[TierCleat(screw="4 mm")]), "tier cleat 1 screw"),  # type: ignore[arg-type]
    (by_uprights(tier_cleats=[TierCleat(screw=Screw(diameter="6 mm", length="25 mm"))]),
     "tier cleat 1 screw.diameter"),
    (by_uprights(tier_cleats=[TierCleat(screw=Screw(diameter="4 mm", length="30 mm"))]),
     "tier cleat 1 screw.length"),
    (by_uprights(tier_cleats=[TierCleat()], profiles=[
        EdgeProfile(on="tier cleats", edges=[Arris(Face.BACK_SIDE, Face.FACE_EDGE)]),
    ]), "profile 1 edges"),
    (by_uprights(tier_cleats=[TierCleat(on="tier 1")], openings=[
        Opening(on="tier 1", size="12 mm", from_left="12 mm", from_edge="80 mm"),
    ]), "opening 1"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_cannot_be_made_is_refused_and_its_remedy_works(
    given: tuple[SteppedStand, str],
) -> None:
    """By its name, and a stated figure is taken when it is written."""
    stand, parameter = given
    problems = problems_of(stand)
    assert parameter in [plain_name(each.parameter) for each in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None and "thickness" not in problem.parameter:
            left = problems_left(changed(stand, problem.parameter, text))
            assert plain_name(problem.parameter) not in left


def test_before_a_post_a_bracket_is_written_instead() -> None:
    (problem,) = problems_of(a_stand(tier_cleats=[TierCleat(on="tier 1")]))
    assert problem.remedy == "leave it out and write brackets=[Bracket(on='tier 1')]"
    assert not problems_left(a_stand(brackets=[Bracket(on="tier 1")]))


def test_a_tier_that_rises_by_what_is_said_takes_its_cleats() -> None:
    """33 less the tier's 10 and the 5 that stay free are 18: 2 below the usual, 2 over the least.

    28 leave 13, 3 less than a slot of 6 with 5 on either side.
    """

    def low(rise: str) -> SteppedStand:
        tiers = (Tier(depth="160 mm", rise="120 mm"), Tier(depth="130 mm", rise=rise))
        return by_uprights(tiers=tiers, tier_cleats=[TierCleat(on="tier 2")])

    assert part(low("33 mm").build(), "tier 2 left cleat").blank.width_mm == pytest.approx(18.0)
    (problem,) = problems_of(low("28 mm"))
    assert problem.remedy.startswith("let tier 2 rise 3 mm more")
    assert part(low("31 mm").build(), "tier 2 left cleat").blank.width_mm == pytest.approx(16.0)


def test_uprights_as_deep_as_is_said_take_cleats() -> None:
    """62 and 1 behind are 63; uprights of 60 want 3 more."""

    def shallow(depth: str) -> SteppedStand:
        tiers = TierRule(count=1, depth="80 mm", rise="120 mm")
        return by_uprights(
            uprights=Uprights(depth=depth), tiers=tiers, tier_cleats=[TierCleat(on="tier 1")]
        )

    (problem,) = problems_of(shallow("60 mm"))
    assert problem.remedy.startswith("let tier 1 and the uprights be 3 mm deeper")
    assert not problems_left(shallow("63 mm"))


def test_no_screw_that_is_sold_is_told_with_cleats_that_take_one() -> None:
    """Uprights of 10 leave 7 and want 3.5 of a screw: 42 take none of 45, 43 one of 50."""

    def thick(cleat: str) -> SteppedStand:
        uprights = dict.fromkeys(("left upright", "right upright"), oak("10 mm"))
        pair = TierCleat(on="tier 1", stock=oak(cleat))
        return by_uprights(
            base_width="400 mm", dado_depth="4 mm", own_stock=uprights, tier_cleats=[pair]
        )

    (problem,) = problems_of(thick("42 mm"))
    assert plain_name(problem.parameter) == "tier cleat 1 stock"
    told = problem.remedy.split(" thick")[0].removeprefix("use cleats ")
    assert problem.remedy.endswith("which take a screw 50 mm long")
    assert not problems_left(thick(told))
