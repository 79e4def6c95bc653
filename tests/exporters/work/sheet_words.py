"""The words on sheets, and a sheet begun, for tests of what is drawn and said."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cache

from exporters.sheets.paper import Paper
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.sheets import title_fields
from exporters.sheets.values import Lettering, Sheet, SheetSettings
from exporters.sheets.whole_task import WholeTask
from exporters.work import Work, work_of
from furniture.assembly import assembly_of
from furniture.pieces.piece import Piece
from tests.models import piece_of


def words_on(sheets: Iterable[Sheet]) -> str:
    """All texts of the sheets, as one paragraph."""
    return " ".join(
        item.text for sheet in sheets for item in sheet.items if isinstance(item, Lettering)
    )


def task_of(piece: Piece, paper: Paper, what: str) -> WholeTask:
    """A sheet of a piece begun."""
    settings = SheetSettings(paper=paper, dated=date(2026, 1, 1))
    return WholeTask(
        piece=piece,
        fields=title_fields(piece, settings, f"{piece.name}: {what}", 1),
        notes=(),
        name="01-of-the-work",
        paper=paper,
        style=INCH_STYLE if piece.shown.is_inch else ISO_STYLE,
    )


@cache
def whole_work(name: str) -> Work:
    """The work on a model, to the finished piece."""
    return work_of(piece_of(name), order=assembly_of(piece_of(name)))
