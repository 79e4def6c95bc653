"""Sections through the whole piece: upright through the middle, level through the base."""

from __future__ import annotations

from exporters.sheets.assembly_sheet import WholeTask, framed
from exporters.sheets.blocks import Block, heading, view_block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.paper import Orientation, Scale, frame_of, scales_for
from exporters.sheets.values import Item, Sheet
from exporters.views.frames import StandardView, standard_frame
from exporters.views.section import section_placed
from exporters.views.values import EdgeClass
from furniture.parts.vectors import Vector
from furniture.pieces.piece import extents_of

_GAP_MM = 14.0


def section_sheet(task: WholeTask) -> Sheet:
    """The sheet with both sections at the largest scale that fits.

    Args:
        task: what to draw.

    Raises:
        NoRoomError: they do not fit at any standard scale.
    """
    low, high = extents_of(task.piece)
    middle: Vector = ((low[0] + high[0]) / 2, 0.0, 0.0)
    level: Vector = (0.0, 0.0, _level_through_base(task))
    for scale in scales_for(task.piece.shown.is_inch):
        if scale.reduction < 1:
            continue
        for orientation in Orientation:
            upright = _section(task, StandardView.RIGHT, middle, scale, "section at the middle")
            plan = _section(task, StandardView.TOP, level, scale, "section through the base")
            try:
                return _sheet(task, scale, orientation, [plan, upright])
            except NoRoomError:
                continue
    raise NoRoomError(f"the sections do not fit on {task.paper.title}")


def _level_through_base(task: WholeTask) -> float:
    """Half way up the lowest standing part whose face looks to the front [mm]."""
    from furniture.parts.placement import box_of

    heights = [
        box_of(each.part.blank, each.placement)[1][2]
        for each in task.piece.placed
        if box_of(each.part.blank, each.placement)[0][2] < 1e-6
    ]
    return 0.5 * min(heights) if heights else 1.0


def _section(
    task: WholeTask, which: StandardView, through: Vector, scale: Scale, title: str
) -> Block:
    section = section_placed(task.piece.placed, standard_frame(which), through)
    block = view_block(
        section.view, scale.factor, classes=(EdgeClass.VISIBLE,), cut=section.cut
    )
    middle = (block.core.left + block.core.right) / 2
    return block.with_items([heading(title, middle, block.box.bottom, task.style)])


def _sheet(
    task: WholeTask, scale: Scale, orientation: Orientation, blocks: list[Block]
) -> Sheet:
    begun = framed(task, orientation, scale, False)
    room = begun.region.grown(-8.0)
    wide = sum(block.box.width for block in blocks) + _GAP_MM * (len(blocks) - 1)
    high = sum(block.box.height for block in blocks) + _GAP_MM * (len(blocks) - 1)
    items: list[Item] = list(begun.items)
    if wide <= room.width and max(block.box.height for block in blocks) <= room.height:
        spare = (room.width - wide) / (len(blocks) + 1)
        x = room.left + spare
        for block in blocks:
            dy = room.centre[1] - block.box.centre[1]
            items += block.moved(x - block.box.left, dy).items
            x += block.box.width + _GAP_MM + spare
    elif high <= room.height and max(block.box.width for block in blocks) <= room.width:
        spare = (room.height - high) / (len(blocks) + 1)
        y = room.top - spare
        for block in blocks:
            dx = room.centre[0] - block.box.centre[0]
            items += block.moved(dx, y - block.box.top).items
            y -= block.box.height + _GAP_MM + spare
    else:
        raise NoRoomError("the sections do not fit")
    return Sheet(
        name=task.name,
        title=task.fields.title,
        paper=task.paper,
        orientation=orientation,
        scale=scale,
        style=task.style,
        frame=frame_of(task.paper, orientation),
        items=tuple(items),
    )
