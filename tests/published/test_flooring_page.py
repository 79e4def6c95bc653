"""A flooring trade's page that works the 1987 Wood Handbook's method."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.movement import Across, Sawn, change_by_coefficient_mm, coefficient
from furniture.timber.species import find_species
from tests.published.case import Case, How, from_source


def _tangential(name: str) -> float:
    return coefficient(find_species(name), Sawn.FLAT, Across.WIDTH)


CASES = from_source(
    "Flooring trade pages on dimensional change, after the Wood Handbook (1987)",
    Case(
        id="floor-5in",
        quantity="a 5 in board with coefficient 0.00129 from 6 to 9 % moisture",
        place="worked example",
        how=How.READ,
        expected=0.019 * 25.4,
        unit="mm",
        tolerance=0.0005 * 25.4,
        reason="printed to 0.001 in",
        compute=partial(change_by_coefficient_mm, 5 * 25.4, 0.00129, 3.0),
    ),
    *(
        Case(
            id=f"floor-{name}",
            quantity=f"tangential movement of {name}",
            place="table of coefficients",
            how=How.READ,
            expected=printed,
            unit="1/% MC",
            tolerance=0.00001,
            reason="two such pages differ by 0.00001",
            compute=partial(_tangential, name),
        )
        for name, printed in (("teak", 0.00186), ("Douglas-fir", 0.00267), ("birch", 0.00338))
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
