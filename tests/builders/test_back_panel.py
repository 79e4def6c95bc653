"""A back between uprights: worked by hand, proved, it braces or moves, and is refused elsewhere."""

from __future__ import annotations

from typing import Any

import pytest

from furniture import (
    BackFixing,
    BackPanel,
    DadoEnds,
    EdgeProfile,
    LidFixing,
    SteppedStand,
    Stock,
    TierRule,
    Uprights,
    inches,
)
from furniture.checks.finding import Finding, Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.seasons import LOOSE_GAP, SWELLING
from furniture.checks.rows.structure import LOOSENED, RACKING
from furniture.parts.cuts import Rabbet
from furniture.parts.faces import Arris, Face
from furniture.pieces import Piece, bought_parts
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from tests.builders.bench import a_stand, box_round, oak, part, problems_of, proved, seasons_of
from tests.builders.test_bad_input import changed, problems_left, stated

PLY = Stock(name="ply, 6", species="birch plywood 6 mm", thickness="6 mm")


def backed(**changes: Any) -> SteppedStand:
    """Round figures: uprights of 18, a lid of 12, three tiers of 12, a back of 6."""
    given: dict[str, Any] = {
        "thick": oak("18 mm"), "thin": oak("12 mm"), "base_width": "320 mm",
        "base_depth": "220 mm", "base_height": "80 mm", "uprights": Uprights(depth="120 mm"),
        "tiers": TierRule(count=3, depth="130 mm", rise="120 mm"), "dado_depth": "6 mm",
        "fit_clearance": "0.2 mm", "back_panel": BackPanel(stock=PLY),
    }  # fmt: skip
    return SteppedStand(**{**given, **changes})


@pytest.fixture(scope="module")
def piece() -> Piece:
    """The stand of round figures."""
    return backed().build()


def told(piece: Piece, *checks: object) -> list[Finding]:
    return [each for each in findings_of(piece, weigh(piece)) if each.check in checks]


# two dados 12.2 x 6, 12 short of the front; the top one 12 high; the rabbet 6 x 6 from the rail up,
# into which all three run
UPRIGHT = 439.5 * 120 * 18 - (2 * 12.2 + 12) * 6 * (108 - 6) - 6 * 6 * (439.5 - 80)
BY_HAND = {
    "left upright": UPRIGHT,
    "right upright": UPRIGHT,
    # to the panel's front, notched 6 deep round the stops: 22 out in front of the uprights' 12
    "tier 1": 296 * 124 * 12 - 2 * 22.5 * 6 * 12,
    # 5.5 into either upright
    "back panel": (284 + 2 * 5.5) * (439.5 - 80.5) * 6,
}


@pytest.mark.parametrize("instance", BY_HAND)
def test_the_parts_of_a_stand_with_a_back(piece: Piece, instance: str) -> None:
    assert float(solid_of(part(piece, instance)).Volume()) == pytest.approx(
        BY_HAND[instance], rel=1e-9
    )


def test_it_stands_over_the_back_rail_flush_behind_and_at_the_top(piece: Piece) -> None:
    low, high = box_round(piece, "back panel")
    assert (low[1], high[1]) == pytest.approx((214, 220))
    assert (low[2], high[2]) == pytest.approx((80.5, 439.5))
    plan = proved(piece)
    panel, tiers = (
        max(at for at, each in enumerate(plan.steps) if set(names) & set(each.moving))
        for names in (("back panel",), ("tier 1", "tier 2", "tier 3"))
    )
    assert panel >= tiers


def test_a_glued_sheet_braces_the_stand_and_a_solid_back_does_not(piece: Piece) -> None:
    """Without a back the stand folds once its dados loosen."""
    bare = backed(back_panel=None).build()
    solid = backed(back_panel=BackPanel(stock=oak("7 mm"))).build()
    for each in (bare, solid):
        (found,) = told(each, RACKING, LOOSENED)
        assert (found.check, found.verdict) == (LOOSENED, Verdict.CAUTION)
    (found,) = told(piece, RACKING, LOOSENED)
    assert (found.check, found.verdict) == (RACKING, Verdict.OK)


