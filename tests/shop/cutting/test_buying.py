"""Quarters by the published scale, and what is bought for what is wanted."""

from __future__ import annotations

import pytest

from furniture.shop.cutting.buying import purchases_for, quarters_for
from furniture.shop.cutting.plan import BoardWanted


@pytest.mark.parametrize(
    # Quarter scale: 4/4 holds 1 in and no more.
    ("thickness", "quarters"),
    [(18.0, 4), (25.4, 4), (25.5, 5), (38.1, 6), (50.8, 8), (101.6, 16)],
)
def test_quarters(thickness: float, quarters: int) -> None:
    assert quarters_for(thickness) == quarters


def test_what_is_bought_holds_what_is_wanted() -> None:
    wanted = BoardWanted(species="oak", length_mm=700, width_mm=130, thickness_mm=20)
    (purchase,) = purchases_for([(wanted, 3)])
    assert purchase.thickness_quarters == 4
    assert purchase.cubic_metres * 1e9 >= 3 * 700 * 130 * 20
    assert len(purchase.pieces) == 3
