"""The housed shelf as a lever: the pressure line balances the load, and more glue is never less."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.finding import Verdict
from furniture.checks.housing import (
    Housing,
    Lever,
    droop_finding,
    glue_capacity_n,
    housing_findings,
    loose_droop_mm,
    peak_bearing_mpa,
    upward_force_n,
)
from furniture.timber.species import find_species
from tests.checks.cases import millimetres

OAK = find_species("white oak")
HOUSING = Housing(
    name="tier 4",
    shelf=OAK,
    post=OAK,
    width_mm=90.0,
    depth_mm=8.0,
    shelf_thickness_mm=16.0,
    clearance_mm=0.15,
    above_mm=30.0,
    projection_mm=150.0,
    side_grain_mm2=90.0 * 16.0,
    end_grain_mm2=2 * 90.0 * 8.0,
)
HAND = Lever(what="hand", force_n=100.0, reach_mm=150.0)


@given(
    width=st.floats(20.0, 200.0),
    depth=st.floats(3.0, 20.0),
    force=st.floats(1.0, 200.0),
    reach=st.floats(0.0, 300.0),
)
def test_the_pressure_line_balances_the_load(
    width: float, depth: float, force: float, reach: float
) -> None:
    # Integrated by numbers: the line from the mouth's peak has the load's force and moment.
    peak = peak_bearing_mpa(width, depth, force, reach)
    mean = force / (width * depth)
    x = np.linspace(0.0, depth, 20_001)  # from the mouth inward
    pressure = peak + (2.0 * (mean - peak)) * x / depth
    up = np.trapezoid(pressure, x) * width
    moment = np.trapezoid(pressure * x, x) * width
    assert up == pytest.approx(force, rel=1e-6)
    assert -moment == pytest.approx(force * reach, rel=1e-5, abs=1e-3 * force)
    lifting = np.trapezoid(np.clip(-pressure, 0.0, None), x) * width
    assert upward_force_n(depth, force, reach) == pytest.approx(lifting, rel=1e-3, abs=1e-6 * force)


def test_pressure_under_a_load_at_the_face_worked_by_hand() -> None:
    # F/(b d) + 6 F (d/2)/(b d^2) = 4 F/(b d): 4 x 36/(90 x 8) = 0.2 MPa.
    assert peak_bearing_mpa(90.0, 8.0, 36.0, 0.0) == pytest.approx(0.2)


def test_droop_worked_by_hand() -> None:
    assert loose_droop_mm(0.15, 8.0, 150.0) == pytest.approx(2.8125)
    finding = droop_finding(HOUSING, millimetres)
    assert finding.verdict is Verdict.CAUTION
    match = re.search(r"at most ([\d.]+) mm of play", finding.advice)
    assert match
    tight = droop_finding(replace(HOUSING, clearance_mm=float(match[1])), millimetres)
    assert tight.value == pytest.approx(tight.limit, rel=1e-5)


def test_deeper_dado_as_advised_bears_the_load() -> None:
    bearing = housing_findings(HOUSING, HAND, millimetres)[0]
    assert bearing.verdict is Verdict.CAUTION
    match = re.search(r"dado ([\d.]+) mm deeper", bearing.advice)
    assert match
    deeper = replace(HOUSING, depth_mm=HOUSING.depth_mm + float(match[1]))
    again = housing_findings(deeper, HAND, millimetres)[0]
    assert again.value == pytest.approx(again.limit, rel=1e-5)


def test_everything_is_called_an_estimate() -> None:
    for finding in housing_findings(HOUSING, HAND, millimetres):
        assert "estimate" in finding.basis


def test_an_open_notch_is_a_caution_without_a_value() -> None:
    tear = housing_findings(replace(HOUSING, above_mm=0.0), HAND, millimetres)[1]
    assert tear.value is None
    assert tear.verdict is Verdict.CAUTION
    assert "notch" in tear.basis


def test_wood_left_above_as_advised_is_enough() -> None:
    thin = replace(HOUSING, above_mm=4.0)
    tear = housing_findings(thin, HAND, millimetres)[1]
    assert tear.verdict is Verdict.FAIL
    match = re.search(r"leave ([\d.]+) mm more", tear.advice)
    assert match
    more = replace(thin, above_mm=4.0 + float(match[1]))
    again = housing_findings(more, HAND, millimetres)[1]
    assert again.value == pytest.approx(again.limit, rel=1e-5)


def test_end_grain_adds_nothing() -> None:
    # Wood Handbook ch. 10: end-grain joints are weak; here counted as nothing.
    more = replace(HOUSING, end_grain_mm2=10 * HOUSING.end_grain_mm2)
    assert glue_capacity_n(more) == glue_capacity_n(HOUSING)
    # Oak 13.8 MPa / 4 / 3 / 2 on 1440 mm2 of crossing side grain.
    assert glue_capacity_n(HOUSING) == pytest.approx(13.8 / 24 * 1440)


def test_glue_is_no_stronger_than_tested_joints() -> None:
    # Kamperidou and Vasileiou (2012), glued T-joints of beech and poplar: 634 to 1897 N. A housing
    # of some 1440 mm2 should be promised less than the weakest of them held.
    for name in ("beech", "yellow-poplar"):
        wood = find_species(name)
        capacity = glue_capacity_n(replace(HOUSING, shelf=wood, post=wood, side_grain_mm2=1000.0))
        assert capacity is not None
        assert capacity < 634.0


def test_a_wood_without_bearing_strength_is_a_caution() -> None:
    teak = find_species("teak")
    bearing = housing_findings(replace(HOUSING, shelf=teak), HAND, millimetres)[0]
    assert bearing.limit is None
    assert bearing.verdict is Verdict.CAUTION
    assert "not printed" in bearing.basis
