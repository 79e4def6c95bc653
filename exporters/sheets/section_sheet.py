"""Sections through the whole piece: upright through the middle, level through the base."""

from __future__ import annotations

from dataclasses import dataclass

from exporters.sheets.assembly_sheet import WholeTask, framed
from exporters.sheets.blocks import Block, heading, view_block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.paper import Orientation, Scale, frame_of, scales_for
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Item, Lettering, Sheet
from exporters.views.frames import StandardView, standard_frame
from exporters.views.section import section_placed
from exporters.views.values import EdgeClass
from furniture.parts.vectors import Vector
from furniture.pieces.piece import extents_of

_GAP_MM = 14.0


def section_sheet(task: WholeTask) -> Sheet:
    """The sheet with both sections at the largest scale that fits, each showing where the other is.

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
        upright = _section(task, StandardView.RIGHT, middle, scale, "section A-A, upright")
        plan = _section(task, StandardView.TOP, level, scale, "section B-B, level")
        marked = [
            plan.with_items(_cutting_line(plan, plan.to_paper(middle)[0], "A", task.style, True)),
            upright.with_items(
                _cutting_line(upright, upright.to_paper(level)[1], "B", task.style, False)
            ),
        ]
        titled = [_titled(block, task) for block in marked]
        for orientation in Orientation:
            try:
                return _sheet(task, scale, orientation, titled)
            except NoRoomError:
                continue
    raise NoRoomError(f"the sections do not fit on {task.paper.title}")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named(Block):
    """A section with its heading's words."""

    words: str


def _titled(block: _Named, task: WholeTask) -> Block:
    middle = (block.core.left + block.core.right) / 2
    return block.with_items([heading(block.words, middle, block.box.bottom, task.style)])


def _cutting_line(
    block: Block, at: float, letter: str, style: SheetStyle, is_upright: bool
) -> list[Item]:
    """Two strong ends of the other section's line, its letter, and arrows the way it looks."""
    core, height = block.core, style.heading_height_mm
    items: list[Item] = []
    sides = (
        ((core.bottom, -1.0), (core.top, 1.0))
        if is_upright
        else ((core.left, -1.0), (core.right, 1.0))
    )
    for edge, out in sides:
        near, far = edge + out * 1.0, edge + out * 7.0

        def put(along: float, across: float) -> tuple[float, float]:
            return (at + across, along) if is_upright else (along, at + across)

        items.append(stroke(put(near, 0.0), put(far, 0.0), LineClass.CUTTING_PLANE))
        items.append(stroke(put(far, 0.0), put(far, -5.0), LineClass.DIMENSION))
        way = (-1.0, 0.0) if is_upright else (0.0, -1.0)
        items.append(arrowhead(put(far, -5.0), way, style))
        x, y = put(far - out * height * 0.5, 1.2 + (height * 0.4 if is_upright else 0.0))
        if is_upright:
            y -= height / 2
        items.append(Lettering(text=letter, at=(x, y), height=height, anchor=Anchor.CENTRE))
    return items


def _level_through_base(task: WholeTask) -> float:
    """The height that goes through most boards on edge, half way up one of them, lowest first [mm].

    What lies flat (a lid, a bottom, feet) is passed over: the plan shows how the others meet.
    """
    from furniture.parts.placement import box_of

    placed = task.piece.placed
    on_edge = [each for each in placed if abs(each.placement.z_axis[2]) < 0.5] or placed
    boxes = [box_of(each.part.blank, each.placement) for each in on_edge]
    spans = [(low[2], high[2]) for low, high in boxes]
    levels = sorted((low + high) / 2 for low, high in spans)
    return max(levels, key=lambda z: (sum(low < z < high for low, high in spans), -z))


def _section(
    task: WholeTask, which: StandardView, through: Vector, scale: Scale, title: str
) -> _Named:
    section = section_placed(task.piece.placed, standard_frame(which), through)
    block = view_block(section.view, scale.factor, classes=(EdgeClass.VISIBLE,), cut=section.cut)
    return _Named(
        frame=block.frame,
        factor=block.factor,
        at=block.at,
        core=block.core,
        box=block.box,
        items=block.items,
        words=title,
    )


def _sheet(task: WholeTask, scale: Scale, orientation: Orientation, blocks: list[Block]) -> Sheet:
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
