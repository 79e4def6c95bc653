"""The parts and what has to be bought, one list under the other, on as many sheets as it takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from exporters.sheets.paper import Box2, Orientation, Scale
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
from furniture.pieces.bought import Bought, bought_parts, size_in_words
from furniture.pieces.piece import Piece, distinct_parts
from furniture.units import finished_size

_MARGIN_MM = 6.0
_BETWEEN_MM = 10.0
_STACKED_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A list with the words that stand above it."""

    title: str
    table: WrappedTable


SHEETS_STAND_IN = "000000"
"""Holds the room of a part's sheets until they are known."""


def lists_of(piece: Piece, boards: Mapping[str, Sequence[str]]) -> tuple[Listed, ...]:
    """The parts list, and the list of what is bought where something is.

    Args:
        piece: gives both.
        boards: the names of those that each instance is cut from, where a plan lays it.
    """
    listed = [Listed(title="parts", table=_parts_table(piece, boards))]
    if bought_parts(piece):
        listed.append(Listed(title="to buy", table=_bought_table(piece)))
    return tuple(listed)


def _parts_table(piece: Piece, boards: Mapping[str, Sequence[str]]) -> WrappedTable:
    """One row for each distinct part: what it is, of what, from which board, drawn where.

    Its rough size stands at its drawing and on its board's sheet, where it is needed.
    """
    shown, has_boards = piece.shown, bool(boards)
    rows = []
    for number, each in enumerate(distinct_parts(piece), start=1):
        blank = each.part.blank
        names = dict.fromkeys(name for own in each.instances for name in boards.get(own, ()))
        cells = [
            str(number), each.part.name, str(each.quantity), finished_size(blank.size, shown),
            each.part.timber.name, *([", ".join(names)] if has_boards else []),
            SHEETS_STAND_IN,
        ]  # fmt: skip
        rows.append(Row(lines=(tuple(cells),), part=each.part.id))
    unit = shown.unit.symbol
    return WrappedTable(
        headings=(
            "no.", "part", "qty", f"L x W x T [{unit}]", "stock",
            *(["board"] if has_boards else []), "sheet",
        ),
        rows=tuple(rows),
        shares=(0.0, 30.0, 0.0, 0.0, 27.0, *([0.0] if has_boards else []), 0.0),
    )  # fmt: skip


def bought_numbers(piece: Piece) -> dict[Bought, int]:
    """The number of each row of what is bought; they go on from those of the parts.

    Args:
        piece: gives both.
    """
    first = len(distinct_parts(piece)) + 1
    return {each: number for number, each in enumerate(bought_parts(piece), start=first)}


def _bought_table(piece: Piece) -> WrappedTable:
    rows = [
        (
            str(number),
            each.name,
            size_in_words(each, piece.shown),
            str(each.quantity),
            ", ".join(each.where),
            each.note,
        )
        for each, number in bought_numbers(piece).items()
    ]
    return WrappedTable(
        headings=("no.", "to buy", "size", "qty", "where", "note"),
        rows=tuple(Row(lines=(row,)) for row in rows),
        shares=(0.0, 24.0, 0.0, 0.0, 50.0, 60.0),
    )


def lists_stacked(
    lists: Sequence[Listed], width: float, style: SheetStyle
) -> tuple[list[Item], Box2]:
    """The lists whole under one another, and the box they take; its upper left corner at 0, 0.

    Their headings say what they are.

    Args:
        lists: in order.
        width: they may take [mm].
        style: pens and heights.
    """
    items: list[Item] = []
    top, right = 0.0, 0.0
    for listed in lists:
        widths = widths_of(listed.table, width, style)
        drawn, box = wrapped_items(listed.table, widths, 0.0, top, style)
        items += drawn
        right, top = max(right, box.right), box.bottom - _STACKED_MM
    return items, Box2(left=0.0, bottom=top + _STACKED_MM, right=right, top=0.0)


def _head(style: SheetStyle) -> float:
    """How high the words above a list are [mm]."""
    return style.heading_height_mm * 1.6


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
        head = _head(task.style)
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
    items, _ = wrapped_items(table, widths, left, top - _head(style), style)
    return [words, *items]
