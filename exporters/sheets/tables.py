"""Ruled tables, a line of text in each cell."""

from __future__ import annotations

from dataclasses import dataclass, replace

from exporters.no_break import with_spaces
from exporters.sheets.figures import stroke
from exporters.sheets.lettering import DESCENT_SHARE, text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Item, Lettering
from furniture.pieces.piece import Piece
from furniture.units import figure

CELL_PAD_MM = 1.2
"""Between the rule of a column and its texts. Own rule."""
ROW_SHARE = 1.55
"""From rule to rule of a row of one line, as a share of the height of a capital; what hangs below
the line has as much room as what stands on it. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Headings and rows of text; `centred` names the columns whose text stands in the middle,
    `breaking` those whose texts may go on in a further line where there is little room, `at_worst`
    those that break only where there is no room else."""

    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    centred: frozenset[int] = frozenset()
    breaking: frozenset[int] = frozenset()
    at_worst: frozenset[int] = frozenset()


def references_table(piece: Piece, what: tuple[tuple[str, float], ...]) -> Table:
    """Figures of the whole piece that are too many to stand on its views.

    Args:
        piece: gives the unit.
        what: their names and lengths [mm].
    """
    rows = tuple((name, figure(mm, piece.shown)) for name, mm in what)
    return Table(headings=("figure", f"[{piece.shown.unit.symbol}]"), rows=rows)


def row_height(style: SheetStyle) -> float:
    """From one rule of a table to the next [mm]."""
    return style.text_height_mm * ROW_SHARE


def column_widths(table: Table, style: SheetStyle) -> tuple[float, ...]:
    """The width of each column [mm], for its longest text."""
    height = style.text_height_mm
    return tuple(
        max(text_width(row[at], height) for row in (table.headings, *table.rows)) + 2 * CELL_PAD_MM
        for at in range(len(table.headings))
    )


def table_size(table: Table, style: SheetStyle) -> tuple[float, float]:
    """The width and height a table takes [mm]."""
    return sum(column_widths(table, style)), row_height(style) * (len(table.rows) + 1)


def split_table(table: Table, rows: int) -> tuple[Table, ...]:
    """The table in parts of at most so many rows, each under the same headings."""
    return tuple(
        replace(table, rows=table.rows[start : start + rows])
        for start in range(0, max(1, len(table.rows)), rows)
    )


def table_items(
    table: Table, right: float, bottom: float, style: SheetStyle
) -> tuple[list[Item], Box2]:
    """The table's rules and texts and the rectangle it takes, headings at the top.

    Args:
        table: what it says.
        right: x of its right side [mm].
        bottom: y of its lower side [mm].
        style: pens and heights.
    """
    widths = column_widths(table, style)
    pitch, height = row_height(style), style.text_height_mm
    left = right - sum(widths)
    top = bottom + pitch * (len(table.rows) + 1)
    items: list[Item] = []
    for index, row in enumerate((table.headings, *table.rows)):
        low = top - (index + 1) * pitch
        items.append(stroke((left, low), (right, low), LineClass.TABLE))
        x = left
        for column, (text, wide) in enumerate(zip(row, widths, strict=True)):
            is_centred = column in table.centred
            inward = wide / 2 if is_centred else CELL_PAD_MM
            items.append(
                Lettering(
                    text=with_spaces(text),
                    at=(x + inward, low + (pitch - height * (1 - DESCENT_SHARE)) / 2),
                    height=height,
                    anchor=Anchor.CENTRE if is_centred else Anchor.LEFT,
                )
            )
            x += wide
    x = left
    for wide in (0.0, *widths):
        x += wide
        items.append(stroke((x, bottom), (x, top), LineClass.TABLE))
    items.append(stroke((left, top), (right, top), LineClass.TABLE))
    return items, Box2(left=left, bottom=bottom, right=right, top=top)


def narrowed(table: Table, width: float, style: SheetStyle) -> Table:
    """The table no wider than `width` [mm]: its widest texts go on in a row below, where they can.

    Args:
        table: to be narrowed.
        width: it may take [mm].
        style: pens and heights.
    """
    while table_size(table, style)[0] > width:
        widths = column_widths(table, style)
        tried = sorted(range(len(widths)), key=lambda column: -widths[column])
        for column in tried:
            rows = tuple(
                row
                for each in table.rows
                for row in _broken(each, column, 0.8 * widths[column], style)
            )
            if rows != table.rows:
                table = replace(table, rows=rows)
                break
        else:
            return table
    return table


def _broken(
    row: tuple[str, ...], column: int, width: float, style: SheetStyle
) -> list[tuple[str, ...]]:
    """A row with one of its texts broken into lines, each further line a row of its own."""
    lines = wrapped(row[column], style.text_height_mm, width - 3.0) or ("",)
    blank = tuple("" for _ in row)
    return [
        (*first[:column], line, *first[column + 1 :])
        for first, line in zip([row, *[blank] * (len(lines) - 1)], lines, strict=True)
    ]
