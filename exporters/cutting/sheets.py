"""The sheets of a cutting plan: one for each board that is begun."""

from __future__ import annotations

from exporters.cutting.board_sheet import BoardSheetTask, board_sheets
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.sheets import SHEET_FIELD, resolved
from exporters.sheets.title_block import TitleFields
from exporters.sheets.values import Sheet, SheetSettings
from furniture.parts.part import slug_of
from furniture.pieces import Piece
from furniture.shop.boards.outcome import CuttingOutcome


def cutting_sheets(
    piece: Piece, outcome: CuttingOutcome, settings: SheetSettings, first_number: int
) -> tuple[Sheet, ...]:
    """The sheets of the boards that are begun, numbered on from `first_number`.

    The number of sheets in all is left to be filled in.

    Args:
        piece: gives its name and unit.
        outcome: the plan and its job.
        settings: paper, date.
        first_number: of the first of these sheets.

    Raises:
        NoRoomError: a board fits on the paper at no standard scale.
    """
    paper, projection = resolved(piece, settings)
    boards = {board.name: board for board in outcome.job.boards}
    sheets: list[Sheet] = []
    for plan in outcome.used:
        number = first_number + len(sheets)
        board = boards[plan.board]
        fields = TitleFields(
            title=f"{piece.name}: board {board.name}",
            piece=piece.name,
            drawing_number=f"{settings.drawing_number or piece.slug}-{number:02d}",
            scale="",
            sheet=SHEET_FIELD.format(number),
            date=settings.dated.isoformat() if settings.dated else "",
            revision=settings.revision,
            units=piece.shown.unit.symbol,
            projection=projection,
            paper=paper.title,
        )
        task = BoardSheetTask(
            outcome=outcome,
            board=board,
            plan=plan,
            fields=fields,
            name=f"{number:02d}-board-{slug_of(board.name) or number}",
            paper=paper,
            style=INCH_STYLE if piece.shown.is_inch else ISO_STYLE,
        )
        sheets += board_sheets(task)
    return tuple(sheets)
