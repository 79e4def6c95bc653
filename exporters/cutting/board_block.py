"""A board with its drawing and all its lists as one block, so that boards can share a sheet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from exporters.cutting.board_notes import heading_of, own_notes_of
from exporters.cutting.board_tables import lists_of
from exporters.cutting.draft import BoardTask
from exporters.cutting.hatching import legend
from exporters.sheets.callouts import LINE_SHARE, NoRoomError, text_lines
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.lettering import widest_word, wrapped
from exporters.sheets.packing import packed_from_the_top
from exporters.sheets.paper import Box2
from exporters.sheets.pens import SheetStyle
from exporters.sheets.tables import CELL_PAD_MM, Table, column_widths, table_items, table_size
from exporters.sheets.values import Item, Lettering
from exporters.sheets.wrapped_table import Row, WrappedTable, wrapped_items
from furniture.parts.vectors import Point2

_GAP_MM = 3.6
_LEGEND_MM = 80.0
_NARROW_MM = 26.0
"""How narrow a column of a list becomes, whose texts may be broken, so that two lists stand beside
each other. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardBlock:
    """Everything about a board, its upper left corner at 0, 0, and how high it is [mm]."""

    items: tuple[Item, ...]
    height: float


@dataclass(frozen=True, slots=True)
class _List:
    """A list as wide as its room lets it be, its upper left corner at 0, 0 [mm]."""

    items: list[Item]
    box: Box2


def board_block(task: BoardTask, drawing: Sequence[Item], width: float) -> BoardBlock:
    """The board's heading, notes, drawing, legend and lists, each where it stands highest.

    Args:
        task: what is drawn, at which scale.
        drawing: of the board.
        width: of the block [mm].

    Raises:
        NoRoomError: the drawing is wider.
    """
    box = items_box(drawing)
    if box.width > width:
        raise NoRoomError("the drawing is wider than its block")
    head, low = _head(task, width)
    key = _legend(task, width)
    beside = width - items_box(head).right - _GAP_MM
    if key and key[0].box.width <= beside and key[0].box.height <= low:
        head += [
            moved_item(item, width - key[0].box.right, -key[0].box.top) for item in key[0].items
        ]
        key = []
    best: tuple[float, list[Point2], list[_List]] | None = None
    for way in product(*(_ways(each, width, task.style) for each in _lists(task))):
        others = [*key, *way]
        sizes = [(box.width, box.height), *((each.box.width, each.box.height) for each in others)]
        places, height = packed_from_the_top(sizes, width, _GAP_MM)
        if best is None or height < best[0] - 0.5:
            best = height, places, others
    if best is None:
        raise NoRoomError("a list is wider than its block")
    height, places, others = best
    x, y = places[0]
    items = [*head, *(moved_item(item, x - box.left, y - low - box.bottom) for item in drawing)]
    for each, (x, y) in zip(others, places[1:], strict=True):
        top = y - low + each.box.height
        items += [moved_item(item, x, top) for item in each.items]
    return BoardBlock(items=tuple(items), height=low + height)


def least_height(task: BoardTask, width: float) -> float:
    """What a block takes at least, its drawing no higher than the board itself [mm].

    Args:
        task: what is drawn, at which scale.
        width: of the block [mm].
    """
    lists = [[way.box for way in _ways(each, width, task.style)] for each in _lists(task)]
    if not all(lists):
        return math.inf
    wood = task.board.length * task.board.greatest_width * task.scale.factor**2
    area = wood + sum(min(box.width * box.height for box in ways) for ways in lists)
    highest = max(min(box.height for box in ways) for ways in lists)
    return _head(task, width)[1] + max(area / width, highest)


def _head(task: BoardTask, width: float) -> tuple[list[Item], float]:
    """The board's name and what must be known of it, and how high that is [mm]."""
    style, y = task.style, 0.0
    items: list[Item] = []
    words = f"{heading_of(task.outcome, task.board, task.called)} ({task.scale.text})"
    for line in wrapped(words, style.heading_height_mm, width):
        y -= style.heading_height_mm
        items.append(Lettering(text=line, at=(0.0, y), height=style.heading_height_mm))
        y -= 1.5
    told = " ".join(own_notes_of(task.outcome, task.board, task.plan, task.called))
    lines = wrapped(told, style.text_height_mm, width)
    items += text_lines(lines, 0.0, y, style)
    return items, len(lines) * style.text_height_mm * LINE_SHARE - y + 2.0


def _legend(task: BoardTask, width: float) -> list[_List]:
    kinds = list(dict.fromkeys(zone.kind for zone in task.board.zones))
    if not kinds:
        return []
    items, _ = legend(kinds, 0.0, 0.0, min(width, _LEGEND_MM), task.style)
    return [_List(items, items_box(items))]


def _ways(table: Table, width: float, style: SheetStyle) -> list[_List]:
    """The list as wide as its texts are, where there is room, and with its longest texts broken."""
    natural = column_widths(table, style)
    found = []
    if sum(natural) <= width:
        items, box = table_items(table, sum(natural), -table_size(table, style)[1], style)
        found.append(_List(items, box))
    for breaking in (table.breaking, table.breaking | table.at_worst):
        least = [
            min(wide, _word_width(table, at, style)) if at in breaking else wide
            for at, wide in enumerate(natural)
        ]
        if sum(least) <= width:
            break
    most = width
    if found:
        most = sum(max(a, min(b, _NARROW_MM)) for a, b in zip(least, natural, strict=True))
    if sum(least) < sum(natural) - 1.0 and sum(least) <= width:
        spare = (min(most, sum(natural)) - sum(least)) / (sum(natural) - sum(least))
        narrow = [a + spare * (b - a) for a, b in zip(least, natural, strict=True)]
        rows = tuple(Row(lines=(row,)) for row in table.rows)
        shares = (0.0,) * len(natural)
        made = WrappedTable(headings=table.headings, rows=rows, shares=shares)
        found.append(_List(*wrapped_items(made, narrow, 0.0, 0.0, style)))
    return found


def _word_width(table: Table, column: int, style: SheetStyle) -> float:
    """What a column needs for the longest word in it [mm]."""
    texts = [row[column] for row in (table.headings, *table.rows)]
    return max(widest_word(text, style.text_height_mm) for text in texts) + 2 * CELL_PAD_MM


def _lists(task: BoardTask) -> tuple[Table, ...]:
    return lists_of(task.outcome, task.board, task.plan, task.called)
