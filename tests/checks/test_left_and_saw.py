"""What is left after the cuts, and pieces too small for the saw."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from furniture.checks.finding import Finding, Verdict
from furniture.checks.left import (
    Cut,
    behind_dado_finding,
    beside_rabbet_finding,
    bore_findings,
    least_behind_dado_mm,
    short_grain_finding,
)
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from tests.checks.cases import millimetres

DADO = Cut(part="post", feature="lowest dado", thickness_mm=24.0, depth_mm=8.0)


def test_wood_behind_a_dado() -> None:
    # Common practice: half of it or 10 mm.
    assert least_behind_dado_mm(24.0) == 10.0
    assert least_behind_dado_mm(16.0) == 8.0
    assert behind_dado_finding(DADO, millimetres).verdict is Verdict.OK
    deep = behind_dado_finding(replace(DADO, depth_mm=16.0), millimetres)
    assert deep.verdict is Verdict.CAUTION
    match = re.search(r"cut it ([\d.]+) mm shallower", deep.advice)
    assert match
    mended = replace(DADO, depth_mm=16.0 - float(match[1]))
    assert behind_dado_finding(mended, millimetres).verdict is Verdict.OK


def test_a_cut_through_fails() -> None:
    assert behind_dado_finding(replace(DADO, depth_mm=24.0), millimetres).verdict is Verdict.FAIL


@pytest.mark.parametrize(("width", "verdict"), [(9.0, Verdict.OK), (14.0, Verdict.CAUTION)])
def test_wood_beside_a_rabbet(width: float, verdict: Verdict) -> None:
    rabbet = Cut(part="rail", feature="lid rabbet", thickness_mm=19.0, depth_mm=width)
    assert beside_rabbet_finding(rabbet, millimetres).verdict is verdict


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
    assert verdicts(6.0, 9.0, 11.0, 18.0)[1] is Verdict.CAUTION  # two diameters are 12
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
