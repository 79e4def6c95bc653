"""A board a little narrower than the rough width is used, and says how much it leaves."""

from __future__ import annotations

import pytest

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import Across, UnplacedReason
from furniture.shop.cutting.values import (
    Board,
    CuttingRequest,
    GlueUp,
    MatchGroup,
    MatchRule,
    Station,
)
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan

RAIL = part(
    "rail", 4, 255, 90, width_allowance=4.0, least_width_allowance=1.5, glue_up=GlueUp()
)  # fmt: skip


@pytest.mark.parametrize(
    ("width", "strip", "sawn"), [(94.0, 0, 94.0), (93.9, 0, 93.9), (91.5, 0, 91.5), (91.4, 1, 48.5)]
)
def test_a_part_is_split_only_where_too_little_would_be_left(
    width: float, strip: int, sawn: float
) -> None:
    """By hand: 90 wide, 4 mm asked for, 1.5 mm will do; in strips each is 45 + 2 + 1.5 wide."""
    request = CuttingRequest(
        boards=(oak("b", 1100, width), oak("c", 1100, width)), parts=(RAIL,), saw=shop()
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()
    first = plan.boards[0].placements[0]
    assert (min(first.strip, 1), first.place.width) == (strip, pytest.approx(sawn))


def test_a_narrow_board_serves_beside_a_wide_one_that_is_full() -> None:
    """The wide board holds one of the two; the narrow one gives the other less on its width."""
    request = CuttingRequest(
        boards=(oak("wide", 300, 120), oak("narrow", 300, 93)),
        parts=(part("rail", 2, 255, 90, width_allowance=4.0, least_width_allowance=1.5),),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    widths = {b.board: [p.place.width for p in b.placements] for b in plan.boards}
    assert widths == {"wide": [94], "narrow": [93]}
    assert plan.proof.is_proven


def test_a_sequence_comes_off_a_narrow_board() -> None:
    must = MatchGroup(name="round", rule=MatchRule.IN_SEQUENCE, members=("rail",) * 4)
    request = CuttingRequest(
        boards=(oak("b", 1060, 93.9),), parts=(RAIL,), matches=(must,), saw=shop()
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert (plan.unplaced, plan.matches[0].is_kept) == ((), True)


def test_a_board_that_tapers_out_of_the_rough_width_is_used() -> None:
    """By hand: 94.2 at one end and 93 at the other is nowhere 94 over 255 mm, but 93 all along."""
    board = Board(
        name="b",
        length=600,
        stations=(Station(at=0, width=94.2), Station(at=600, width=93)),
        thickness=24,
        species="oak",
    )
    wanted = part("rail", 2, 255, 90, width_allowance=4.0, least_width_allowance=1.5)
    request = CuttingRequest(boards=(board,), parts=(wanted,))
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert [p.place.width for p in plan.boards[0].placements] == [93, 93]


def test_boards_that_all_but_do_are_named() -> None:
    request = CuttingRequest(
        boards=(oak("short", 299, 120), oak("slim", 400, 99), oak("far off", 400, 60)),
        parts=(part("shelf", 1, 300, 100),),
    )
    (entry,) = plan_cutting(request).unplaced
    assert entry.reason is UnplacedReason.TOO_LARGE
    named = [(miss.board, miss.across, miss.by) for miss in entry.near]
    assert sorted(named, key=str) == [("short", Across.LENGTH, 1), ("slim", Across.WIDTH, 1)]


def test_a_taper_is_told_as_a_taper() -> None:
    """Nothing is in the way of a part that no stretch of the board is wide enough for."""
    board = Board(
        name="b",
        length=1000,
        stations=(Station(at=0, width=200), Station(at=1000, width=100)),
        thickness=24,
        species="oak",
    )
    request = CuttingRequest(boards=(board,), parts=(part("p", 1, 600, 150),))
    (entry,) = plan_cutting(request).unplaced
    assert (entry.reason, entry.blocked_by) == (UnplacedReason.NARROWS, ())
