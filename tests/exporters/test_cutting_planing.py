"""A board thicker than its parts is planed before a joint is cut, and the sheet says so."""

from __future__ import annotations

from exporters.cutting.planing import planing_of
from exporters.cutting.report import boards_answer
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from tests.shop.boards.bench import board, stand, thin_board


def _outcome(thick, thin):
    boards = [board(thickness=thick), thin_board(thickness=thin)]
    return outcome_of(cutting_job(stand(), boards, None))


def test_a_board_as_thick_as_its_stock_is_not_planed():
    outcome = _outcome("19.7 mm", "10.2 mm")
    assert [planing_of(outcome, each) for each in outcome.used] == [(), ()]


def test_a_board_a_little_thicker_is_planed_to_what_the_dados_are_sized_from():
    # 10.2 mm stock has dados 10.33 mm wide: a tier left at 10.6 mm would not go in.
    outcome = _outcome("19.7 mm", "10.6 mm")
    (thin,) = [each for each in outcome.used if each.board == "T"]
    (line,) = [line for each in outcome.used for line in planing_of(outcome, each)]
    assert line.startswith("Plane from 10.6 to 10.2 mm before any joint is cut:")
    names = line.removesuffix(".").split(": ")[1].split(", ")
    assert names == [outcome.name_of(placement) for placement in thin.placements]
    assert "tier 1" in names
    assert any(line in said for said in boards_answer(outcome))
