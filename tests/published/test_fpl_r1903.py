"""Forest Products Laboratory R1903-7 (1951), Control of moisture content and shrinkage of wood."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.moisture import equilibrium_moisture_pct
from tests.published.case import Case, How, from_source

CASES = from_source(
    "Forest Products Laboratory R1903-7 (1951), Control of moisture content and shrinkage of wood",
    Case(
        id="r1903-70-59",
        quantity="moisture in equilibrium, 70 deg F, 59 % humidity",
        place="text on table 1",
        how=How.READ,
        expected=10.9,
        unit="% MC",
        tolerance=0.2,
        reason="the older table came from measurements and not from the equation",
        compute=partial(equilibrium_moisture_pct, (70.0 - 32.0) / 1.8, 59.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