def test_a_solid_back_is_pinned_and_has_room_for_the_seasons() -> None:
    """Its grain is upright: it moves between the uprights, and lies there when it has shrunk."""
    piece = backed(back_panel=BackPanel(stock=oak("7 mm"))).build()
    proved(piece)
    pins = [each for each in bought_parts(piece) if each.name == "panel pin"]
    assert [each.quantity for each in pins] == [3]
    gaps = [each for each in seasons_of(piece, LOOSE_GAP) if each.subject.startswith("back panel")]
    assert gaps
    assert all(each.verdict is Verdict.OK for each in gaps)
    tight = BackPanel(stock=oak("7 mm"), gap="0.2 mm")
    (jams,) = seasons_of(backed(back_panel=tight).build(), LOOSE_GAP)
    assert jams.is_amiss


def test_the_top_tier_in_its_open_rabbet_has_room_above_it(piece: Piece) -> None:
    """Dados that end in a back's rabbet close a tier's thickness no more than others."""
    assert not [each for each in seasons_of(piece, SWELLING) if "tier 3" in each.subject]


@pytest.mark.parametrize(
    "changes",
    [
        {"uprights": Uprights(depth="120 mm", dado_ends=DadoEnds.THROUGH)},
        {"uprights": Uprights(depth="120 mm", bit_radius="3 mm")},
        {"post_proud": "60 mm", "bottom": PLY, "shown": inches(64)},
        {"lid_fixing": LidFixing.NONE, "back_panel": BackPanel(stock=oak("8 mm"), let_in="9 mm")},
        {"profiles": [EdgeProfile(on="back panel",
                                  edges=[Arris(Face.BACK_SIDE, Face.FAR_END)])]},
    ],
    ids=["through", "routed", "proud, inches", "open, deep", "shaped"],
)  # fmt: skip
def test_it_is_proved_as_one_may_have_it(changes: dict[str, Any]) -> None:
    piece = backed(**changes).build()
    proved(piece)
    rabbets = [
        cut for cut in part(piece, "left upright").cuts
        if isinstance(cut, Rabbet) and cut.edge is Face.FACE_EDGE
    ]  # fmt: skip
    assert [each.stop_at_low_mm for each in rabbets] == [80.0]


SOLID_GLUED = BackPanel(stock=oak("7 mm"), fixing=BackFixing.GLUED)
REFUSED: list[tuple[SteppedStand, str]] = [
    (backed(back_panel="plywood"), "back_panel"),
    (backed(back_panel=BackPanel(stock=oak("14 mm"))), "back_panel.stock thickness"),
    (backed(back_panel=BackPanel(stock=PLY, let_in="2 mm")), "back_panel.let_in"),
    (backed(back_panel=BackPanel(stock=PLY, let_in="17 mm")), "back_panel.let_in"),
    (backed(back_panel=BackPanel(stock=PLY, gap="0 mm")), "back_panel.gap"),
    (backed(back_panel=BackPanel(stock=PLY, gap="9.9 mm")), "thick thickness"),
    (backed(back_panel=BackPanel(stock=PLY, fixing="loose")), "back_panel.fixing"),
    (backed(back_panel=SOLID_GLUED), "back_panel.fixing"),
    (a_stand(back_panel=BackPanel(stock=PLY)), "back_panel"),
    (backed(back_panel=BackPanel(stock=PLY, width="200 mm")), "back_panel.width"),
]


@pytest.mark.parametrize("given", REFUSED)
def test_what_no_back_can_be_is_refused_and_its_remedy_works(
    given: tuple[SteppedStand, str],
) -> None:
    """By its name, and a stated figure is taken when it is written."""
    design, parameter = given
    problems = problems_of(design)
    plain = [problem.parameter.split(" (")[0] for problem in problems]
    assert any(parameter in name for name in plain), plain
    for problem in problems:
        assert all((problem.given, problem.allowed, problem.why, problem.remedy))
        text = stated(problem)
        if text is not None and "thickness" not in problem.parameter:
            assert problem.parameter not in problems_left(changed(design, problem.parameter, text))
