"""The checks put to whole pieces: hand-worked figures of one simple stand, and what must hold.

The stand: base 300 x 200 x 80 of 20 mm white oak at 8 %, post 100 wide, two tiers of 10 mm that
stand out 100 and 80 mm from their dados 6 mm deep, and a pot of 2 kg, 60 x 60, on the first.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture import (
    DesignError,
    LidFixing,
    LoadKind,
    Opening,
    PostStrips,
    ShopRules,
    StandsOn,
    Stock,
    Tier,
    TierRule,
    Uprights,
)
from furniture.checks.finding import Verdict
from furniture.checks.of_piece import (
    Place,
    Setting,
    Subject,
    findings_by_subject,
    read_setting,
    standing_of,
)
from furniture.checks.of_piece.reading import shown_by
from furniture.checks.of_piece.seasons import Hold, movements_of
from furniture.checks.stability_findings import tilt_asked, tilt_findings
from furniture.pieces import Piece
from furniture.solids.measure import weigh
from tests.builders.bench import THIN, a_box, a_stand, box_round, oak
from tests.checks.of_piece_cases import POT, found, loaded_stand, named
from tests.models import NAMES, piece_of

pytestmark = pytest.mark.some_models

DENSITY = 752.5
"""White oak at 8 % [kg/m3]: Wood Handbook Eq. 4-9, 4-10, 4-14 with G12 = 0.68 and 16.3 % of
volumetric shrinkage: 0.68 x (100 - 9.78)/(100 - 11.953) x 1080."""
G = 9.80665
TIER_N = 200 * 106 * 10 * 1e-9 * DENSITY * G * 100 / 106
"""Weight of the first tier before the post."""
POT_N = 2.0 * G
ALL_N = TIER_N + POT_N
REACH = (TIER_N * 50 + POT_N * 70) / ALL_N
"""The tier's own middle is 50 mm out, the pot's 100 - 30."""

STANDS = {
    "post": loaded_stand(),
    "strips": loaded_stand(post_strips=PostStrips(count=3)),
    "uprights": loaded_stand(
        post_width=None,
        uprights=Uprights(depth="90 mm"),
        tiers=(Tier(depth="85 mm", rise="150 mm"), Tier(depth="70 mm", rise="120 mm")),
    ),
    "sheet": loaded_stand(thin=Stock(species="birch plywood 12 mm", thickness="12 mm")),
    "trimmed": loaded_stand(post_proud="0 mm"),
}


TELLING = read_setting(None, ShopRules(sag_told_from="50 mm", glued_told="0.1 mm"))
"""A shop that wants to hear of the sag of small shelves too, and of every glued face."""


@pytest.fixture(scope="module")
def findings():
    return found(loaded_stand(), TELLING)


def test_the_first_tier_as_a_lever_is_pressed_as_worked_by_hand(findings):
    """Own mechanics: F/(b d) + 6 F (reach + d/2)/(b d2) with b = 100 and d = 6."""
    expected = ALL_N / 600 + 6 * ALL_N * (REACH + 3) / (100 * 36)
    lever = named(findings, "crushing in the dado", "tier 1")
    assert lever.value == pytest.approx(expected, rel=1e-3)
    assert lever.limits.notes == pytest.approx(7.4 / 1.5)  # Table 5-3a, over 1.5
    assert lever.limits.cautions == pytest.approx(7.4)
    assert lever.limits.fails == pytest.approx(3 * 7.4 / 1.5)
    assert "an estimate" in lever.basis


def test_a_top_dado_that_is_open_above_has_no_wood_there_whatever_the_sums_leave():
    """Base and three rises add up to the post's length but for their last bit."""
    stand = loaded_stand(
        loads=[], post_proud="0 mm", base_height="86 mm",
        tiers=TierRule(count=3, width="200 mm", depth="80 mm", rise="140 mm"),
        thin=Stock(name="thin", species="white oak", thickness="10.3 mm"),
    )  # fmt: skip
    above = named(found(stand, TELLING), "wood above a dado")
    assert (above.value, above.verdict) == (None, Verdict.NOTE)
    assert "no wood stands above the dado" in above.basis


def test_one_line_tells_of_a_check_and_the_worst_speaks(findings):
    checks = [each.check for each in findings]
    assert len(checks) == len(set(checks))
    lever = named(findings, "crushing in the dado")
    assert lever.subject.startswith("tier 1, pot at its front")


def test_the_post_works_as_worked_by_hand(findings):
    """Behind the lid's dado at 69.5: 14 of 20 mm left, both tiers above, 10 N at the top 379.5."""
    upper = 160 * 86 * 10 * 1e-9 * DENSITY * G * 80 / 86
    moment = ALL_N * (REACH + 13) + upper * (40 + 13) + 10 * (379.5 - 69.5)
    expected = moment / (100 * 14**2 / 6) + (ALL_N + upper) / (100 * 14)
    post = named(findings, "post behind its weakest dado")
    assert post.value == pytest.approx(expected, rel=1e-3)
    assert "lid" in post.subject
    assert post.limit == pytest.approx(105 / 4)


