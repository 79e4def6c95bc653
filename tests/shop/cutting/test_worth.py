"""Parts that are cut only if it pays: plan and bound against an oracle that looks at everything."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from furniture.errors import DesignError
from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.plan import CuttingPlan, LeftOutReason
from furniture.shop.cutting.price_bound import PriceBound
from furniture.shop.cutting.values import (
    CuttingRequest,
    Limits,
    MatchGroup,
    MatchRule,
    Saw,
    Stages,
    ZoneKind,
)
from tests.shop.cutting import brute
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.sawing import Box
from tests.shop.cutting.zones import rectangular_zone

FEW = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
LIMITS = Limits(seconds=60, rounds=6, stages=Stages.ANY)

SIZES = st.lists(
    st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(1, 3), st.integers(0, 12)),
    min_size=1,
    max_size=4,
)
"""Length, width, copies, worth."""
Sizes = list[tuple[int, int, int, int]]


def _request(boards: tuple[object, ...], sizes: Sizes, musts: int = 0) -> CuttingRequest:
    parts = tuple(
        part(f"p{n}", q, le, wi, worth=None if n < musts else float(worth))
        for n, (le, wi, q, worth) in enumerate(sizes)
    )
    return CuttingRequest(boards=boards, parts=parts, saw=Saw(kerf_mm=0), limits=LIMITS)  # type: ignore[arg-type]


def _planned(request: CuttingRequest) -> CuttingPlan:
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    return plan


@FEW
@given(st.integers(3, 8), st.integers(3, 6), st.integers(0, 15), SIZES)
def test_one_board_gives_what_pays_most(length: int, width: int, price: int, sizes: Sizes) -> None:
    plan = _planned(_request((oak("b", length, width, price=price),), sizes))
    everything = sum(q * worth for _, _, q, worth in sizes)
    cut = brute.best_value(length, width, sizes)
    best = min(everything, price + everything - cut)
    assert plan.unplaced == ()
    assert plan.proof.bound <= best + 1e-6
    assert plan.cost == pytest.approx(best)


@FEW
@given(
    st.integers(4, 8), st.integers(3, 6), SIZES,
    st.tuples(st.integers(0, 6), st.integers(0, 4), st.integers(1, 3), st.integers(1, 2)),
)  # fmt: skip
def test_no_board_with_a_fault_is_said_to_give_more_than_it_does(
    length: int, width: int, sizes: Sizes, fault: tuple[int, int, int, int]
) -> None:
    """Copies limited on a board with faults are searched, not looked at to the end."""
    x, y = min(fault[0], length - 1), min(fault[1], width - 1)
    far = (min(x + fault[2], length), min(y + fault[3], width))
    zone = rectangular_zone(
        name="k", kind=ZoneKind.KNOT, x=x, y=y, length=far[0] - x, width=far[1] - y
    )
    plan = _planned(_request((oak("b", length, width, zone, price=0),), sizes))
    bad: Box = (float(x), float(y), float(far[0]), float(far[1]))
    everything = sum(q * worth for _, _, q, worth in sizes)
    best = everything - brute.best_value(length, width, sizes, (bad,))
    assert plan.proof.bound <= best + 1e-6
    assert best <= plan.cost + 1e-6


def test_endless_copies_are_worth_more_than_those_there_are() -> None:
    """Prices far from whole, and a board with room for many times the copies wanted."""
    zone = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=0, y=0, length=3, width=1)
    request = _request((oak("b", 40, 20, zone, price=0),), [(2, 1, 1, 1), (7, 3, 1, 0)])
    bound = PriceBound(request, blanks_of(request, frozenset()))
    filled = bound.kinds[0].table.filled(np.array([1 / 3, 0.0]))
    assert filled.value == pytest.approx(len(filled.spots) / 3)
    assert len(filled.spots) > 30


@FEW
@given(
    st.integers(3, 6), st.integers(2, 5), st.integers(0, 9), st.integers(0, 9), st.integers(0, 1),
    st.lists(
        st.tuples(st.integers(1, 4), st.integers(1, 4), st.integers(1, 2), st.integers(0, 9)),
        min_size=1, max_size=3,
    ),
)  # fmt: skip
def test_two_boards_give_the_musts_and_what_pays_most(
    length: int, width: int, first: int, second: int, musts: int, sizes: Sizes
) -> None:
    boards = (
        oak("a", length, width, price=first),
        oak("b", length + 1, width, price=second),
    )
    request = _request(boards, sizes, musts)
    plan = _planned(request)
    best = _least_price(request, sizes, musts)
    if best is None:
        assert plan.unplaced
        return
    assert plan.unplaced == ()
    assert plan.proof.bound <= best + 1e-6
    assert plan.cost == pytest.approx(best)


def _least_price(request: CuttingRequest, sizes: Sizes, musts: int) -> float | None:
    """The least price of boards and worth left out, by every share of copies to the two boards."""

    def fits(board: int, counts: tuple[int, ...]) -> bool:
        items = [(le, wi, n, le * wi) for (le, wi, _, _), n in zip(sizes, counts, strict=True)]
        if not any(counts):
            return True
        whole = request.boards[board]
        area = sum(n * value for _, _, n, value in items)
        return brute.best_value(int(whole.length_mm), int(whole.greatest_width_mm), items) == area

    ranges = [range(q + 1) for _, _, q, _ in sizes]
    held = [{counts for counts in product(*ranges) if fits(board, counts)} for board in range(2)]
    best: float | None = None
    for one, two in product(*held):
        cut = [a + b for a, b in zip(one, two, strict=True)]
        wanted = [q for _, _, q, _ in sizes]
        if any(n > q for n, q in zip(cut, wanted, strict=True)) or cut[:musts] != wanted[:musts]:
            continue
        price = sum(b.price for b, held_there in zip(request.boards, (one, two), strict=True)
                    if any(held_there))  # fmt: skip
        spared = zip(wanted[musts:], cut[musts:], sizes[musts:], strict=True)
        price += sum((q - n) * worth for q, n, (_, _, _, worth) in spared)
        best = price if best is None else min(best, price)
    return best


@FEW
@given(st.integers(3, 8), st.integers(3, 6), st.integers(0, 15), SIZES)
def test_no_prices_make_the_bound_say_too_much(
    length: int, width: int, price: int, sizes: Sizes
) -> None:
    """The bound by prices alone, moved as far as it goes."""
    request = _request((oak("b", length, width, price=price),), sizes)
    bound = PriceBound(request, blanks_of(request, frozenset()))
    everything = sum(q * worth for _, _, q, worth in sizes)
    best = min(everything, price + everything - brute.best_value(length, width, sizes))
    for _ in bound.moved(best + 1.0, lambda: False):
        pass
    assert bound.value <= best + 1e-6


def _coasters(worth: float | None, price: float = 20.0) -> CuttingRequest:
    """A rail that must be cut, and four coasters that share its board or ask for the next."""
    return CuttingRequest(
        boards=(oak("a", 1000, 120, price=price), oak("b", 1000, 120, price=price)),
        parts=(part("rail", 2, 800, 50), part("coaster", 6, 100, 100, worth=worth)),
        saw=replace(shop(), shortest_rip_mm=0, shortest_crosscut_mm=0, narrowest_rip_mm=0),
        limits=Limits(seconds=60, rounds=4),
    )


def test_a_copy_that_is_worth_less_than_its_board_is_left_out() -> None:
    plan = _planned(_coasters(2.0))
    assert plan.unplaced == ()
    assert [board.board for board in plan.boards] == ["a"]
    (entry,) = plan.left_out
    assert (entry.part, entry.worth) == ("coaster", 2.0)
    assert entry.reason is LeftOutReason.NOT_WORTH_IT
    assert plan.proof.is_proven


def test_a_copy_that_is_worth_a_board_is_cut() -> None:
    plan = _planned(_coasters(8.0))
    assert (plan.unplaced, plan.left_out) == ((), ())
    assert len(plan.boards) == 2


def test_a_copy_without_room_is_no_failure() -> None:
    request = _coasters(8.0)
    plan = _planned(replace(request, boards=request.boards[:1]))
    assert plan.unplaced == ()
    assert [entry.reason for entry in plan.left_out] == [LeftOutReason.NO_ROOM]
    assert plan.cost == pytest.approx(20 + 8 * plan.left_out[0].copies)


def test_nothing_is_cut_where_nothing_pays() -> None:
    request = _coasters(2.0)
    plan = _planned(replace(request, parts=request.parts[1:]))
    assert plan.boards == ()
    assert plan.cost == 12
    assert plan.proof.is_proven


def test_a_match_of_what_may_be_left_out_is_refused() -> None:
    request = _coasters(1.0)
    alike = MatchGroup(name="alike", rule=MatchRule.SAME_BOARD, members=("rail", "coaster"))
    with pytest.raises(DesignError) as refused:
        plan_cutting(replace(request, matches=(alike,)))
    told = [problem.parameter for problem in refused.value.problems]
    assert told == ["match 'alike' members"]
