"""A board's lists in columns under its drawing, as many as find room."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.sheets.paper import Box2
from exporters.sheets.pens import SheetStyle
from exporters.sheets.tables import Table, narrowed, table_items, table_size
from exporters.sheets.values import Item

_GAP_MM = 5.0


def laid_lists(
    tables: Sequence[Table], region: Box2, title: Box2, key_top: float, style: SheetStyle
) -> tuple[list[Item], tuple[Table, ...]]:
    """As many lists as find room under the drawing, and the lists left over, none torn apart.

    The lists of the most rows and the first of the lists come first, in every way of columns.

    Args:
        tables: the lists, that of the cuts first.
        region: where they may stand [mm].
        title: of the title block [mm].
        key_top: upper side of the legend left of it [mm].
    """
    cuts, *others = tables
    ways: list[tuple[tuple[Table, ...], ...]] = [
        ((cuts,), tuple(others)),
        (tuple(others), (cuts,)),
        ((cuts, *others),),
        ((cuts, *others[1:]), (others[0],)),
        ((cuts,), (others[0],)),
        ((cuts, others[0]),),
        *(((cuts,), (each,)) for each in others[1:]),
        *(((cuts, each),) for each in others[1:]),
        ((cuts,),),
        (tuple(others),),
        *(((each,),) for each in others),
    ]
    for way in ways:
        laid = _columns(way, region, title, key_top, style)
        if laid is not None:
            placed = [table for column in way for table in column]
            return laid, tuple(each for each in tables if each not in placed)
    return [], tuple(tables)


def _columns(
    columns: Sequence[Sequence[Table]],
    region: Box2,
    title: Box2,
    key_top: float,
    style: SheetStyle,
) -> list[Item] | None:
    """The lists in columns from the left, above legend and title block; none without room."""
    items: list[Item] = []
    x = region.left
    for column in columns:
        y, widest = region.top, 0.0
        for table in (narrowed(each, region.width, style) for each in column):
            wide, high = table_size(table, style)
            low = region.bottom
            if x + wide > title.left - 2.0:
                low = max(low, title.top + 3.0)
            if x < title.left:
                low = max(low, key_top)
            if y - high < low or x + wide > region.right + 1e-6:
                return None
            drawn, _ = table_items(table, x + wide, y - high, style)
            items += drawn
            widest = max(widest, wide)
            y -= high + _GAP_MM
        x += widest + _GAP_MM
    return items
