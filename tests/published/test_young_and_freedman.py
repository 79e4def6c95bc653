"""A bookcase on short legs, in Young and Freedman."""

from __future__ import annotations

import pytest

from furniture.checks.stability import sliding_force_n
from tests.published.case import Case, How, from_source
from tests.published.statics import crate, push_n

CASES = from_source(
    "Young and Freedman, University Physics, ch. 11: bookcase on short legs",
    Case(
        id="bookcase-slides",
        quantity="push at the top that tips the bookcase over the push that slides it: over 1",
        place="part a (data and that it slides first read; 750 N and 600 N worked by hand)",
        how=How.DATA_READ,
        expected=750.0 / 600.0,
        unit="-",
        tolerance=1e-6,
        reason="exact arithmetic",
        compute=lambda: (
            push_n(2000.0, 1500.0, 1800.0, inset=100.0)
            / sliding_force_n(crate(2000.0, 1500.0, 900.0).mass_kg, 0.40)
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
