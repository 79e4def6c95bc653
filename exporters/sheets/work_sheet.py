"""The work in order: the checklist of operations, on as many sheets as it takes."""

from __future__ import annotations

from dataclasses import replace

from exporters.sheets.checklist import checklist_pages
from exporters.sheets.paper import Orientation, Scale
from exporters.sheets.values import Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.work.checklist import checklist_of, key_to_strips
from furniture.making.making import Making

_MARGIN_MM = 3.0
_NOTE = (
    "Faces, edges and ends are called by where they are in the piece, seen from its front. A fence "
    "or a stop stands its figure from the near side of the cutter, at a tilted blade from the long "
    "point. Tilted cuts are told for a blade that leans right, the sled's fence towards you: where "
    "it leans left, the other edge goes to the sled and the stop to the other side."
)


def work_sheets(task: WholeTask, making: Making) -> list[Sheet]:
    """Every operation in order, gathered by set-up, each with a box to tick.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        making: of the piece.
    """
    orientation = Orientation.PORTRAIT
    begun = framed(replace(task, notes=(_NOTE, *key_to_strips(making))), orientation, None, True)
    region = begun.region.grown(-_MARGIN_MM)
    pages = checklist_pages(checklist_of(task.piece, making), region, task.style)
    return [
        sheet_of(task, orientation, Scale(1.0), [*begun.items, *page], number)
        for number, page in enumerate(pages, start=1)
    ]
