"""Board feet by the hardwood rule, quarters, and what to buy when there are no boards."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture import CuttingWishes, DesignError
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from furniture.shop.boards.shopping import shopping_list
from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.buying import exact_board_feet, purchases_for, quarters_for
from furniture.shop.cutting.plan import BoardWanted
from furniture.shop.cutting.values import CutPart, CuttingRequest, Saw, straight_board
from tests.fresh import law
from tests.shop.boards.bench import board, stand

INCH, FOOT = 25.4, 304.8


def test_stock_under_an_inch_counts_as_an_inch():
    """NHLA thin-stock rule, as the same page has it."""
    board = (12 * INCH, 10 * FOOT)
    assert exact_board_feet(*board, 2) == pytest.approx(10.0)
    assert exact_board_feet(*board, 4) == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("thickness", "quarters"), [(25.4, 4), (25.5, 5), (31.75, 5), (38.1, 6), (50.8, 8), (19.0, 4)]
)
def test_quarters_are_the_least_rough_thickness(thickness, quarters):
    """Quarter scale: 4/4 is 1 in, 6/4 is 1 1/2 in, 8/4 is 2 in, the minimum rough thickness."""
    assert quarters_for(thickness) == quarters


def _request(parts, **saw):
    return CuttingRequest(boards=(), parts=tuple(parts), saw=Saw(**saw))


def _part(name, length, width, quantity=1, thickness=20.0):
    return CutPart(
        name=name,
        quantity=quantity,
        length_mm=length,
        width_mm=width,
        thickness_mm=thickness,
        species="oak",
    )


def test_one_part_is_bought_as_the_least_board_of_whole_feet_and_inches():
    """By hand: 580 x 120 mm and 10 mm off each end: 2 ft (609.6) by 5 in (127): 10 / 12 bf;
    5 in x 2 ft x 1 in is 120 in3 = 0.0019664 m3 (1 in3 = 16.387064 cm3)."""
    (lot,) = shopping_list(_request([_part("a", 580.0, 120.0)], end_trim_mm=10.0))
    assert lot.thickness_quarters == 4
    assert lot.board_feet == pytest.approx(10 / 12)
    assert lot.cubic_metres == pytest.approx(120 * 16.387064e-6)
    (piece,) = lot.pieces
    assert (piece.length_mm, piece.width_mm) == pytest.approx((2 * FOOT, 5 * INCH))


@pytest.mark.parametrize(("inches", "measure"), [(6, 4.5), (5, 3.75), (7, 5.25)])
def test_a_list_is_measured_by_the_sum_of_its_boards(inches, measure):
    """By hand: 3 of 36 x 6 in, 4/4: 3 x 3 ft x 6 in / 12 = 4.5 bf = 648 in3 = 0.0106 m3."""
    wanted = BoardWanted(
        species="ash", length_mm=3 * FOOT, width_mm=inches * INCH, thickness_mm=22.0
    )
    (lot,) = purchases_for([(wanted, 3)])
    assert lot.board_feet == pytest.approx(measure)
    assert lot.cubic_metres == pytest.approx(108 * inches * 16.387064e-6)
    asked = replace(lot, waste_share=0.2)
    assert asked.cubic_metres_with_waste == pytest.approx(
        asked.board_feet_with_waste * 144 * 16.387064e-6
    )


def test_what_is_bought_holds_every_part():
    """Law: the boards bought hold at least the area of the parts, and the largest part itself."""
    parts = [_part("a", 700.0, 150.0, 3), _part("b", 240.0, 90.0, 8), _part("c", 400.0, 300.0)]
    (lot,) = shopping_list(_request(parts, kerf_mm=3.0))
    area = sum(piece.length_mm * piece.width_mm for piece in lot.pieces)
    assert area >= sum(p.length_mm * p.width_mm * p.quantity for p in parts)
    assert max(piece.width_mm for piece in lot.pieces) >= 300.0
    assert max(piece.length_mm for piece in lot.pieces) >= 700.0


def test_a_kerf_too_many_asks_for_a_longer_board():
    """By hand: 6 parts of 101.6 mm are 2 ft to the last millimetre, which kerfs make longer."""
    six = [_part("a", 101.6, 100.0, 6)]
    (exact,) = shopping_list(_request(six, kerf_mm=0.0))
    (sawn,) = shopping_list(_request(six, kerf_mm=3.0))
    assert exact.pieces[0].length_mm == pytest.approx(2 * FOOT)
    assert len(exact.pieces) == 1
    assert sum(p.length_mm * p.width_mm for p in sawn.pieces) > exact.pieces[0].length_mm * 4 * INCH


def test_stocks_are_bought_apart_and_only_what_is_missing():
    nothing = outcome_of(cutting_job(stand()))
    assert nothing.plan is None
    assert [each.species for each in nothing.to_buy] == ["thick", "thin"]
    half = outcome_of(cutting_job(stand(), [board()]))
    assert [each.species for each in half.to_buy] == ["thin"]
    assert {each.part for each in half.plan.unplaced} == {"lid", "tier 1", "tier 2"}


def test_what_is_lost_to_faults_is_added_to_the_measure():
    """By hand: 20 % of what is bought lost: 10 board feet of clear wood are in 12.5, so 13."""
    (clear,) = shopping_list(_request([_part("a", 10 * FOOT, 12 * INCH)]))
    assert clear.board_feet == clear.board_feet_with_waste == 10.0
    lost = replace(clear, waste_share=0.2)
    assert lost.board_feet_with_waste == 13.0
    assert lost.cubic_metres_with_waste == pytest.approx(1.3 * clear.cubic_metres)
    assert lost.board_feet == 10.0


def test_the_share_lost_is_the_makers_to_say():
    usual = outcome_of(cutting_job(stand()))
    assert {each.waste_share for each in usual.to_buy} == {0.2}
    clear = outcome_of(cutting_job(stand(), (), CuttingWishes(waste_share="0 %")))
    assert {each.waste_share for each in clear.to_buy} == {0.0}
    assert [each.pieces for each in usual.to_buy] == [each.pieces for each in clear.to_buy]
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), (), CuttingWishes(waste_share="100 %"))
    (problem,) = caught.value.problems
    assert problem.parameter == "wishes.waste_share"
    assert problem.remedy == "write '80 %'"


@law(few=15, full=200)
@given(
    st.lists(
        st.tuples(st.floats(60, 900), st.floats(25, 280), st.integers(1, 4)),
        min_size=1,
        max_size=4,
    )
)
def test_what_is_bought_gives_every_part(sizes):
    """The boards of the list go through the planner: nothing is left without a place."""
    saw = Saw(
        kerf_mm=3.2,
        end_trim_mm=10,
        shortest_rip_mm=300,
        narrowest_rip_mm=50,
        shortest_crosscut_mm=200,
    )
    parts = [_part(f"p{n}", length, width, count) for n, (length, width, count) in enumerate(sizes)]
    request = CuttingRequest(boards=(), parts=tuple(parts), saw=saw)
    boards = tuple(
        straight_board(
            name=f"{lot.thickness_quarters} {n}",
            length_mm=math.ceil(piece.length_mm / FOOT - 1e-9) * FOOT,
            width_mm=math.ceil(piece.width_mm / INCH - 1e-9) * INCH,
            thickness_mm=piece.thickness_mm,
            species=piece.species,
            price=1.0,
        )
        for lot in shopping_list(request)
        for n, piece in enumerate(lot.pieces)
    )
    plan = plan_cutting(replace(request, boards=boards))
    assert plan.unplaced == ()
