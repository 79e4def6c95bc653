"""The sheet that says where parts are glued that no cut locates, dimensioned from edges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from exporters.sheets.assembly_sheet import list_sheets
from exporters.sheets.blocks import Block, heading, view_block
from exporters.sheets.callouts import NoRoomError, place_callout
from exporters.sheets.figures import Measured, Side, linear
from exporters.sheets.geometry import points_box
from exporters.sheets.lanes import Taken, first_free
from exporters.sheets.paper import Box2, Orientation, Scale, frame_of, scales_for
from exporters.sheets.parts_list import references_table
from exporters.sheets.pens import SheetStyle
from exporters.sheets.positions import GluedOn, Position
from exporters.sheets.space import Space
from exporters.sheets.values import Figure, Item, Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.views.frames import standard_frame
from exporters.views.project import project_placed
from exporters.views.values import EdgeClass
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece, placed_named
from furniture.units import figure

_ROUND_MM = 12.0
_WORDS_MM = 24.0
"""Room round a view, and the share of it on the left and right where names stand. Own rule."""
_MOST_LANES = 6
_NOTE = "What shows no figure is flush with the edge, or in line with a part that has one."


def positions_sheets(task: WholeTask, groups: Sequence[GluedOn]) -> list[Sheet]:
    """One sheet with a view from each side that parts are glued on, or a table of their places.

    Args:
        task: what the sheets say.
        groups: the parts and their places; none gives no sheet.
    """
    if not groups:
        return []
    for scale in scales_for(task.piece.shown.is_inch):
        if scale.reduction < 1:
            continue
        for orientation in Orientation:
            try:
                return [_sheet(task, groups, scale, orientation)]
            except NoRoomError:
                continue
    return list_sheets(task, references_table(task.piece, tuple(_rows(groups))))


def _rows(groups: Sequence[GluedOn]) -> Iterator[tuple[str, float]]:
    """The places in words, for a piece that has too many to draw."""
    sides = (("left", "right"), ("front", "back"), ("lower", "upper"))
    for group in groups:
        for each in group.positions:
            side = sides[each.axis][0 if each.edge >= each.datum else 1]
            yield (
                f"{each.instance}: {side} edge in from that of {group.carriers[0]}",
                each.length_mm,
            )


def _sheet(
    task: WholeTask, groups: Sequence[GluedOn], scale: Scale, orientation: Orientation
) -> Sheet:
    begun = framed(replace(task, notes=(_NOTE,)), orientation, scale, True)
    blocks = [_block(task.piece, group, scale, task.style) for group in groups]
    placed = _arranged(blocks, begun.region.grown(-2.0))
    items = list(begun.items)
    for block in placed:
        items += block.items
    space = Space(frame_of(task.paper, orientation))
    space.add(items)
    keep_out = [block.core for block in placed]
    for group, block in zip(groups, placed, strict=True):
        for name in group.parts:
            target = _rectangle(task.piece, name, block).centre
            items += place_callout(name, target, space, task.style, [*keep_out, begun.title])
    return sheet_of(task, orientation, scale, items)


def _arranged(blocks: Sequence[Block], region: Box2) -> list[Block]:
    """The views in rows from the top, each with room for names round it.

    Raises:
        NoRoomError: they are too wide or too high together.
    """
    rows: list[list[Block]] = []
    x = 0.0
    for block in blocks:
        wide = block.box.width + 2 * _WORDS_MM
        if wide > region.width:
            raise NoRoomError("a view is too wide")
        if not rows or x + wide > region.width:
            rows.append([])
            x = 0.0
        rows[-1].append(block)
        x += wide
    heights = [max(block.box.height for block in row) + 2 * _ROUND_MM for row in rows]
    spare = region.height - sum(heights)
    if spare < 0.0:
        raise NoRoomError("the views are too high together")
    placed = []
    top = region.top
    for row, high in zip(rows, heights, strict=True):
        share = high + spare / len(rows)
        gap = (region.width - sum(block.box.width for block in row)) / (len(row) + 1)
        left = region.left + gap
        for block in row:
            low = top - share / 2 - block.box.height / 2
            placed.append(block.moved(left - block.box.left, low - block.box.bottom))
            left += block.box.width + gap
        top -= share
    return placed


def _block(piece: Piece, group: GluedOn, scale: Scale, style: SheetStyle) -> Block:
    """The view of what carries the parts and of them, with their figures and its heading."""
    names = (*group.carriers, *group.parts)
    placed = [each for each in piece.placed if each.instance in names]
    view = project_placed(placed, standard_frame(group.look))
    block = view_block(view, scale.factor, classes=(EdgeClass.VISIBLE,))
    taken: list[Taken] = []
    items: list[Item] = []
    said: set[tuple[int, float, float]] = set()
    for position in sorted(group.positions, key=lambda each: each.length_mm):
        key = (position.axis, round(position.datum, 3), round(position.edge, 3))
        if key in said or position.length_mm < 1e-3:
            continue
        said.add(key)
        items.append(_figure(piece, position, block, taken, style))
    block = block.with_items(items)
    middle = (block.core.left + block.core.right) / 2
    return block.with_items([heading(group.words, middle, block.box.bottom, style)])


def _figure(
    piece: Piece,
    position: Position,
    block: Block,
    taken: list[Taken],
    style: SheetStyle,
) -> Figure:
    """The dimension in the first lane that is free, on the side nearest to its part if any is.

    Raises:
        NoRoomError: there are more lanes than can be told apart.
    """
    core, part = block.core, _rectangle(piece, position.instance, block)
    is_level = abs(block.frame.right[position.axis]) > 0.5
    (dx, dy), (ex, ey) = (
        block.to_paper(_point(position.axis, at)) for at in (position.datum, position.edge)
    )
    nearest, other = (
        ((Side.TOP, core.top, part.top), (Side.BOTTOM, core.bottom, part.bottom))
        if is_level
        else ((Side.LEFT, core.left, part.left), (Side.RIGHT, core.right, part.right))
    )
    if abs(other[1] - other[2]) < abs(nearest[1] - nearest[2]):
        nearest, other = other, nearest
    measured = Measured(
        text=figure(position.length_mm, piece.shown),
        value_mm=position.length_mm,
        factor=block.factor,
    )

    def tried() -> Iterator[Figure]:
        for (side, edge, near), lane in product((nearest, other), range(_MOST_LANES)):
            line = edge + side.outward * (style.first_lane_mm + lane * style.lane_mm)
            start, end = ((dx, edge), (ex, near)) if is_level else ((edge, dy), (near, ey))
            yield linear(start, end, line, measured, style, side)

    made = first_free(tried(), taken, style)
    if made is None:
        raise NoRoomError("too many dimension lines beside one view")
    return made


def _point(axis: int, at: float) -> Vector:
    point = [0.0, 0.0, 0.0]
    point[axis] = at
    return (point[0], point[1], point[2])


def _rectangle(piece: Piece, name: str, block: Block) -> Box2:
    """A part's outline on paper: it stands square to the view."""
    placed = placed_named(piece, name)
    return points_box(
        block.to_paper(corner) for corner in box_of(placed.part.blank, placed.placement)
    )
