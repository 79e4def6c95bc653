"""A builder's page with sample deflections of timber beams."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.beams import Loading, Support, deflection_mm
from furniture.checks.sections import Rectangle
from tests.published.case import Case, How, from_source

CASES = from_source(
    "codingace.net, timber deflection, example data table",
    *(
        Case(
            id=f"timber-{name}",
            quantity=f"deflection of a timber beam, {name}",
            place="example data table",
            how=How.READ,
            expected=expected,
            unit="mm",
            tolerance=0.006,
            reason="printed to 0.01",
            compute=partial(deflection_mm, support, loading, load, span, section, moe),
        )
        for name, expected, support, loading, load, span, section, moe in (
            (
                "resting, even 2.5 kN/m, 4 m",
                22.73,
                Support.SIMPLE,
                Loading.EVEN,
                10_000.0,
                4000.0,
                Rectangle(width_mm=50.0, thickness_mm=200.0),
                11.0,
            ),
            (
                "resting, 10 kN in the middle, 4 m",
                36.36,
                Support.SIMPLE,
                Loading.POINT,
                10_000.0,
                4000.0,
                Rectangle(width_mm=50.0, thickness_mm=200.0),
                11.0,
            ),
            (
                "projecting, even 1.5 kN/m, 2.5 m",
                10.29,
                Support.CANTILEVER,
                Loading.EVEN,
                3_750.0,
                2500.0,
                Rectangle(width_mm=75.0, thickness_mm=225.0),
                10.0,
            ),
        )
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