def test_the_lids_gap_is_held_against_the_damp_season(findings):
    """Width 178, from 8 % to 10.9 % (Table 4-2, 75 deg F and 60 %, from memory), 0.00365 each.

    Sources: Wood Handbook Eq. 13-2 and Table 13-5; 0.2 mm of play is common practice.
    """
    gap = named(findings, "gap of a loose part", "lid")
    assert gap.value == pytest.approx(2.0)
    assert gap.limit == pytest.approx(0.2 + 178 * 0.00365 * 2.9, abs=0.07)
    assert gap.verdict is Verdict.CAUTION  # the play is short, the growth itself has room


def test_the_post_is_glued_across_its_tiers(findings):
    """100 mm of post dries from 8 to 6.2 % (70 deg F, 30 %, from memory) and rises to 10.9 %."""
    glued = named(findings, "glued across the grain", "post glued to tiers 1 and 2")
    assert glued.value == pytest.approx(100 * 0.00365 * 2.9, abs=0.05)


def test_a_symmetrical_box_tips_sideways_at_its_half_width():
    piece = a_box(finger_hold="none").build()
    weighed = weigh(piece)
    tilts = tilt_findings(
        standing_of(piece, weighed), tilt_asked(is_table_top=True), shown_by(piece)
    )
    (left,) = (each for each in tilts if each.subject == "left edge, empty")
    height = weighed.whole.centre_mm[2]
    assert named(found(piece), "tilt before it tips").value <= left.value
    assert left.value == pytest.approx(math.degrees(math.atan(150 / height)), abs=1e-6)


def test_short_grain_and_wood_left(findings):
    """Post proud 30 less the clearance of 0.1; behind the rails' rabbets 20 - 10."""
    assert named(findings, "short grain at an end").value == pytest.approx(29.9)
    assert named(findings, "wood left", "rabbet").value == pytest.approx(10.0)


def test_the_dados_of_the_run_are_counted(findings):
    """Three dados: 0.2 + 0.1 + 0.1 mm from one datum (arithmetic stack)."""
    run = named(findings, "sum of errors over the dados")
    assert run.subject == "top of 3 dados"
    assert run.value == pytest.approx(0.4)


def test_stubs_against_the_post_want_dowels(findings):
    """Stubs 80 high and 20 thick: 8 mm dowels, five diameters long, two from the edge."""
    butt = named(findings, "butt at an end grain")
    assert butt.subject == "left stub against post, right stub against post"
    assert "2 dowels 8 mm thick and 40 mm long across it" in butt.advice
    assert "16 mm from the edges" in butt.advice


@pytest.mark.parametrize("name", STANDS)
def test_every_kind_of_stand_is_told_of_every_subject_in_finite_figures(name):
    piece = STANDS[name].build()
    groups = findings_by_subject(piece, weigh(piece))
    told = {group.subject for group in groups}
    assert told >= set(Subject) - {
        Subject.TOOLS,  # what the making finds
        Subject.FIT,
        Subject.TOLERANCES,
        Subject.BOARDS,
    }
    for group in groups:
        for each in group.findings:
            figures = [figure for figure in (each.value, each.limit) if figure is not None]
            assert all(math.isfinite(figure) for figure in figures)
            assert each.basis
            assert each.advice or not each.is_amiss, each.check.name


@pytest.mark.parametrize("name", NAMES)
def test_no_finding_of_a_model_is_told_twice(name):
    findings = found(piece_of(name))
    keys = [(each.check, each.subject) for each in findings]
    assert len(keys) == len(set(keys))
    assert len(findings) < 70


def test_strips_of_a_post_hold_like_one_board():
    """Three strips glued edge to edge have the post's width and so its pressure."""
    check = "crushing in the dado"
    strips = named(found(STANDS["strips"]), check, "tier 1")
    assert strips.value == pytest.approx(named(found(STANDS["post"]), check, "tier 1").value)


def test_sheet_stock_is_calm():
    """A plywood lid travels a fraction of a solid one's way, and is told along and across."""
    climate = Setting()
    solid, sheet = (
        {
            each.meeting.inner.across: each
            for each in movements_of(STANDS[name].build(), climate)
            if each.meeting.hold is Hold.LOOSE
        }
        for name in ("post", "sheet")
    )
    (width,) = solid
    assert sheet[width].shift.range_mm < solid[width].shift.range_mm / 5
    assert len(sheet) == 2


def test_a_glued_lid_is_told_as_glued_and_not_as_loose():
    """A lid glued all round its mitred frame; a solid one strains it."""
    findings = found(a_stand(lid_fixing=LidFixing.GLUED))
    glued = [each for each in findings if each.check.name == "glued across the grain"]
    assert any("lid" in each.subject and each.is_amiss for each in glued)
    assert not [each for each in findings if each.check.name == "gap of a loose part"]


def test_a_lid_on_cleats_has_slots_as_long_as_its_travel_asks():
    """Slots 14 by 6 mm in cleats of 158, a fifth in: 79 - 31.6 = 47.4 mm from the lid's middle.

    It travels 47.4 x 0.00365 x (10.9 - 6.2) there (Wood Handbook Eq. 13-2; moistures as above).
    """
    slot = named(found(a_stand(lid_fixing=LidFixing.CLEATS)), "slot for a screw")
    assert slot.value == pytest.approx(14.0)
    assert slot.limit == pytest.approx(6 + 47.4 * 0.00365 * 4.7, abs=0.02)
    assert slot.verdict is Verdict.OK


