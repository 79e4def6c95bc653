"""The order of assembly as a table, on as many sheets as it takes."""

from __future__ import annotations

from dataclasses import replace

from exporters.sheets.order_words import Work, works_of
from exporters.sheets.paper import Orientation, Scale
from exporters.sheets.values import Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.sheets.wrapped_table import (
    Row,
    WrappedTable,
    tables_that_fit,
    widths_of,
    wrapped_items,
)
from furniture.assembly.values import AssemblyPlan, NoOrder

_HEADINGS = ("step", "move", "way", "home to", "joint", "glue", "then")
_SHARES = (8.0, 24.0, 14.0, 24.0, 18.0, 8.0, 24.0)
_MARGIN_MM = 5.0
_NOTE = (
    "Ways are those of the piece as it stands, seen from the front. Try every joint dry, in this "
    "order, before any glue."
)


def order_sheets(task: WholeTask, plan: AssemblyPlan | NoOrder) -> list[Sheet]:
    """The steps in order: what moves, its way, into which joints, glued or dry, what comes after.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        plan: the order of assembly, or why there is none.
    """
    orientation = Orientation.PORTRAIT
    table = _table(task, plan)
    begun = framed(replace(task, notes=(_NOTE,)), orientation, None, True)
    region = begun.region.grown(-_MARGIN_MM)
    widths = widths_of(table, region.width, task.style)
    sheets = []
    for index, part in enumerate(
        tables_that_fit(table, region.width, region.height, task.style), start=1
    ):
        left = region.left + (region.width - sum(widths)) / 2
        drawn, _ = wrapped_items(part, widths, left, region.top, task.style)
        sheets.append(sheet_of(task, orientation, Scale(1.0), [*begun.items, *drawn], index))
    return sheets


def _table(task: WholeTask, plan: AssemblyPlan | NoOrder) -> WrappedTable:
    if isinstance(plan, NoOrder):
        blank = ("",) * len(_HEADINGS)
        row = ("-", f"No order was found. {plan.reason}", *blank[2:])
        return WrappedTable(headings=_HEADINGS, rows=(Row(lines=(row,)),), shares=_SHARES)
    rows = tuple(_row(work) for work in works_of(task.piece, plan))
    return WrappedTable(headings=_HEADINGS, rows=rows, shares=_SHARES)


def _row(work: Work) -> Row:
    """One line for each group of joints; what moves and what comes after stand beside the first."""
    lines = []
    for index, closing in enumerate(work.closings):
        first = (str(work.number), work.moving, work.way) if index == 0 else ("", "", "")
        then = "; ".join(work.after) if index == 0 else ""
        glue = "glue" if closing.is_glued else "dry"
        lines.append((*first, ", ".join(closing.onto), closing.joint, glue, then))
    return Row(lines=tuple(lines))
