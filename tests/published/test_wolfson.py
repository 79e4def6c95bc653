"""A block on a slope, in Wolfson's Essential University Physics."""

from __future__ import annotations

import pytest

from tests.published.case import Case, How, from_source
from tests.published.statics import leaning

CASES = from_source(
    "Wolfson, Essential University Physics, 3rd edition, ch. 12, as worked on a study site",
    Case(
        id="wolfson-12.48",
        quantity="slope at which a block twice as tall as wide tips, before it slides at 32.2",
        place="p. 217, problem 48",
        how=How.READ,
        expected=26.56,
        unit="deg",
        tolerance=0.01,
        reason="printed to 0.01, cut off",
        compute=lambda: leaning(500.0, 500.0).angle_deg,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
