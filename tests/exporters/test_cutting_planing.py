"""A board thicker than its parts is planed before a joint is cut, and the sheet says so."""

from __future__ import annotations

from exporters.cutting.board_tables import parts_table
from exporters.cutting.planing import planing_of
from exporters.cutting.report import boards_answer
from furniture import MeasuredBoard, MitredBox, Stock
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from tests.shop.boards.bench import board, stand, thin_board

LID = Stock(name="lid", species="white oak", thickness="14 mm", moisture="9 %")


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


def test_strips_planed_after_their_glue_alone_are_not_told_to_be_planed_twice():
    """0.4 mm over is taken off when they are one: what is thicker still comes down to it first."""
    thick = Stock(name="thick", species="white oak", thickness="19.7 mm", moisture="9 %")
    box = MitredBox(
        name="Wide box", rails=thick, lid=LID, width="420 mm", depth="260 mm", height="80 mm"
    ).build()
    boards = [
        MeasuredBoard(name="A", stock="thick", length="2400 mm", widths="200 mm",
                      thickness="19.7 mm"),
        MeasuredBoard(name="T", stock="lid", length="900 mm", widths="100 mm",
                      thickness="14.4 mm"),
        MeasuredBoard(name="U", stock="lid", length="460 mm", widths="98 mm",
                      thickness="16 mm"),
    ]  # fmt: skip
    outcome = outcome_of(cutting_job(box, boards))
    said = {each.board: planing_of(outcome, each) for each in outcome.used}
    assert "Plane from 14.4 to 14 mm once they are glued up, as the work says:" in said["T"][0]
    assert "Plane from 16 to 14 mm in two goes, the last once they are glued up" in said["U"][0]
    tables = {each.board: parts_table(outcome, each) for each in outcome.used}
    assert all(row[2] == "once glued up" for name in ("T", "U") for row in tables[name].rows[:1])
