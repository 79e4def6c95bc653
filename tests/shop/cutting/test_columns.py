"""Columns, prices and dives: bounds that hold, layouts that can be cut, answers on one board."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.blanks import blanks_of, single_pieces
from furniture.shop.cutting.board_kinds import kinds_in_units
from furniture.shop.cutting.columns import Columns
from furniture.shop.cutting.covering import Column, Covering
from furniture.shop.cutting.dives import Dives
from furniture.shop.cutting.one_board import all_on_one
from furniture.shop.cutting.pricing import pricing_of
from furniture.shop.cutting.values import CuttingRequest, Limits, Saw
from tests.shop.cutting import brute
from tests.shop.cutting.bench import oak, part
from tests.shop.cutting.checker import faults_of_plan

FEW = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
SIZES = st.lists(
    st.tuples(st.integers(2, 6), st.integers(2, 5), st.integers(1, 3)), min_size=1, max_size=4
)


def _order(
    length: float, width: float, boards: int, *parts: tuple[int, float, float]
) -> CuttingRequest:
    return CuttingRequest(
        boards=tuple(oak(f"b{n}", length, width) for n in range(boards)),
        parts=tuple(part(f"p{n}", *each) for n, each in enumerate(parts)),
        saw=Saw(kerf_mm=0),
        limits=Limits(seconds=60, rounds=4),
    )


def test_the_program_shares_boards_and_prices_pieces() -> None:
    """By hand: three pieces in pairs take 1 1/2 boards at 10, so each piece is worth 5."""
    master = Covering(np.array([1, 1, 1]), (10.0,), (9,))
    for counts in ((1, 1, 0), (1, 0, 1), (0, 1, 1)):
        assert master.add(Column(0, counts))
    relaxed = master.solve()
    assert relaxed.value == pytest.approx(15.0)
    assert relaxed.prices == pytest.approx([5.0, 5.0, 5.0])
    assert relaxed.shares == pytest.approx([0.5, 0.5, 0.5])


def test_boards_that_run_out_are_dearer_than_their_price() -> None:
    """By hand: one board at 10 is there, two at 16; with one more at 10, 6 would be saved."""
    master = Covering(np.array([2]), (10.0, 16.0), (1, 2))
    assert master.add(Column(0, (1,)))
    assert master.add(Column(1, (1,)))
    relaxed = master.solve()
    assert relaxed.value == pytest.approx(26.0)
    assert relaxed.scarce == pytest.approx([6.0, 0.0])


@FEW
@given(st.integers(6, 14), st.integers(5, 12), SIZES)
def test_no_plan_costs_less_than_the_prices_say(
    length: int, width: int, sizes: list[tuple[int, int, int]]
) -> None:
    """What the planner finds is never below; and what dives find can be sawn."""
    request = _order(length, width, 12, *((q, le, min(wi, width)) for le, wi, q in sizes))
    columns = Columns(request)
    useful = columns.priced(lambda bound: False, lambda: False)
    plan = plan_cutting(request)
    assert columns.value <= plan.cost + 1e-6
    for placements in Dives(columns).plans(useful, 1e6, 1, lambda: False):
        boards = len({each.board for each in placements})
        assert 10.0 * boards >= columns.value - 1e-6


@FEW
@given(
    st.integers(8, 30),
    st.lists(
        st.tuples(st.integers(2, 12), st.integers(1, 3)),
        min_size=1,
        max_size=4,
        unique_by=lambda each: each[0],
    ),
)
def test_a_bar_is_filled_as_well_as_can_be(length: int, sizes: list[tuple[int, int]]) -> None:
    """Against every way to take copies, by worths without order."""
    sizes = [(min(size, length), copies) for size, copies in sizes]
    request = _order(length, 10, 3, *((copies, size, 10) for size, copies in sizes))
    pieces = single_pieces(blanks_of(request, frozenset()))
    (kind,) = kinds_in_units(request, pieces)
    worth = np.array([1.0 + (7 * n) % 5 for n in range(len(sizes))])
    limits = np.array([copies for _, copies in sizes])
    found = pricing_of(kind).boards(worth, limits, 0.5, 1, lambda: False)
    best = max(
        sum(w * c for w, c in zip(worth, counts, strict=True))
        for counts in itertools.product(*(range(copies + 1) for _, copies in sizes))
        if sum(size * c for (size, _), c in zip(sizes, counts, strict=True)) <= length
    )
    assert found.most == pytest.approx(best)
    shapes = kind.against.shapes
    first = sum(worth[shapes[spot.shape].piece] for spot in found.layouts[0])
    assert first == pytest.approx(best)


@FEW
@given(st.integers(4, 9), st.integers(4, 8), SIZES)
def test_one_board_holds_all_or_not_as_the_oracle_says(
    length: int, width: int, sizes: list[tuple[int, int, int]]
) -> None:
    sizes = [(min(le, length), min(wi, width), q) for le, wi, q in sizes]
    request = _order(length, width, 1, *((q, le, wi) for le, wi, q in sizes))
    answer = all_on_one(Columns(request), lambda: False)
    items = [(le, wi, q, le * wi) for le, wi, q in sizes]
    fits = brute.best_value(length, width, items) == sum(le * wi * q for le, wi, q in sizes)
    assert answer.is_impossible != fits
    assert (answer.placements is not None) == fits


def test_rails_that_fill_their_boards_in_threes_are_planned_and_proven() -> None:
    """By hand: every board of 1000 is a + b + c to the last millimetre, twelve boards of them."""
    threes = [(501 - 7 * n, 263 + 4 * n, 236 + 3 * n) for n in range(12)]
    request = _order(1000, 10, 36, *((1, size, 10) for size in itertools.chain(*threes)))
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert len(plan.boards) == 12
    assert plan.proof.is_proven


def test_a_bound_by_prices_proves_what_no_scale_does() -> None:
    """By hand: 5 + 5, 5 + 3 or 3 + 3 + 3 lie on a board of 10: 12 / 2 + 20 / 3 boards are 12.7."""
    request = _order(10, 10, 20, (12, 5, 10), (20, 3, 10))
    columns = Columns(request)
    columns.priced(lambda bound: False, lambda: False)
    assert columns.value == pytest.approx(10 * (12 / 2 + 20 / 3))
    assert plan_cutting(request).cost == pytest.approx(130)
