"""Small orders of whole numbers against an oracle that looks at everything: no wrong yes or no."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.values import CuttingRequest, Limits, Saw
from tests.shop.cutting import brute
from tests.shop.cutting.bench import oak, part
from tests.shop.cutting.checker import faults_of_plan

FEW = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
LIMITS = Limits(seconds=60, rounds=4)


@FEW
@given(
    st.integers(3, 8),
    st.integers(3, 7),
    st.lists(st.tuples(st.integers(1, 5), st.integers(1, 5), st.integers(1, 3)), min_size=1,
             max_size=4),
)  # fmt: skip
def test_what_is_said_to_fit_does_and_what_cannot_does_not(
    length: int, width: int, sizes: list[tuple[int, int, int]]
) -> None:
    """One board: a whole plan only where the oracle cuts everything; a proven no only where not."""
    parts = tuple(part(f"p{n}", q, le, wi) for n, (le, wi, q) in enumerate(sizes))
    request = CuttingRequest(
        boards=(oak("b", length, width),), parts=parts, saw=Saw(kerf_mm=0), limits=LIMITS
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    items = [(le, wi, q, le * wi) for le, wi, q in sizes]
    everything = sum(le * wi * q for le, wi, q, _ in items)
    fits = brute.best_value(length, width, items) == everything
    assert fits or plan.unplaced
    if plan.unplaced and plan.proof.bound > 0:
        assert not fits


@FEW
@given(st.integers(6, 20), st.lists(st.integers(2, 12), min_size=1, max_size=9))
def test_bars_are_never_said_to_need_more_than_they_do(length: int, pieces: list[int]) -> None:
    """Bars of one width: the bound is at most the fewest there are, the plan at least that."""
    pieces = [min(piece, length) for piece in pieces]
    parts = tuple(part(f"p{size}", pieces.count(size), size, 10) for size in sorted(set(pieces)))
    boards = tuple(oak(f"b{n}", length, 10, price=1) for n in range(len(pieces)))
    request = CuttingRequest(boards=boards, parts=parts, saw=Saw(kerf_mm=0), limits=LIMITS)
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    fewest = brute.fewest_bars(length, sorted(pieces, reverse=True))
    assert plan.unplaced == ()
    assert plan.proof.bound <= fewest <= len(plan.boards)
    assert len(plan.boards) == fewest
