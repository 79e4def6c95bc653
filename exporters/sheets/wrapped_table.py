"""Tables whose cells hold several lines, broken to the width of their columns, over many sheets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from exporters.sheets.callouts import LINE_SHARE
from exporters.sheets.figures import stroke
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Item, Lettering

_PAD_MM = 1.5

Cells = tuple[str, ...]
"""One text per column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row between two rules: lines of cells under each other, each wrapped by itself."""

    lines: tuple[Cells, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WrappedTable:
    """Headings, rows, and the share of the width that each column gets at most."""

    headings: Cells
    rows: tuple[Row, ...]
    shares: tuple[float, ...]


def widths_of(table: WrappedTable, width: float, style: SheetStyle) -> tuple[float, ...]:
    """The width of each column [mm]: what its longest text needs, at most its share of the room.

    Args:
        table: what it says.
        width: of the room [mm].
        style: gives the height of the text.
    """
    height = style.text_height_mm
    total = sum(table.shares)
    found = []
    for column, share in enumerate(table.shares):
        texts = [table.headings[column]]
        texts += [cells[column] for row in table.rows for cells in row.lines]
        needed = max(text_width(text, height) for text in texts) + 2 * _PAD_MM
        found.append(min(needed, width * share / total))
    return tuple(found)


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
        items += _texts(lines, widths, left, y, style)
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
        return wrapped(cells[column], style.text_height_mm, widths[column] - 2 * _PAD_MM)

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
    return style.text_height_mm * (0.9 + (len(lines) - 1) * LINE_SHARE + 1.0)


def _head_height(table: WrappedTable, widths: Sequence[float], style: SheetStyle) -> float:
    return _row_height(_broken(Row(lines=(table.headings,)), widths, style), style)


def _texts(
    lines: Sequence[Cells], widths: Sequence[float], left: float, top: float, style: SheetStyle
) -> Iterator[Lettering]:
    height = style.text_height_mm
    for index, cells in enumerate(lines):
        y = top - height * (1.4 + index * LINE_SHARE)
        x = left + _PAD_MM
        for text, wide in zip(cells, widths, strict=True):
            if text:
                yield Lettering(text=text, at=(x, y), height=height)
            x += wide
