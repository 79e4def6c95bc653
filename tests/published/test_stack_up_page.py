"""A web page on tolerance stack-up: housing, flange, shoulder and clip."""

from __future__ import annotations

import pytest

from furniture.checks.tolerances import Error, worst_case_mm
from tests.published.case import Case, How, from_source

_CLIP = tuple(
    Error(what=what, tolerance_mm=tolerance)
    for what, tolerance in (("housing", 0.1), ("flange", 0.05), ("shoulder", 0.08), ("clip", 0.02))
)

CASES = from_source(
    "Web page on tolerance stack-up: housing, flange, shoulder and clip",
    Case(
        id="clip-worst",
        quantity="four parts of 0.1, 0.05, 0.08 and 0.02 mm, worst case",
        place="worked gap",
        how=How.READ,
        expected=0.25,
        unit="mm",
        tolerance=1e-9,
        reason="exact arithmetic",
        compute=lambda: worst_case_mm(_CLIP),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
