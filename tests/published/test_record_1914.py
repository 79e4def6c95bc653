"""Record, The Mechanical Properties of Wood (1914): how deflection goes with size."""

from __future__ import annotations

import pytest

from furniture.checks.beams import Loading, Support, deflection_mm
from furniture.checks.sections import Rectangle
from tests.published.case import Case, How, from_source


def _sag(width: float, thickness: float, span: float) -> float:
    section = Rectangle(width_mm=width, thickness_mm=thickness)
    return deflection_mm(Support.SIMPLE, Loading.POINT, 100.0, span, section, 10.0)


def _case(name: str, expected: float, width: float, thickness: float, span: float) -> Case:
    return Case(
        id=f"record-{name}",
        quantity=f"deflection of a beam with {name}, over that of the beam itself",
        place="E = P l^3/(4 D b h^3), centre load",
        how=How.READ,
        expected=expected,
        unit="-",
        tolerance=1e-9,
        reason="an exact proportion",
        compute=lambda: _sag(width, thickness, span) / _sag(100.0, 20.0, 600.0),
    )


CASES = from_source(
    "Record, The Mechanical Properties of Wood (1914)",
    _case("three times the width", 1 / 3, 300.0, 20.0, 600.0),
    _case("three times the depth", 1 / 27, 100.0, 60.0, 600.0),
    _case("three times the span", 27.0, 100.0, 20.0, 1800.0),
    Case(
        id="record-stiffness",
        quantity="stiffness got back from a deflection, E = P l^3/(4 D b h^3)",
        place="E = P l^3/(4 D b h^3), centre load",
        how=How.READ,
        expected=10_000.0,
        unit="MPa",
        tolerance=1e-6,
        reason="an exact formula",
        compute=lambda: 100.0 * 600.0**3 / (4.0 * _sag(100.0, 20.0, 600.0) * 100.0 * 20.0**3),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
