"""Sets of boards that cost less than a plan: all of them that could hold it, each once."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.board_sets import cheaper_sets
from furniture.shop.cutting.values import CuttingRequest, Limits
from tests.shop.cutting.bench import oak, part, stand
from tests.shop.cutting.checker import faults_of_plan


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(1, 20), min_size=1, max_size=6, unique=True), st.integers(1, 60))
def test_every_full_set_under_the_price_is_named_once(prices: list[int], price: int) -> None:
    """By trying every set: those under the price that no further board fits into."""
    boards = tuple(oak(f"b{n}", 1000, 100, price=p) for n, p in enumerate(prices))
    request = CuttingRequest(boards=boards, parts=(part("p", 1, 300, 50),))
    under = [
        frozenset(some)
        for count in range(1, len(boards) + 1)
        for some in combinations(range(len(boards)), count)
        if sum(prices[n] for n in some) < min(price, sum(prices))
    ]
    full = {some for some in under if not any(some < other for other in under)}
    found = [
        frozenset(int(board.name[1:]) for board in chosen)
        for chosen in cheaper_sets(request, price, 1000)
    ]
    assert set(found) == full
    assert len(found) == len(full)


def test_boards_alike_are_one_choice() -> None:
    boards = tuple(oak(f"b{n}", 1000, 100, price=10) for n in range(6))
    request = CuttingRequest(boards=boards, parts=(part("p", 2, 300, 50),))
    assert len(cheaper_sets(request, 35, 1000)) == 1


def test_a_set_without_wood_enough_is_left_out() -> None:
    boards = (oak("large", 1000, 200, price=20), oak("small", 400, 60, price=5))
    request = CuttingRequest(boards=boards, parts=(part("p", 2, 500, 90),))
    assert cheaper_sets(request, 20, 10) == ()


def test_a_stand_does_without_its_third_board() -> None:
    """Two boards hold all with every match kept, 12 cheaper than begun from the first."""
    plan = plan_cutting(stand())
    assert faults_of_plan(stand(), plan) == []
    assert plan.cost == plan.proof.bound == 75  # one question is asked harder than all others
    assert {board.board for board in plan.boards} == {"long", "taper"}


def test_the_same_boards_alone_are_no_cheaper_set() -> None:
    request = CuttingRequest(
        boards=(oak("a", 1000, 100, price=10),),
        parts=(part("p", 1, 300, 50),),
        limits=Limits(rounds=2),
    )
    assert cheaper_sets(request, 100, 10) == ()
