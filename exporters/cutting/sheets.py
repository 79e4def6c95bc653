"""The sheets of a cutting plan: one for each board that is begun, and further ones for lists."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from exporters.cutting.board_sheet import BoardSheetTask, board_sheet
from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.list_sheets import ListsTask, list_sheets
from exporters.cutting.words import left_out_lines, spared_lines
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.sheets import resolved, title_fields
from exporters.sheets.tables import Table
from exporters.sheets.title_block import TitleFields
from exporters.sheets.values import Sheet, SheetSettings
from exporters.subject import Subject
from furniture.parts.part import slug_of
from furniture.shop.boards.outcome import CuttingOutcome


def cutting_sheets(
    of: Subject,
    outcome: CuttingOutcome,
    settings: SheetSettings,
    first_number: int,
    called: Called = BY_MARKS_ALONE,
) -> tuple[Sheet, ...]:
    """The sheets of the boards that are begun, numbered on from `first_number`, then their lists.

    The number of sheets in all is left to be filled in.

    Args:
        of: what they are of: a piece, or a batch of several.
        outcome: the plan and its job.
        settings: paper, date.
        first_number: of the first of these sheets.
        called: how they speak of the piece and its work.
    """
    paper, _ = resolved(of, settings)
    style = INCH_STYLE if of.shown.is_inch else ISO_STYLE
    boards = {board.name: board for board in outcome.job.boards}
    sheets: list[Sheet] = []
    told: list[int] = []
    lists: list[tuple[str, Table]] = []
    for plan in outcome.used:
        number = first_number + len(sheets)
        board = boards[plan.board]
        task = BoardSheetTask(
            outcome=outcome,
            board=board,
            plan=plan,
            fields=_fields(of, settings, f"board {board.name}", f"B-{board.name}"),
            name=f"{number:02d}-board-{slug_of(board.name) or number}",
            paper=paper,
            style=style,
            called=called,
        )
        drawn = board_sheet(task)
        sheets.append(drawn.sheet)
        lists += [(f"Board {board.name}", table) for table in drawn.lists]
        told.append(drawn.reasons)
    reasons = left_out_lines(outcome)
    if told and len(reasons) > min(told):
        lists.append(("Parts without a place", _left_out_table(reasons)))
    spared = spared_lines(outcome)
    if spared:
        lists.append(("Cut only if it pays", _spared_table(spared)))
    after = first_number + len(sheets)

    def fields_of(index: int) -> tuple[str, TitleFields]:
        number = after + index
        return f"{number:02d}-board-lists", _fields(of, settings, "lists of the boards", "BL")

    further = ListsTask(lists=lists, fields_of=fields_of, paper=paper, style=style)
    return (*sheets, *list_sheets(further))


def _left_out_table(reasons: Sequence[str]) -> Table:
    return Table(headings=("NO PLACE on these boards",), rows=tuple((each,) for each in reasons))


def _spared_table(lines: Sequence[str]) -> Table:
    return Table(headings=("LEFT OUT, as it does not pay",), rows=tuple((each,) for each in lines))


def _fields(of: Subject, settings: SheetSettings, what: str, key: str) -> TitleFields:
    fields = title_fields(of, settings, f"{of.name}: {what}", key)
    return replace(fields, document_type="cutting plan")
