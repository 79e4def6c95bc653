"""A back on a post: by hand, proved, refused where it would stand out behind."""

from __future__ import annotations

from typing import Any

import pytest

from furniture import (
    Arris,
    BackFixing,
    BackPanel,
    BackRail,
    EdgeProfile,
    Face,
    Opening,
    PanelGrain,
    PostStrips,
    Stock,
    inches,
)
from furniture.checks.finding import Finding
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.seasons import GLUED_ACROSS
from furniture.checks.rows.standing import TILT
from furniture.pieces import Piece, bought_parts
from furniture.solids.make import solid_of
from furniture.solids.measure import weigh
from tests.builders.bench import a_stand, box_round, oak, part, problems_of, proved
from tests.builders.test_bad_input import changed, plain_name, problems_left, stated
from tests.builders.test_footed_stands import TIERS, footed

PLY = Stock(name="ply, 6", species="birch plywood 6 mm", thickness="6 mm")
SOLID = BackPanel(stock=oak("7 mm"))
PINNED = BackPanel(stock=oak("7 mm"), fixing=BackFixing.PINNED)
RAIL = {"back_rail": BackRail()}


@pytest.fixture(scope="module")
def piece() -> Piece:
    """A solid back on the post of the round-numbered stand, over its back rail."""
    return a_stand(**RAIL, back_panel=SOLID).build()


def test_it_stands_over_the_back_rail_as_wide_as_the_widest_tier(piece: Piece) -> None:
    """Its front on the post's back, 20 before the rail's; 0.5 above the rail of 80."""
    low, high = box_round(piece, "back panel")
    assert low == pytest.approx((50, 180, 80.5))
    assert high == pytest.approx((250, 187, 379.5))
    assert solid_of(part(piece, "back panel")).Volume() == pytest.approx(200 * 299 * 7)
    proved(piece)


def test_the_same_wood_the_same_way_moves_with_its_post(piece: Piece) -> None:
    """Nothing is said of the back, whose grain is upright as the post's is."""
    told = [each for each in findings_of(piece, weigh(piece)) if each.check == GLUED_ACROSS]
    assert not [each for each in told if "back panel" in each.subject and each.is_amiss]


def test_a_thick_back_tips_it_sooner_than_a_thin_one() -> None:
    """On the same shallow foot: what hangs behind it counts."""

    def tilt(back: BackPanel) -> Finding:
        piece = footed(
            base_depth="90 mm", behind_post="20 mm", tiers=[TIERS[1]], back_panel=back
        ).build()
        (found,) = [each for each in findings_of(piece, weigh(piece)) if each.check == TILT]
        return found

    thin, thick = tilt(BackPanel(stock=PLY)), tilt(BackPanel(stock=oak("19 mm"), width="300 mm"))
    assert thin.value is not None
    assert thick.value is not None
    assert thick.value < 0.7 * thin.value


HARD: list[tuple[str, Any, int]] = [
    ("pinned to strips, wide", a_stand(
        **RAIL, post_strips=PostStrips(count=3),
        back_panel=BackPanel(stock=oak("7 mm"), fixing="pinned", width="260 mm"),
    ), 3),
    ("let in, in inches", a_stand(
        back_rail=BackRail(let_in="4 mm"), back_panel=BackPanel(stock=oak("16 mm")),
        bottom=oak("6 mm"), shown=inches(),
    ), 0),
    ("a sheet that lies, bored and shaped", footed(
        back_panel=BackPanel(stock=PLY, grain=PanelGrain.ALONG),
        openings=[Opening(on="back panel", size="20 mm", from_left="30 mm")],
        profiles=[EdgeProfile(on="back panel", edges=[Arris(Face.BACK_SIDE, Face.BACK_EDGE)],
                              radius="2 mm")],
    ), 0),
]  # fmt: skip


@pytest.mark.parametrize("hard", HARD, ids=lambda each: str(each[0]))
def test_the_hard_ones_are_proved(hard: tuple[str, Any, int]) -> None:
    """Pins stand one above the other, up the middle of the post."""
    _, stand, count = hard
    piece = stand.build()
    proved(piece)
    pins = [
        pin for each in piece.joinings if each.incoming == "back panel" for pin in each.fasteners
    ]
    assert len(pins) == count
    assert {round(pin.at[0], 3) for pin in pins} <= {150.0}
    assert len({round(pin.at[2], 3) for pin in pins}) == count
    bought = [each for each in bought_parts(piece) if "back panel" in each.where]
    assert sum(each.quantity for each in bought) == count


REFUSED: list[tuple[Any, str, str]] = [
    (a_stand(back_panel=SOLID), "back_panel", "write back_rail=BackRail()"),
    (a_stand(**RAIL, back_panel="ply"), "back_panel", "write BackPanel("),
    (a_stand(**RAIL, back_panel=BackPanel(stock=oak("21 mm"))), "back_panel", "use thicker rails"),
    (a_stand(**RAIL, back_panel=BackPanel(stock=oak("2 mm"))), "back_panel.stock thickness", "ma"),
    (a_stand(**RAIL, back_panel=BackPanel(stock=PLY, width="90 mm")), "back_panel.width", "make"),
    (a_stand(**RAIL, back_panel=BackPanel(stock=PLY, width="310 mm")), "back_panel.width", "make"),
    (a_stand(**RAIL, back_panel=BackPanel(stock=PLY, let_in="5 mm")), "back_panel.let_in", "leave"),
    (a_stand(**RAIL, back_panel=BackPanel(stock=PLY, gap="1 mm")), "back_panel.gap", "leave"),
    (a_stand(**RAIL, back_panel=BackPanel(stock=oak("7 mm"), grain="along")), "back_panel.grain",
     "write PanelGrain.ACROSS"),
    (footed(behind_post="3 mm", back_panel=BackPanel(stock=PLY)), "back_panel",
     "write behind_post='6 mm'"),
    (footed(back_panel=SOLID, profiles=[EdgeProfile(
        on="post", edges=[Arris(Face.BACK_SIDE, Face.FACE_EDGE)])]), "profile 1 edges", "leave"),
]  # fmt: skip


@pytest.mark.parametrize("given", REFUSED)
def test_what_no_back_can_be_is_refused_and_its_remedy_works(given: tuple[Any, str, str]) -> None:
    """By its name, and a stated figure is taken when it is written."""
    design, parameter, remedy = given
    problems = problems_of(design)
    (problem,) = [each for each in problems if plain_name(each.parameter) == parameter]
    assert problem.remedy.startswith(remedy)
    assert all((problem.given, problem.allowed, problem.why))
    text = stated(problem)
    if text is not None and "thickness" not in parameter:
        assert problems_left(changed(design, problem.parameter, text)) == []


def test_more_board_behind_the_post_is_enough() -> None:
    """As the refusal says."""
    footed(behind_post="6 mm", back_panel=BackPanel(stock=PLY)).build()
