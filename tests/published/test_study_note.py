"""A woodworking student's notes that print the handbook's inch-pound figures."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.species import find_species
from tests.published.case import Case, How, from_source

_NAMES = {
    "cherry": (12_300, 1.49),
    "yellow-poplar": (10_100, 1.58),
    "walnut": (14_600, 1.68),
    "white oak": (15_200, 1.78),
    "hard maple": (15_800, 1.83),
}
_SPECIFIC_GRAVITY = {
    "yellow-poplar": 0.42,
    "cherry": 0.50,
    "walnut": 0.55,
    "hard maple": 0.63,
    "white oak": 0.68,
}


def _value(name: str, quantity: str) -> float:
    value = getattr(find_species(name), quantity)
    assert value is not None
    return float(value)


def _case(name: str, quantity: str, expected: float, unit: str, tolerance: float) -> Case:
    return Case(
        id=f"note-{name}-{quantity}",
        quantity=f"{quantity} of {name}",
        place="lists of strength, stiffness and specific gravity",
        how=How.READ,
        expected=expected,
        unit=unit,
        tolerance=tolerance,
        reason="half a step of the metric table and of the inch-pound one",
        compute=partial(_value, name, quantity),
    )


CASES = from_source(
    "Woodworking study notes on the characteristics of wood (psi and Mpsi), a second reading",
    *(_case(n, "mor_mpa", 0.00689476 * mor, "MPa", 0.9) for n, (mor, _) in _NAMES.items()),
    *(_case(n, "moe_gpa", 6.89476 * moe, "GPa", 0.09) for n, (_, moe) in _NAMES.items()),
    *(_case(n, "specific_gravity_12", g, "-", 0.0) for n, g in _SPECIFIC_GRAVITY.items()),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
