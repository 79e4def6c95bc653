"""The work in order: the checklist of operations, on as many sheets as it takes."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain, repeat

from exporters.sheets.checklist import checklist_columns, columns_in
from exporters.sheets.paper import Orientation, Scale
from exporters.sheets.values import Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.work.checklist import checklist_of, key_to_strips
from furniture.making.making import Making

_MARGIN_MM = 1.5
_NOTE = (
    "Faces, edges and ends are named by where they are in the piece, seen from its front. Fence "
    "and stop are set to the near side of the cutter; of a tilted blade, which leans right, to the "
    "long point (if it leans left, edge and stop change sides). Pictures look along the feed, the "
    "sled's fence towards you: below the line what lies down, above it the edge at fence or sled "
    "and the end at the stop; hatched is cut away. Wood lies as drawn where nothing else is said."
)


def work_sheets(task: WholeTask, making: Making) -> list[Sheet]:
    """Every operation in order, gathered by set-up, each with a box to tick.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        making: of the piece.
    """
    orientation = Orientation.PORTRAIT
    first = framed(replace(task, notes=(_NOTE, *key_to_strips(making))), orientation, None, True)
    later = framed(task, orientation, None, False)
    begun = chain([first], repeat(later))
    columns = (each for page in begun for each in columns_in(page.region.grown(-_MARGIN_MM)))
    a_page = len(columns_in(first.region.grown(-_MARGIN_MM)))
    filled = checklist_columns(checklist_of(task.piece, making), columns, task.style)
    pages = [filled[at : at + a_page] for at in range(0, len(filled), a_page)]
    return [
        sheet_of(task, orientation, Scale(1.0), [*under.items, *chain.from_iterable(page)], number)
        for number, (under, page) in enumerate(
            zip(chain([first], repeat(later)), pages, strict=False), start=1
        )
    ]
