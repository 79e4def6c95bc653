"""Gere, Mechanics of Materials (7th edition), chapter 5: floor joists and a balk."""

from __future__ import annotations

import pytest

from furniture.checks.beams import Loading, Support, greatest_moment_nmm
from furniture.checks.sections import Rectangle, bending_stress_mpa
from tests.published.case import Case, How, from_source

_INCH = 25.4
_LBF = 4.4482216
_LB_IN = _LBF * _INCH
_PSI = 0.006894757


def _joist_moment() -> float:
    load = 13.333 * 126.0 * _LBF
    return greatest_moment_nmm(Support.SIMPLE, Loading.EVEN, load, 126.0 * _INCH)


def _balk_moment() -> float:
    return greatest_moment_nmm(Support.SIMPLE, Loading.EVEN, 8.0 * 3000.0, 3000.0)


CASES = from_source(
    "Gere, Mechanics of Materials, 7th edition, instructor's solutions, section 5.6",
    Case(
        id="gere-5.6-7-moment",
        quantity="greatest moment of a joist, 13.333 lb/in over 126 in",
        place="problem 5.6-7 (p. 416)",
        how=How.READ,
        expected=26_460.0 * _LB_IN,
        unit="N mm",
        tolerance=1.0 * _LB_IN,
        reason="printed to 1 lb in",
        compute=_joist_moment,
    ),
    Case(
        id="gere-5.6-7-stress",
        quantity="stress in a section with the modulus that the solution asks for, 19.6 in3",
        place="problem 5.6-7 (p. 416): allowable stress 1350 psi",
        how=How.READ,
        expected=1350.0 * _PSI,
        unit="MPa",
        tolerance=4.0 * _PSI,
        reason="the modulus is printed to 0.1 in3",
        compute=lambda: bending_stress_mpa(
            _joist_moment(), Rectangle(width_mm=6.0, thickness_mm=(19.6 * _INCH**3) ** 0.5)
        ),
    ),
    Case(
        id="gere-balk-moment",
        quantity="greatest moment of a balk, 8 kN/m over 3 m",
        place="the problem before it (p. 416)",
        how=How.READ,
        expected=9_000_000.0,
        unit="N mm",
        tolerance=1.0,
        reason="exact arithmetic",
        compute=_balk_moment,
    ),
    Case(
        id="gere-balk-stress",
        quantity="stress in the square balk of 150 mm that the solution arrives at",
        place="the problem before it (p. 416): allowable stress 16 MPa",
        how=How.READ,
        expected=16.0,
        unit="MPa",
        tolerance=0.001,
        reason="exact arithmetic",
        compute=lambda: bending_stress_mpa(
            _balk_moment(), Rectangle(width_mm=150.0, thickness_mm=150.0)
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
