"""Sheets of joints in section, one picture beside the other, as many sheets as they need."""

from __future__ import annotations

from dataclasses import replace

from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.hatches import hatches_of
from exporters.sheets.joint_details import detail_of_joint
from exporters.sheets.paper import Box2, Orientation, Scale
from exporters.sheets.part_notes import rounded_note
from exporters.sheets.section_planes import Sectioned
from exporters.sheets.values import Figure, Item, Lettering, Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from furniture.units.showing import ROUNDED_MARK

_GAP_MM = 9.0
_BRACKETS = "Figures in brackets are defined on the parts' own sheets; clearances are given here."


def joint_sheets(task: WholeTask, sections: Sectioned) -> list[Sheet]:
    """The sheets; none for a piece whose joints show nothing in section.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        sections: the joints to draw.

    Raises:
        NoRoomError: a joint does not fit on a sheet of its own.
    """
    hatches = hatches_of(task.piece)
    shown, style = task.piece.shown, task.style
    blocks = [detail_of_joint(detail, shown, style, hatches) for _, detail in sections.details]
    if not blocks:
        return []
    is_rounded = any(_is_rounded(item) for block in blocks for item in block.items)
    notes = (_BRACKETS, rounded_note(shown)) if is_rounded else (_BRACKETS,)
    made: list[Sheet] = []
    while blocks:
        sheet, blocks = _filled(replace(task, notes=notes), blocks, len(made) + 1)
        made.append(sheet)
    return made


def _is_rounded(item: Item) -> bool:
    return isinstance(item, (Figure, Lettering)) and ROUNDED_MARK in item.text


def _filled(task: WholeTask, blocks: list[Block], number: int) -> tuple[Sheet, list[Block]]:
    """The sheet of this number with as many of the blocks as it holds, and those that are left."""
    most: tuple[int, Orientation, list[Block]] | None = None
    for orientation in Orientation:
        begun = framed(task, orientation, None, True)
        placed = _in_rows(blocks, begun.region.grown(-5.0))
        if placed and (most is None or len(placed) > most[0]):
            most = (len(placed), orientation, placed)
    if most is None:
        raise NoRoomError(f"a joint does not fit on {task.paper.title}")
    count, orientation, placed = most
    items: list[Item] = list(framed(task, orientation, None, True).items)
    for block in placed:
        items += block.items
    return sheet_of(task, orientation, Scale(1.0), items, number), blocks[count:]


def _in_rows(blocks: list[Block], room: Box2) -> list[Block]:
    """The first of the blocks that fit, in rows from the top, each row spread over the width."""
    rows: list[list[Block]] = []
    used = 0.0
    for block in blocks:
        if block.box.width > room.width or block.box.height > room.height:
            break
        row = rows[-1] if rows else []
        wide = sum(each.box.width + _GAP_MM for each in row) + block.box.width
        if rows and wide <= room.width and _higher(rows, block) + used <= room.height:
            row.append(block)
            continue
        high = sum(max(each.box.height for each in made) + _GAP_MM for made in rows)
        if high + block.box.height > room.height:
            break
        rows.append([block])
        used = high
    placed = []
    heights = [max(each.box.height for each in row) for row in rows]
    spare_y = (room.height - sum(heights) - _GAP_MM * (len(rows) - 1)) / (len(rows) + 1)
    y = room.top - min(spare_y, 12.0)
    for row, high in zip(rows, heights, strict=True):
        wide = sum(each.box.width for each in row) + _GAP_MM * (len(row) - 1)
        spare = (room.width - wide) / (len(row) + 1)
        x = room.left + spare
        for block in row:
            placed.append(block.moved(x - block.box.left, y - block.box.top))
            x += block.box.width + _GAP_MM + spare
        y -= high + _GAP_MM + min(spare_y, 12.0)
    return placed


def _higher(rows: list[list[Block]], block: Block) -> float:
    """How high the last row is with one more block [mm]."""
    return max(each.box.height for each in [*rows[-1], block])
