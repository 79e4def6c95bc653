"""Tables whose cells hold several lines, broken to the width of their columns, over many sheets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from exporters.sheets.callouts import CLOSE_SHARE
from exporters.sheets.figures import stroke
from exporters.sheets.lettering import DESCENT_SHARE, text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.tables import CELL_PAD_MM, ROW_SHARE
from exporters.sheets.values import InSet, Item, Lettering

_HAIR_MM = 0.01

Cells = tuple[str, ...]
"""One text per column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row between two rules: lines of cells under each other, each wrapped by itself.

    `part` is the id of the part whose sheets the last cell names, once they are known.
    """

    lines: tuple[Cells, ...]
    part: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WrappedTable:
    """Headings, rows, and the share of the width that each column gets at most.

    A column without a share is as wide as its longest text: figures are not broken.
    """

    headings: Cells
    rows: tuple[Row, ...]
    shares: tuple[float, ...]


def widths_of(table: WrappedTable, width: float, style: SheetStyle) -> tuple[float, ...]:
    """The width of each column [mm]: what its longest text needs, at most its share of the room and
    of what others leave of theirs.

    Args:
        table: what it says.
        width: of the room [mm].
        style: gives the height of the text.
    """
    height = style.text_height_mm
    needed = []
    for column in range(len(table.shares)):
        texts = [table.headings[column]]
        texts += [cells[column] for row in table.rows for cells in row.lines]
        needed.append(max(text_width(text, height) for text in texts) + 2 * CELL_PAD_MM + _HAIR_MM)
    given = {column: own for column, own in enumerate(needed) if table.shares[column] == 0.0}
    while True:  # what some columns do not need is shared among the others
        rest = [column for column in range(len(needed)) if column not in given]
        room = width - sum(given.values())
        total = sum(table.shares[column] for column in rest)
        spare = {
            column: needed[column]
            for column in rest
            if needed[column] <= room * table.shares[column] / total
        }
        if not spare:
            given |= {column: room * table.shares[column] / total for column in rest}
            return tuple(given[column] for column in range(len(needed)))
        given |= spare


def tables_that_fit(
    table: WrappedTable, width: float, high: float, style: SheetStyle
) -> tuple[WrappedTable, ...]:
    """The table in parts that are at most so high, each under the same headings.

    Args:
        table: what it says.
        width: of the room [mm].
        high: of the room [mm]; a row that is higher by itself stands alone.
        style: gives the height of the text.
    """
    widths = widths_of(table, width, style)
    parts: list[list[Row]] = []
    room = 0.0
    for row in table.rows:
        need = _row_height(_broken(row, widths, style), style)
        if not parts or need > room:
            parts.append([])
            room = high - _head_height(table, widths, style)
        parts[-1].append(row)
        room -= need
    return tuple(
        WrappedTable(headings=table.headings, rows=tuple(part), shares=table.shares)
        for part in parts
    )


def table_height(table: WrappedTable, widths: Sequence[float], style: SheetStyle) -> float:
    """How high a table comes out [mm].

    Args:
        table: what it says.
        widths: of the columns [mm].
        style: gives the height of the text.
    """
    rows = (Row(lines=(table.headings,)), *table.rows)
    return sum(_row_height(_broken(row, widths, style), style) for row in rows)


def wrapped_items(
    table: WrappedTable, widths: Sequence[float], left: float, top: float, style: SheetStyle
) -> tuple[list[Item], Box2]:
    """The table's rules and texts and the rectangle it takes.

    Args:
        table: what it says.
        widths: of the columns [mm].
        left: x of its left side [mm].
        top: y of its upper side [mm].
        style: pens and heights.
    """
    right = left + sum(widths)
    items: list[Item] = [stroke((left, top), (right, top), LineClass.TABLE)]
    y = top
    for row in (Row(lines=(table.headings,)), *table.rows):
        lines = _broken(row, widths, style)
        low = y - _row_height(lines, style)
        items += _texts(lines, widths, left, y, style, row.part)
        items.append(stroke((left, low), (right, low), LineClass.TABLE))
        y = low
    x = left
    for wide in (0.0, *widths):
        x += wide
        items.append(stroke((x, y), (x, top), LineClass.TABLE))
    return items, Box2(left=left, bottom=y, right=right, top=top)


def _broken(row: Row, widths: Sequence[float], style: SheetStyle) -> list[Cells]:
    """The row's lines with every cell broken to its column.

    A column that says nothing after the first line may run on beside the lines below.
    """
    columns = range(len(widths))

    def pieces(cells: Cells, column: int) -> tuple[str, ...]:
        return wrapped(cells[column], style.text_height_mm, widths[column] - 2 * CELL_PAD_MM)

    runs_on = [column for column in columns if not any(cells[column] for cells in row.lines[1:])]
    found: list[list[str]] = []
    for cells in row.lines:
        broken = {column: pieces(cells, column) for column in columns if column not in runs_on}
        for index in range(max((len(each) for each in broken.values()), default=1)):
            line = [""] * len(widths)
            for column, texts in broken.items():
                line[column] = texts[index] if index < len(texts) else ""
            found.append(line)
    for column in runs_on:
        for index, text in enumerate(pieces(row.lines[0], column)):
            if index == len(found):
                found.append([""] * len(widths))
            found[index][column] = text
    return [tuple(line) for line in found]


def _row_height(lines: Sequence[Cells], style: SheetStyle) -> float:
    return style.text_height_mm * (ROW_SHARE + (len(lines) - 1) * CLOSE_SHARE)


def _head_height(table: WrappedTable, widths: Sequence[float], style: SheetStyle) -> float:
    return _row_height(_broken(Row(lines=(table.headings,)), widths, style), style)


def _texts(
    lines: Sequence[Cells],
    widths: Sequence[float],
    left: float,
    top: float,
    style: SheetStyle,
    part: str,
) -> Iterator[Lettering]:
    height = style.text_height_mm
    first = (ROW_SHARE + 1.0 - DESCENT_SHARE) / 2
    for index, cells in enumerate(lines):
        y = top - height * (first + index * CLOSE_SHARE)
        x = left + CELL_PAD_MM
        for column, (text, wide) in enumerate(zip(cells, widths, strict=True), start=1):
            if text and part and column == len(cells):
                yield Lettering(
                    text=text, at=(x, y), height=height, in_set=InSet.PART_SHEETS, of=part
                )
            elif text:
                yield Lettering(text=text, at=(x, y), height=height)
            x += wide
