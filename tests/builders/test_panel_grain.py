"""Grain from front to back: worked by hand, edges where they are seen, what moves and bends."""

from __future__ import annotations

from typing import Any

import pytest

from furniture import (
    TOP_FRONT,
    BackPanel,
    BackRail,
    Bracket,
    Cable,
    CordNotch,
    DadoEnds,
    EdgeProfile,
    FingerHold,
    LidFixing,
    Lip,
    LipEdge,
    Load,
    LoadKind,
    Opening,
    OpeningFor,
    PanelGrain,
    ProfileKind,
    Stock,
    Tier,
    TierEdge,
    TierRule,
    Uprights,
    inches,
)
from furniture.checks.check import Verdict
from furniture.checks.rows.seasons import GLUED_ACROSS, LOOSE_GAP
from furniture.checks.rows.shelves import BENDING, HAND_BENDING
from furniture.parts.vectors import RIGHT
from furniture.pieces import Piece, bought_parts, placed_named
from furniture.solids.make import solid_of
from tests.builders.bench import (
    a_box,
    a_stand,
    bending_of,
    box_round,
    by_uprights,
    is_wood,
    oak,
    part,
    problems_of,
    proved,
    seasons_of,
)
from tests.builders.test_back_panel import backed
from tests.builders.test_footed_stands import footed

ACROSS, ALONG = PanelGrain.ACROSS, PanelGrain.ALONG
CORD = Cable(diameter="6 mm")
SEEN: dict[str, Any] = {
    "profiles": [EdgeProfile(on="tier 1", edges=[TOP_FRONT], kind=ProfileKind.CHAMFER,
                             radius="3 mm")],
    "openings": [Opening(on="tier 1", size="12 mm", from_left="30 mm", from_edge="30 mm")],
    "cord_notches": [CordNotch(on="tier 1", passes=CORD, edge=TierEdge.LEFT,
                               from_corner="25 mm")],
}  # fmt: skip


@pytest.fixture(scope="module")
def piece() -> Piece:
    """The stand of round figures, all that lies flat turned but its upper tier."""
    return a_stand(own_grain={"tier 1": ACROSS, "lid": "across"}, **SEEN).build()


def test_a_turned_tier_and_lid_by_hand(piece: Piece) -> None:
    """The lid's gap for the seasons is now at its sides: 1 there and beside the post, 0.5 else."""
    tier, lid = part(piece, "tier 1"), part(piece, "lid")
    assert tier.blank.size == pytest.approx((106, 200, 10))
    assert lid.blank.size == pytest.approx((179, 278, 10))
    assert solid_of(lid).Volume() == pytest.approx((179 * 278 - 102 * 4) * 10)
    low, high = box_round(piece, "lid")
    assert (low[:2], high[:2]) == (pytest.approx((11, 10.5)), pytest.approx((289, 189.5)))
    assert part(piece, "tier 2").blank.size == pytest.approx((160, 86, 10))
    proved(piece)


def test_edges_and_places_are_where_they_are_seen(piece: Piece) -> None:
    """Chamfer in front, hole 30 from left and front, notch in the left edge 25 from the front."""
    top = box_round(piece, "tier 1")[1][2]
    assert not is_wood(piece, "tier 1", 150, 81, top - 1)
    assert is_wood(piece, "tier 1", 150, 84, top - 1)
    assert is_wood(piece, "tier 1", 248, 150, top - 1)
    for x, y, wood in ((80, 110, 0), (80, 118, 1), (54, 105, 0), (54, 111, 1), (54, 99, 1)):
        assert is_wood(piece, "tier 1", x, y, top - 5) == bool(wood), (x, y)


