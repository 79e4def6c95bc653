"""The table of grades is the rule: every check is in it, and only those fail that it lets fail."""

from __future__ import annotations

from pathlib import Path

import pytest

from furniture import Load, SteppedStand, Tier
from furniture.checks.finding import Sense, Verdict, graded, verdict_of
from furniture.checks.grades import GRADES
from furniture.checks.of_piece import Place, read_setting
from furniture.checks.of_piece.setting import HeldBy
from tests.builders.bench import a_box, a_stand, oak
from tests.checks.of_piece_cases import found, loaded_stand, named

ROOT = Path(__file__).resolve().parents[2]
POT = Load(
    name="pot", on="tier 2", mass="60 kg", footprint=("60 mm", "60 mm"), centre_height="80 mm"
)
FALLS = a_stand(
    base_depth="130 mm",
    loads=[POT],
    tiers=(
        Tier(width="200 mm", depth="100 mm", rise="220 mm"),
        Tier(width="160 mm", depth="190 mm", rise="200 mm"),
    ),
)
DESIGNS = [
    loaded_stand(),
    loaded_stand(lid_gap_across="0.5 mm"),
    loaded_stand(thick=oak("15 mm")),
    FALLS,
    a_box(),
]


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("held", list(HeldBy))
def test_every_finding_keeps_to_the_table(design: SteppedStand, held: HeldBy) -> None:
    for each in found(design, read_setting(Place(held=held))):
        assert each.check in GRADES, each.check
        if each.verdict is Verdict.FAIL:
            assert GRADES[each.check].fails_when is not None, each


def test_a_design_that_falls_over_fails_on_the_level_floor() -> None:
    tilt = named(found(FALLS), "tilt before it tips", "front edge, loaded")
    assert tilt.value is not None
    assert tilt.value < 0.0
    assert tilt.verdict is Verdict.FAIL


def test_a_standard_that_was_not_written_for_it_never_fails_it() -> None:
    voluntary = [name for name, grade in GRADES.items() if "not written for" in grade.cautions_when]
    assert len(voluntary) >= 4
    assert all(GRADES[name].fails_when is None for name in voluntary)


@pytest.mark.parametrize(
    ("value", "fails_at", "verdict"),
    [
        (10.0, 5.0, Verdict.OK),
        (9.9, 5.0, Verdict.CAUTION),
        (5.0, 5.0, Verdict.FAIL),
        (1.0, None, Verdict.CAUTION),
    ],
)
def test_graded_at_least(value: float, fails_at: float | None, verdict: Verdict) -> None:
    assert graded(value, 10.0, fails_at, Sense.AT_LEAST) is verdict
    up = None if fails_at is None else -fails_at
    assert graded(-value, -10.0, up, Sense.AT_MOST) is verdict
    assert verdict_of(value, 10.0, Sense.AT_LEAST, verdict) is verdict


def test_developers_shows_the_rule() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert "furniture/checks/grades.py" in text
    for words in ("level floor", "mean strength", "no wood is left"):
        assert words in text
