"""The sheets of a cutting plan: those of the boards that are begun, and further ones for lists."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from exporters.cutting.board_pages import BoardPages, BoardsOn, Several
from exporters.cutting.board_sheet import (
    BOARD_SCALES,
    INCH_BOARD_SCALES,
    MOST_NAMED,
    BoardSheet,
    BoardSheetTask,
    board_sheet,
    column_of,
    crowd_of,
)
from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.draft import BoardTask
from exporters.cutting.ground import Effort
from exporters.cutting.list_sheets import ListsTask, list_sheets
from exporters.cutting.words import copies_whole, left_out_lines, unplaced_lines
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
    seconds = outcome.job.request.limits.seconds
    effort = Effort(most=seconds * LETTERING_SHARE * LOOKED_AT_IN_A_S)
    titles = _Titles(of, settings, first_number)
    pages = BoardPages(
        outcome=outcome,
        scales=INCH_BOARD_SCALES if of.shown.is_inch else BOARD_SCALES,
        fields_of=titles.of_boards,
        paper=paper,
        style=style,
        effort=effort,
        called=called,
    )
    sheets: list[Sheet] = []
    alone: list[BoardSheet] = []
    lists: list[tuple[str, Table]] = []
    for page in _shared_out(outcome, pages):
        if isinstance(page, BoardsOn):
            sheets.append(pages.sheet(page))
        else:
            board, plan = page
            name, fields = titles.of_boards([page])
            drawn = BoardTask(
                outcome=outcome, board=board, plan=plan, scale=pages.scales[-1], style=style,
                called=called, effort=effort,
            )  # fmt: skip
            task = BoardSheetTask(of=drawn, fields=fields, name=name, paper=paper)
            alone.append(board_sheet(task))
            sheets.append(alone[-1].sheet)
            lists += [(f"Board {board.name}", table) for table in alone[-1].lists]
        titles.number += 1
    lists += _of_all_boards(outcome, alone)
    further = ListsTask(lists=lists, fields_of=titles.of_lists, paper=paper, style=style)
    return (*sheets, *list_sheets(further))


@dataclass(slots=True)
class _Titles:
    """Names and title blocks of the sheets in their order; `number` is that of the next."""

    of: Subject
    settings: SheetSettings
    number: int

    def of_boards(self, some: Several) -> tuple[str, TitleFields]:
        names = [board.name for board, _ in some]
        what = "board" if len(names) == 1 else "boards"
        slugs = "-".join(slug_of(name) or str(self.number) for name in names)
        fields = self._fields(f"{what} {listed(names)}", f"B-{names[0]}")
        return f"{self.number:02d}-{what}-{slugs}", fields

    def of_lists(self, index: int) -> tuple[str, TitleFields]:
        return f"{self.number + index:02d}-board-lists", self._fields("lists of the boards", "BL")

    def _fields(self, what: str, key: str) -> TitleFields:
        fields = title_fields(self.of, self.settings, f"{self.of.name}: {what}", key)
        return replace(fields, document_type="cutting plan")


def _of_all_boards(
    outcome: CuttingOutcome, alone: Sequence[BoardSheet]
) -> Iterator[tuple[str, Table]]:
    """What has no place, where a board's own sheet tells not all of it, and what is left out."""
    reasons = [copies_whole(each, outcome.job) for each in unplaced_lines(outcome)]
    if len(reasons) > min((each.reasons for each in alone), default=len(reasons)):
        yield "Parts without a place", column_of("NO PLACE on these boards", reasons)
    spared = [copies_whole(each, outcome.job) for each in left_out_lines(outcome)]
    if spared:
        yield "Cut only if it pays", column_of("LEFT OUT, as it does not pay", spared)


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
