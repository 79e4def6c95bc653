"""How much of a sheet stays empty: the share of 10 mm cells in its frame with nothing in them."""

from __future__ import annotations

import math
from itertools import pairwise

from exporters.sheets.geometry import item_box, shape_points
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Figure, Item, Sheet, Stroke

CELL_MM = 10.0
MOST_ON_A_PAGE, MOST_IN_THE_MEDIAN = 0.5, 0.3
_RULES = frozenset({LineClass.FRAME, LineClass.PANEL})


def blank_share(sheet: Sheet) -> float:
    """The share of cells that nothing is drawn in; the frame and the rules of cells are nothing.

    Args:
        sheet: as it is written.
    """
    frame = sheet.frame
    columns, rows = int(frame.width // CELL_MM), int(frame.height // CELL_MM)
    taken: set[tuple[int, int]] = set()

    def mark(x: float, y: float) -> None:
        taken.add((int((x - frame.left) // CELL_MM), int((y - frame.bottom) // CELL_MM)))

    def note(item: Item) -> None:
        if isinstance(item, Figure):
            for drawn in item.drawn:
                note(drawn)
        elif isinstance(item, Stroke):
            if item.line_class not in _RULES:
                for start, end in pairwise(shape_points(item.shape)):
                    steps = max(1, math.ceil(math.dist(start, end)))
                    for step in range(steps + 1):
                        t = step / steps
                        mark(start[0] + t * (end[0] - start[0]), start[1] + t * (end[1] - start[1]))
        else:
            box = item_box(item)
            for x in range(int(box.left), math.ceil(box.right) + 1):
                for y in range(int(box.bottom), math.ceil(box.top) + 1):
                    mark(x, y)

    for each in sheet.items:
        note(each)
    inside = {(x, y) for x, y in taken if 0 <= x < columns and 0 <= y < rows}
    return 1.0 - len(inside) / (columns * rows)
