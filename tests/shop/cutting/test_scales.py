"""Conservative scales: what lies together still does under every one of them."""

from __future__ import annotations

from itertools import combinations_with_replacement

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from furniture.shop.cutting.scales import heaviest_pairs, scaled_shares


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.integers(4, 60), st.data())
def test_sizes_that_fit_one_board_still_do_when_scaled(board: int, data: st.DataObject) -> None:
    """Every way to lay sizes end to end that sums to a board at most, in whole numbers."""
    sizes = data.draw(st.lists(st.integers(1, board), min_size=1, max_size=5, unique=True))
    rows = scaled_shares(np.array(sizes) / board)
    for count in range(1, 7):
        for chosen in combinations_with_replacement(range(len(sizes)), count):
            if sum(sizes[n] for n in chosen) <= board:
                assert rows[:, list(chosen)].sum(axis=1).max() <= 1.0 + 1e-9


def test_the_heaviest_pair_comes_first() -> None:
    """By hand: 34 of 100 lie two to a row both ways, so each weighs a quarter of a board."""
    shares = np.array([0.34])
    weights = heaviest_pairs(shares, shares, np.array([5.0]), 3)
    assert [float(each[0]) for each in weights[:1]] == [0.25]
    assert all(float(each[0]) <= 0.25 for each in weights)
