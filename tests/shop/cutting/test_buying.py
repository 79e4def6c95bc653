"""Board feet and quarters against the published rule's own examples."""

from __future__ import annotations

import pytest

from furniture.shop.cutting.buying import board_feet, purchases_for, quarters_for, surface_measure
from furniture.shop.cutting.plan import BoardWanted

INCH = 25.4
FOOT = 304.8


@pytest.mark.parametrize(
    ("width", "length", "expected"),
    # American Hardwood Export Council, measurement page (NHLA rule): its own examples.
    [(6.25, 8, 4), (6.5, 8, 4), (8, 12, 8), (10, 13, 11)],
)
def test_surface_measure(width: float, length: float, expected: int) -> None:
    assert surface_measure(width * INCH, length * FOOT) == expected


def test_board_feet_of_two_inch_stock() -> None:
    # Same page: 2 in x 6 1/4 in x 8 ft is 8 board feet.
    assert board_feet(6.25 * INCH, 8 * FOOT, 8) == 8


def test_length_drops_to_whole_feet() -> None:
    # The rule cuts length down to whole feet: 8 ft 11 in counts as 8 ft.
    assert surface_measure(6 * INCH, 8 * FOOT + 11 * INCH) == surface_measure(6 * INCH, 8 * FOOT)


@pytest.mark.parametrize(
    # Quarter scale: 4/4 holds 1 in and no more.
    ("thickness", "quarters"),
    [(18.0, 4), (25.4, 4), (25.5, 5), (38.1, 6), (50.8, 8), (101.6, 16)],
)
def test_quarters(thickness: float, quarters: int) -> None:
    assert quarters_for(thickness) == quarters


def test_what_is_bought_holds_what_is_wanted() -> None:
    wanted = BoardWanted(species="oak", length=700, width=130, thickness=20)
    (purchase,) = purchases_for([(wanted, 3)])
    assert purchase.thickness_quarters == 4
    assert purchase.cubic_metres * 1e9 >= 3 * 700 * 130 * 20
    assert len(purchase.pieces) == 3
