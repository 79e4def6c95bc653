"""Moisture and density: Wood Handbook, chapter 4."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.density import (
    density_from_specific_gravity_kg_m3,
    density_kg_m3,
    shrinkage_from_green_pct,
)
from furniture.timber.moisture import equilibrium_moisture_pct
from furniture.timber.species import find_species
from tests.published.case import Case, How, from_source

SOURCE = "Wood Handbook, FPL-GTR-282 (2021), chapter 4"

# Table 4-2 as reprinted by a timber merchant: rows of humidity, columns of temperature.
_FAHRENHEIT = (30, 50, 70, 90, 130)
_TABLE_4_2: dict[int, tuple[float, ...]] = {
    20: (4.6, 4.6, 4.5, 4.3, 3.7),
    30: (6.3, 6.3, 6.2, 5.9, 5.2),
    40: (7.9, 7.9, 7.7, 7.4, 6.6),
    50: (9.5, 9.5, 9.2, 8.9, 7.9),
    60: (11.3, 11.2, 11.0, 10.5, 9.4),
    65: (12.4, 12.3, 12.0, 11.5, 10.3),
    70: (13.5, 13.4, 13.1, 12.6, 11.3),
    80: (16.5, 16.4, 16.0, 15.4, 14.0),
    85: (18.5, 18.4, 17.9, 17.3, 15.8),
}


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def _moisture(fahrenheit: int, humidity: int, expected: float, how: How) -> Case:
    return Case(
        id=f"emc-{fahrenheit}F-{humidity}",
        quantity=f"moisture in equilibrium, {fahrenheit} deg F, {humidity} % humidity",
        place="Table 4-2 (p. 4-4, from Eq. 4-5), as a timber merchant reprints it",
        how=how,
        expected=expected,
        unit="% MC",
        tolerance=0.1,
        reason="printed to 0.1; the table was made with constants in deg F",
        compute=partial(equilibrium_moisture_pct, _celsius(fahrenheit), humidity),
    )


CASES = from_source(
    SOURCE,
    *(
        _moisture(fahrenheit, humidity, expected, How.READ)
        for humidity, row in _TABLE_4_2.items()
        for fahrenheit, expected in zip(_FAHRENHEIT, row, strict=True)
    ),
    _moisture(70, 90, 20.5, How.READ),
    _moisture(70, 95, 23.9, How.MEMORY),
    Case(
        id="density-60-12",
        quantity="density at specific gravity 0.60 and 12 % moisture",
        place="Table 4-6a, Eq. 4-14 (p. 4-12)",
        how=How.READ,
        expected=672.0,
        unit="kg/m3",
        tolerance=0.5,
        reason="printed to 1",
        compute=partial(density_from_specific_gravity_kg_m3, 0.60, 12.0),
    ),
    Case(
        id="density-40-100",
        quantity="density at specific gravity 0.40 and 100 % moisture",
        place="Table 4-6a, Eq. 4-14 (p. 4-12)",
        how=How.READ,
        expected=800.0,
        unit="kg/m3",
        tolerance=0.5,
        reason="printed to 1",
        compute=partial(density_from_specific_gravity_kg_m3, 0.40, 100.0),
    ),
    Case(
        id="density-ash-12",
        quantity="density of white ash at 12 % moisture, from its data row",
        place="Table 4-6a at its specific gravity 0.60",
        how=How.READ,
        expected=672.0,
        unit="kg/m3",
        tolerance=0.5,
        reason="printed to 1",
        compute=lambda: density_kg_m3(find_species("ash"), 12.0),
    ),
    Case(
        id="shrinkage-half",
        quantity="shrinkage of black cherry, tangential, from green to 15 % moisture",
        place="Table 4-3 (7.1 %) with Eq. 4-9 (p. 4-10): half of it",
        how=How.DATA_READ,
        expected=3.55,
        unit="%",
        tolerance=1e-9,
        reason="exact arithmetic",
        compute=partial(shrinkage_from_green_pct, 7.1, 15.0, 30.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
