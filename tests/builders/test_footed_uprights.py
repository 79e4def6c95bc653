"""Two uprights on a plain foot board: worked by hand, proved, checked, refused."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    BackPanel,
    Bracket,
    Cable,
    CordNotch,
    DadoEnds,
    EdgeProfile,
    FootedStand,
    Lip,
    Load,
    LoadKind,
    PanelGrain,
    Stock,
    Tier,
    TierRule,
    Uprights,
    inches,
)
from furniture.checks.check import Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.shelves import PERSON_BENDING
from furniture.checks.rows.wood_left import SHORT_GRAIN
from furniture.parts.cuts import Mortise
from furniture.parts.faces import Arris, Face
from furniture.pieces import Piece
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from tests.builders.bench import box_round, oak, part, problems_of, proved
from tests.builders.test_bad_input import changed, plain_name, problems_left, stated
from tests.builders.test_footed_stands import footed

PLY = Stock(name="ply, 6", species="birch plywood 6 mm", thickness="6 mm")


def between(**changes: Any) -> FootedStand:
    """Uprights of 120 by 20 on the board of 300 by 200 by 20, two tiers of 130 between them."""
    given: dict[str, Any] = {
        "post_width": None, "uprights": Uprights(depth="120 mm"),
        "tiers": TierRule(count=2, depth="130 mm", rise="120 mm"),
    }  # fmt: skip
    return footed(**{**given, **changes})


@pytest.fixture(scope="module")
def piece() -> Piece:
    return between().build()


BY_HAND = {
    # less two mortises 90.5 long across its grain, 6.7 and the play wide, 12 and a gap of 1 deep
    "foot board": 300 * 200 * 20 - 2 * 90.5 * (6.7 + 0.12) * 13,
    # 30 + 2 x 120 above the board, 12 in it; two dados, 12 short of the front; all but the tenon
    "left upright": 282 * 120 * 20 - 2 * 10.1 * 6 * 108 - 12 * (120 * 20 - 90 * 6.7),
    # 220 between the two and 6 in either; notched round the stops, 10 out in front
    "tier 1": 232 * 130 * 10 - 2 * 22.5 * 6 * 10,
}


@pytest.mark.parametrize("instance", BY_HAND)
def test_the_parts_by_hand(piece: Piece, instance: str) -> None:
    assert solid_of(part(piece, instance)).Volume() == pytest.approx(BY_HAND[instance], rel=1e-6)


def test_they_stand_20_in_from_the_ends_and_from_behind(piece: Piece) -> None:
    """And come down into the board."""
    assert box_round(piece, "left upright")[0] == pytest.approx((20, 60, 8))
    assert box_round(piece, "right upright")[1] == pytest.approx((280, 180, 290))
    plan = proved(piece)
    assert any(("foot board", "left upright") in step.joints for step in plan.steps)


def test_both_mortises_are_cut_at_the_same_stops(piece: Piece) -> None:
    """Each tenon bears in front and has its play behind."""
    first, second = (each for each in part(piece, "foot board").cuts if isinstance(each, Mortise))
    assert (first.second_at_mm, first.second_size_mm) == pytest.approx((60 + 15, 90.5))
    assert replace(first, first_at_mm=second.first_at_mm) == second


def test_by_default_the_board_s_end_is_whole_beside_a_mortise() -> None:
    """20 are enough before 13 of it; 19.5 ask for 39, of which 9.3 are the tenon's shoulder."""
    thick = between(tenon=None, foot=oak("28 mm"), thick=oak("28 mm"), base_width="340 mm").build()
    deep = box_round(thick, "left upright")[0][0]
    assert deep == 30.0, "39 - (28 - 9.3) / 2 is 29.65 and the play"
    found = findings_of(thick, weigh(thick))
    assert not [each for each in found if each.check == SHORT_GRAIN and each.is_amiss]


HARD: list[tuple[str, FootedStand]] = [
    ("with a back", between(back_panel=BackPanel(stock=PLY))),
    ("with a solid back that lies, proud behind", between(
        back_panel=BackPanel(stock=oak("7 mm"), grain=PanelGrain.ALONG), behind_post="0 mm",
    )),
    ("through, flush, turned, in inches", between(
        behind_post="0 mm", post_proud="0 mm", own_grain={"foot board": PanelGrain.ACROSS},
        uprights=Uprights(depth="110 mm", dado_ends=DadoEnds.THROUGH), lips=[Lip(on="tier 1")],
        cord_notches=[CordNotch(passes=Cable(diameter="6 mm"))], shown=inches(),
    )),
    ("by its height and depth, shaped", between(
        overall_height="420 mm", overall_depth="210 mm", beside_uprights="6 mm",
        tiers=[Tier(), Tier(depth="130 mm", rise="100 mm")],
        profiles=[EdgeProfile(on="uprights", edges=[Arris(Face.BACK_SIDE, Face.FACE_EDGE)])],
    )),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved(hard: tuple[str, FootedStand]) -> None:
    proved(hard[1].build())


def test_it_bears_a_person_on_tiers_along_the_grain_and_not_across_it() -> None:
    """The same person on the upper tier."""
    person = Load(on="tier 2", mass="90 kg", footprint=("90 mm", "90 mm"),
                  centre_height="900 mm", kind=LoadKind.PERSON_STANDING)  # fmt: skip
    for grain, fails in ((PanelGrain.ALONG, False), (PanelGrain.ACROSS, True)):
        made = between(loads=[person], own_grain={"tiers": grain}).build()
        told = [
            each
            for each in findings_of(made, weigh(made))
            if each.check == PERSON_BENDING and each.verdict is Verdict.FAIL
        ]
        assert bool(told) is fails


REFUSED: list[tuple[FootedStand, str]] = [
    (between(post_width="100 mm"), "post_width"),
    (footed(post_width=None), "post_width"),
    (between(uprights="two"), "uprights"),
    (between(uprights=Uprights(depth="20 mm")), "uprights.depth"),
    (between(uprights=Uprights(depth="190 mm")), "behind_post"),
    (between(beside_uprights="2 mm"), "beside_uprights"),
    (between(beside_uprights="120 mm"), "beside_uprights"),
    (between(tenon="17 mm"), "tenon"),
    (between(brackets=[Bracket(on="tier 1", reach="4 mm")]), "bracket 1 reach"),
    (between(tiers=TierRule(count=2, width="100 mm", depth="130 mm", rise="120 mm")),
     "tiers.width"),
    (between(back_panel=BackPanel(stock=PLY, width="100 mm")), "back_panel.width"),
    (between(profiles=[EdgeProfile(on="left upright", edges=[
        Arris(Face.FACE_SIDE, Face.NAMED_END)])]), "profile 1 edges"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_cannot_be_made_is_refused_and_its_remedy_works(
    given: tuple[FootedStand, str],
) -> None:
    """By its name, and a stated figure is taken when it is written."""
    stand, parameter = given
    problems = problems_of(stand)
    assert parameter in [plain_name(each.parameter) for each in problems]
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None:
            left = problems_left(changed(stand, problem.parameter, text))
            assert plain_name(problem.parameter) not in left
