"""The sheets of a cutting plan: those of the boards that are begun, and further ones for lists."""

from __future__ import annotations

from dataclasses import replace

from exporters.cutting.board_pages import BoardPages, BoardsOn, Several
from exporters.cutting.board_sheet import (
    BOARD_SCALES,
    INCH_BOARD_SCALES,
    MOST_NAMED,
    BoardSheetTask,
    board_sheet,
    column_of,
    crowd_of,
)
from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.ground import Effort
from exporters.cutting.list_sheets import ListsTask, list_sheets
from exporters.cutting.words import left_out_lines, unplaced_lines
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.sheets import resolved, title_fields
from exporters.sheets.tables import Table
from exporters.sheets.title_block import TitleFields
from exporters.sheets.values import Sheet, SheetSettings
from exporters.subject import Subject
from furniture.parts.part import slug_of
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.shop.cutting.values import Board
from furniture.units import listed

LETTERING_SHARE = 0.2
"""Of the time that a plan may take, for the lettering of all its boards, and as much again where
only the least is told. Own rule."""
LOOKED_AT_IN_A_S = 2.5e7
"""Places beside what is there that are looked at in a second. Own rule: as measured."""


def cutting_sheets(
    of: Subject,
    outcome: CuttingOutcome,
    settings: SheetSettings,
    first_number: int,
    called: Called = BY_MARKS_ALONE,
) -> tuple[Sheet, ...]:
    """The sheets of the boards that are begun, numbered on from `first_number`, then their lists.

    Boards share a sheet with all their lists. The number of sheets in all is left to be filled in.

    Args:
        of: what they are of: a piece, or a batch of several.
        first_number: of the first of these sheets.
    """
    paper, _ = resolved(of, settings)
    style = INCH_STYLE if of.shown.is_inch else ISO_STYLE
    sheets: list[Sheet] = []
    told: list[int] = []
    lists: list[tuple[str, Table]] = []

    seconds = outcome.job.request.limits.seconds
    effort = Effort(most=seconds * LETTERING_SHARE * LOOKED_AT_IN_A_S)

    def sheet_of(some: Several) -> tuple[str, TitleFields]:
        number = first_number + len(sheets)
        names = [board.name for board, _ in some]
        what = "board" if len(names) == 1 else "boards"
        slugs = "-".join(slug_of(name) or str(number) for name in names)
        fields = _fields(of, settings, f"{what} {listed(names)}", f"B-{names[0]}")
        return f"{number:02d}-{what}-{slugs}", fields

    pages = BoardPages(
        outcome=outcome,
        scales=INCH_BOARD_SCALES if of.shown.is_inch else BOARD_SCALES,
        fields_of=sheet_of,
        paper=paper,
        style=style,
        effort=effort,
        called=called,
    )
    for page in _shared_out(outcome, pages):
        if isinstance(page, BoardsOn):
            sheets.append(pages.sheet(page))
            continue
        board, plan = page
        name, fields = sheet_of([page])
        task = BoardSheetTask(
            outcome=outcome, board=board, plan=plan, fields=fields, name=name, paper=paper,
            style=style, called=called, effort=effort,
        )  # fmt: skip
        drawn = board_sheet(task)
        sheets.append(drawn.sheet)
        lists += [(f"Board {board.name}", table) for table in drawn.lists]
        told.append(drawn.reasons)
    reasons = unplaced_lines(outcome)
    if told and len(reasons) > min(told):
        lists.append(("Parts without a place", column_of("NO PLACE on these boards", reasons)))
    spared = left_out_lines(outcome)
    if spared:
        lists.append(("Cut only if it pays", column_of("LEFT OUT, as it does not pay", spared)))
    after = first_number + len(sheets)

    def fields_of(index: int) -> tuple[str, TitleFields]:
        number = after + index
        return f"{number:02d}-board-lists", _fields(of, settings, "lists of the boards", "BL")

    further = ListsTask(lists=lists, fields_of=fields_of, paper=paper, style=style)
    return (*sheets, *list_sheets(further))


def _shared_out(
    outcome: CuttingOutcome, pages: BoardPages
) -> list[BoardsOn | tuple[Board, BoardPlan]]:
    """Which boards share a sheet: none where parts without a place must be told on each, nor one
    that is so crowded that keys stand for names."""
    by_name = outcome.job.board_named
    boards = [(by_name[plan.board], plan) for plan in outcome.used]
    if unplaced_lines(outcome):
        return list(boards)
    found: list[BoardsOn | tuple[Board, BoardPlan]] = []
    run: list[tuple[Board, BoardPlan]] = []
    for each in boards:
        if crowd_of(each[0]) <= MOST_NAMED:
            run.append(each)
            continue
        found += [*pages.shared_out(run), each]
        run = []
    return [*found, *pages.shared_out(run)]


def _fields(of: Subject, settings: SheetSettings, what: str, key: str) -> TitleFields:
    fields = title_fields(of, settings, f"{of.name}: {what}", key)
    return replace(fields, document_type="cutting plan")
