"""What a maker changes of the rules for boards, blanks and woods is what is gone by."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture import DesignError, Feet, ShopRules
from furniture.blanks import CommonBlank, common_blanks, runs_round_corners
from furniture.checks.check import Verdict
from furniture.checks.of_piece.wood_left import wood_left_findings_of
from furniture.checks.seasons import gap_to_leave_mm
from furniture.pieces import Piece
from furniture.rules import USUAL_RULES, Rule, Rules
from furniture.rules.staying import (
    CARD_PLAY,
    CUT_ACROSS,
    DOUBTFUL_SHARE,
    HOLDING_LENGTH,
    LEAST_WIDTH_ALLOWANCE,
    LEAST_WOOD,
    LONGEST_BOARD,
    SKIM,
    SMALL_PART,
    THINNER,
    WISHED_SHARE,
    WORTH_A_PASS,
)
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.job import cutting_job, job_of_lots
from furniture.shop.boards.lots import Lot
from furniture.timber.doubt import doubts_of
from furniture.timber.species import find_species
from tests.builders.bench import a_box, a_stand
from tests.checks.test_seasons import FRAME, HOUSE, LID
from tests.shop.boards.bench import THIN, board, stand, thin_board

KERF = 3.0
BOARDS = (board(length="3 m"), thin_board(length="3 m"))


def by(rule: Rule, value: float) -> Rules:
    return Rules(changed=((rule, value),))


def blanks(piece: Piece) -> tuple[CommonBlank, ...]:
    return common_blanks(piece, runs_round_corners(piece), KERF)


def job(rule: Rule, value: float) -> CuttingJob:
    return cutting_job(replace(stand(), rules=by(rule, value)), BOARDS)


def test_small_parts_share_a_blank_up_to_the_makers_length() -> None:
    piece = a_box(feet=Feet(stock=THIN)).build()
    held = {each.held_mm: each.instances for each in blanks(piece)}
    assert len(held[HOLDING_LENGTH.value]) == 4
    feet = set(held[HOLDING_LENGTH.value])
    alone = blanks(replace(piece, rules=by(SMALL_PART, 9.0)))
    assert not any(feet & set(each.instances) for each in alone)
    longer = blanks(replace(piece, rules=by(HOLDING_LENGTH, 333.0)))
    assert {each.held_mm for each in longer if feet & set(each.instances)} == {333.0}


def test_ends_are_trimmed_by_the_makers_skim() -> None:
    (usual, *_), (more, *_) = (
        blanks(replace(stand(), rules=by(SKIM, value))) for value in (0.5, 2.5)
    )
    corners = len(usual.members) - 1
    assert more.blank.length_mm - usual.blank.length_mm == pytest.approx(2.0 * corners)


def test_the_planner_is_told_of_the_makers_rules() -> None:
    parts = job(LEAST_WIDTH_ALLOWANCE, 0.7).request.parts
    assert {each.least_width_allowance_mm for each in parts} == {0.7}
    wished = {each.name: each.wished_share for each in job(WISHED_SHARE, 0.9).request.parts}
    assert wished["post"] == 0.9
    assert job(WORTH_A_PASS, 777.0).request.saw.worth_a_pass_mm2 == 777.0
    assert job(LONGEST_BOARD, 4.0).request.longest_sold_mm == pytest.approx(1219.2)


def test_glue_lines_keep_off_what_is_no_cut_across_by_the_makers_share() -> None:
    bands = [
        sum(len(each.glue_up.keep_clear_mm) for each in job(CUT_ACROSS, share).request.parts
            if each.glue_up)
        for share in (0.01, 1.0)
    ]  # fmt: skip
    assert bands[0] < bands[1]


def test_a_board_is_as_thick_as_its_stock_within_the_makers_hair() -> None:
    thin = [board(length="3 m", thickness="19.4 mm"), thin_board(length="3 m")]
    with pytest.raises(DesignError, match="cannot be planed to it"):
        cutting_job(stand(), thin)
    assert cutting_job(replace(stand(), rules=by(THINNER, 0.3)), thin)


def test_a_gap_holds_the_makers_card() -> None:
    usual, thick = (
        gap_to_leave_mm(LID, FRAME, HOUSE, rules) for rules in (USUAL_RULES, by(CARD_PLAY, 2.3))
    )
    assert thick - usual == pytest.approx(2.0)


def test_wood_is_none_under_the_makers_least() -> None:
    usual, strict = (
        wood_left_findings_of(stand(), rules) for rules in (USUAL_RULES, by(LEAST_WOOD, 15.0))
    )
    assert not any(each.verdict is Verdict.FAIL for each in usual)
    assert any(each.verdict is Verdict.FAIL for each in strict)


def test_a_wood_is_doubtful_from_the_makers_share_on() -> None:
    pear = find_species("pear")
    assert doubts_of(pear)
    assert doubts_of(pear, by(DOUBTFUL_SHARE, 9.0)) == ()


def test_lengths_are_read_in_feet_and_areas_as_areas() -> None:
    rules = a_stand().build(ShopRules(longest_board="3.6576 m", worth_a_pass="150 cm2")).rules
    assert rules[LONGEST_BOARD] == pytest.approx(12.0)
    assert rules[WORTH_A_PASS] == pytest.approx(15_000.0)
    assert rules[CARD_PLAY] == CARD_PLAY.value


def test_pieces_of_one_plan_are_made_by_one_shop() -> None:
    lots = [Lot(piece=stand(), mark="one"),
            Lot(piece=replace(stand(), rules=by(SKIM, 1.0)), mark="two")]  # fmt: skip
    with pytest.raises(DesignError, match="one figure for all pieces of a plan") as caught:
        job_of_lots(lots, BOARDS)
    assert [each.parameter for each in caught.value.problems] == ["rules.skim"]
