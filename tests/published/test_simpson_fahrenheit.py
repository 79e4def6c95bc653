"""The moisture equation with Simpson's constants in degrees Fahrenheit: a second set of figures."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.moisture import equilibrium_moisture_pct
from tests.published.case import Case, How, from_source

SOURCE = "Simpson (1973), constants in deg F of the two-hydrate equation"


def _simpson(t: float, humidity_pct: float) -> float:
    """Moisture content [%] at t deg F, with the constants as read."""
    w = 330.0 + 0.452 * t + 0.00415 * t**2
    k = 0.791 + 0.000463 * t - 0.000000844 * t**2
    k1 = 6.34 + 0.000775 * t - 0.0000935 * t**2
    k2 = 1.09 + 0.0284 * t - 0.0000904 * t**2
    h = k * humidity_pct / 100.0
    return (
        1800.0 / w * (h / (1.0 - h) + (k1 * h + 2 * k1 * k2 * h**2) / (1 + k1 * h + k1 * k2 * h**2))
    )


CASES = from_source(
    SOURCE,
    *(
        Case(
            id=f"simpson-{fahrenheit}F-{humidity}",
            quantity=f"moisture in equilibrium, {fahrenheit} deg F, {humidity} % humidity",
            place="equation evaluated in deg F",
            how=How.DATA_READ,
            expected=partial(_simpson, fahrenheit, humidity),
            unit="% MC",
            tolerance=0.1,
            reason="both sets of constants are rounded to three figures",
            compute=partial(equilibrium_moisture_pct, (fahrenheit - 32.0) / 1.8, humidity),
        )
        for fahrenheit, humidity in ((40, 25), (68, 35), (75, 75), (110, 45))
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
