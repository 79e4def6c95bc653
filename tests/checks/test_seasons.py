"""What the seasons do to a piece."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.advice import Change
from furniture.checks.finding import Verdict
from furniture.checks.seasons import (
    Side,
    change_in,
    difference_across,
    gap_to_leave_mm,
    glued_across_finding,
    held_stress_mpa,
    loose_fit_finding,
    shift_of,
    slot_length_mm,
    swelling_finding,
    widest_gap_mm,
)
from furniture.rules.staying import CARD_PLAY
from furniture.timber.climates import climate_names, find_climate
from furniture.timber.movement import Across, Sawn
from furniture.timber.species import find_species
from tests.checks.cases import millimetres, remedy_of

HOUSE = find_climate("heated house")
OAK = find_species("white oak")
LID = Side(
    part="lid",
    species=OAK,
    sawn=Sawn.FLAT,
    across=Across.WIDTH,
    size_mm=180.0,
    made_at_pct=8.0,
)
FRAME = replace(LID, part="side rail", across=Across.LENGTH)
climates = st.sampled_from(climate_names()).map(find_climate)


def test_cherry_from_winter_to_summer_worked_by_hand() -> None:
    # 250 mm flat sawn, 20 deg C, 35 to 65 % humidity: 6.96 to 12.00 %, 3.12 mm.
    from furniture.timber.climates import climate_of

    place = climate_of("test", (20.0, 35.0), (20.0, 65.0))
    board = replace(LID, species=find_species("cherry"), size_mm=250.0, made_at_pct=6.96)
    assert change_in(board, place.dampest) == pytest.approx(3.12, abs=0.01)
    assert change_in(board, place.driest) == pytest.approx(0.0, abs=0.01)


@given(climate=climates, made=st.floats(4.0, 15.0), size=st.floats(50.0, 400.0))
def test_a_gap_as_told_never_jams(climate: object, made: float, size: float) -> None:
    from furniture.timber.climates import Climate

    assert isinstance(climate, Climate)
    lid = replace(LID, made_at_pct=made, size_mm=size)
    frame = replace(FRAME, made_at_pct=made, size_mm=size)
    gap = gap_to_leave_mm(lid, frame, climate)
    left = [gap - change_in(lid, season) + change_in(frame, season) for season in climate.seasons]
    assert min(left) >= CARD_PLAY.value - 1e-9
    assert max(*left, gap) == pytest.approx(widest_gap_mm(lid, frame, climate, gap))


def test_made_in_the_damp_it_needs_only_its_play() -> None:
    damp = replace(LID, made_at_pct=HOUSE.dampest.moisture_pct)
    assert gap_to_leave_mm(damp, FRAME, HOUSE) == CARD_PLAY.value


def test_a_tight_lid_fails_and_the_advice_mends_it() -> None:
    finding = loose_fit_finding(LID, FRAME, 1.0, HOUSE, millimetres)
    assert finding.verdict is Verdict.FAIL
    match = re.search(r"leave ([\d.]+) mm in all", finding.advice)
    assert match
    again = loose_fit_finding(LID, FRAME, float(match[1]) + 1e-6, HOUSE, millimetres)
    assert again.verdict is Verdict.OK
    assert again.advice == ""


def test_advice_on_grain_is_true() -> None:
    needed = gap_to_leave_mm(LID, FRAME, HOUSE)
    calm = gap_to_leave_mm(replace(LID, sawn=Sawn.QUARTER), FRAME, HOUSE)
    assert calm < needed
    enough = loose_fit_finding(LID, FRAME, calm + 0.01, HOUSE, millimetres)
    assert "quarter sawn" in enough.advice
    too_tight = loose_fit_finding(LID, FRAME, calm - 0.01, HOUSE, millimetres)
    assert "quarter sawn" not in too_tight.advice
    quarter = shift_of(replace(LID, sawn=Sawn.QUARTER), HOUSE).range_mm
    flat = shift_of(LID, HOUSE).range_mm
    # Table 13-5, white oak: 0.00180 against 0.00365.
    assert quarter / flat == pytest.approx(0.00180 / 0.00365)


@pytest.mark.parametrize(
    ("ways_mm", "verdict"),
    [
        (0.99, Verdict.OK),
        (1.01, Verdict.NOTE),
        (1.49, Verdict.NOTE),
        (1.51, Verdict.CAUTION),
        (2.99, Verdict.CAUTION),
        (3.01, Verdict.FAIL),
    ],
)
def test_what_is_glued_across_is_judged_by_how_far_it_parts(
    ways_mm: float, verdict: Verdict
) -> None:
    unit = glued_across_finding(LID, FRAME, HOUSE, millimetres).value
    assert unit is not None
    lid = replace(LID, size_mm=LID.size_mm * ways_mm / unit)
    assert glued_across_finding(lid, FRAME, HOUSE, millimetres).verdict is verdict


def test_sheet_stock_may_be_glued_all_round() -> None:
    ply = replace(LID, species=find_species("birch plywood 12 mm"), sawn=Sawn.UNKNOWN)
    finding = glued_across_finding(ply, FRAME, HOUSE, millimetres)
    assert finding.verdict is Verdict.OK


def test_a_lid_that_would_fall_through_is_not_given_a_wider_gap() -> None:
    needed = gap_to_leave_mm(LID, FRAME, HOUSE)
    shrinks = shift_of(LID, HOUSE).driest_mm - shift_of(FRAME, HOUSE).driest_mm
    for most, is_offered in ((needed - shrinks + 1.2, True), (needed - shrinks - 0.6, False)):
        finding = loose_fit_finding(LID, FRAME, 0.5, HOUSE, millimetres, most)
        assert any(each.change is Change.GAP for each in finding.remedies) is is_offered
        assert ("widen the rabbets" in finding.advice) is not is_offered


@pytest.mark.parametrize(
    ("play_mm", "verdict"),
    [
        (0.21, Verdict.OK),
        (0.19, Verdict.CAUTION),
        (-0.29, Verdict.CAUTION),
        (-0.31, Verdict.FAIL),
    ],
)
def test_a_gap_is_judged_by_the_play_that_the_damp_season_leaves(
    play_mm: float, verdict: Verdict
) -> None:
    growth = gap_to_leave_mm(LID, FRAME, HOUSE) - CARD_PLAY.value
    assert loose_fit_finding(LID, FRAME, growth + play_mm, HOUSE, millimetres).verdict is verdict


def test_glue_on_the_middle_as_advised_bears_the_year() -> None:
    finding = glued_across_finding(LID, FRAME, HOUSE, millimetres)
    middle, narrower = (each for each in finding.remedies if each.change is Change.GLUED)
    assert middle.amount == narrower.amount
    dry = replace(LID, size_mm=middle.amount)
    assert not glued_across_finding(dry, FRAME, HOUSE, millimetres).is_amiss
    wide = glued_across_finding(replace(LID, size_mm=400.0), FRAME, HOUSE, millimetres)
    assert wide.remedies == ()  # less than half of it could be glued


def test_how_the_rings_lie_is_said() -> None:
    unknown = replace(LID, sawn=Sawn.UNKNOWN)
    assert "not stated" in glued_across_finding(unknown, FRAME, HOUSE, millimetres).basis
    rift = shift_of(replace(LID, sawn=Sawn.RIFT), HOUSE).range_mm
    both = [shift_of(replace(LID, sawn=each), HOUSE).range_mm for each in (Sawn.FLAT, Sawn.QUARTER)]
    assert rift == pytest.approx(sum(both) / 2.0)
    assert shift_of(unknown, HOUSE).range_mm == max(both)


def test_two_boards_alike_part_ways_by_nothing() -> None:
    both = difference_across(LID, replace(LID, part="other"), HOUSE)
    assert (both.driest_mm, both.dampest_mm) == (0.0, 0.0)
    assert both.range_mm == 0.0


def test_held_stress_worked_by_hand() -> None:
    # 1.884 mm in 180, times 0.072 x 12,300 MPa.
    shift = shift_of(LID, HOUSE)
    expected = shift.greatest_mm / 180.0 * 0.072 * 12_300
    assert held_stress_mpa(LID, shift) == pytest.approx(expected)


def test_a_shelf_that_swells_in_its_housing() -> None:
    shelf = replace(LID, across=Across.THICKNESS, size_mm=25.0, sawn=Sawn.QUARTER)
    upright = replace(FRAME, size_mm=25.0)
    tight = swelling_finding(shelf, upright, 0.0, HOUSE, millimetres)
    assert tight.verdict is Verdict.CAUTION
    by = remedy_of(tight, Change.PLAY)
    assert swelling_finding(shelf, upright, by.amount, HOUSE, millimetres).verdict is Verdict.OK
    assert by.amount - by.enough < 0.05
    assert by.amount == pytest.approx(round(by.amount / 0.05) * 0.05)  # what a shop can cut


def test_a_slot_holds_the_screw_at_both_ends_of_its_travel() -> None:
    assert slot_length_mm(4.0, LID, HOUSE) == pytest.approx(4.0 + shift_of(LID, HOUSE).range_mm)


def test_a_wood_whose_movement_is_unknown_is_not_passed_in_silence() -> None:
    bare = replace(LID, species=replace(OAK, coefficient_radial=None, coefficient_tangential=None))
    for finding in (
        loose_fit_finding(bare, FRAME, 2.0, HOUSE, millimetres),
        glued_across_finding(bare, FRAME, HOUSE, millimetres),
        swelling_finding(bare, FRAME, 0.1, HOUSE, millimetres),
    ):
        assert finding.verdict is Verdict.CAUTION
        assert "not known" in finding.basis
