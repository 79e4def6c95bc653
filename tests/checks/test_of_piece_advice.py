"""Advice that works: each is taken as printed, the stand is built again, and the verdict is ok."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from furniture import Ballast, BottomFixing, Load, Place, Sawn, ShopRules, SteppedStand, Tier
from furniture.checks.advice import Change, Remedy
from furniture.checks.check import Check
from furniture.checks.finding import Finding, Verdict
from furniture.checks.floor import uneven_floor_finding
from furniture.checks.of_piece import read_setting, standing_of
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.setting import HeldBy
from furniture.checks.rows.joints import DROOP
from furniture.checks.rows.standing import TOP_PUSH
from furniture.checks.stability_findings import push_findings, tilt_asked
from furniture.solids.measure import weigh
from tests.builders.bench import THIN, a_stand, oak
from tests.checks.cases import remedy_of
from tests.checks.of_piece_cases import found, loaded_stand, mm, named

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
JUDGED = read_setting(
    None,
    ShopRules(
        table_top_mass="0.1 kg", pushed_from="0.1 kg", sleeve="10 N", glued_caution="1 mm",
        sag_told_from="50 mm", sag_judged_from="50 mm",
    ),
)  # fmt: skip
"""A stricter shop, which judges light pieces by what is asked of heavy ones, so that small stands
show what the advice is worth."""


def _told(design: SteppedStand) -> tuple[Finding, ...]:
    return found(design, JUDGED)


def _is_mended(design: SteppedStand, check: Check, subject: str = "") -> None:
    assert not named(_told(design), check, subject).is_amiss


@pytest.fixture(scope="module")
def tilt():
    """A stand that tips too soon when loaded."""
    finding = named(_told(TOP_HEAVY), "tilt before it tips", "loaded")
    assert finding.verdict is Verdict.CAUTION
    return finding


def _ballast(remedy: Remedy) -> Ballast:
    """The ballast as the advice says it: so much, its middle so far from the front."""
    from_front = re.search(r"middle ([\d.]+ mm) from the front", remedy.words)
    assert from_front
    return Ballast(mass=f"{remedy.amount:.4f} kg", from_front=from_front[1])


_SIZES = {"deep": "base_depth", "wide": "base_width"}


def _with_base(design: SteppedStand, remedy: Remedy) -> SteppedStand:
    """The stand with its base as the words say, which name the sizes of just those parameters."""
    assert "make the base " in remedy.words
    told = {
        _SIZES[size]: figure
        for figure, size in re.findall(r"([\d.]+ mm) (deep|wide)", remedy.words)
    }
    assert set(told) == set(remedy.all_parameters) & set(_SIZES.values()) != set()
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
    tilt = named(_told(design), "tilt before it tips", "front edge")
    assert tilt.verdict is Verdict.CAUTION
    base = remedy_of(tilt, Change.BASE)
    assert tilt.parameters[0] == "base_depth"
    _is_mended(_with_base(design, base), tilt.check)
    shallower = replace(design, base_depth=mm(160 + base.amount * 0.5))
    assert named(_told(shallower), tilt.check).verdict is Verdict.CAUTION


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
    before = _told(design)
    tilt = named(before, "tilt before it tips", "edge, loaded")
    assert tilt.verdict is Verdict.CAUTION
    base = remedy_of(tilt, Change.BASE)
    assert base.all_parameters == ("base_width",)
    after = _told(_with_base(design, base))
    assert all(each.verdict is Verdict.OK for each in after if each.check == tilt.check)


def test_a_wider_base_with_ballast_stands():
    """Where neither will do alone: both as printed."""
    design = _narrow("180 mm", "280 mm", "12 kg")
    tilt = named(_told(design), "tilt before it tips")
    assert tilt.is_amiss
    both = remedy_of(tilt, Change.TOGETHER)
    _, ballast = both.parts
    assert ballast.words in tilt.advice
    _is_mended(replace(_with_base(design, both), ballast=_ballast(ballast)), tilt.check)


@pytest.mark.some(few=1)
@pytest.mark.parametrize("design", [TOP_HEAVY, loaded_stand(), loaded_stand(thick=oak("15 mm"))])
def test_only_what_the_builder_can_move_is_said_to_move(design):
    """The back of the base stays under the post, and a stand has no runners."""
    for finding in _told(design):
        assert "runners" not in finding.advice
        assert "further" not in finding.advice


def test_ballast_in_the_box_stands(tilt):
    ballast = _ballast(remedy_of(tilt, Change.BALLAST))
    findings = _told(replace(TOP_HEAVY, ballast=ballast))
    assert all(each.verdict is Verdict.OK for each in findings if each.check == tilt.check)
    light = replace(ballast, mass=f"{float(str(ballast.mass).split()[0]) * 0.6:.3f} kg")
    lighter = _told(replace(TOP_HEAVY, ballast=light))
    assert any(each.check == tilt.check and each.verdict is Verdict.CAUTION for each in lighter)


def test_a_lighter_load_stands(tilt):
    share = remedy_of(tilt, Change.LOAD).amount / 100
    lighter = replace(TOP_HEAVY, loads=[replace(JAR, mass=f"{6 * share:.4f} kg")])
    _is_mended(lighter, tilt.check)


def test_the_whole_stand_pushed_at_its_top_is_held_by_the_ballast_as_printed():
    """The herb stand on the floor is tipped by little; with what it is told it stands."""
    bare = _herb_stand()
    push = named(_told(bare), "push at the top")
    assert push.verdict is Verdict.CAUTION
    held = replace(bare, ballast=_ballast(remedy_of(push, Change.BALLAST)))
    _is_mended(held, push.check)


def test_sand_in_the_yarn_steps_as_printed_holds_and_wants_a_bottom_that_is_held():
    """In inches and pounds, the ballast a box can hold, on a bottom that does not drop out."""
    from models.yarn_steps import THIN as ASH
    from models.yarn_steps import stand

    firm = read_setting(None, ShopRules(sleeve="14 N"))
    push = named(found(stand, firm), "push at the top")
    assert push.verdict is Verdict.CAUTION
    ballast = remedy_of(push, Change.BALLAST)
    told = re.search(r"put ([\d.]+ lb) of dry sand .* middle ([\d /]+ in) from", ballast.words)
    assert told
    assert {"bottom", "bottom_fixing"} < set(ballast.parameters)
    size = ("6 in", "2 in", "1 in")
    with_sand = Ballast(mass=told[1], size=size, from_front=told[2])
    held = replace(stand, bottom=ASH, bottom_fixing=BottomFixing.PINNED, ballast=with_sand)
    assert not named(found(held, firm), push.check).is_amiss


@pytest.mark.parametrize(
    ("fixing", "also"),
    [(BottomFixing.LOOSE, ("bottom_fixing",)), (BottomFixing.PINNED, ())],
)
def test_ballast_is_advised_on_a_bottom_that_holds_it(fixing, also):
    tilt = named(_told(replace(TOP_HEAVY, bottom_fixing=fixing)), "tilt before it tips")
    ballast = remedy_of(tilt, Change.BALLAST)
    assert ("nothing holds it up" in ballast.words) is bool(also)
    assert ballast.parameters == ("ballast", "ballast.from_front", *also)


def test_a_fixing_to_the_wall_bears_the_same_before_it_is_there_and_after():
    bare = _herb_stand()
    free = found(bare)
    fixed = found(bare, read_setting(Place(held=HeldBy.WALL)))
    before, after = (named(each, "fixing to the wall") for each in (free, fixed))
    assert before.value == after.value
    assert before.value is not None
    push = named(free, "push at the top")
    assert f"bears {math.ceil(before.value)} N" in push.advice
    assert f"bears {math.ceil(before.value)} N" in after.advice
    assert all(each.verdict is not Verdict.FAIL for each in fixed)
    # Four times what a firm push of 45 N lacks over every edge but the back, at the least.
    sides = [each.value for each in _pushes(bare) if "back" not in each.subject]
    assert before.value >= (45.0 - min(sides)) * 4.0 - 1e-6


def _pushes(design: SteppedStand) -> list[Finding]:
    piece = design.build()
    standing = standing_of(piece, weigh(piece))
    return list(push_findings(standing, standing.top_mm, TOP_PUSH, shown_by(piece), None))


def _herb_stand() -> SteppedStand:
    from models.herb_stand import stand

    return stand


def test_a_wider_gap_lets_the_lid_move():
    tight = loaded_stand(lid_gap_across="0.5 mm")
    gap = named(_told(tight), "gap of a loose part")
    assert gap.verdict is Verdict.FAIL
    side = remedy_of(gap, Change.GAP).amount
    _is_mended(replace(tight, lid_gap_across=mm(side)), gap.check)


def test_quarter_sawn_stock_calms_the_post():
    glued = named(_told(loaded_stand()), "glued across the grain", "post")
    assert "quarter sawn" in glued.advice
    calm = loaded_stand(own_stock={"post": replace(oak("20 mm"), sawn=Sawn.QUARTER)})
    again = [each for each in _told(calm) if each.check == glued.check]
    assert not any("glued to tier" in each.subject for each in again if each.is_amiss)


def test_a_narrower_post_may_be_glued_across():
    glued = named(_told(loaded_stand()), "glued across the grain", "post")
    assert glued.verdict is Verdict.CAUTION
    (narrower,) = (each for each in glued.remedies if each.words.endswith("wide"))
    _is_mended(loaded_stand(post_width=mm(narrower.amount)), glued.check, "tiers 1 and 2")


def test_glued_tiers_do_not_droop():
    """A clamp closes the joint, and the glue keeps it."""
    assert not [each for each in _told(loaded_stand()) if each.check == DROOP]


def test_a_deeper_dado_bears_a_hand():
    lever = named(_told(_herb_stand()), "levering in the dado")
    dado = remedy_of(lever, Change.DADO)
    seated = float(re.search(r"borne by ([\d.]+) mm of dado", lever.basis)[1])
    stronger = replace(_herb_stand(), dado_depth=mm(seated + dado.amount))
    again = named(_told(stronger), lever.check)
    assert not again.is_amiss


def test_ballast_also_holds_on_an_uneven_floor():
    """It is one fact with the tilt, and a line of its own only where it is graver."""
    finding = _uneven(TOP_HEAVY)
    assert finding.verdict is Verdict.CAUTION
    assert not [each for each in _told(TOP_HEAVY) if each.check == finding.check]
    ballast = _ballast(remedy_of(finding, Change.BALLAST))
    assert not _uneven(replace(TOP_HEAVY, ballast=ballast)).is_amiss


def _uneven(design: SteppedStand) -> Finding:
    piece = design.build()
    standing = standing_of(piece, weigh(piece))
    return uneven_floor_finding(standing, tilt_asked(is_table_top=False), shown_by(piece))


@pytest.mark.some(few=1)
@pytest.mark.parametrize("design", [TOP_HEAVY, loaded_stand(), loaded_stand(thick=oak("15 mm"))])
def test_every_printed_amount_is_enough_and_allowed(design):
    for finding in _told(design):
        for remedy in finding.remedies:
            assert remedy.words in finding.advice
            assert remedy.is_enough, (finding.check, remedy)
            assert remedy.is_allowed, (finding.check, remedy)
