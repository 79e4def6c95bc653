"""E. Wengert's rule of thumb on humidity and moisture content."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.moisture import equilibrium_moisture_pct
from tests.published.case import Case, How, from_source

CASES = from_source(
    "Wengert, answers on wood moisture in the trade press: humidity and moisture content",
    *(
        Case(
            id=f"wengert-{humidity}",
            quantity=f"moisture content in ordinary rooms at {humidity} % humidity",
            place="30, 50, 65, 80 % give about 6, 9, 12, 16 %",
            how=How.READ,
            expected=expected,
            unit="% MC",
            tolerance=0.5,
            reason="a rule in whole numbers",
            compute=partial(equilibrium_moisture_pct, 21.0, humidity),
        )
        for humidity, expected in ((30, 6.0), (50, 9.0), (65, 12.0), (80, 16.0))
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
