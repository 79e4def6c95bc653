"""A crate on a ramp, in Halliday, Resnick and Walker."""

from __future__ import annotations

import pytest

from furniture.checks.stability import tip_angle_deg
from tests.published.case import Case, How, from_source
from tests.published.statics import leaning

CASES = from_source(
    "Halliday, Resnick and Walker, Fundamentals of Physics, ch. 12: crate on a ramp",
    Case(
        id="halliday-crate",
        quantity="slope at which a 1.2 m crate with its centre 0.30 m high of the middle tips",
        place="parts c and d (data read, that it tips at friction 0.70 read, 34 deg from memory)",
        how=How.MEMORY,
        expected=34.0,
        unit="deg",
        tolerance=0.5,
        reason="given to 1",
        compute=lambda: leaning(1200.0, 900.0).angle_deg,
    ),
    Case(
        id="halliday-crate-slides",
        quantity="the crate's slope of tipping over its slope of sliding at friction 0.60: over 1",
        place="parts a and b: it slides, at 31 deg (that it slides read, 31 from memory)",
        how=How.MEMORY,
        expected=34.0 / 31.0,
        unit="-",
        tolerance=0.02,
        reason="both given to 1 degree",
        compute=lambda: leaning(1200.0, 900.0).angle_deg / tip_angle_deg(0.60, 1.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
