"""A top-heavy crate on a slope, as a course accepted it."""

from __future__ import annotations

import pytest

from tests.published.case import Case, How, from_source
from tests.published.statics import leaning

CASES = from_source(
    "Homework forum: top-heavy cubic crate (Wolfson's problem with other numbers)",
    Case(
        id="top-heavy-2.5",
        quantity="slope at which a 2.5 m cube with its centre 19 cm high of the middle tips",
        place="part A, answer that the course accepted",
        how=How.READ,
        expected=41.0,
        unit="deg",
        tolerance=0.5,
        reason="printed to 1",
        compute=lambda: leaning(2500.0, 1440.0).angle_deg,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
