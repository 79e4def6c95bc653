"""What is left after the cuts, and pieces too small for the saw."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.finding import Finding, Verdict
from furniture.checks.left import (
    Wood,
    bore_findings,
    least_behind_dado_mm,
    short_grain_finding,
    wood_left_finding,
)
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from tests.checks.cases import millimetres

RAIL = Wood(part="rail", place="behind the notch", wood_mm=10.0, thickness_mm=20.0)


def test_the_rule_of_the_housing() -> None:
    # Common practice: half of it or 10 mm.
    assert least_behind_dado_mm(24.0) == 10.0
    assert least_behind_dado_mm(16.0) == 8.0


@pytest.mark.parametrize(
    ("wood", "thickness", "verdict"),
    [
        (-0.5, 20.0, Verdict.FAIL),
        (0.0, 20.0, Verdict.FAIL),
        (1.0, 20.0, Verdict.FAIL),
        (1.1, 20.0, Verdict.CAUTION),
        (2.9, 20.0, Verdict.CAUTION),
        (3.0, 20.0, Verdict.NOTE),  # a quarter of it is 5, but 3 mm is enough
        (6.6, 20.0, Verdict.NOTE),
        (6.7, 20.0, Verdict.OK),
        (2.0, 8.0, Verdict.NOTE),  # a quarter of 8
        (1.9, 8.0, Verdict.CAUTION),
        (5.6, 13.1, Verdict.OK),  # a thin box's rail
    ],
)
def test_wood_left(wood: float, thickness: float, verdict: Verdict) -> None:
    place = replace(RAIL, wood_mm=wood, thickness_mm=thickness)
    assert wood_left_finding(place, millimetres).verdict is verdict


def test_a_sharp_outline_never_fails() -> None:
    sharp = replace(RAIL, wood_mm=0.2, is_section=False)
    assert wood_left_finding(sharp, millimetres).verdict is Verdict.CAUTION


def test_a_shallower_cut_as_advised_is_enough() -> None:
    """0.5 of 20: 2.5 shallower leaves 3; where only 2 can be given up the wood is asked for."""
    deep = wood_left_finding(replace(RAIL, wood_mm=0.5, shallower_mm=10.0), millimetres)
    (remedy,) = deep.remedies
    assert remedy.amount == pytest.approx(2.5)
    again = wood_left_finding(replace(RAIL, wood_mm=0.5 + remedy.amount), millimetres)
    assert again.verdict is Verdict.NOTE
    stuck = wood_left_finding(replace(RAIL, wood_mm=0.5, shallower_mm=2.0), millimetres)
    assert not stuck.remedies
    assert "leave 2.5" in stuck.advice


def test_a_cut_is_moved_only_where_there_is_room() -> None:
    beside = replace(RAIL, wood_mm=0.5, away_mm=30.0)
    assert "away" in wood_left_finding(beside, millimetres).advice
    assert "away" not in wood_left_finding(replace(beside, away_mm=2.0), millimetres).advice


def test_short_grain() -> None:
    assert short_grain_finding("post", "top dado", 20.0, 8.0, millimetres).verdict is Verdict.OK
    short = short_grain_finding("post", "top dado", 10.0, 8.0, millimetres)
    assert short.verdict is Verdict.CAUTION
    assert "6.000000 mm" in short.advice  # twice 8 less 10


def test_bores() -> None:
    def verdicts(diameter: float, edge: float, end: float, thickness: float) -> list[Verdict]:
        found = bore_findings("stub", "dowel", diameter, edge, end, thickness, millimetres)
        return [finding.verdict for finding in found]

    # A 6 mm dowel in the middle of 18 mm, 20 from the end; then each fault in turn.
    assert verdicts(6.0, 9.0, 20.0, 18.0) == [Verdict.OK] * 3
    assert verdicts(6.0, 5.0, 20.0, 18.0)[0] is Verdict.CAUTION
    assert verdicts(6.0, 9.0, 11.0, 18.0)[1] is Verdict.NOTE  # two diameters are 12
    assert verdicts(6.0, 9.0, 5.5, 18.0)[1] is Verdict.CAUTION  # not even one
    assert verdicts(10.0, 10.0, 30.0, 18.0)[2] is Verdict.CAUTION


@pytest.mark.parametrize(
    ("finding", "verdict"),
    [
        (rip_finding("stub", 100.0, 80.0, millimetres), Verdict.CAUTION),
        (rip_finding("rail", 400.0, 80.0, millimetres), Verdict.OK),
        (narrow_rip_finding("lip", 400.0, 20.0, millimetres), Verdict.CAUTION),
        (narrow_rip_finding("rail", 400.0, 80.0, millimetres), Verdict.OK),
        (crosscut_finding("stub", 100.0, millimetres), Verdict.CAUTION),
        (crosscut_finding("rail", 400.0, millimetres), Verdict.OK),
    ],
)
def test_small_pieces_are_cautions_and_never_failures(finding: Finding, verdict: Verdict) -> None:
    assert finding.verdict is verdict
    assert bool(finding.advice) is (verdict is Verdict.CAUTION)
    assert "manual" in finding.basis
