"""The classical problems against an oracle that looks at everything, and every layout checked."""

from __future__ import annotations

import random
from collections import Counter

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from furniture.shop.cutting.classic.bars import fewest_bars
from furniture.shop.cutting.classic.boards import fewest_boards
from furniture.shop.cutting.classic.decision import Verdict, fits_one_board
from furniture.shop.cutting.classic.limited import best_limited
from furniture.shop.cutting.classic.unlimited import best_unlimited
from furniture.shop.cutting.classic.values import Answer, Fault, Item, Panel
from tests.benchmarks.cutting_runs import warm_up
from tests.shop.cutting import brute
from tests.shop.cutting.sawing import Box, faults_of_boards, is_guillotine

FEW = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))


def size(item: Item) -> brute.Size:
    """An item as the oracle takes it."""
    return item.length, item.width, item.quantity, item.value


def faults_of(panel: Panel, items: list[Item], answer: Answer, *, whole: bool = False) -> list[str]:
    """What the checker has against an answer."""
    return faults_of_boards(
        panel.length,
        panel.width,
        [(item.length, item.width) for item in items],
        [item.quantity for item in items],
        [[(laying.item, laying.x, laying.y) for laying in board] for board in answer.boards],
        bad_of(panel),
        all_wanted=whole,
    )


def bad_of(panel: Panel) -> list[Box]:
    """The panel's faults as boxes."""
    return [(f.x, f.y, f.x + f.length, f.y + f.width) for f in panel.faults]


def worth(items: list[Item], answer: Answer) -> int:
    """What the layout is worth, added up from its pieces."""
    return sum(items[laying.item].value for board in answer.boards for laying in board)


@st.composite
def orders(draw: st.DrawFn, *, limited: bool, faults: int = 0) -> tuple[Panel, list[Item]]:
    """A board up to 8 x 7 and up to four kinds of item."""
    length, width = draw(st.integers(3, 8)), draw(st.integers(3, 7))
    spots = []
    for _ in range(draw(st.integers(0, faults))):
        x, y = draw(st.integers(0, length - 1)), draw(st.integers(0, width - 1))
        spots.append(
            Fault(
                x=x,
                y=y,
                length=draw(st.integers(1, min(2, length - x))),
                width=draw(st.integers(1, min(2, width - y))),
            )
        )
    items = [
        Item(
            length=draw(st.integers(2, length)),
            width=draw(st.integers(2, width)),
            quantity=draw(st.integers(1, 2)) if limited else None,
            value=draw(st.integers(1, 20)),
        )
        for _ in range(draw(st.integers(1, 4 if limited else 3)))
    ]
    return Panel(length=length, width=width, faults=tuple(spots)), items


@pytest.fixture(scope="module", autouse=True)
def _compiled() -> None:
    """The kernels are compiled before any test gives a search its time."""
    warm_up()


@FEW
@given(orders(limited=False))
def test_unlimited_copies_reach_the_oracle(order: tuple[Panel, list[Item]]) -> None:
    panel, items = order
    answer = best_unlimited(panel, items)
    assert faults_of(panel, items, answer) == []
    expected = brute.best_value(panel.length, panel.width, [size(i) for i in items])
    assert answer.value == worth(items, answer) == expected


@FEW
@given(orders(limited=False, faults=3))
def test_faults_are_kept_off_at_no_more_than_their_cost(order: tuple[Panel, list[Item]]) -> None:
    panel, items = order
    answer = best_unlimited(panel, items)
    assert faults_of(panel, items, answer) == []
    sizes = [size(item) for item in items]
    expected = brute.best_value(panel.length, panel.width, sizes, bad_of(panel))
    assert answer.value == worth(items, answer) == expected


@FEW
@given(orders(limited=True))
def test_limited_copies_reach_the_oracle_or_do_not_claim_to(
    order: tuple[Panel, list[Item]],
) -> None:
    panel, items = order
    answer = best_limited(panel, items, seconds=60)
    assert faults_of(panel, items, answer) == []
    expected = brute.best_value(panel.length, panel.width, [size(i) for i in items])
    assert worth(items, answer) == answer.value <= expected <= answer.bound
    assert answer.value == expected


@FEW
@given(orders(limited=True))
def test_one_board_for_all_is_answered_rightly(order: tuple[Panel, list[Item]]) -> None:
    panel, items = order
    areas = [(i.length, i.width, i.quantity, i.length * i.width) for i in items]
    everything = sum(i.length * i.width * (i.quantity or 0) for i in items)
    possible = brute.best_value(panel.length, panel.width, areas) == everything
    decision = fits_one_board(panel, items, seconds=60)
    assert decision.verdict is (Verdict.YES if possible else Verdict.NO)
    if possible:
        answer = Answer(boards=(decision.layings,), value=1, bound=1, bound_from=decision.proof)
        assert faults_of(panel, items, answer, whole=True) == []