def test_a_cable_is_pulled_only_where_there_is_one():
    """A bore 25 mm up in the back's left stub, or a height that the maker states."""
    opening = Opening(on="front rail", size="20 mm", from_edge="25 mm")
    assert not [each for each in found(loaded_stand()) if "cable" in each.check.name]
    own = named(found(loaded_stand(openings=[opening])), "pull on the cable")
    stated = named(found(loaded_stand(), read_setting(Place(cable_at="25 mm"))), own.check)
    assert "25 mm above the floor" in own.basis
    assert "25 mm above the floor" in stated.basis


def test_tall_ideas_are_for_the_floor_alone():
    """A stand of 900 mm is over 27 in: pushed and climbed on a floor, not on a table."""
    tall = loaded_stand(tiers=[Tier(width="200 mm", depth="100 mm", rise="400 mm")] * 2)
    on_floor = found(tall)
    on_table = found(tall, read_setting(Place(stands_on=StandsOn.TABLE)))
    assert [each for each in on_floor if "voluntary)" in each.check.name]
    assert not [each for each in on_table if "voluntary)" in each.check.name]


def test_a_damper_place_asks_for_a_wider_gap():
    usual, damp = (
        named(found(loaded_stand(), read_setting(place)), "gap of a loose part")
        for place in (None, "warm damp house")
    )
    assert damp.limit > usual.limit + 1.0


def test_a_wall_piece_is_told_of_its_fixing_and_not_of_tipping():
    """Pull = sum of weights times their distance from the wall, over the fixing's height."""
    piece: Piece = piece_of("key_rack")
    weighed = weigh(piece)
    findings = found(piece)
    hold = named(findings, "hold on the wall")
    assert hold.verdict is Verdict.NOTE  # a picture hook bears as much
    assert hold.advice
    assert not [each for each in findings if "tip" in each.check.name or "tilt" in each.check.name]
    wall = box_round(piece, "wall cleat")[1][1]
    low, high = box_round(piece, "cleat")
    (load,) = piece.loads
    shelf = box_round(piece, load.on)[0][1]
    moment = weighed.whole.mass_kg * (wall - weighed.whole.centre_mm[1]) + load.mass_kg * (
        wall - shelf - load.footprint_mm[1] / 2
    )
    foot = box_round(piece, "spacer")[0][2]
    both = moment * G / ((low[2] + high[2]) / 2 - foot)
    assert hold.value == pytest.approx(both / 2, rel=1e-6)


def test_a_heavy_pull_on_a_wall_is_a_caution():
    piece: Piece = piece_of("key_rack")
    load = replace(piece.loads[0], mass_kg=60.0)
    hold = named(found(replace(piece, loads=(load,))), "hold on the wall")
    assert hold.value > 100.0
    assert hold.verdict is Verdict.CAUTION


def test_light_pieces_on_a_table_are_sent_to_no_wall_and_never_fail_for_a_push():
    """As high as it is, the bench's stand weighs 4 kg: its push is a figure and no more."""
    for each in found(loaded_stand()):
        assert "wall" not in each.advice
    push = named(found(loaded_stand()), "push at the top")
    assert push.verdict is Verdict.NOTE
    heavier = read_setting(None, ShopRules(table_top_mass="1 kg", pushed_from="1 kg"))
    judged = named(found(loaded_stand(), heavier), "push at the top")
    assert judged.value == push.value
    assert judged.verdict is Verdict.CAUTION


def test_a_person_on_a_tier_is_asked_for_what_steps_are_tested_with():
    """2600 N on 100 x 100: a small stand bears it nowhere; a person is no load that stays."""
    stander = replace(POT, name="person", mass="80 kg", kind=LoadKind.PERSON_STANDING)
    findings = found(loaded_stand(loads=[stander]))
    assert named(findings, "bending stress under a person").verdict is Verdict.FAIL
    assert named(findings, "person near an edge").check.fails is not None
    tilt = named(findings, "tilt before it tips")
    assert tilt.value == named(found(loaded_stand(loads=())), "tilt before it tips").value


def test_a_place_that_cannot_be_is_refused_all_at_once():
    with pytest.raises(DesignError) as caught:
        read_setting(Place(climate="moon", friction=0.0, cable_at="60", standz_on="floor"))
    told = {problem.parameter for problem in caught.value.problems}
    assert told == {"place.climate", "place.friction", "place.cable_at", "place.standz_on"}


def test_the_default_gap_of_a_lid_is_what_the_check_asks():
    """Whatever the moisture and the width, a lid left to the builder is never too tight."""
    for depth in ("140 mm", "200 mm", "420 mm"):
        for stock in (THIN, oak("8 mm")):
            stand = a_stand(lid_gap_across=None, base_depth=depth, own_stock={"lid": stock})
            assert named(found(stand), "gap of a loose part").verdict is Verdict.OK
