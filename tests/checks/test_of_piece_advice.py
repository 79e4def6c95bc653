"""Advice that works: each is taken, the stand is built again, and the verdict becomes ok.

A printed amount is rounded to the piece's step, so a maker who takes it goes to the next step up.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture import Ballast, Load, SteppedStand, Tier
from furniture.checks.finding import Verdict
from tests.builders.bench import THIN, a_stand, oak
from tests.checks.of_piece_cases import POT, advised, found, loaded_stand, mm, named, step_up

JAR = Load(
    name="jar",
    on="tier 2",
    mass="6 kg",
    footprint=("60 mm", "60 mm"),
    centre_height="80 mm",
)
TOP_HEAVY = a_stand(
    base_depth="160 mm",
    bottom=THIN,
    loads=[JAR],
    tiers=(
        Tier(width="200 mm", depth="110 mm", rise="220 mm"),
        Tier(width="160 mm", depth="110 mm", rise="200 mm"),
    ),
)
FRONT = "front edge, loaded"


def _becomes_ok(design: SteppedStand, check: str, subject: str = "") -> None:
    assert named(found(design), check, subject).verdict is Verdict.OK


@pytest.fixture(scope="module")
def tilt():
    """A stand that falls over its front edge when loaded."""
    finding = named(found(TOP_HEAVY), "tilt before it tips", FRONT)
    assert finding.verdict is Verdict.FAIL
    return finding


def test_a_deeper_base_stands(tilt):
    grows = step_up(advised(tilt, "move the front edge of the base outward by # mm"))
    deeper = replace(TOP_HEAVY, base_depth=mm(160 + grows))
    _becomes_ok(deeper, tilt.check, FRONT)
    shallower = replace(TOP_HEAVY, base_depth=mm(160 + grows * 0.5))
    assert named(found(shallower), tilt.check, FRONT).verdict is Verdict.FAIL


def test_ballast_in_the_box_stands(tilt):
    mass = advised(tilt, "put # kg in the box")
    where = {"size": ("100 mm", "60 mm", "20 mm"), "from_front": "80 mm"}
    ballasted = replace(TOP_HEAVY, ballast=Ballast(mass=f"{mass} kg", **where))
    _becomes_ok(ballasted, tilt.check, FRONT)
    lighter = found(replace(TOP_HEAVY, ballast=Ballast(mass=f"{mass * 0.7:.2f} kg", **where)))
    assert any(each.check == tilt.check and each.verdict is Verdict.FAIL for each in lighter)


def test_a_lighter_load_stands(tilt):
    share = advised(tilt, "stand at most # % of the stated loads") / 100
    lighter = replace(TOP_HEAVY, loads=[replace(JAR, mass=f"{6 * share:.4f} kg")])
    _becomes_ok(lighter, tilt.check, FRONT)


def test_a_wider_gap_lets_the_lid_move():
    tight = loaded_stand(lid_gap_across="0.5 mm")
    gap = named(found(tight), "gap of a loose part")
    assert gap.verdict is Verdict.FAIL
    side = step_up(advised(gap, "when you make it, # mm a side"))
    _becomes_ok(replace(tight, lid_gap_across=mm(side)), gap.check)


def test_a_thicker_tier_sags_less():
    sag = named(found(loaded_stand()), "sag that shows", "tier 1")
    assert sag.verdict is not Verdict.OK
    thickness = 10 + step_up(advised(sag, "make it # mm thicker"))
    _becomes_ok(loaded_stand(own_stock={"tier 1": oak(mm(thickness))}), sag.check)


def test_a_shorter_tier_sags_less():
    sag = named(found(loaded_stand()), "sag that shows", "tier 1")
    depth = 100 - step_up(advised(sag, "or # mm shorter in the span"))
    tiers = (
        Tier(width="200 mm", depth=mm(depth), rise="150 mm"),
        Tier(width="160 mm", depth="60 mm", rise="120 mm"),
    )
    _becomes_ok(loaded_stand(tiers=tiers), sag.check)


def test_a_lighter_pot_sags_less():
    sag = named(found(loaded_stand()), "sag that shows", "tier 1")
    share = advised(sag, "load it with #% of what stands on it") / 100
    lighter = replace(POT, mass=f"{2 * share:.4f} kg")
    _becomes_ok(loaded_stand(loads=[lighter]), sag.check)


def test_a_narrower_post_may_be_glued_across():
    glued = named(found(loaded_stand()), "glued across the grain", "post")
    assert glued.verdict is Verdict.CAUTION
    width = math.floor(advised(glued, "glue no more than # mm of its width"))
    _becomes_ok(loaded_stand(post_width=mm(width)), glued.check, "tier 1, 2")


def test_less_play_keeps_the_tiers_level():
    droop = named(found(loaded_stand()), "droop of a loose housing")
    assert droop.verdict is Verdict.CAUTION
    play = advised(droop, "fit it with at most # mm of play")
    _becomes_ok(loaded_stand(fit_clearance=mm(play)), droop.check)


def test_a_shallower_rabbet_leaves_enough_rail():
    thin = loaded_stand(thick=oak("15 mm"), rabbet_width="10 mm", lid_gap_across="1 mm")
    rabbet = named(found(thin), "wood beside a rabbet")
    assert rabbet.verdict is Verdict.CAUTION
    width = 10 - advised(rabbet, "cut it # mm shallower")
    _becomes_ok(replace(thin, rabbet_width=mm(width)), rabbet.check)


def test_ballast_also_holds_on_an_uneven_floor():
    finding = named(found(TOP_HEAVY), "tilt left on an uneven floor")
    assert finding.verdict is Verdict.CAUTION
    mass = advised(finding, "put # kg in the box")
    ballast = Ballast(mass=f"{mass} kg", size=("100 mm", "60 mm", "20 mm"), from_front="80 mm")
    _becomes_ok(replace(TOP_HEAVY, ballast=ballast), finding.check)
