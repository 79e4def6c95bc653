"""Findings of stability: worst of empty and loaded, both alternatives, advice that is enough."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.advice import Change
from furniture.checks.finding import Finding, Sense, Verdict
from furniture.checks.rows.standing import CABLE_PULL, CHILD, TOP_PUSH
from furniture.checks.stability import Body
from furniture.checks.stability_findings import (
    Standing,
    TiltLimits,
    press_findings,
    push_findings,
    sliding_finding,
    tilt_asked,
    tilt_findings,
    weight_share_findings,
)
from tests.checks.cases import FEET, POT, STAND, TOP, millimetres, remedy_of

FLOOR, TABLE = tilt_asked(is_table_top=False), tilt_asked(is_table_top=True)
STRICT = TiltLimits(cautions_deg=15.0, notes_deg=None, source="a stricter rule")

# A stand as in the hand-worked example: 12 kg, 100 mm inside its front, 450 mm up.
TALL = Standing(
    piece=Body(mass_kg=12.0, centre_mm=(200.0, 100.0, 450.0)),
    contacts_mm=((0.0, 0.0), (400.0, 0.0), (400.0, 200.0), (0.0, 200.0)),
    top_mm=900.0,
)


def _by_subject(findings: tuple[Finding, ...]) -> dict[str, Finding]:
    return {finding.subject: finding for finding in findings}


def test_every_edge_is_told_empty_and_loaded() -> None:
    subjects = set(_by_subject(tilt_findings(STAND, FLOOR, millimetres)))
    sides = ("front", "right", "back", "left")
    assert subjects == {f"{side} edge, {how}" for side in sides for how in ("empty", "loaded")}


def test_loaded_is_never_better_than_empty() -> None:
    found = _by_subject(tilt_findings(STAND, FLOOR, millimetres))
    for side in ("front", "right", "back", "left"):
        empty, loaded = found[f"{side} edge, empty"].value, found[f"{side} edge, loaded"].value
        assert empty is not None
        assert loaded is not None
        assert loaded <= empty + 1e-9


def test_tilt_and_force_are_not_equivalent() -> None:
    # Hand-worked: it bears 12.53 deg of tilt, over 10, and only 13.08 of the 15.30 N asked.
    tilt = _by_subject(tilt_findings(TALL, FLOOR, millimetres))["front edge, empty"]
    force = _by_subject(weight_share_findings(TALL, millimetres))["front edge"]
    assert tilt.value == pytest.approx(12.529, abs=0.001)
    assert tilt.verdict is Verdict.OK
    assert force.value == pytest.approx(13.075, abs=0.005)
    assert force.limit == pytest.approx(15.298, abs=0.005)
    assert force.verdict is Verdict.NOTE
    assert not force.advice
    assert "one of this and the 10 degree tilt is enough" in force.basis


def test_force_is_capped_and_acts_no_higher_than_the_standard_says() -> None:
    heavy = replace(TALL, piece=replace(TALL.piece, mass_kg=300.0), top_mm=2000.0)
    force = _by_subject(weight_share_findings(heavy, millimetres))["front edge"]
    assert force.limit == 250.0
    assert force.value == pytest.approx(300.0 * 9.80665 * 100.0 / 1500.0)


@pytest.mark.parametrize(
    ("inside_mm", "on_the_floor", "on_a_table"),
    [
        (100.0, Verdict.OK, Verdict.OK),  # 12.5 deg
        (70.0, Verdict.CAUTION, Verdict.NOTE),  # 8.8 deg
        (40.0, Verdict.CAUTION, Verdict.CAUTION),  # 5.1 deg
        (0.0, Verdict.FAIL, Verdict.FAIL),
    ],
)
def test_what_is_asked_depends_on_what_it_is(
    inside_mm: float, on_the_floor: Verdict, on_a_table: Verdict
) -> None:
    stand = replace(TALL, piece=replace(TALL.piece, centre_mm=(200.0, inside_mm, 450.0)))
    for asked, verdict in ((FLOOR, on_the_floor), (TABLE, on_a_table)):
        found = _by_subject(tilt_findings(stand, asked, millimetres))
        assert found["front edge, empty"].verdict is verdict


def test_what_passes_has_no_advice_and_what_is_amiss_has_some() -> None:
    for finding in (
        *tilt_findings(TALL, STRICT, millimetres),
        *tilt_findings(TALL, TABLE, millimetres),
        *weight_share_findings(STAND, millimetres),
        *push_findings(STAND, 560.0, TOP_PUSH, millimetres, 10.0),
        *push_findings(STAND, 560.0, TOP_PUSH, millimetres, None),
        *press_findings(STAND, 150.0, CHILD, millimetres),
    ):
        is_amiss = finding.verdict in (Verdict.CAUTION, Verdict.FAIL)
        assert bool(finding.advice) is is_amiss


def test_every_finding_defers_to_local_codes() -> None:
    for finding in (
        *tilt_findings(STAND, FLOOR, millimetres),
        *weight_share_findings(STAND, millimetres),
    ):
        assert "local codes" in finding.basis


def test_base_deepened_as_advised_passes() -> None:
    finding = _by_subject(tilt_findings(TALL, STRICT, millimetres))["front edge, empty"]
    parts = remedy_of(finding, Change.BASE).parts
    (part,) = (each for each in parts if each.words.endswith("forward"))
    by = part.enough
    assert 0.0 <= part.amount - by < 0.5
    wider = replace(
        TALL, contacts_mm=tuple((x, y - by if y == 0 else y) for x, y in TALL.contacts_mm)
    )
    again = _by_subject(tilt_findings(wider, STRICT, millimetres))["front edge, empty"]
    assert again.value == pytest.approx(15.0, abs=1e-4)


def test_press_takes_the_worse_end_of_the_edge() -> None:
    # A tier that overhangs the left side only: its left end is the worse one.
    lopsided = replace(TOP, x0_mm=-100.0, y0_mm=20.0)
    stand = replace(STAND, surfaces=(lopsided,), loads=())
    (finding,) = press_findings(stand, 500.0, CHILD, millimetres)
    # Hand-worked: 5 kg x 9.80665 x 150 mm inside the left edge over 100 mm outside it.
    assert finding.value == pytest.approx(5 * 9.80665 * 150.0 / 100.0)
    assert "left" in finding.basis


def test_press_over_the_base_has_no_value_and_says_why() -> None:
    stand = replace(STAND, surfaces=(replace(TOP, y0_mm=10.0),))
    (finding,) = press_findings(stand, 100.0, CHILD, millimetres)
    assert finding.value is None
    assert finding.verdict is Verdict.OK
    assert "over the base" in finding.basis


def test_tier_brought_in_as_advised_bears_the_press() -> None:
    (finding,) = press_findings(replace(STAND, loads=()), 150.0, CHILD, millimetres)
    drawn_in = remedy_of(finding, Change.INWARD)
    shorter = replace(TOP, y0_mm=TOP.y0_mm + drawn_in.enough)
    (again,) = press_findings(
        replace(STAND, loads=(), surfaces=(shorter,)), 150.0, CHILD, millimetres
    )
    assert again.value == pytest.approx(150.0, rel=1e-4)


def test_what_falls_over_on_a_level_floor_fails() -> None:
    outside = Body(mass_kg=5.0, centre_mm=(150.0, 185.0, 230.0))
    falls = replace(STAND, piece=outside, loads=())
    back = _by_subject(tilt_findings(falls, FLOOR, millimetres))["back edge, empty"]
    assert back.value is not None
    assert back.value < 0.0
    assert back.verdict is Verdict.FAIL
    pot = replace(POT, mass_kg=120.0)
    loaded = replace(STAND, loads=(pot,))
    front = _by_subject(tilt_findings(loaded, FLOOR, millimetres))
    assert front["front edge, loaded"].verdict is Verdict.FAIL
    assert front["front edge, empty"].verdict is Verdict.OK


def test_a_push_cautions_where_it_is_judged_and_is_only_told_elsewhere() -> None:
    # Over the back: 70 mm inside, so it tips at 9.80665 x mass x 70/560.
    for mass, verdict in ((8.0, Verdict.CAUTION), (8.2, Verdict.NOTE)):
        light = replace(STAND, piece=Body(mass_kg=mass, centre_mm=(150.0, 110.0, 230.0)), loads=())
        judged = _by_subject(push_findings(light, 560.0, TOP_PUSH, millimetres, 10.0))
        assert judged["back edge"].verdict is verdict
        told = _by_subject(push_findings(light, 560.0, TOP_PUSH, millimetres, None))
        assert told["back edge"].verdict is Verdict.NOTE
        assert told["back edge"].limit is None
        assert told["back edge"].value == judged["back edge"].value


def test_a_squat_piece_slides_and_does_not_tip() -> None:
    # 70 mm inside and pushed 80 mm up it would tip at 0.875 of its weight: soft pads hold 0.8.
    squat = replace(STAND, piece=Body(mass_kg=1.0, centre_mm=(150.0, 110.0, 40.0)), loads=())
    low = _by_subject(push_findings(squat, 80.0, TOP_PUSH, millimetres, 10.0))["back edge"]
    assert low.verdict is Verdict.OK
    assert low.tipping is not None
    assert low.tipping.slides_first
    assert low.limit is None  # what it cannot reach is not asked of it
    high = _by_subject(push_findings(squat, 100.0, TOP_PUSH, millimetres, 10.0))["back edge"]
    assert high.verdict is Verdict.CAUTION
    assert high.tipping is not None
    assert not high.tipping.slides_first


def test_a_low_box_is_judged_by_bare_wood_and_sent_to_no_wall() -> None:
    # Square on its feet, 90 mm inside and 120 high of 180 deep: it tips at 0.75 of its weight, so
    # that bare wood (0.5 at most) lets it slide; soft pads (0.8) might hold it.
    box = replace(STAND, piece=Body(mass_kg=0.5, centre_mm=(150.0, 90.0, 60.0)), top_mm=120.0)
    box = replace(box, loads=(), surfaces=())
    back = _by_subject(push_findings(box, 120.0, TOP_PUSH, millimetres, 10.0))["back edge"]
    assert back.value == pytest.approx(0.5 * 9.80665 * 0.75)
    assert back.verdict is Verdict.OK
    assert "0.5 at most" in back.basis
    # On a floor that holds it as fast as that, it is a caution, and still no wall.
    firm = replace(box, friction=0.9)
    rough = _by_subject(push_findings(firm, 120.0, TOP_PUSH, millimetres, 10.0))["back edge"]
    assert rough.verdict is Verdict.CAUTION
    assert "wall" not in rough.advice
    assert rough.advice


def test_a_wall_is_named_with_what_its_fixing_must_bear_and_only_where_there_is_one() -> None:
    for fixing, named in ((None, False), (134.2, True)):
        light = replace(STAND, piece=replace(STAND.piece, mass_kg=3.0), fixing_n=fixing)
        found = _by_subject(push_findings(light, 560.0, TOP_PUSH, millimetres, 10.0))["back edge"]
        assert found.verdict is Verdict.CAUTION
        assert ("bears 135 N" in found.advice) is named
        assert ("wall" in found.advice) is named


@pytest.mark.parametrize(("friction", "word"), [(0.1, "slides first"), (0.4, "tips first")])
def test_sliding_against_tipping(friction: float, word: str) -> None:
    # Over the back edge 70 mm inside, pushed at 560 mm: it slides below friction 0.125.
    finding = sliding_finding(STAND, friction, 560.0, millimetres)
    assert word in finding.basis
    assert "0.25 to 0.5" in finding.basis
    assert finding.verdict is Verdict.OK


def test_a_low_pull_on_a_cable_tips_later_than_a_high_one() -> None:
    low = push_findings(STAND, 100.0, CABLE_PULL, millimetres, 10.0)
    high = push_findings(STAND, 500.0, CABLE_PULL, millimetres, 10.0)
    for one, other in zip(low, high, strict=True):
        assert one.value == pytest.approx(5.0 * (other.value or 0.0))
        slides = (one.value or 0.0) > 0.8 * 5.0 * 9.80665
        assert (one.sense is None) is slides
        assert other.sense is Sense.AT_LEAST


def test_loads_that_are_absent_are_named_as_such() -> None:
    found = _by_subject(tilt_findings(STAND, FLOOR, millimetres))
    assert "worst with pot" in found["front edge, loaded"].basis
    assert POT.name not in found["front edge, empty"].basis
    assert STAND.contacts_mm == FEET
