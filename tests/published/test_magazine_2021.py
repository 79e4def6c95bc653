"""A woodworking magazine's sidebar on wood movement, September 2021."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.movement import Across, Sawn, change_by_coefficient_mm, change_mm
from furniture.timber.species import find_species
from tests.published.case import Case, How, from_source

CASES = from_source(
    "Woodworking magazine (US), September 2021, sidebar on wood movement",
    Case(
        id="alder-rounded",
        quantity="red alder, 8 in flat sawn, six points of moisture, coefficient as rounded there",
        place="8 x .0026 x 6",
        how=How.READ,
        expected=0.1248 * 25.4,
        unit="mm",
        tolerance=0.0001 * 25.4,
        reason="exact arithmetic",
        compute=partial(change_by_coefficient_mm, 8 * 25.4, 0.0026, 6.0),
    ),
    Case(
        id="alder-data",
        quantity="red alder, 8 in flat sawn, 6 to 12 % moisture, from our data row",
        place="8 x .0026 x 6",
        how=How.READ,
        expected=0.1248 * 25.4,
        unit="mm",
        tolerance=0.02 * 0.1248 * 25.4,
        reason="the sidebar rounds the coefficient 0.00256 to 0.0026",
        compute=lambda: change_mm(
            find_species("red alder"), 8 * 25.4, 6.0, 12.0, Sawn.FLAT, Across.WIDTH
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
