"""A board with its drawing and all its lists as one block, so that boards can share a sheet."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import permutations, product

from exporters.cutting.board_notes import heading_of, own_notes_of
from exporters.cutting.board_tables import lists_of
from exporters.cutting.draft import BoardTask
from exporters.cutting.hatching import legend
from exporters.cutting.list_ways import ListWay, list_ways, natural_width
from exporters.sheets.callouts import CLOSE_SHARE, NoRoomError, text_lines
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.lettering import wrapped
from exporters.sheets.packing import packed_from_the_top
from exporters.sheets.paper import Box2
from exporters.sheets.pens import SheetStyle
from exporters.sheets.values import Item, Lettering
from furniture.parts.vectors import Point2

_GAP_MM = 2.0
_WORTH_MM = 0.5
"""A block that is not lower by this is no better. Own rule."""
_LEGEND_MM = 80.0
_LEAST_LIST_MM = 40.0
"""No list is made narrower to stand beside something. Own rule."""
_SHARES = (0.42, 0.58)
"""Of the width: two lists stand beside one another where both are narrowed. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardBlock:
    """Everything about a board, its upper left corner at 0, 0, and how high it is [mm]."""

    items: tuple[Item, ...]
    height: float


@dataclass(frozen=True, slots=True)
class _Way:
    """Something that looks for its place: its size [mm], and its items with its lower left corner
    at 0, 0, and how many lines more it takes than a list has rows."""

    size: tuple[float, float]
    items: Callable[[], Sequence[Item]]
    broken: int = 0


def board_block(
    task: BoardTask, drawing: Sequence[Item], width: float, room: float = 0.0
) -> BoardBlock:
    """The board's heading, notes, drawing, legend and lists, each where it stands highest.

    Their cells are broken as little as the room allows, and as it takes the least height where
    there is none.

    Args:
        width: of the block [mm].
        room: that its height may take [mm].

    Raises:
        NoRoomError: the drawing is wider.
    """
    box = items_box(drawing)
    if box.width > width:
        raise NoRoomError("the drawing is wider than its block")
    head, low = _head(task, width)
    keys = _legends(task, width)
    beside = width - items_box(head).right - _GAP_MM
    for key in keys:
        if key.size[0] <= beside and key.size[1] <= low:
            head += [moved_item(item, width - key.size[0], -key.size[1]) for item in key.items()]
            keys = []
            break
    drawn = _Way((box.width, box.height), lambda: _from_corner(drawing, box))
    best: tuple[float, list[Point2], Sequence[_Way]] | None = None
    beside = width - box.width - _GAP_MM
    rooms = (beside, *(width - key.size[0] - _GAP_MM for key in keys))
    ways = product(*([keys] if keys else []), *_ways(task, width, rooms))
    for way in sorted(ways, key=lambda each: sum(part.broken for part in each)):
        if best is not None and best[0] + low <= room:
            break
        # no lower than the room that all take, nor than the highest
        area = sum(w * h for w, h in (drawn.size, *(each.size for each in way)))
        least = max(area / width, *(each.size[1] for each in way))
        if best is not None and least > best[0] - _WORTH_MM:
            continue
        for order in permutations(way):
            blocks = (drawn, *order)
            most = math.inf if best is None else best[0] - _WORTH_MM
            packed = packed_from_the_top([each.size for each in blocks], width, _GAP_MM, most)
            if packed is not None and packed[1] < most:
                best = packed[1], packed[0], blocks
    if best is None:
        raise NoRoomError("a list is wider than its block")
    height, places, placed = best
    items = [*head]
    for each, (x, y) in zip(placed, places, strict=True):
        items += [moved_item(item, x, y - low) for item in each.items()]
    return BoardBlock(items=tuple(items), height=low + height)


def least_height(task: BoardTask, width: float) -> float:
    """What a block takes at least, its drawing no higher than the board itself [mm].

    Args:
        width: of the block [mm].
    """
    lists = [[way.size for way in ways] for ways in _ways(task, width, ())]
    if not all(lists):
        return math.inf
    wood = task.board.length_mm * task.board.greatest_width_mm * task.scale.factor**2
    area = wood + sum(min(wide * high for wide, high in ways) for ways in lists)
    highest = max(min(high for _, high in ways) for ways in lists)
    return _head(task, width)[1] + max(area / width, highest)


def _head(task: BoardTask, width: float) -> tuple[list[Item], float]:
    """The board's name and what must be known of it, and how high that is [mm]."""
    style, y = task.style, 0.0
    items: list[Item] = []
    words = f"{heading_of(task.outcome, task.board)} ({task.scale.text})"
    for line in wrapped(words, style.heading_height_mm, width):
        y -= style.heading_height_mm
        items.append(Lettering(text=line, at=(0.0, y), height=style.heading_height_mm))
        y -= 1.5
    told = " ".join(own_notes_of(task.outcome, task.board, task.plan, task.called))
    lines = wrapped(told, style.text_height_mm, width)
    items += text_lines(lines, 0.0, y, style, CLOSE_SHARE)
    return items, len(lines) * style.text_height_mm * CLOSE_SHARE - y + 1.5


def _from_corner(items: Sequence[Item], box: Box2) -> list[Item]:
    return [moved_item(item, -box.left, -box.bottom) for item in items]


def _legends(task: BoardTask, width: float) -> list[_Way]:
    """The legend in as few rows as there is width for, then narrower and higher."""
    kinds = list(dict.fromkeys(zone.kind for zone in task.board.zones))
    found: list[_Way] = []
    room = min(width, _LEGEND_MM)
    while kinds and (not found or room < found[-1].size[0]):
        items, _ = legend(kinds, 0.0, room, task.style)
        box = items_box(items)
        if found and box.width > found[-1].size[0] - _WORTH_MM:
            break
        found.append(_Way((box.width, box.height), partial(_from_corner, items, box)))
        room = box.width - _WORTH_MM
    return found


def _ways(task: BoardTask, width: float, beside: Sequence[float]) -> list[list[_Way]]:
    """The lists, each in the widths at which it may stand alone, beside one of the others, or in
    one of these rooms."""
    lists, style = lists_of(task.outcome, task.board, task.plan, task.called), task.style
    natural = [natural_width(table, style) for table in lists]
    found = []
    for index, table in enumerate(lists):
        others = [width - wide - _GAP_MM for at, wide in enumerate(natural) if at != index]
        rooms = {
            width,
            *(share * (width - _GAP_MM) for share in _SHARES),
            *(room for room in (*beside, *others) if _LEAST_LIST_MM <= room <= width),
        }
        found.append([_listed(way, style) for way in list_ways(table, rooms, style)])
    return found


def _listed(way: ListWay, style: SheetStyle) -> _Way:
    def items() -> list[Item]:
        return _from_corner(*way.items(style))

    return _Way((way.width, way.height), items, way.broken)
