"""The parts and what has to be bought, one list under the other, on as many sheets as it takes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from exporters.sheets.paper import Box2, Orientation, Scale
from exporters.sheets.parts_list import Table
from exporters.sheets.pens import SheetStyle
from exporters.sheets.values import Item, Lettering, Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.sheets.wrapped_table import (
    Row,
    WrappedTable,
    table_height,
    tables_that_fit,
    widths_of,
    wrapped_items,
)
from furniture.pieces.bought import bought_parts, size_in_words
from furniture.pieces.piece import Piece

_MARGIN_MM = 6.0
_BETWEEN_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A list with the words that stand above it."""

    title: str
    table: WrappedTable


def lists_of(piece: Piece, parts: Table) -> tuple[Listed, ...]:
    """The parts list and the list of what is bought; none when nothing is.

    Args:
        piece: gives what is bought.
        parts: its parts list.
    """
    bought = bought_parts(piece)
    if not bought:
        return ()
    rows = [
        (
            each.name,
            size_in_words(each, piece.shown),
            str(each.quantity),
            ", ".join(each.where),
            each.note,
        )
        for each in bought
    ]
    return (
        Listed(
            title="parts",
            table=WrappedTable(
                headings=parts.headings,
                rows=tuple(Row(lines=(row,)) for row in parts.rows),
                shares=(8.0, 34.0, 8.0, 46.0, 30.0),
            ),
        ),
        Listed(
            title="to buy",
            table=WrappedTable(
                headings=("what", "size", "qty", "where", "note"),
                rows=tuple(Row(lines=(row,)) for row in rows),
                shares=(24.0, 22.0, 8.0, 36.0, 36.0),
            ),
        ),
    )


def lists_sheets(task: WholeTask, lists: Sequence[Listed]) -> list[Sheet]:
    """Sheets with the lists in order, from the top; a list that is too long runs over.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        lists: what they hold; none gives no sheet.
    """
    begun = framed(task, Orientation.PORTRAIT, None, False)
    region = begun.region.grown(-_MARGIN_MM)
    pages: list[list[Item]] = []
    top = 0.0
    for listed in lists:
        widths = widths_of(listed.table, region.width, task.style)
        head = task.style.heading_height_mm * 1.6
        rest: list[WrappedTable] = []
        if pages:
            room = top - region.bottom - head
            rest = _shared_out(listed.table, room, region, task.style)
        if not rest:
            rest = list(
                tables_that_fit(listed.table, region.width, region.height - head, task.style)
            )
        for index, part in enumerate(rest):
            high = table_height(part, widths, task.style) + head
            if not pages or index > 0 or top - high < region.bottom:
                pages.append([])
                top = region.top
            pages[-1] += _drawn(listed.title, part, widths, region.left, top, task.style)
            top -= high + _BETWEEN_MM
    return [
        sheet_of(task, Orientation.PORTRAIT, Scale(1.0), [*begun.items, *page], number)
        for number, page in enumerate(pages, start=1)
    ]


def _shared_out(
    table: WrappedTable, room: float, region: Box2, style: SheetStyle
) -> list[WrappedTable]:
    """The table whole when it fits into the room left on a page; else nothing."""
    if room <= 0.0:
        return []
    parts = tables_that_fit(table, region.width, room, style)
    return list(parts) if len(parts) == 1 else []


def _drawn(
    title: str,
    table: WrappedTable,
    widths: Sequence[float],
    left: float,
    top: float,
    style: SheetStyle,
) -> list[Item]:
    height = style.heading_height_mm
    words = Lettering(text=title, at=(left, top - height), height=height)
    items, _ = wrapped_items(table, widths, left, top - height * 1.6, style)
    return [words, *items]
