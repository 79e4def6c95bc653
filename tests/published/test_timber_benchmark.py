"""A benchmark of timber serviceability on a beam site."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.beams import Loading, Support, deflection_mm
from furniture.checks.sections import Rectangle
from tests.published.case import Case, How, from_source

CASES = from_source(
    "beam-calculator.github.io, Eurocode 5 timber serviceability benchmark",
    Case(
        id="ec5-benchmark",
        quantity="deflection, span 4.8 m, 2.4 kN/m, 11 GPa, 75 x 225 mm (7119 cm4)",
        place="validation example",
        how=How.READ,
        expected=21.18,
        unit="mm",
        tolerance=0.01,
        reason="printed to 0.01",
        compute=partial(
            deflection_mm,
            Support.SIMPLE,
            Loading.EVEN,
            2.4 * 4800.0,
            4800.0,
            Rectangle(width_mm=75.0, thickness_mm=225.0),
            11.0,
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
