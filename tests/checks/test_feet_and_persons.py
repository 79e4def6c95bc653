"""Feet against the plan, and a person near an edge: geometry and moments worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.feet import feet_finding
from furniture.checks.finding import Verdict, Way
from furniture.checks.persons import person_finding, step_finding
from furniture.checks.stability import Body, Load, Surface
from tests.checks.cases import STAND, millimetres

# The feet of the bench stand span 300 by 180 mm.
WIDE = ((0.0, 300.0), (-60.0, 180.0))


@pytest.mark.parametrize(
    ("depth_mm", "is_table_top", "verdict"),
    [
        (269.0, False, Verdict.OK),  # 0.669 of the depth
        (271.0, False, Verdict.CAUTION),  # 0.664
        (271.0, True, Verdict.OK),
        (361.0, True, Verdict.CAUTION),  # 0.499
    ],
)
def test_feet_span_a_share_of_what_it_covers(
    depth_mm: float, is_table_top: bool, verdict: Verdict
) -> None:
    plan = ((0.0, 300.0), (180.0 - depth_mm, 180.0))
    found = feet_finding(STAND, plan, millimetres, is_table_top=is_table_top)
    assert found.value == pytest.approx(100.0 * 180.0 / depth_mm)
    assert found.verdict is verdict
    assert found.tipping is not None
    assert found.tipping.ways == (Way.FORWARD, Way.BACKWARD)


def test_the_advice_of_the_feet_is_enough() -> None:
    plan = ((0.0, 300.0), (-220.0, 180.0))
    assert feet_finding(STAND, plan, millimetres, is_table_top=False).verdict is Verdict.CAUTION
    wider = replace(STAND, contacts_mm=tuple((x, y * 270.0 / 180.0) for x, y in STAND.contacts_mm))
    assert feet_finding(wider, plan, millimetres, is_table_top=False).verdict is Verdict.OK


# A stool of 4 kg, its seat 300 x 300 mm at 450 mm, its feet set in by so much on every side.
SEAT = Surface(name="seat", x0_mm=0.0, x1_mm=300.0, y0_mm=0.0, y1_mm=300.0, top_mm=450.0)


def _stool(inset_mm: float) -> object:
    low, high = inset_mm, 300.0 - inset_mm
    feet = ((low, low), (high, low), (high, high), (low, high))
    return replace(
        STAND,
        piece=Body(mass_kg=4.0, centre_mm=(150.0, 150.0, 300.0)),
        contacts_mm=feet, top_mm=450.0, loads=(), surfaces=(SEAT,),
    )  # fmt: skip


def test_a_person_inside_the_feet_tips_nothing() -> None:
    found = person_finding(_stool(50.0), SEAT, millimetres)  # type: ignore[arg-type]
    assert (found.value, found.verdict) == (None, Verdict.OK)


def test_legs_far_inside_the_seat_let_a_person_tip_it() -> None:
    # Pressed 60 mm inside the seat, 20 mm outside the feet: (4 x 9.80665 x 70 - 20 x 450) / 20 < 0.
    found = person_finding(_stool(80.0), SEAT, millimetres)  # type: ignore[arg-type]
    assert found.value == 0.0
    assert found.verdict is Verdict.FAIL
    assert found.advice
    # 40 kg: (40 x 9.80665 x 70 - 9000) / 20 = 923 N, more than the 600 that are asked.
    heavy = replace(_stool(80.0), piece=Body(mass_kg=40.0, centre_mm=(150.0, 150.0, 300.0)))  # type: ignore[type-var]
    held = person_finding(heavy, SEAT, millimetres)  # type: ignore[arg-type]
    assert held.value == pytest.approx((40.0 * 9.80665 * 70.0 - 9000.0) / 20.0)
    assert held.verdict is Verdict.OK


@pytest.mark.parametrize(
    ("inset_mm", "verdict"),
    [
        (60.0, Verdict.FAIL),  # on the line of the feet: 4 x 9.80665 x 90 against 20 x 450
        (55.0, Verdict.FAIL),  # 5 mm inside 600 N help with 3000 of the 5274 that are wanting
        (50.0, Verdict.OK),  # 10 mm inside they help with 6000 of 5077
    ],
)
def test_a_push_sideways_tips_it_where_the_press_helps_too_little(
    inset_mm: float, verdict: Verdict
) -> None:
    assert person_finding(_stool(inset_mm), SEAT, millimetres).verdict is verdict  # type: ignore[arg-type]


def test_a_foot_that_steps_up_pushes_back_over_the_front_edge() -> None:
    person = Load(
        name="person", on=SEAT, mass_kg=100.0, footprint_mm=(100.0, 100.0), centre_height_mm=900.0
    )
    found = step_finding(_stool(0.0), person, millimetres)  # type: ignore[arg-type]
    # 60 mm inside the front edge: (4 x 150 + 100 x 60) x 9.80665 / 450, against 15 % of 981 N.
    assert found.value == pytest.approx((4.0 * 150.0 + 100.0 * 60.0) * 9.80665 / 450.0)
    assert found.verdict is Verdict.CAUTION
    assert "front" in found.subject
    low = replace(SEAT, top_mm=430.0)
    lower = step_finding(_stool(0.0), replace(person, on=low), millimetres)  # type: ignore[arg-type]
    assert lower.verdict is Verdict.OK
