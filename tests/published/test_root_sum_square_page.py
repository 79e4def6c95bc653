"""A web page on root-sum-square analysis: ten equal parts."""

from __future__ import annotations

import pytest

from furniture.checks.tolerances import Error, statistical_mm, worst_case_mm
from tests.published.case import Case, How, from_source

_TEN = (Error(what="each of ten", tolerance_mm=0.1, count=10),)

CASES = from_source(
    "Web page on root-sum-square tolerance analysis: ten parts of 0.1 mm",
    Case(
        id="ten-worst",
        quantity="ten parts, each plus or minus 0.1 mm, worst case",
        place="table of worst case and root sum square",
        how=How.READ,
        expected=1.0,
        unit="mm",
        tolerance=1e-9,
        reason="exact arithmetic",
        compute=lambda: worst_case_mm(_TEN),
    ),
    Case(
        id="ten-chance",
        quantity="ten parts, each plus or minus 0.1 mm, by chance",
        place="table of worst case and root sum square",
        how=How.READ,
        expected=0.316,
        unit="mm",
        tolerance=0.0005,
        reason="printed to 0.001",
        compute=lambda: statistical_mm(_TEN),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
