"""Advice that works: each is taken as printed, the stand is built again, and the verdict is ok."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from furniture import Ballast, Load, Place, Sawn, SteppedStand, Tier
from furniture.checks.advice import Change, Remedy
from furniture.checks.finding import Verdict
from furniture.checks.of_piece import read_setting
from furniture.checks.of_piece.setting import HeldBy
from tests.builders.bench import THIN, a_stand, oak
from tests.checks.cases import remedy_of
from tests.checks.of_piece_cases import POT, found, loaded_stand, mm, named

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
    """A stand that tips too soon over its front edge when loaded."""
    finding = named(found(TOP_HEAVY), "tilt before it tips", FRONT)
    assert finding.verdict is Verdict.CAUTION
    return finding


def _ballast(remedy: Remedy) -> Ballast:
    """The ballast as the advice says it: so much, its middle so far from the front."""
    from_front = re.search(r"middle ([\d.]+ mm) from the front", remedy.words)
    assert from_front
    return Ballast(mass=f"{remedy.amount:.4f} kg", from_front=from_front[1])


def _with_base(design: SteppedStand, advice: str) -> SteppedStand:
    """The stand with every parameter of its base as the advice prints it."""
    told = dict(re.findall(r"make (base_\w+) ([\d.]+ mm)", advice))
    assert told, advice
    return replace(design, **told)


def test_a_deeper_base_stands():
    """Its tiers stand out far, so that only the front lacks."""
    design = replace(
        TOP_HEAVY,
        loads=[replace(JAR, mass="4 kg")],
        tiers=(
            Tier(width="200 mm", depth="150 mm", rise="150 mm"),
            Tier(width="160 mm", depth="150 mm", rise="120 mm"),
        ),
    )
    tilt = named(found(design), "tilt before it tips", FRONT)
    assert tilt.verdict is Verdict.CAUTION
    base = remedy_of(tilt, Change.BASE)
    assert "base_depth" in base.words
    _becomes_ok(_with_base(design, base.words), tilt.check, FRONT)
    shallower = replace(design, base_depth=mm(160 + base.amount * 0.5))
    assert named(found(shallower), tilt.check, FRONT).verdict is Verdict.CAUTION


def _narrow(width: str, depth: str, mass: str) -> SteppedStand:
    tiers = (
        Tier(width=width, depth="110 mm", rise="220 mm"),
        Tier(width=width, depth="110 mm", rise="200 mm"),
    )
    return replace(
        TOP_HEAVY, base_width=width, post_width="70 mm", base_depth=depth, tiers=tiers,
        loads=[replace(JAR, mass=mass)],
    )  # fmt: skip


def test_a_wider_base_stands():
    design = _narrow("160 mm", "300 mm", "3 kg")
    before = found(design)
    tilt = named(before, "tilt before it tips", "left edge, loaded")
    assert tilt.verdict is Verdict.CAUTION
    base = remedy_of(tilt, Change.BASE)
    assert "base_width" in base.words
    after = found(_with_base(design, base.words))
    assert all(each.verdict is Verdict.OK for each in after if each.check == tilt.check)


def test_a_wider_base_with_ballast_stands():
    """Where neither will do alone: both as printed."""
    design = _narrow("180 mm", "280 mm", "6 kg")
    share = named(found(design), "push of 13 % of the weight")
    assert share.verdict is Verdict.CAUTION
    both = remedy_of(share, Change.TOGETHER)
    _, ballast = both.parts
    assert ballast.words in share.advice
    _becomes_ok(replace(_with_base(design, both.words), ballast=_ballast(ballast)), share.check)


@pytest.mark.parametrize("design", [TOP_HEAVY, loaded_stand(), loaded_stand(thick=oak("15 mm"))])
def test_only_what_the_builder_can_move_is_said_to_move(design):
    """The back of the base stays under the post, and a stand has no runners."""
    for finding in found(design):
        assert "runners" not in finding.advice
        assert "further" not in finding.advice


def test_ballast_in_the_box_stands(tilt):
    ballast = _ballast(remedy_of(tilt, Change.BALLAST))
    findings = found(replace(TOP_HEAVY, ballast=ballast))
    assert all(each.verdict is Verdict.OK for each in findings if each.check == tilt.check)
    light = replace(ballast, mass=f"{float(str(ballast.mass).split()[0]) * 0.6:.3f} kg")
    lighter = found(replace(TOP_HEAVY, ballast=light))
    assert any(each.check == tilt.check and each.verdict is Verdict.CAUTION for each in lighter)


def test_a_lighter_load_stands(tilt):
    share = remedy_of(tilt, Change.LOAD).amount / 100
    lighter = replace(TOP_HEAVY, loads=[replace(JAR, mass=f"{6 * share:.4f} kg")])
    _becomes_ok(lighter, tilt.check, FRONT)


def test_the_whole_stand_pushed_at_its_top_is_held_by_the_ballast_as_printed():
    """The herb stand without its ballast fails, and with what it is then told it stands."""
    bare = _bare_herb_stand()
    push = named(found(bare), "push at the top")
    assert push.verdict is Verdict.FAIL
    held = replace(bare, ballast=_ballast(remedy_of(push, Change.BALLAST)))
    _becomes_ok(held, push.check)


def test_sand_in_the_yarn_steps_as_printed_meets_its_own_rule():
    """In inches and pounds, the ballast a box can hold: the share of the weight is then borne."""
    from models.yarn_steps import THIN as ASH
    from models.yarn_steps import stand

    share = named(found(stand), "push of 13 % of the weight")
    assert share.verdict is Verdict.CAUTION
    ballast = remedy_of(share, Change.BALLAST)
    told = re.search(r"put ([\d.]+ lb) of dry sand .* middle ([\d /]+ in) from", ballast.words)
    assert told
    size = ("6 in", "2 in", "1 in")
    with_sand = Ballast(mass=told[1], size=size, from_front=told[2])
    _becomes_ok(replace(stand, bottom=ASH, ballast=with_sand), share.check)


def test_fixed_to_the_wall_no_push_tips_it():
    free = found(_bare_herb_stand())
    fixed = found(_bare_herb_stand(), read_setting(Place(held=HeldBy.WALL)))
    assert any(each.verdict is Verdict.FAIL for each in free)
    assert all(each.verdict is not Verdict.FAIL for each in fixed)
    strap = named(fixed, "hold of the strap")
    # Four times what is missing of 10 N at the top, or of the tilt, whichever is more.
    push = named(free, "push at the top")
    assert push.value is not None
    assert strap.value is not None
    assert strap.value >= (10.0 - push.value) * 4.0 - 1e-6


def _herb_stand() -> SteppedStand:
    from models.herb_stand import stand

    return stand


def _bare_herb_stand() -> SteppedStand:
    """The herb stand without its steel: too light to stand a touch."""
    return replace(_herb_stand(), ballast=None)


def test_a_wider_gap_lets_the_lid_move():
    tight = loaded_stand(lid_gap_across="0.5 mm")
    gap = named(found(tight), "gap of a loose part")
    assert gap.verdict is Verdict.FAIL
    side = remedy_of(gap, Change.GAP).amount
    _becomes_ok(replace(tight, lid_gap_across=mm(side)), gap.check)


def test_quarter_sawn_stock_calms_the_post():
    glued = named(found(loaded_stand()), "glued across the grain", "post")
    assert "quarter sawn" in glued.advice
    calm = loaded_stand(own_stock={"post": replace(oak("20 mm"), sawn=Sawn.QUARTER)})
    again = [each for each in found(calm) if each.check == glued.check]
    assert not any("glued to tier" in each.subject for each in again if each.verdict.value != "ok")


def test_a_thicker_tier_sags_less():
    sag = named(found(loaded_stand()), "sag that shows", "tier 1")
    assert sag.verdict is not Verdict.OK
    thickness = 10 + remedy_of(sag, Change.THICKNESS).amount
    _becomes_ok(loaded_stand(own_stock={"tier 1": oak(mm(thickness))}), sag.check)


def test_a_shorter_tier_sags_less():
    sag = named(found(loaded_stand()), "sag that shows", "tier 1")
    depth = 100 - remedy_of(sag, Change.SPAN).amount
    tiers = (
        Tier(width="200 mm", depth=mm(depth), rise="150 mm"),
        Tier(width="160 mm", depth="60 mm", rise="120 mm"),
    )
    _becomes_ok(loaded_stand(tiers=tiers), sag.check)


def test_a_lighter_pot_sags_less():
    sag = named(found(loaded_stand()), "sag that shows", "tier 1")
    lighter = replace(POT, mass=f"{remedy_of(sag, Change.LOAD).amount:.4f} kg")
    _becomes_ok(loaded_stand(loads=[lighter]), sag.check)


def test_a_narrower_post_may_be_glued_across():
    glued = named(found(loaded_stand()), "glued across the grain", "post")
    assert glued.verdict is Verdict.CAUTION
    (narrower,) = (each for each in glued.remedies if each.words.endswith("wide"))
    _becomes_ok(loaded_stand(post_width=mm(narrower.amount)), glued.check, "tiers 1 and 2")


def test_less_play_keeps_the_tiers_level():
    droop = named(found(loaded_stand()), "droop of a loose housing")
    assert droop.verdict is Verdict.CAUTION
    play = remedy_of(droop, Change.PLAY).amount
    _becomes_ok(loaded_stand(fit_clearance=mm(play)), droop.check)


def test_a_thicker_post_and_a_deeper_dado_bear_a_hand():
    lever = named(found(_herb_stand()), "shelf as a lever in its dado, a hand on its edge")
    post, dado = remedy_of(lever, Change.TOGETHER).parts
    thick = oak(mm(post.amount))
    stronger = replace(
        _herb_stand(),
        own_stock={"post": replace(thick, moisture="9 %")},
        dado_depth=mm(dado.amount),
    )
    again = named(found(stronger), lever.check)
    assert again.verdict is Verdict.OK


def test_ballast_also_holds_on_an_uneven_floor():
    finding = named(found(TOP_HEAVY), "tilt left on an uneven floor")
    assert finding.verdict is Verdict.CAUTION
    ballast = _ballast(remedy_of(finding, Change.BALLAST))
    _becomes_ok(replace(TOP_HEAVY, ballast=ballast), finding.check)


@pytest.mark.parametrize("design", [TOP_HEAVY, loaded_stand(), loaded_stand(thick=oak("15 mm"))])
def test_every_printed_amount_is_enough_and_allowed(design):
    for finding in found(design):
        for remedy in finding.remedies:
            assert remedy.words in finding.advice
            assert remedy.is_enough, (finding.check, remedy)
            assert remedy.is_allowed, (finding.check, remedy)
