"""Strength and stiffness: Wood Handbook, chapter 5."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.strength import strength_at_moisture_mpa
from furniture.timber.species import find_species
from tests.published.case import Case, How, from_source

_PSI = 0.00689476
_LBF = 4.44822


def _value(name: str, quantity: str) -> float:
    value = getattr(find_species(name), quantity)
    assert value is not None
    return float(value)


def _row(name: str, quantity: str, printed: float, unit: str, per: float, to: float) -> Case:
    return Case(
        id=f"{name}-{quantity}",
        quantity=f"{quantity} of {name}",
        place="Table 5-5b (1999: 4-5b), imported woods, inch-pound, converted",
        how=How.READ,
        expected=printed * per,
        unit=unit,
        tolerance=to,
        reason="half a step of the printed figures in both systems",
        compute=partial(_value, name, quantity),
    )


CASES = from_source(
    "Wood Handbook, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 5",
    Case(
        id="ash-mor-8",
        quantity="bending strength of white ash at 8 % moisture",
        place="worked example of Eq. 5-3 (p. 5-34): 103 and 66 MPa, Mp 24 %",
        how=How.READ,
        expected=119.5,
        unit="MPa",
        tolerance=0.25,
        reason="printed to 0.1, inputs to 1",
        compute=partial(strength_at_moisture_mpa, 103.0, 66.0, 8.0, 24.0),
    ),
    _row("mahogany", "mor_mpa", 11_500, "MPa", _PSI, 0.4),
    _row("mahogany", "moe_gpa", 1.50, "GPa", 6.89476, 0.05),
    _row("mahogany", "shear_mpa", 1_230, "MPa", _PSI, 0.06),
    _row("mahogany", "side_hardness_n", 800, "N", _LBF, 50.0),
    _row("teak", "mor_mpa", 14_600, "MPa", _PSI, 0.4),
    _row("teak", "moe_gpa", 1.55, "GPa", 6.89476, 0.05),
    _row("teak", "shear_mpa", 1_890, "MPa", _PSI, 0.06),
    _row("teak", "side_hardness_n", 1_000, "N", _LBF, 50.0),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
