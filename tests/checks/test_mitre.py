"""The mitred corner."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.advice import Change
from furniture.checks.finding import Verdict
from furniture.checks.mitre import (
    Mitre,
    mitre_area_mm2,
    mitre_face_mm,
    mitre_finding,
    mitre_moment_nmm,
    spline_area_mm2,
    spline_moment_nmm,
)
from furniture.timber.species import find_species
from tests.checks.cases import millimetres, remedy_of

CORNER = Mitre(
    name="front left",
    species=find_species("cherry"),
    height_mm=100.0,
    thickness_mm=18.0,
    rail_length_mm=300.0,
)


def test_area_worked_by_hand() -> None:
    # 18 mm stock: face 25.456 mm; a rail 100 high has 2545.6 mm2.
    assert mitre_face_mm(18.0) == pytest.approx(25.456, abs=0.001)
    assert mitre_area_mm2(CORNER) == pytest.approx(2545.6, abs=0.05)
    assert spline_area_mm2(CORNER) == 0.0
    assert spline_area_mm2(replace(CORNER, splines=3, spline_depth_mm=20.0)) == 3 * 400.0


def test_capacity_worked_by_hand() -> None:
    # Hankinson at 45 deg: 2 x 85 x 3.9/88.9 = 7.4578; over 4, a quarter: 0.46611 MPa;
    # S = 100 x 25.456^2/6 = 10,800 mm3; so 5034 N mm, and 8 M/L = 134.2 N.
    assert mitre_moment_nmm(CORNER) == pytest.approx(5034.0, abs=1.0)
    finding = mitre_finding(CORNER, millimetres)
    assert finding.value == pytest.approx(134.2, abs=0.1)
    assert finding.verdict is Verdict.OK
    assert "estimate" in finding.basis


def test_splines_add_and_deeper_splines_add_more() -> None:
    one = replace(CORNER, splines=1, spline_depth_mm=15.0)
    assert spline_moment_nmm(CORNER) == 0.0
    assert spline_moment_nmm(replace(one, splines=3)) == pytest.approx(3 * spline_moment_nmm(one))
    assert spline_moment_nmm(replace(one, spline_depth_mm=20.0)) > spline_moment_nmm(one)


def test_splines_as_advised_are_enough() -> None:
    low = replace(CORNER, height_mm=40.0)
    finding = mitre_finding(low, millimetres)
    assert finding.verdict is Verdict.CAUTION
    splines = remedy_of(finding, Change.SPLINES)
    depth = float(splines.words.split(" deep")[0].split()[-2])
    assert depth <= low.thickness_mm
    stronger = replace(low, splines=int(splines.amount), spline_depth_mm=depth)
    assert mitre_finding(stronger, millimetres).verdict is Verdict.OK


def test_more_splines_than_the_corner_has_room_for_are_not_advised() -> None:
    long = replace(CORNER, height_mm=20.0, rail_length_mm=3000.0)
    finding = mitre_finding(long, millimetres)
    assert finding.remedies == ()
    assert "block" in finding.advice


def test_a_wood_without_strength_has_no_value() -> None:
    bare = replace(CORNER, species=replace(CORNER.species, mor_mpa=None))
    finding = mitre_finding(bare, millimetres)
    assert finding.value is None
    assert finding.verdict is Verdict.CAUTION
    with pytest.raises(ValueError, match="no strength"):
        mitre_moment_nmm(bare)
