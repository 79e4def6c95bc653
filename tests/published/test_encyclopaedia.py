"""An encyclopaedia's page on equilibrium moisture content."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.moisture import equilibrium_moisture_pct
from tests.published.case import Case, How, from_source

# The same page's table has 8.0 there: the equation and not the table is what we use.
CASES = from_source(
    "Encyclopaedia page on equilibrium moisture content",
    Case(
        id="emc-140F-55",
        quantity="moisture in equilibrium, 140 deg F, 55 % humidity, by the equation",
        place="worked value beside the equation",
        how=How.READ,
        expected=8.4,
        unit="% MC",
        tolerance=0.05,
        reason="printed to 0.1",
        compute=partial(equilibrium_moisture_pct, 60.0, 55.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
