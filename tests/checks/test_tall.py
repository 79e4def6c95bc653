"""Ideas from the tip-over tests: only for tall pieces on the floor, and said to be voluntary."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture.checks.finding import Verdict
from furniture.checks.tall import StandsOn, carpet_finding, scope_finding, tall_findings
from tests.checks.cases import STAND, millimetres

TALL = replace(STAND, top_mm=900.0)


def test_scope_says_that_shelving_is_outside() -> None:
    finding = scope_finding(TALL, StandsOn.FLOOR, millimetres)
    assert "does not apply" in finding.basis
    assert finding.limit == pytest.approx(685.8)  # 27 in: 16 CFR 1261 guidance
    assert finding.verdict is Verdict.OK


@pytest.mark.parametrize(
    ("top", "stands_on", "checked"),
    [
        (900.0, StandsOn.FLOOR, True),
        (900.0, StandsOn.TABLE, False),
        (500.0, StandsOn.FLOOR, True),
        (440.0, StandsOn.FLOOR, False),
    ],
)
def test_only_pieces_of_some_height_on_the_floor(
    top: float, stands_on: StandsOn, checked: bool
) -> None:
    found = tall_findings(replace(STAND, top_mm=top), stands_on, millimetres)
    assert bool(found) is checked
    assert all("voluntary" in finding.check.name for finding in found)
    assert all(finding.verdict is not Verdict.FAIL for finding in found)


def test_carpet_leans_it_forward_by_its_block() -> None:
    # Hand-worked: 0.43 in over 180 mm is 3.4725 deg.
    finding = carpet_finding(TALL, millimetres)
    assert finding.limit == pytest.approx(math.degrees(math.atan(10.922 / 180.0)))
