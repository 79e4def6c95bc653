"""Brackets under the tiers of a post: worked by hand, proved, counted by the checks, refused."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest

from furniture import (
    TOP_FRONT,
    Against,
    Arris,
    At,
    BackPanel,
    BackRail,
    Bracket,
    ButtJoint,
    Composition,
    DadoEnds,
    DadoJoint,
    EdgeProfile,
    Face,
    FlushWith,
    FootedStand,
    Lip,
    Load,
    Opening,
    PlacedPart,
    PostStrips,
    SteppedStand,
    Tier,
    TierRule,
    Uprights,
    Way,
    inches,
    join,
    millimetres,
)
from furniture.checks.advice import Change
from furniture.checks.of_piece import Setting
from furniture.checks.of_piece.joints import joint_findings_of
from furniture.checks.of_piece.supported import supported_of
from furniture.checks.rows.joints import HAND_LEVER
from furniture.checks.rows.shelves import SAG
from furniture.joints import HoldBy
from furniture.parts.cuts import Bore
from furniture.parts.placement import box_of
from furniture.pieces import Piece, bought_parts, placed_named
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
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

ROUND = Bracket(on="tier 1", reach="60 mm", height="50 mm", nose="20 mm")
POT = Load(on="tier 1", mass="3 kg", footprint=("90 mm", "60 mm"), centre_height="50 mm")


def bracketed(*brackets: Bracket, **changes: Any) -> SteppedStand:
    """The round-numbered stand with brackets under its tiers."""
    return a_stand(**{"brackets": list(brackets), **changes})


def brackets_of(piece: Piece) -> list[str]:
    """Their names."""
    return [each.instance for each in piece.placed if "bracket" in each.instance]


def test_a_bracket_is_a_wedge_of_stated_size() -> None:
    """60 by 50 by 10, less the triangle that its slope takes: 26.5 degrees leave 20.1 of it."""
    made = part(bracketed(ROUND).build(), "tier 1 bracket")
    drop = 60 * math.tan(math.radians(26.5))
    assert 50 - drop == pytest.approx(20.09, abs=0.01)
    assert solid_of(made).Volume() == pytest.approx(60 * 50 * 10 - 60 * drop / 2 * 10)
    square = Bracket(on="tier 1", reach="60 mm", height="50 mm", nose="50 mm")
    made = part(bracketed(square).build(), "tier 1 bracket")
    assert solid_of(made).Volume() == pytest.approx(60 * 50 * 10)


def test_its_screws_bite_it_and_stay_in_it() -> None:
    """50 sold, through a post of 20: 30 deep, where its slope has taken 14.96: 10 and 25 down."""
    piece = bracketed(ROUND).build()
    (held,) = [each for each in piece.joinings if each.into == "tier 1 bracket"]
    assert held.incoming == "post"
    assert [(each.by, each.length_mm) for each in held.fasteners] == [(HoldBy.SCREW, 50.0)] * 2
    underside = 79.5 + 150 - 10
    down = [underside - each.at[2] for each in held.fasteners]
    assert down == pytest.approx([10, 50 - 30 * math.tan(math.radians(26.5)) - 10])
    assert {each.at[0] for each in held.fasteners} == {150.0}
    bores = [each for each in part(piece, "post").cuts if isinstance(each, Bore)]
    assert [(each.x_mm, each.y_mm) for each in bores] == [
        pytest.approx((each.at[2], 50)) for each in held.fasteners
    ]
    (bought,) = [each for each in bought_parts(piece) if "screw" in each.name]
    assert bought.quantity == 2


def test_between_uprights_one_stands_at_each_end_of_its_tier() -> None:
    """A sixth of 260 is 43.3; a tier lies 120 deep before uprights of 120: in the middle of it."""
    piece = by_uprights(brackets=[Bracket(on="tier 1")]).build()
    assert brackets_of(piece) == ["tier 1 left bracket", "tier 1 right bracket"]
    underside = 79.5 + 120 - 10
    for name, outer in (("tier 1 left bracket", 20.0), ("tier 1 right bracket", 280.0)):
        made = placed_named(piece, name)
        (left, front, low), (right, back, top) = box_of(made.part.blank, made.placement)
        assert (front, back, top) == pytest.approx((135.0, 145.0, underside))
        assert top - low == pytest.approx(260 / 6)
        assert (left, right) == pytest.approx(
            (outer, outer + 260 / 6) if outer < 150 else (outer - 260 / 6, outer)
        )
        (held,) = [each for each in piece.joinings if name == each.incoming and each.glue_area_mm2]
        assert held.glue_area_mm2 == pytest.approx(260 / 6 * 10)
        assert not held.fasteners


def test_two_stand_at_each_end_one_behind_the_other() -> None:
    """Before a back of 6 the tier lies 114 deep, and they stand at quarters of it."""
    piece = by_uprights(
        brackets=[Bracket(on="tier 2", count=2)], back_panel=BackPanel(stock=oak("6 mm"))
    ).build()
    assert brackets_of(piece) == [
        f"tier 2 {side} {row} bracket" for side in ("left", "right") for row in ("front", "back")
    ]
    made = [placed_named(piece, f"tier 2 left {row} bracket") for row in ("front", "back")]
    middles = [box_of(each.part.blank, each.placement)[0][1] + 5 for each in made]
    assert middles == pytest.approx([80 + 114 / 4, 80 + 114 * 3 / 4])


HARD: list[tuple[str, SteppedStand, int]] = [
    ("between uprights", by_uprights(
        brackets=[Bracket(on="tier 1"), Bracket(on="tier 2", count=2, reach="70 mm"),
                  Bracket(on="tier 3", stock=oak("18 mm"), nose="30 mm", height="30 mm")],
        back_panel=BackPanel(stock=oak("6 mm")), lips=[Lip(on="tier 1", height="12 mm")],
        shown=inches(),
    ), 8),
    ("on a foot board", FootedStand(
        thick=THICK, thin=THIN, base_width="360 mm", base_depth="220 mm",
        uprights=Uprights(depth="120 mm", dado_ends=DadoEnds.THROUGH),
        tiers=TierRule(count=2, depth="150 mm", rise="120 mm", step_back_depth="30 mm"),
        brackets=[Bracket()],
    ), 4),
    ("pairs, before strips and a rail", bracketed(
        Bracket(on="tier 1", count=2), Bracket(on="tier 2", height="25 mm"),
        post_strips=PostStrips(count=3), back_rail=BackRail(), shown=inches(),
        own_stock={"tier 1 left bracket": oak("16 mm")},
        profiles=[EdgeProfile(on="tier 2 bracket", edges=[Arris(Face.FACE_SIDE, Face.BACK_EDGE)])],
    ), 3),
    ("two strips", bracketed(Bracket(count=2, stock=oak("14 mm")), post_strips=PostStrips(count=2)),
     4),
    ("over a lip", bracketed(
        Bracket(on="tier 2", reach="60 mm", height="90 mm", nose="10 mm"),
        lips=[Lip(on="tier 1", height="12 mm")],
    ), 1),
    ("thin, without screws", bracketed(Bracket(stock=oak("6 mm"))), 2),
    ("a deep one over a shallow one", bracketed(Bracket(), tiers=(
        Tier(width="120 mm", depth="60 mm", rise="60 mm"),
        Tier(width="290 mm", depth="160 mm", rise="45 mm"),
    ), base_height="90 mm"), 2),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved_and_go_together(hard: tuple[str, SteppedStand, int]) -> None:
    """Wood, contacts and order, with whatever else stands there."""
    _, stand, count = hard
    piece = stand.build()
    proved(piece)
    assert len(brackets_of(piece)) == count


def test_one_of_a_pair_may_be_cut_from_its_own_stock() -> None:
    """A thick one is screwed; the 10 mm of its tier would split, so the other is glued alone."""
    piece = {name: stand for name, stand, _ in HARD}["pairs, before strips and a rail"].build()
    thick = {each: part(piece, each).blank.thickness_mm for each in brackets_of(piece)}
    assert thick["tier 1 left bracket"] == 16.0
    assert thick["tier 1 right bracket"] == 10.0
    held = {each.into for each in piece.joinings if each.fasteners}
    assert "tier 1 left bracket" in held
    assert "tier 1 right bracket" not in held


def test_a_thin_bracket_is_glued_alone() -> None:
    """4 mm screws split 6 mm of wood."""
    piece = bracketed(Bracket(stock=oak("6 mm"))).build()
    assert not [each for each in part(piece, "post").cuts if isinstance(each, Bore)]
    assert not [each for joining in piece.joinings for each in joining.fasteners]


def _lever(stand: SteppedStand) -> Any:
    piece = stand.build()
    supported = supported_of(piece, weigh(piece))
    found = joint_findings_of(piece, supported, Setting(), is_table_top=False)
    found = [each for each in found if each.check == HAND_LEVER]
    return next((each for each in found if "tier 1" in each.subject), None)


def _sag(piece: Piece, name: str) -> float:
    (found,) = [each for each in bending_of(piece, SAG) if name in each.subject]
    assert found.value is not None
    return found.value


def test_the_advice_that_names_a_bracket_names_one_that_is_made() -> None:
    """Taken at its word it is enough; told by its parameter."""
    bare = _lever(a_stand(loads=[POT]))
    (asked,) = [each for each in bare.remedies if each.change is Change.BRACKET]
    assert asked.parameters == ("brackets",)
    assert "of your own" not in bare.advice
    reach = f"{asked.amount} mm"
    cured = _lever(bracketed(Bracket(on="tier 1", reach=reach), loads=[POT]))
    assert cured is None or not cured.is_amiss
    nothing = Bracket(on="tier 2")
    assert _lever(bracketed(nothing, loads=[POT])).is_amiss


REFUSED: list[tuple[SteppedStand, str]] = [
    (bracketed(Bracket(on="lid")), "bracket 1 on"),
    (bracketed(Bracket(on="post")), "bracket 1 on"),
    (bracketed(Bracket(), Bracket(on="tier 1")), "bracket 2 on"),
    (bracketed(Bracket(on="tier 1", reach="20 mm")), "bracket 1 reach"),
    (bracketed(Bracket(on="tier 1", reach="95 mm")), "bracket 1 reach"),
    (bracketed(Bracket(reach="70 mm"), tiers=(
        Tier(width="200 mm", depth="180 mm", rise="150 mm"),
        Tier(width="160 mm", depth="60 mm", rise="120 mm"),
    )), "bracket 1 reach"),
    (bracketed(Bracket(on="tier 1", height="140 mm", reach="80 mm", nose="40 mm")),
     "bracket 1 height"),
    (bracketed(Bracket(on="tier 1", height="10 mm", nose="10 mm")), "bracket 1 height"),
    (bracketed(Bracket(on="tier 1", height="130 mm", reach="50 mm")), "bracket 1 nose"),
    (bracketed(Bracket(on="tier 1", height="30 mm", nose="40 mm")), "bracket 1 nose"),
    (bracketed(Bracket(on="tier 1", nose="2 mm")), "bracket 1 nose"),
    (bracketed(Bracket(on="tier 1", count=3)), "bracket 1 count"),
    (bracketed(Bracket(on="tier 1"), post_strips=PostStrips(count=2)), "bracket 1 count"),
    (bracketed(Bracket(on="tier 1", stock=oak("60 mm"), count=2)), "bracket 1 stock thickness"),
    (bracketed(Bracket(on="tier 1", stock="oak")), "bracket 1 stock"),  # type: ignore[arg-type]
    (bracketed("tier 1"), "bracket 1"),  # type: ignore[arg-type]
    (bracketed(Bracket(on="tier 2"), tiers=(
        Tier(width="200 mm", depth="100 mm", rise="150 mm"),
        Tier(width="160 mm", depth="80 mm", rise="36 mm"),
    )), "bracket 1 on"),
    (by_uprights(brackets=[Bracket(reach="90 mm")]), "bracket 1 reach"),
    (by_uprights(brackets=[Bracket(reach="20 mm")]), "bracket 1 reach"),
    (by_uprights(brackets=[Bracket(on="tier 3", count=2, stock=oak("45 mm"))]),
     "bracket 1 stock thickness"),
    (bracketed(Bracket(), profiles=[EdgeProfile(on="brackets", edges=[TOP_FRONT])]),
     "profile 1 edges"),
    (bracketed(Bracket(), own_stock={"tier 3 bracket": oak("9 mm")}),
     "own_stock['tier 3 bracket']"),
    (bracketed(Bracket(on="tier 1"), openings=[Opening(on="tier 1", size="12 mm")]), "opening 1"),
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


def test_a_tier_that_rises_by_what_is_said_takes_its_bracket() -> None:
    """4 more than 36, less the tier's own 10 and the 5 that stay free, are 25."""
    low = Tier(width="160 mm", depth="80 mm", rise="36 mm")
    first = Tier(width="200 mm", depth="100 mm", rise="150 mm")
    (problem,) = problems_of(bracketed(Bracket(on="tier 2"), tiers=(first, low)))
    assert problem.remedy.startswith("let tier 2 rise 4 mm more")
    higher = Tier(width="160 mm", depth="80 mm", rise="40 mm")
    proved(bracketed(Bracket(on="tier 2"), tiers=(first, higher)).build())


