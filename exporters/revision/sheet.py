"""The sheet that says what changed: it stands before all others, and their numbers stay."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from exporters.revision.against import Against
from exporters.revision.in_the_work import NOWHERE, InTheWork
from exporters.revision.words import Told, told_of
from exporters.sheets.paper import Orientation, Scale
from exporters.sheets.pens import INCH_STYLE, ISO_STYLE
from exporters.sheets.sheets import resolved, title_fields
from exporters.sheets.values import InSet, Item, Lettering, Sheet, SheetSettings
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.sheets.wrapped_table import (
    Row,
    WrappedTable,
    tables_that_fit,
    widths_of,
    wrapped_items,
)
from furniture.job import Say
from furniture.pieces import Piece

_HEADINGS = ("part", "verdict", "was", "is", "to do", "why")
_SHARES = (30.0, 22.0, 34.0, 34.0, 90.0, 60.0)
_MARGIN_MM = 5.0
_NAME = "00-what-changed"


def changes_sheets(
    piece: Piece,
    against: Against,
    settings: SheetSettings,
    total: int,
    work: InTheWork = NOWHERE,
) -> tuple[Sheet, ...]:
    """What becomes of every part, worst first, on as many sheets as it takes.

    Args:
        piece: the new design.
        against: the earlier packet.
        settings: paper, projection, date.
        total: how many sheets stand behind this one.
        work: in whose set-ups it is trimmed.
    """
    task = _task(piece, against, settings)
    table = _table(told_of(against.verdicts, piece, work))
    begun = framed(task, Orientation.LANDSCAPE, None, True)
    region = begun.region.grown(-_MARGIN_MM)
    widths = widths_of(table, region.width, task.style)
    made = []
    for number, part in enumerate(
        tables_that_fit(table, region.width, region.height, task.style), start=1
    ):
        left = region.left + (region.width - sum(widths)) / 2
        drawn, _ = wrapped_items(part, widths, left, region.top, task.style)
        items = [_numbered(item, total) for item in (*begun.items, *drawn)]
        made.append(sheet_of(task, Orientation.LANDSCAPE, Scale(1.0), items, number))
    return tuple(made)


def _numbered(item: Item, total: int) -> Item:
    if isinstance(item, Lettering) and item.in_set is InSet.SHEET:
        return replace(item, text=f"before {total}")
    return item


def _task(piece: Piece, against: Against, settings: SheetSettings) -> WholeTask:
    paper, _ = resolved(piece, settings)
    own = replace(settings, revision=against.letter)
    note = (
        f"Against the packet in {against.named}: sizes are length x width x thickness "
        f"({piece.shown.unit.symbol}), the old ones as cut or drawn. On the other sheets a "
        f"triangle with the letter {against.letter} stands at what changed. Try every step on the "
        "mate before the next."
    )
    return WholeTask(
        piece=piece,
        fields=title_fields(piece, own, f"{piece.name}: what changed", "C"),
        notes=(*against.told, note),
        name=_NAME,
        paper=paper,
        style=INCH_STYLE if piece.shown.is_inch else ISO_STYLE,
    )


def _table(told: Sequence[Told]) -> WrappedTable:
    rows = tuple(_row(each) for each in told if each.say is not Say.AS_IS or each.how)
    kept = [name for each in told if each.say is Say.AS_IS and not each.how
            for name in each.instances]  # fmt: skip
    if kept:
        line = (f"{len(kept)} parts", Say.AS_IS.value, "", "", ", ".join(kept), "")
        rows = (*rows, Row(lines=(line,)))
    return WrappedTable(headings=_HEADINGS, rows=rows, shares=_SHARES)


def _row(told: Told) -> Row:
    steps = told.how or ("",)
    first = (
        ", ".join(told.instances), told.say.value, told.was, told.now, steps[0],
        "; ".join(told.why),
    )  # fmt: skip
    return Row(lines=(first, *(("", "", "", "", step, "") for step in steps[1:])))
