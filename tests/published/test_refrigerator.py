"""Pushing a refrigerator: slide or tip."""

from __future__ import annotations

import pytest

from furniture.checks.stability import sliding_force_n
from tests.published.case import Case, How, from_source
from tests.published.statics import crate, push_n

CASES = from_source(
    "Statics homework site: pushing a 250 lb refrigerator",
    Case(
        id="refrigerator-slides",
        quantity="push that slides a 250 lb refrigerator, friction 0.4",
        place="question a",
        how=How.READ,
        expected=100.0,
        unit="lbf",
        tolerance=0.01,
        reason="exact arithmetic",
        compute=lambda: sliding_force_n(crate(1.0, 250.0, 1.0).mass_kg, 0.4),
    ),
    Case(
        id="refrigerator-shift",
        quantity="how far that push at 4.5 ft shifts the floor's force: past 1.5 ft, so it tips",
        place="question b: 1.80 ft",
        how=How.READ,
        expected=1.80,
        unit="ft",
        tolerance=0.005,
        reason="printed to 0.01",
        compute=lambda: 100.0 / push_n(3.0, 250.0, 4.5) * 1.5,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
