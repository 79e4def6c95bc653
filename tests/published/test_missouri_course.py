"""A course in timber design, Missouri University of Science and Technology."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.movement import change_by_coefficient_mm
from tests.published.case import Case, How, from_source

# The page's second method prints 13.02 in, but its own formula gives 12.989: not used here.
CASES = from_source(
    "Missouri University of Science and Technology, timber design, solution of problem 4.34",
    Case(
        id="mst-4.34",
        quantity="shrinkage of a 13.25 in beam, 0.2 % a point, from 19 to 10 % moisture",
        place="problem 4.34",
        how=How.READ,
        expected=-0.2385 * 25.4,
        unit="mm",
        tolerance=0.00005 * 25.4,
        reason="printed to 0.0001 in",
        compute=partial(change_by_coefficient_mm, 13.25 * 25.4, 0.002, 10.0 - 19.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