HARD: list[tuple[str, Any]] = [
    ("everything on a post", a_stand(
        own_grain={"tiers": ACROSS, "bottom": ACROSS}, bottom=oak("6 mm"), back_rail=BackRail(),
        lips=[Lip(on="tier 1", edges=list(LipEdge))], brackets=[Bracket(on="tier 1", count=2)],
        openings=[Opening(on="tiers", size="8 mm", from_edge="20 mm", purpose=OpeningFor.DRAIN)],
        cord_notches=[CordNotch(on="tier 2", passes=CORD, edge=edge) for edge in TierEdge],
        shown=inches(),
    )),
    ("routed and stopped", by_uprights(
        own_grain={"tiers": ACROSS}, uprights=Uprights(depth="120 mm", bit_radius="3 mm"),
        cord_notches=[CordNotch(on="tiers", passes=CORD)],
    )),
    ("through", by_uprights(
        own_grain={"tier 2": ACROSS}, bottom=oak("6 mm"),
        uprights=Uprights(depth="120 mm", dado_ends=DadoEnds.THROUGH),
        tiers=TierRule(count=2, depth="130 mm", rise="120 mm"),
    )),
    ("on a turned foot", footed(own_grain={"foot board": ACROSS, "tier 2": ACROSS})),
    ("a box", a_box(own_grain={"lid": ACROSS, "bottom": ACROSS}, bottom=oak("6 mm"))),
    ("a box, bored", a_box(own_grain={"lid": ACROSS}, finger_hold=FingerHold.BORE)),
    ("a back that lies", backed(back_panel=BackPanel(stock=oak("7 mm"), grain=ALONG))),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved(hard: tuple[str, Any]) -> None:
    proved(hard[1].build())


def test_a_turned_bottom_is_pinned_at_its_ends_in_front_and_behind() -> None:
    """And its finger hold stays in front."""
    piece = dict(HARD)["a box"].build()
    pinned = [each.into for each in piece.joinings if each.incoming == "bottom" and each.fasteners]
    assert pinned == ["front rail", "back rail"]
    assert not is_wood(piece, "lid", 150, 13, box_round(piece, "lid")[1][2] - 5)


def test_a_tier_that_stands_out_is_stiffer_turned_and_one_between_uprights_weaker() -> None:
    """A hand beside its strength, at the post and between two uprights."""

    def use(design: Any) -> float:
        (found,) = bending_of(design.build(), HAND_BENDING)
        assert found.value is not None
        assert found.limits.cautions is not None
        return found.value / found.limits.cautions

    turned = {"own_grain": {"tiers": ACROSS}}
    assert use(a_stand(**turned)) < 0.5 * use(a_stand())
    assert use(by_uprights(**turned)) > 2.0 * use(by_uprights())


def test_what_breaks_across_its_grain_is_told_to_be_turned() -> None:
    """A person on a turned tier: bearing it in its middle would not save it, turning it helps."""
    person = Load(
        on="tier 2", mass="90 kg", footprint=("80 mm", "80 mm"), centre_height="900 mm",
        kind=LoadKind.COMES_AND_GOES,
    )  # fmt: skip
    (breaks,) = bending_of(
        by_uprights(own_grain={"tiers": ACROSS}, loads=[person]).build(), BENDING
    )
    assert breaks.verdict is Verdict.FAIL
    assert breaks.advice.startswith("turn its grain")
    assert breaks.value is not None
    assert breaks.limits.fails is not None
    (along,) = bending_of(by_uprights(loads=[person]).build(), BENDING)
    assert along.value is not None
    assert along.limits.fails is not None
    assert along.value / along.limits.fails < 0.5 * breaks.value / breaks.limits.fails


def test_a_turned_tier_spreads_its_uprights_and_the_advice_cures_it() -> None:
    """The back rail keeps them apart below; turned back, or of a sheet, nothing moves."""
    wide = {"base_width": "500 mm"}
    held = [
        each
        for each in seasons_of(
            by_uprights(own_grain={"tiers": ACROSS}, **wide).build(), GLUED_ACROSS
        )
        if "back rail" in each.subject
    ]
    (fails,) = held
    assert fails.verdict is Verdict.FAIL
    assert fails.advice.startswith("turn its grain, so that it runs from one to the other")
    assert "sheet stock" in fails.advice
    ply = Stock(name="ply", species="birch plywood 9 mm", thickness="9 mm")
    for cured in (by_uprights(**wide),
                  by_uprights(own_grain={"tiers": ACROSS}, thin=ply, **wide)):  # fmt: skip
        assert not [
            each
            for each in seasons_of(cured.build(), GLUED_ACROSS)
            if each.verdict is Verdict.FAIL or (each.is_amiss and "back rail" in each.subject)
        ]


def test_a_lid_turned_in_the_gaps_of_one_that_is_not_jams() -> None:
    """The room for its seasons is across its grain: left out, it follows the width."""
    tight = a_box(own_grain={"lid": ACROSS}).build()
    (jams,) = [each for each in seasons_of(tight, LOOSE_GAP) if "front rail" in each.subject]
    assert jams.verdict is Verdict.FAIL
    roomy = a_box(own_grain={"lid": ACROSS}, lid_gap_across=None).build()
    assert not [each for each in seasons_of(roomy, LOOSE_GAP) if each.is_amiss]


def test_a_back_that_lies_is_pinned_at_one_height_and_has_room_below() -> None:
    """It moves in height: 5.5 into either upright, and the more room over the rail."""
    piece = dict(HARD)["a back that lies"].build()
    assert [each.quantity for each in bought_parts(piece) if each.name == "panel pin"] == [1]
    assert placed_named(piece, "back panel").placement.x_axis == RIGHT
    low, high = box_round(piece, "back panel")
    assert (low[0], high[0], high[2]) == pytest.approx((12.5, 307.5, 439.5))
    assert low[2] > 81.5


REFUSED: list[tuple[Any, str, str]] = [
    (a_stand(own_grain={"lids": ACROSS}), "own_grain['lids']", "write 'lid'"),
    (a_stand(own_grain={"post": ACROSS}), "own_grain['post']", "write one of these, such as 't"),
    (a_stand(own_grain={"tiers": "acros"}), "own_grain['tiers']", "write PanelGrain.ACROSS"),
    (a_stand(own_grain=ACROSS), "own_grain", "write {'tiers': PanelGrain.ACROSS}"),
    (a_stand(own_grain={"lid": ACROSS}, lid_fixing=LidFixing.NONE), "own_grain['lid']", "write"),
    (a_stand(own_grain={"lid": ACROSS}, lid_fixing=LidFixing.CLEATS), "own_grain['lid']", "leave"),
    (a_stand(own_grain={"bottom": ACROSS}, bottom=oak("6 mm")), "own_grain['bottom']", "leave"),
    (a_box(own_grain={"lid": ACROSS}, lid_fixing=LidFixing.SLIDING), "own_grain['lid']", "leave"),
    (backed(back_panel=BackPanel(stock=oak("7 mm"), grain="up")), "back_panel.grain", "write"),
    (a_stand(tiers=[Tier(width="200 mm", depth="90 mm", rise="90 mm", grain=ACROSS)]),  # type: ignore[call-arg]
     "tier 1 grain", "write own_grain={'tier 1': PanelGrain.ACROSS}"),
    (a_stand(tiers=TierRule(width="200 mm", depth="90 mm", rise="90 mm", stock=oak("9 mm"))),  # type: ignore[call-arg]
     "tiers.stock", "write own_stock={'tiers': Stock(...)}"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_has_no_such_grain_is_refused(given: tuple[Any, str, str]) -> None:
    """By its name, with what to write."""
    design, parameter, remedy = given
    (problem,) = [each for each in problems_of(design) if each.parameter == parameter]
    assert problem.remedy.startswith(remedy)
    assert all((problem.given, problem.allowed, problem.why))


def test_a_bottom_before_stubs_is_turned_where_a_back_rail_takes_their_place() -> None:
    """As its refusal says."""
    a_stand(own_grain={"bottom": ACROSS}, bottom=oak("6 mm"), back_rail=BackRail()).build()
