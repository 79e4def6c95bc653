"""The post behind its dados."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.advice import Change
from furniture.checks.finding import Verdict
from furniture.checks.post import (
    Post,
    PostLoad,
    Waist,
    post_finding,
    waist_moment_nmm,
    waist_section,
    waist_stress_mpa,
    weakest_waist,
)
from furniture.timber.species import find_species
from tests.checks.cases import millimetres, remedy_of

LOW = Waist(name="lid dado", height_mm=100.0, depth_mm=8.0)
HIGH = Waist(name="tier 1 dado", height_mm=220.0, depth_mm=8.0)
POST = Post(
    name="post",
    species=find_species("white oak"),
    width_mm=90.0,
    thickness_mm=24.0,
    waists=(LOW, HIGH),
    loads=(PostLoad(what="tier 1", height_mm=220.0, force_n=20.0, before_face_mm=75.0),),
    push_n=50.0,
    push_height_mm=500.0,
)


def test_moment_and_stress_worked_by_hand() -> None:
    # Arm 75 + 8 + 8 = 91 mm: 1820 N mm; push 50 x 400 = 20,000; S = 90 x 16^2/6 = 3840; A = 1440.
    assert waist_moment_nmm(POST, LOW) == pytest.approx(21_820.0)
    assert waist_stress_mpa(POST, LOW) == pytest.approx(21_820 / 3_840 + 20 / 1_440)


def test_the_weakest_is_the_lowest_of_equal_dadoes() -> None:
    assert weakest_waist(POST) is LOW


def test_a_deeper_dado_higher_up_can_be_weaker() -> None:
    deep = replace(HIGH, depth_mm=16.0)
    assert weakest_waist(replace(POST, waists=(LOW, deep))) is deep


def test_loads_below_a_dado_do_not_bend_it() -> None:
    above = replace(HIGH, height_mm=300.0)
    assert waist_moment_nmm(replace(POST, push_n=0.0), above) == 0.0


def test_thicker_as_advised_is_enough() -> None:
    weak = replace(POST, push_n=400.0)
    finding = post_finding(weak, millimetres)
    assert finding.verdict is Verdict.CAUTION
    by = remedy_of(finding, Change.THICKNESS)
    again = post_finding(replace(weak, thickness_mm=24.0 + by.enough), millimetres)
    assert again.value == pytest.approx(again.limit, rel=1e-3)
    told = post_finding(replace(weak, thickness_mm=24.0 + by.amount), millimetres)
    assert told.verdict is Verdict.OK


def test_a_post_that_would_have_to_be_twice_as_thick_is_another_design() -> None:
    finding = post_finding(replace(POST, push_n=2000.0), millimetres)
    assert finding.verdict is Verdict.FAIL  # beyond the strength itself
    assert all(each.change is not Change.THICKNESS for each in finding.remedies)
    assert "uprights" in finding.advice


def test_an_opening_weakens_the_post_like_a_cut() -> None:
    # 30 of 90 mm bored away: two thirds of the section are left.
    bored = Waist(name="the opening", height_mm=100.0, depth_mm=0.0, bored_mm=30.0)
    whole = Waist(name="whole", height_mm=100.0, depth_mm=0.0)
    assert waist_stress_mpa(POST, bored) == pytest.approx(1.5 * waist_stress_mpa(POST, whole))
    finding = post_finding(replace(POST, waists=(bored,), push_n=500.0), millimetres)
    assert finding.check.name == "post at its weakest opening"
    smaller = remedy_of(finding, Change.BIT)
    mended = replace(bored, bored_mm=30.0 - smaller.amount)
    again = post_finding(replace(POST, waists=(mended,), push_n=500.0), millimetres)
    assert again.verdict is Verdict.OK


def test_a_post_without_dadoes_has_no_weakest() -> None:
    finding = post_finding(replace(POST, waists=()), millimetres)
    assert finding.value is None
    assert finding.verdict is Verdict.OK


def test_a_dado_through_the_post_leaves_no_wood() -> None:
    with pytest.raises(ValueError, match="no wood"):
        waist_section(POST, replace(LOW, depth_mm=24.0))
