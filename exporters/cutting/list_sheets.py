"""Further sheets for the lists of boards that found no room beside their drawings."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from exporters.sheets.paper import Orientation, Paper, Scale, frame_of
from exporters.sheets.pens import SheetStyle
from exporters.sheets.tables import (
    Table,
    narrowed,
    row_height,
    split_table,
    table_items,
    table_size,
)
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Lettering, Sheet

_EDGE_MM = 4.0
_GAP_MM = 5.0
_LEAST_ROWS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ListsTask:
    """Lists under the name of their board, and how their sheets look; `fields_of` gives the title
    block of the sheet so many after the first."""

    lists: Sequence[tuple[str, Table]]
    fields_of: Callable[[int], tuple[str, TitleFields]]
    paper: Paper
    style: SheetStyle


def list_sheets(task: ListsTask) -> tuple[Sheet, ...]:
    """Sheets that hold nothing but lists, in columns; none without lists."""
    if not task.lists:
        return ()
    frame, style = frame_of(task.paper, Orientation.LANDSCAPE), task.style
    _, fields = task.fields_of(0)
    _, title = title_block(fields, frame.right, frame.bottom, style)
    region, floor = frame.grown(-_EDGE_MM), title.top + 4.0
    caption = style.text_height_mm + 2.0
    pages: list[list[Item]] = [[]]
    x, y, widest = region.left, region.top, 0.0
    for name, table in task.lists:
        rest: Table | None = narrowed(table, region.width, style)
        while rest is not None:
            wide, _ = table_size(rest, style)
            rows = int((y - caption - floor) / row_height(style)) - 1
            if rows < min(_LEAST_ROWS, len(rest.rows)):
                x, y, widest = x + widest + _GAP_MM, region.top, 0.0
                continue
            if x + wide > region.right and x > region.left:
                pages.append([])
                x, y, widest = region.left, region.top, 0.0
                continue
            y -= style.text_height_mm
            pages[-1].append(Lettering(text=name, at=(x, y), height=style.text_height_mm))
            y -= 2.0
            first = split_table(rest, rows)[0]
            _, high = table_size(first, style)
            drawn, _ = table_items(first, x + wide, y - high, style)
            pages[-1] += drawn
            widest, y = max(widest, wide), y - high - _GAP_MM
            rest = replace(rest, rows=rest.rows[rows:]) if len(rest.rows) > rows else None
    return tuple(_sheet(task, number, page) for number, page in enumerate(pages))


def _sheet(task: ListsTask, number: int, page: Sequence[Item]) -> Sheet:
    frame = frame_of(task.paper, Orientation.LANDSCAPE)
    name, fields = task.fields_of(number)
    block, _ = title_block(fields, frame.right, frame.bottom, task.style)
    return Sheet(
        name=name,
        title=fields.title,
        paper=task.paper,
        orientation=Orientation.LANDSCAPE,
        scale=Scale(1.0),
        style=task.style,
        frame=frame,
        items=(*frame_items(frame), *block, *page),
    )
