"""A block pushed high up, in a university's course of statics."""

from __future__ import annotations

import pytest

from tests.published.case import Case, How, from_source
from tests.published.statics import push_n

CASES = from_source(
    "Mississippi State University, statics course, friction, example 3",
    Case(
        id="msu-3",
        quantity="push at 66 in that tips a 250 lb block 32 in wide, before 100 lb slide it",
        place="example 3 (data and outcome read; 60.6 lb worked by hand)",
        how=How.DATA_READ,
        expected=250.0 * 16.0 / 66.0,
        unit="lbf",
        tolerance=1e-6,
        reason="exact arithmetic",
        compute=lambda: push_n(32.0, 250.0, 66.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
