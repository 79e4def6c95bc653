"""Parts glued up from strips: all strips of a copy are on the boards, or the copy is missing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import CuttingPlan
from furniture.shop.cutting.values import CuttingRequest, GlueUp, Limits
from tests.fresh import law
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan

QUICK = Limits(rounds=2, seconds=600)
GLUED = GlueUp(jointing_allowance_mm=1.5)


def _strips(plan: CuttingPlan) -> list[tuple[int, int]]:
    return sorted((p.copy, p.strip) for b in plan.boards for p in b.placements)


def test_a_copy_that_lacks_a_strip_is_missing_and_its_other_strip_is_not_cut() -> None:
    """By hand: 200 wide off boards of 110 is two strips of 101.5; only one of 600 mm fits."""
    lid = part("lid", 1, 600, 200, glue_up=GLUED)
    request = CuttingRequest(boards=(oak("b", 700, 110),), parts=(lid,), limits=QUICK)
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    (entry,) = plan.unplaced
    assert (entry.part, entry.copies, _strips(plan)) == ("lid", 1, [])
    assert plan.proof.measure == "copies left out"
    assert entry.would_do.width_mm == 200


def test_two_copies_with_room_for_three_strips_are_one_copy() -> None:
    lid = part("lid", 2, 600, 200, glue_up=GLUED)
    boards = tuple(oak(name, 700, 110) for name in "abc")
    request = CuttingRequest(boards=boards, parts=(lid,), limits=QUICK)
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert [(entry.part, entry.copies) for entry in plan.unplaced] == [("lid", 1)]
    assert _strips(plan) == [(1, 1), (1, 2)]


def test_rails_wider_than_their_board_are_missing_where_half_of_each_has_room() -> None:
    """Four rails of two strips off a board with room for four strips: two rails, two missing."""
    rail = part("rail", 4, 255, 94, glue_up=GLUED)
    request = CuttingRequest(
        boards=(oak("b", 1075, 62),), parts=(rail,), saw=shop(end_trim_mm=10), limits=QUICK
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert [(entry.part, entry.copies) for entry in plan.unplaced] == [("rail", 2)]


@pytest.mark.parametrize("spare", [0.0, -0.01])
def test_a_strip_as_wide_as_its_board_is_cut(spare: float) -> None:
    """By hand: 200 in two strips is 101.5 each; a board a hair narrower takes three of 69.7."""
    lid = part("lid", 1, 300, 200, glue_up=GLUED)
    board = oak("b", 1000, 101.5 + spare)
    request = CuttingRequest(boards=(board,), parts=(lid,), limits=QUICK)
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert len(_strips(plan)) == (2 if spare == 0 else 3)


def test_a_cheaper_board_does_not_turn_a_whole_part_into_strips() -> None:
    """The wide board is the dearer, and parts are only glued up where no board is wide enough."""
    lid = part("lid", 1, 300, 200, glue_up=GLUED)
    boards = (oak("wide", 400, 210, price=50), oak("narrow", 900, 110, price=5))
    request = CuttingRequest(boards=boards, parts=(lid,), limits=QUICK)
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert (_strips(plan), plan.cost) == ([(1, 0)], 50)
    assert plan.proof.is_proven


@law(few=25, full=300)
@given(
    st.lists(st.tuples(st.integers(300, 900), st.integers(60, 130)), min_size=1, max_size=3),
    st.integers(120, 260),
    st.integers(1, 3),
    st.integers(0, 3),
)
def test_no_strip_is_overlooked(
    boards: list[tuple[int, int]], width: int, lids: int, rails: int
) -> None:
    """Whatever fits: every copy has all its strips, or is said to be missing."""
    parts = [part("lid", lids, 290, width, glue_up=GLUED, width_allowance_mm=4.0)]
    if rails:
        parts.append(part("rail", rails, 200, 50))
    request = CuttingRequest(
        boards=tuple(oak(f"b{n}", *size) for n, size in enumerate(boards)),
        parts=tuple(parts),
        limits=QUICK,
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
