"""Screws across the grain, a lamp's cable, and what glue clamps in vain: sums by hand."""

from __future__ import annotations

import pytest

from furniture import CableOf, Place, StandsOn
from furniture.checks.finding import Verdict
from furniture.checks.of_piece import findings_of, read_setting
from furniture.checks.rows.bending import GLUE_STRETCHED
from furniture.checks.rows.seasons import SCREWED_ACROSS
from furniture.checks.rows.shelves import HAND_BENDING, PERSON_BENDING
from furniture.checks.rows.standing import CABLE_PULL
from furniture.solids.measure import weigh
from tests.hazards.dangers_racking import butted_table
from tests.hazards.dangers_shelves import grain_along_the_wall, one_sided
from tests.hazards.dangers_tipping import lamp_with_cable
from tests.hazards.dangers_trodden import long_seat
from tests.hazards.making import Y, board, butt, piece, screws


def told(design, check, place=None):
    """The worst finding of a check, None where there is none."""
    made = design.build()
    found = findings_of(made, weigh(made), read_setting(place))
    return next((each for each in found if each.check == check), None)


def _screwed(span_mm, **joint):
    top = board("top", "hard maple", (0, 0, 300), (700, span_mm + 40, 20))
    bearer = board("bearer", "hard maple", (50, 0, 0), (30, span_mm + 40, 300), Y)
    how = {"size": 4, "through": 20, "bite": 25, "edge": 20, **joint}
    return piece([top, bearer], screws("top", "bearer", **how))


def test_screws_in_plain_holes_hold_a_wide_board_across_its_grain():
    wide = told(_screwed(310.0), SCREWED_ACROSS)
    # Hard maple flat sawn 0.00353 a per cent, from 9 % to 6.2 % in a heated house in winter.
    assert wide.value == pytest.approx(310.0 * 0.00353 * 2.8, rel=0.03)
    assert wide.verdict is Verdict.CAUTION
    narrow = told(_screwed(150.0), SCREWED_ACROSS)
    assert narrow.value == pytest.approx(wide.value * 150.0 / 310.0, rel=1e-3)
    assert narrow.verdict is Verdict.OK


def test_one_screw_lets_a_board_move_and_glue_is_another_matter():
    assert told(_screwed(310.0, count=1), SCREWED_ACROSS) is None
    assert told(_screwed(310.0, glued=True), SCREWED_ACROSS) is None


def test_a_cable_of_a_lamp_is_judged_on_a_table_and_a_light_one_is_noted():
    design = lamp_with_cable.build()
    on_a_table = {"stands_on": StandsOn.TABLE, "cable_at": "350 mm"}
    lamp = told(design, CABLE_PULL, Place(**on_a_table, cable_of=CableOf.LAMP))
    assert lamp.verdict is Verdict.CAUTION
    light = told(design, CABLE_PULL, Place(**on_a_table))
    assert (light.verdict, light.value) == (Verdict.NOTE, lamp.value)


def test_a_long_seat_breaks_as_a_beam_on_two_ends_whatever_its_glue_clamps():
    found = told(long_seat.build(), PERSON_BENDING)
    # Twice 150 kg on 300 mm in the middle of 1980 mm, on 300 x 20 mm of wood.
    by_hand = 2.0 * 150.0 * 9.80665 / 4.0 * (1980.0 - 150.0) / (300.0 * 20.0**2 / 6.0)
    assert found.value == pytest.approx(by_hand, rel=0.05)
    assert found.verdict is Verdict.FAIL


def test_a_hand_far_from_the_root_of_a_shelf_is_judged_there_without_reserve():
    found = told(grain_along_the_wall.build(), HAND_BENDING)
    assert found.verdict is Verdict.CAUTION
    # 100 N at 125 mm over the whole root, as a beam: what is told at its corner is more.
    assert found.value > 100.0 * 125.0 / (300.0 * 12.0**2 / 6.0)


def test_an_arm_on_end_grain_glue_alone_fails_near_its_mean_strength():
    alone = told(one_sided.build(), GLUE_STRETCHED)
    assert alone.verdict is Verdict.FAIL
    assert alone.value > alone.limit
    # Where legs stand under a top, nothing pulls at their glue.
    assert told(butted_table.build(), GLUE_STRETCHED).verdict is Verdict.OK


def test_a_board_that_is_only_laid_there_is_not_screwed():
    top = board("top", "hard maple", (0, 0, 300), (700, 350, 20))
    bearer = board("bearer", "hard maple", (50, 0, 0), (30, 350, 300), Y)
    assert told(piece([top, bearer], butt("top", "bearer", glued=False)), SCREWED_ACROSS) is None
