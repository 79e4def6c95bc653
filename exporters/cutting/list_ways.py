"""A list in several widths: as its texts are, and narrower in the least height, so that lists stand
beside a drawing or beside each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from exporters.sheets.lettering import text_width, widest_word, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import SheetStyle
from exporters.sheets.tables import CELL_PAD_MM, Table
from exporters.sheets.values import Item
from exporters.sheets.wrapped_table import Row, WrappedTable, table_height, wrapped_items

_HAIR_MM = 0.01
_MOST_LINES = 4
"""So many lines are tried in a cell. Own rule."""


@dataclass(frozen=True, slots=True)
class ListWay:
    """A list in one of its widths, its upper left corner at 0, 0 [mm], and how many lines more
    it takes than rows."""

    table: Table
    widths: tuple[float, ...]
    width: float
    height: float
    broken: int

    def items(self, style: SheetStyle) -> tuple[list[Item], Box2]:
        """Its rules and texts, and the rectangle it takes."""
        return wrapped_items(_wrapping(self.table), self.widths, 0.0, 0.0, style)


def list_ways(table: Table, rooms: Iterable[float], style: SheetStyle) -> list[ListWay]:
    """The list in the least height that each of these rooms lets it have; none that another one
    beats both ways.

    Args:
        table: what it says.
        rooms: widths to fit [mm].
        style: pens and heights.
    """
    found: list[ListWay] = []
    for room in sorted(rooms):
        way = _in_width(table, round(room, 1) - 0.1, style)
        if way is not None and all(
            way.width < other.width - 0.5 or way.height < other.height - 0.5 for other in found
        ):
            found.append(way)
    return found


def natural_width(table: Table, style: SheetStyle) -> float:
    """The width of a list whose texts are all in one line, its headings too [mm]."""
    return sum(each.widths[0] for each in _columns(table, frozenset(), style))


def _wrapping(table: Table) -> WrappedTable:
    rows = tuple(Row(lines=(row,)) for row in table.rows)
    return WrappedTable(headings=table.headings, rows=rows, shares=(0.0,) * len(table.headings))


@lru_cache(maxsize=4096)
def _in_width(table: Table, room: float, style: SheetStyle) -> ListWay | None:
    """The list no wider than the room, broken where that costs the least height; what breaks at
    worst alone only where that saves lines."""
    found: list[ListWay] = []
    for breaking in (table.breaking, table.breaking | table.at_worst):
        columns = _columns(table, breaking, style)
        if sum(each.widths[-1] for each in columns) <= room:
            at, lines = _narrowed(columns, room)
            widths = tuple(each.widths[step] for each, step in zip(columns, at, strict=True))
            height = table_height(_wrapping(table), widths, style)
            broken = lines - len(table.rows) - 1
            found.append(ListWay(table, widths, sum(widths), height, broken))
    return min(found, key=lambda way: way.height, default=None)


def _narrowed(columns: Sequence[_Column], room: float) -> tuple[list[int], int]:
    """Which width each column takes: step by step what costs the fewest lines for what it saves,
    then wider again where there is room; and the lines of all rows."""
    at = [0] * len(columns)

    def lines() -> int:
        rows = zip(*(each.lines[step] for each, step in zip(columns, at, strict=True)), strict=True)
        return sum(map(max, rows))

    def wide() -> float:
        return sum(each.widths[step] for each, step in zip(columns, at, strict=True))

    while (over := wide() - room) > _HAIR_MM / 2:  # sums of widths differ by their order
        before, tried = lines(), []
        for index, column in enumerate(columns):
            for step in range(at[index] + 1, len(column.widths)):
                saved, kept = column.widths[at[index]] - column.widths[step], at[index]
                at[index] = step
                tried.append(((lines() - before) / min(saved, over), index, step))
                at[index] = kept
        _, index, step = min(tried)
        at[index] = step
    for index, column in enumerate(columns):
        while at[index] and wide() + column.widths[at[index] - 1] - column.widths[at[index]] < room:
            at[index] -= 1
    return at, lines()


@dataclass(frozen=True, slots=True)
class _Column:
    """The widths that a column may have, the widest first [mm], and the lines of each of its cells
    at each of them."""

    widths: tuple[float, ...]
    lines: tuple[tuple[int, ...], ...]


def _columns(table: Table, breaking: frozenset[int], style: SheetStyle) -> list[_Column]:
    height = style.text_height_mm
    found = []
    for column, heading in enumerate(table.headings):
        cells = [row[column] for row in table.rows]
        found_mm = _widths(heading, cells, column in breaking, height)
        # what differs in its last bits alone is one width
        widths = sorted({round(each, 3) for each in found_mm}, reverse=True)
        lines = tuple(
            tuple(len(wrapped(text, height, wide)) for text in (heading, *cells)) for wide in widths
        )
        padded = tuple(wide + 2 * CELL_PAD_MM for wide in widths)
        found.append(_Column(padded, lines))
    return found


def _widths(heading: str, cells: Sequence[str], breaks: bool, height: float) -> Iterator[float]:
    """Where a line more begins, from what the texts are down to their longest words."""
    texts = [text_width(text, height) for text in (heading, *cells)]
    if not breaks:  # then only its heading may stand in two lines
        in_two = _least_for(heading, 2, height)
        yield from (max(wide, *texts[1:]) + _HAIR_MM for wide in {texts[0], in_two})
        return
    least = max(widest_word(text, height) for text in (heading, *cells)) + _HAIR_MM
    yield least
    for wide in texts:
        yield max(least, wide + _HAIR_MM)
    for count in range(2, _MOST_LINES + 1):
        yield max(least, *(_least_for(text, count, height) + _HAIR_MM for text in cells))


def _least_for(text: str, count: int, height: float) -> float:
    """The least width in which a text takes so many lines [mm]."""
    low, high = widest_word(text, height), text_width(text, height)
    while high - low > 0.2:
        middle = (low + high) / 2
        if len(wrapped(text, height, middle)) <= count:
            high = middle
        else:
            low = middle
    return high
