"""Every amount in an advice, on any design: enough by the check's own formula, and allowed."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from furniture.checks.advice import Change, Remedy, least_that, lighter, longer, shorter, together
from furniture.checks.finding import Finding, Verdict
from furniture.checks.housing import Housing, Lever
from furniture.checks.housing_findings import droop_finding, housing_findings
from furniture.checks.left import Wood, bore_findings, wood_left_finding
from furniture.checks.post import Post, PostLoad, Waist, post_finding
from furniture.timber.species import find_species
from furniture.units import Amounts, inches, millimetres

SHOWS = st.sampled_from([Amounts(shown=millimetres()), Amounts(shown=inches(64))])
OAK = find_species("white oak")


def _told(finding: Finding) -> tuple[Remedy, ...]:
    for each in finding.remedies:
        assert each.words in finding.advice
        assert each.is_enough, each
        assert each.is_allowed, each
    assert bool(finding.advice) is finding.is_amiss
    return finding.remedies


@given(
    show=SHOWS, depth=st.floats(3.0, 12.0), thickness=st.floats(12.0, 40.0),
    width=st.floats(40.0, 200.0), reach=st.floats(20.0, 200.0), force=st.floats(1.0, 200.0),
    own=st.one_of(st.none(), st.just(0.5)), clearance=st.floats(0.0, 0.3),
)  # fmt: skip
def test_a_housed_shelf(
    show: Amounts, depth: float, thickness: float, width: float, reach: float, force: float,
    own: float | None, clearance: float,
) -> None:  # fmt: skip
    housing = Housing(
        name="tier", shelf=OAK, post=OAK, width_mm=width, depth_mm=min(depth, thickness / 2),
        shelf_thickness_mm=13.0, clearance_mm=clearance, above_mm=20.0, projection_mm=reach,
        side_grain_mm2=900.0, end_grain_mm2=0.0, post_thickness_mm=thickness,
    )  # fmt: skip
    lever = Lever(what="load", force_n=force, reach_mm=reach, own_n=own)
    bearing = housing_findings(housing, lever, show)[0]
    for each in _told(bearing):
        changed, lighter_lever = housing, lever
        for part in each.parts or (each,):
            if part.change is Change.DADO:
                by = part.amount + (0.0 if each.parts else housing.depth_mm)
                changed = replace(changed, depth_mm=by)
            elif part.change is Change.THICKNESS:
                changed = replace(changed, post_thickness_mm=part.amount)
            elif part.change is Change.LOAD:
                newtons = part.amount * 9.80665 + (own or 0.0)
                lighter_lever = replace(lever, force_n=newtons)
        assert changed.depth_mm <= changed.post_thickness_mm / 2.0 + 1e-6
        if each.change is not Change.BRACKET:
            again = housing_findings(changed, lighter_lever, show)[0]
            assert not again.is_amiss, each.words
    droop = droop_finding(housing, show)
    for each in _told(droop):
        if each.change is Change.PLAY:
            again = droop_finding(replace(housing, clearance_mm=each.amount), show)
        else:
            again = droop_finding(replace(housing, depth_mm=housing.depth_mm + each.amount), show)
        assert again.verdict is Verdict.OK


@given(show=SHOWS, depth=st.floats(2.0, 15.0), push=st.floats(0.0, 900.0), bored=st.floats(0.0, 60))
def test_a_post(show: Amounts, depth: float, push: float, bored: float) -> None:
    waist = Waist(name="the dado", height_mm=100.0, depth_mm=depth, bored_mm=bored)
    post = Post(
        name="post", species=OAK, width_mm=90.0, thickness_mm=20.0, waists=(waist,),
        loads=(PostLoad(what="tier", height_mm=220.0, force_n=20.0, before_face_mm=75.0),),
        push_n=push, push_height_mm=500.0,
    )  # fmt: skip
    for each in _told(post_finding(post, show)):
        changed = post
        if each.change is Change.THICKNESS:
            changed = replace(post, thickness_mm=20.0 + each.amount)
        elif each.change is Change.SHALLOWER:
            changed = replace(post, waists=(replace(waist, depth_mm=depth - each.amount),))
            assert depth - each.amount >= 5.0 - 1e-6
        elif each.change is Change.BIT:
            changed = replace(post, waists=(replace(waist, bored_mm=bored - each.amount),))
        assert post_finding(changed, show).verdict is Verdict.OK


@given(
    show=SHOWS, thickness=st.floats(3.0, 40.0), wood=st.floats(-5.0, 10.0),
    room=st.floats(0.0, 20.0),
)  # fmt: skip
@example(show=Amounts(shown=millimetres(0.1)), thickness=6.0, wood=-6e-8, room=2.0)
def test_what_is_left(show: Amounts, thickness: float, wood: float, room: float) -> None:
    place = Wood(part="rail", place="behind the dado", wood_mm=wood, thickness_mm=thickness,
                 shallower_mm=room, away_mm=room / 2.0)  # fmt: skip
    for each in _told(wood_left_finding(place, show)):
        assert each.amount <= (room if each.change is Change.SHALLOWER else room / 2.0) + 1e-6
        again = wood_left_finding(replace(place, wood_mm=wood + each.amount), show)
        assert again.verdict in (Verdict.OK, Verdict.NOTE)


@given(
    show=SHOWS, bit=st.floats(3.0, 20.0), edge=st.floats(1.0, 20.0), end=st.floats(1.0, 40.0),
    thickness=st.floats(6.0, 40.0),
)  # fmt: skip
def test_bores(show: Amounts, bit: float, edge: float, end: float, thickness: float) -> None:
    findings = bore_findings("stub", "bore", bit, edge, end, thickness, show)
    for number, finding in enumerate(findings):
        for each in _told(finding):
            places = [bit, edge, end]
            if each.change is Change.BIT:
                places[0] = each.amount
            else:
                places[number + 1] += each.amount
                assert number == 1 or places[1] <= thickness / 2.0 + 1e-6
            again = bore_findings("stub", "bore", *places, thickness, show)[number]
            assert again.verdict is Verdict.OK


@given(show=SHOWS, mm=st.floats(0.001, 900.0))
def test_shop_figures_lie_on_the_side_that_is_enough(show: Amounts, mm: float) -> None:
    up, down = show.up(mm), show.down(mm)
    assert down <= mm + 1e-4
    assert up >= mm - 1e-4
    unit, steps = (25.4, (1 / 64, 1 / 16, 1 / 4)) if show.shown.is_inch else (1.0, (0.5, 1.0, 5.0))
    for figure in (up, down):
        assert any(abs(figure / unit / s - round(figure / unit / s)) < 1e-6 for s in steps)
        assert "." not in show(figure).removesuffix(" in") or not show.shown.is_inch
    kilograms = mm / 100.0
    assert show.mass_down(kilograms) <= kilograms + 1e-6
    assert show.mass_up(kilograms) >= kilograms - 1e-6


def test_nothing_is_offered_beyond_the_limits() -> None:
    show = Amounts(shown=millimetres())
    assert longer(Change.DADO, "{}", 3.1, show, 3.4) == ()
    assert [each.amount for each in longer(Change.DADO, "{}", 3.1, show, 3.5)] == [3.5]
    assert shorter(Change.GLUED, "{}", 96.9, show, 96.5) == ()
    assert [each.amount for each in shorter(Change.GLUED, "{}", 96.9, show, 55.0)] == [96.0]
    assert lighter("{}", 0.09, show) == ()
    assert [each.words for each in lighter("{}", 0.58, show)] == ["0.5 kg"]


def test_two_together_are_allowed_only_if_both_are() -> None:
    show = Amounts(shown=millimetres())
    (one,) = longer(Change.DADO, "{}", 3.0, show, 4.0)
    bad = replace(one, amount=5.0)
    assert together(one, one).is_allowed
    assert not together(one, bad).is_allowed
    assert not together(one, replace(one, amount=1.0)).is_enough


@given(root=st.floats(0.0, 10.0))
def test_the_least_that_holds_is_found(root: float) -> None:
    found = least_that(lambda x: x >= root, 0.0, 10.0)
    assert found == pytest.approx(root, abs=1e-3)
    assert found is not None
    assert found >= root
    assert least_that(lambda x: False, 0.0, 10.0) is None
    assert least_that(math.isfinite, 5.0, 4.0) is None
