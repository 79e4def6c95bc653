"""Loads that stay creep, those that come and go do not, and wood bears them better."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture import (
    Against,
    At,
    ButtJoint,
    Composition,
    FlushWith,
    Load,
    LoadKind,
    PlacedPart,
    Stock,
    Way,
    join,
)
from furniture.checks.check import Verdict
from furniture.checks.of_piece import Setting
from furniture.checks.of_piece.stability import standing_findings
from furniture.checks.rows.shelves import BENDING, SAG
from furniture.checks.rows.standing import TILT
from furniture.checks.stability import Body, Surface
from furniture.checks.stability import Load as StandingLoad
from furniture.checks.stability_findings import Standing, tilt_asked, tilt_findings
from furniture.solids.measure import weigh
from tests.builders.bench import bending_of
from tests.checks.cases import millimetres
from tests.hazards.pairs import basket_shelf


def _sag(*loads):
    design = replace(basket_shelf(LoadKind.STAYS), loads=loads)
    (found,) = bending_of(design.build(), SAG)
    return found.value


def test_what_stays_counts_twice_and_what_passes_once():
    """NDS equation 3.5-1 with 2 for creep, by hand from what 5 and 10 kg that stay sag.

    Springs that only press make it a little less than linear: within 3 %.
    """
    stays = basket_shelf(LoadKind.STAYS).loads[0]
    passes = replace(stays, kind=LoadKind.COMES_AND_GOES)
    five, ten = _sag(stays), _sag(replace(stays, mass="10 kg"))
    first_of_5 = (ten - five) / 2
    own = five - 2 * first_of_5
    assert first_of_5 > own > 0
    assert _sag(passes) == pytest.approx(own + first_of_5, rel=0.03)
    assert _sag(stays, passes) == pytest.approx(own + 3 * first_of_5, rel=0.03)


def test_wood_bears_a_quarter_more_of_what_does_not_stay():
    """The same stress beside limits 1.25 times as high, which the divisor had taken for time."""
    (stays,), (passes,) = (
        bending_of(basket_shelf(kind, kg=60.0).build(), BENDING)
        for kind in (LoadKind.STAYS, LoadKind.COMES_AND_GOES)
    )
    assert passes.value == pytest.approx(stays.value)
    assert passes.limits.cautions == pytest.approx(1.25 * stays.limits.cautions)
    assert passes.limits.fails == pytest.approx(1.25 * stays.limits.fails)


def test_beside_a_light_thing_that_passes_the_heavy_one_that_stays_is_judged_for_good():
    """What stays alone is held against its own limit: a fly that lands on it makes it no better."""
    heavy = replace(basket_shelf(LoadKind.STAYS, kg=60.0).loads[0], mass="200 kg")
    fly = replace(heavy, name="fly", mass="0.01 kg", kind=LoadKind.COMES_AND_GOES)
    design = basket_shelf(LoadKind.STAYS)
    (alone,) = bending_of(replace(design, loads=[heavy]).build(), BENDING)
    (both,) = bending_of(replace(design, loads=[heavy, fly]).build(), BENDING)
    assert alone.verdict is not Verdict.OK
    assert both.verdict is alone.verdict


def test_what_holds_it_and_is_lifted_off_is_named():
    """A jug on either wing balances a see-saw; with one lifted off the other tips it.

    By hand: the board of 2 kg holds with 100 mm, a jug 80 wide stands 160 mm outside the foot:
    2 kg x 100 mm < 4 kg x 160 mm, the centre lies (2 x 100 - 4 x 160) / 6 = -73.3 mm inside.
    """
    wings = [
        Surface(name=name, x0_mm=low, x1_mm=high, y0_mm=-100.0, y1_mm=100.0, top_mm=60.0)
        for name, low, high in (("left wing", -300.0, -100.0), ("right wing", 100.0, 300.0))
    ]
    loads = tuple(
        StandingLoad(name=f"jug on {wing.name}", on=wing, mass_kg=4.0,
                     footprint_mm=(80.0, 80.0), centre_height_mm=60.0)
        for wing in wings
    )  # fmt: skip
    see_saw = Standing(
        piece=Body(mass_kg=2.0, centre_mm=(0.0, 0.0, 50.0)),
        contacts_mm=((-100.0, -100.0), (100.0, -100.0), (100.0, 100.0), (-100.0, 100.0)),
        top_mm=60.0,
        loads=loads,
        surfaces=tuple(wings),
    )
    told = tilt_findings(see_saw, tilt_asked(is_table_top=True), millimetres)
    right = next(each for each in told if each.subject == "right edge, loaded")
    assert right.verdict is Verdict.FAIL
    assert right.basis.startswith(
        "worst with jug on right wing at the worst place and jug on left wing taken away: "
        "centre of mass -73.333333 mm inside the right edge"
    )


def test_of_a_built_piece_too_the_jug_that_is_lifted_off_is_named():
    """Two wings on a foot of 200, a jug of 4 kg on each; with one away the other tips it.

    By hand, of own mass M: it holds with M x 100 mm, the jug 80 wide stands 160 mm outside the
    foot, and with M near 3.6 kg the centre lies (100 M - 640) / (M + 4) = -36.6 mm inside.
    """
    board = Stock(name="oak", species="white oak", thickness="20 mm", moisture="8 %")
    wings = [
        PlacedPart(
            name=f"{side} wing", stock=board, length="300 mm", width="300 mm", face_side=Way.UP,
            places=[Against(of="foot", side=Way.UP), FlushWith(of="foot", side=Way.FRONT),
                    At(distance=at, of="foot", side=Way.LEFT)],
        )
        for side, at in (("left", "-200 mm"), ("right", "100 mm"))
    ]  # fmt: skip
    foot = PlacedPart(
        name="foot", stock=board, length="200 mm", width="300 mm", face_side=Way.UP
    )  # fmt: skip
    jugs = [
        Load(on=each.name, name="jug", mass="4 kg", footprint=("80 mm", "80 mm"),
             centre_height="60 mm", kind=LoadKind.COMES_AND_GOES)
        for each in wings
    ]  # fmt: skip
    design = Composition(
        name="see-saw", parts=[foot, *wings], loads=jugs,
        joints=[join(ButtJoint, each.name, into="foot") for each in wings],
    )  # fmt: skip
    built = design.build()
    weighed = weigh(built)
    (tilt,) = [each for each in standing_findings(built, weighed, Setting()) if each.check == TILT]
    parts = weighed.parts
    own = sum(parts[each.part.id].mass_kg for each in built.placed)
    assert own == pytest.approx(3.61, abs=0.01)
    inside = (100.0 * own - 4.0 * 160.0) / (own + 4.0)
    assert f"centre of mass {inside:.1f} mm inside the right edge" in tilt.basis
    assert "jug on left wing taken away" in tilt.basis
    assert tilt.verdict is Verdict.FAIL
