"""The exploded view: every part drawn back along the way it goes in, numbered as in the list."""

from __future__ import annotations

from exporters.sheets.assembly_sheet import Framed, WholeTask, framed
from exporters.sheets.balloons import place_balloon, seen_spot
from exporters.sheets.blocks import Block, view_block
from exporters.sheets.callouts import NoRoom
from exporters.sheets.geometry import scaled_shape
from exporters.sheets.paper import Box2, Orientation, Scale, frame_of, scales_for
from exporters.sheets.parts_list import Table, table_items, table_size
from exporters.sheets.pens import LineClass
from exporters.sheets.space import Space
from exporters.sheets.values import Item, Sheet, Stroke
from exporters.views.explode import exploded, shifts_against_assembly, trails
from exporters.views.frames import StandardView, standard_frame
from exporters.views.project import project_placed
from exporters.views.values import EdgeClass
from furniture.pieces.piece import distinct_parts, extents_of

_MARGIN_MM = 16.0
_OPENING_SHARE = 0.35
"""How far a joint is drawn open, as a share of the piece's middle extent. Own rule."""


def exploded_sheet(task: WholeTask, table: Table | None) -> tuple[Sheet, Table | None]:
    """The exploded view with balloons, and the parts list when it did not fit on it either.

    Args:
        task: what to draw.
        table: a parts list that still looks for a sheet.

    Raises:
        NoRoom: it does not fit at any standard scale.
    """
    reason = ""
    for wanted in (table, None) if table else (None,):
        for scale in scales_for(task.piece.shown.is_inch):
            if scale.reduction < 1:
                continue
            for orientation in (Orientation.PORTRAIT, Orientation.LANDSCAPE):
                try:
                    sheet = _drawn(task, wanted, scale, orientation)
                except NoRoom as error:
                    reason = str(error)
                    continue
                return sheet, table if wanted is None else None
    raise NoRoom(f"the exploded view does not fit on {task.paper.title}: {reason}")


def _drawn(task: WholeTask, table: Table | None, scale: Scale, orientation: Orientation) -> Sheet:
    begun = framed(task, orientation, scale, False)
    items, region = _with_table(task, begun, table)
    block, targets = _exploded_block(task, scale)
    room = region.grown(-_MARGIN_MM)
    box = block.box
    if box.width > room.width or box.height > room.height:
        raise NoRoom("the exploded view is too large")
    dx, dy = room.centre[0] - box.centre[0], room.centre[1] - box.centre[1]
    block = block.moved(dx, dy)
    frame = frame_of(task.paper, orientation)
    space = Space(frame)
    items += block.items
    space.add(items)
    for number, (x, y) in targets:
        target = (x + dx, y + dy)
        items += place_balloon(number, target, space, task.style, begun.title)
    return Sheet(
        name=task.name,
        title=task.fields.title,
        paper=task.paper,
        orientation=orientation,
        scale=scale,
        style=task.style,
        frame=frame,
        items=tuple(items),
    )


def _with_table(
    task: WholeTask, begun: Framed, table: Table | None
) -> tuple[list[Item], Box2]:
    items = list(begun.items)
    region = begun.region
    if table is not None:
        wide, high = table_size(table, task.style)
        if wide > region.width or high > 0.5 * region.height:
            raise NoRoom("the parts list does not fit beside the view")
        drawn, box = table_items(table, begun.title.right, begun.title.top, task.style)
        items += drawn
        region = Box2(left=region.left, bottom=box.top, right=region.right, top=region.top)
    return items, region


def _exploded_block(
    task: WholeTask, scale: Scale
) -> tuple[Block, list[tuple[int, tuple[float, float]]]]:
    """The view, and for each part of the list a spot of it that can be seen."""
    piece = task.piece
    low, high = extents_of(piece)
    sizes = sorted(b - a for a, b in zip(low, high, strict=True))
    shifts = shifts_against_assembly(piece.placed, piece.joinings, _OPENING_SHARE * sizes[1])
    moved = exploded(piece.placed, shifts)
    frame = standard_frame(StandardView.ISOMETRIC_RIGHT)
    block = view_block(project_placed(moved, frame), scale.factor, classes=(EdgeClass.VISIBLE,))
    block = block.with_items(
        [
            Stroke(shape=scaled_shape(line, scale.factor), line_class=LineClass.CENTRE)
            for line in trails(piece.placed, shifts, frame)
        ]
    )
    targets = []
    names = [each.instance for each in moved]
    for number, each in enumerate(distinct_parts(piece), start=1):
        spots = [seen_spot(moved, names.index(name), frame.towards_eye) for name in each.instances]
        spot = next((found for found in spots if found is not None), None)
        if spot is not None:
            targets.append((number, block.to_paper(spot)))
    return block, targets
