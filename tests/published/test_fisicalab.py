"""A block on a slope, in the manual of a GNU program."""

from __future__ import annotations

import pytest

from furniture.checks.stability import tip_angle_deg
from tests.published.case import Case, How, from_source
from tests.published.statics import leaning

CASES = from_source(
    "FisicaLab manual (GNU), statics of solids, example 8",
    Case(
        id="fisicalab-8",
        quantity="where the floor's force stands when a block with its centre at 8, 18 cm slides",
        place="example 8: friction 0.4, x = 0.800 cm from the lower edge",
        how=How.READ,
        expected=8.0,
        unit="mm",
        tolerance=0.005,
        reason="printed to 0.001 cm",
        compute=lambda: leaning(160.0, 180.0).inside_mm - 0.4 * leaning(160.0, 180.0).height_mm,
    ),
    Case(
        id="fisicalab-8-angle",
        quantity="slope at which that block slides",
        place="example 8",
        how=How.READ,
        expected=21.801,
        unit="deg",
        tolerance=0.0005,
        reason="printed to 0.001",
        compute=lambda: tip_angle_deg(0.4, 1.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