def test_brackets_between_uprights_take_the_sag_of_their_tier() -> None:
    """200 of 760 at either end, two there: less than half the span is free, and a quarter sags."""

    def sag(**given: Any) -> float:
        piece = by_uprights(
            base_width="800 mm", loads=[replace(POT, mass="20 kg")], shown=millimetres(), **given
        ).build()
        return _sag(piece, "tier 1")

    reaching = Bracket(on="tier 1", count=2, reach="200 mm", height="100 mm", nose="20 mm")
    assert sag(brackets=[reaching]) < 0.25 * sag()


def test_brackets_of_one_s_own_between_two_sides_are_counted_too() -> None:
    """800 of 10 mm sag 23 under 20 kg, and a tenth of it where either end lies on 200 of wood."""

    def sag(*held: tuple[str, Way]) -> float:
        return _sag(_between_sides(held), "shelf")

    assert sag(("left side", Way.RIGHT), ("right side", Way.LEFT)) < 0.2 * sag()


def _between_sides(held: Sequence[tuple[str, Way]]) -> Piece:
    """A shelf housed in two sides, with a bracket under it against some of them."""

    def side(name: str, way: Way, *places: Any) -> PlacedPart:
        return PlacedPart(
            name=name, stock=oak("18 mm"), length="400 mm", width="150 mm", face_side=way,
            grain=Way.UP, places=places,
        )  # fmt: skip

    shelf = PlacedPart(
        name="shelf", stock=oak("10 mm"), length="812 mm", width="150 mm", face_edge=Way.FRONT,
        places=[Against(of="left side", side=Way.RIGHT, let_in="6 mm"),
                FlushWith(of="left side", side=Way.FRONT),
                At(distance="200 mm", of="left side", side=Way.DOWN)],
    )  # fmt: skip
    right = side(
        "right side", Way.LEFT, Against(of="shelf", side=Way.RIGHT, let_in="6 mm"),
        FlushWith(of="left side", side=Way.FRONT), FlushWith(of="left side", side=Way.DOWN),
    )  # fmt: skip
    brackets = [
        PlacedPart(
            name=f"bracket at {of}", stock=oak("18 mm"), length="150 mm", width="200 mm",
            face_side=Way.FRONT, grain=Way.UP,
            places=[Against(of=of, side=way), Against(of="shelf", side=Way.DOWN),
                    At(distance="66 mm", of="left side", side=Way.FRONT)],
        )
        for of, way in held
    ]  # fmt: skip
    joints = [
        *(join(DadoJoint, "shelf", into=f"{each} side") for each in ("left", "right")),
        *(join(ButtJoint, f"bracket at {of}", into=of) for of, _ in held),
        *(join(ButtJoint, f"bracket at {of}", into="shelf", is_glued=False) for of, _ in held),
    ]
    return Composition(
        name="wall", parts=[side("left side", Way.RIGHT), shelf, right, *brackets], joints=joints,
        loads=[Load(on="shelf", mass="20 kg", footprint=("600 mm", "100 mm"),
                    centre_height="50 mm")],
    ).build()  # fmt: skip