@FEW
@given(orders(limited=True))
def test_all_is_cut_and_the_bound_is_no_more_than_the_boards(
    order: tuple[Panel, list[Item]],
) -> None:
    panel, items = order
    answer = fewest_boards(panel, items, seconds=1)
    assert faults_of(panel, items, answer, whole=True) == []
    assert answer.bound <= answer.value == len(answer.boards)
    areas = [(i.length, i.width, i.quantity, i.length * i.width) for i in items]
    everything = sum(area[3] * (area[2] or 0) for area in areas)
    one_is_enough = brute.best_value(panel.length, panel.width, areas) == everything
    assert (answer.value == 1) is one_is_enough


@FEW
@given(st.integers(5, 20), st.lists(st.integers(1, 20), min_size=1, max_size=8))
def test_bars_reach_the_oracle(length: int, pieces: list[int]) -> None:
    pieces = [min(piece, length) for piece in pieces]
    sizes = sorted(set(pieces))
    bars, bound, _ = fewest_bars(length, sizes, [pieces.count(s) for s in sizes], seconds=1)
    for bar in bars:
        assert sum(n * s for n, s in zip(bar, sizes, strict=True)) <= length
    for k, s in enumerate(sizes):
        assert sum(bar[k] for bar in bars) >= pieces.count(s)
    assert bound <= len(bars) == brute.fewest_bars(length, sorted(pieces, reverse=True))


def test_the_pinwheel_is_no_layout_for_a_saw() -> None:
    # Closed form: four 2 x 1 pieces round a unit hole fill 3 x 3, but no edge-to-edge cut exists.
    wheel = [(0.0, 0.0, 2.0, 1.0), (2.0, 0.0, 3.0, 2.0), (1.0, 2.0, 3.0, 3.0), (0.0, 1.0, 1.0, 3.0)]
    assert not is_guillotine(wheel)
    items = [
        Item(length=2, width=1, quantity=2, value=2),
        Item(length=1, width=2, quantity=2, value=2),
    ]
    decision = fits_one_board(Panel(length=3, width=3), items, seconds=60)
    oracle = brute.best_value(3, 3, [size(item) for item in items])
    assert (decision.verdict is Verdict.YES) is (oracle == 8)


def sawn_up(length: int, width: int, pieces: int, seed: int) -> Counter[tuple[int, int]]:
    """Sizes of the pieces of a board cut edge to edge at random, always the largest piece next."""
    source = random.Random(seed)
    found = [(length, width)]
    while len(found) < pieces:
        found.sort(key=lambda size: size[0] * size[1])
        le, wi = found.pop()
        if le > 1 and (wi == 1 or source.random() < le / (le + wi)):
            at = source.randint(1, le - 1)
            found += [(at, wi), (le - at, wi)]
        else:
            at = source.randint(1, wi - 1)
            found += [(le, at), (le, wi - at)]
    return Counter(found)


@pytest.mark.parametrize("seed", range(4))
def test_a_board_sawn_up_goes_together_again(seed: int) -> None:
    # Closed form: the pieces came from this board by edge-to-edge cuts, so the answer is yes.
    sizes = sawn_up(30, 20, 28, seed)
    items = [Item(length=le, width=wi, quantity=n, value=1) for (le, wi), n in sizes.items()]
    decision = fits_one_board(Panel(length=30, width=20), items, seconds=20)
    assert decision.verdict is Verdict.YES
    answer = Answer(boards=(decision.layings,), value=1, bound=1, bound_from=decision.proof)
    assert faults_of(Panel(length=30, width=20), items, answer, whole=True) == []


@pytest.mark.parametrize("seed", range(3))
def test_without_time_it_does_not_guess(seed: int) -> None:
    # 120 pieces that leave no waste and were sawn from this board: NO would be false, and
    # there is no time to find the layout, so only "unknown" is honest.
    sizes = sawn_up(240, 160, 120, seed)
    items = [Item(length=a, width=b, quantity=n, value=1) for (a, b), n in sizes.items()]
    decision = fits_one_board(Panel(length=240, width=160), items, seconds=0)
    assert decision.verdict is Verdict.UNKNOWN
    assert decision.layings == ()


def test_same_seed_same_boards() -> None:
    items = [Item(length=3 + k % 5, width=2 + k % 4, quantity=3, value=1) for k in range(12)]
    panel = Panel(length=17, width=13)
    first = fewest_boards(panel, items, seconds=20, seed=3)
    assert first == fewest_boards(panel, items, seconds=20, seed=3)
    assert first.is_proven
