"""A worked stack-up of bore, spacer, ring and shoulder."""

from __future__ import annotations

import pytest

from furniture.checks.tolerances import Error, statistical_mm, worst_case_mm
from tests.published.case import Case, How, from_source

_RING = tuple(
    Error(what=what, tolerance_mm=tolerance)
    for what, tolerance in (("bore", 0.10), ("spacer", 0.05), ("ring", 0.03), ("shoulder", 0.05))
)

CASES = from_source(
    "metricmech.com, tolerance stack-up, a worked example",
    Case(
        id="ring-worst",
        quantity="bore, spacer, ring and shoulder, worst case",
        place="table of contributors (data read; 0.23 worked by hand)",
        how=How.DATA_READ,
        expected=0.23,
        unit="mm",
        tolerance=1e-9,
        reason="exact arithmetic",
        compute=lambda: worst_case_mm(_RING),
    ),
    Case(
        id="ring-chance",
        quantity="bore, spacer, ring and shoulder, by chance",
        place="table of contributors (data read; 0.126 worked by hand)",
        how=How.DATA_READ,
        expected=0.126,
        unit="mm",
        tolerance=0.0005,
        reason="worked to 0.001",
        compute=lambda: statistical_mm(_RING),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
