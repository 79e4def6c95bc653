"""The sheets of the whole piece: general arrangement, exploded view, sections, parts list."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from exporters.sheets.assembly_views import OnViews, WholeLook, WholeViews, length_of, whole_views
from exporters.sheets.blocks import Block, heading
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.geometry import items_box
from exporters.sheets.note_lines import place_notes
from exporters.sheets.paper import (
    Box2,
    Orientation,
    Paper,
    Projection,
    Scale,
    frame_of,
    scales_for,
)
from exporters.sheets.parts_list import (
    Table,
    references_table,
    row_height,
    split_table,
    table_items,
    table_size,
)
from exporters.sheets.pens import SheetStyle
from exporters.sheets.title_block import TitleFields, frame_items, title_block
from exporters.sheets.values import Item, Sheet
from furniture.pieces.piece import Piece, Reference, extents_of

_GAP_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeTask:
    """The whole piece to draw on one sheet, and how; the scale of the fields is filled in."""

    piece: Piece
    fields: TitleFields
    notes: tuple[str, ...]
    name: str
    paper: Paper
    style: SheetStyle


@dataclass(frozen=True, slots=True, kw_only=True)
class Framed:
    """A sheet begun: frame, title block and notes are drawn, and the room that is left."""

    items: tuple[Item, ...]
    region: Box2
    title: Box2
    notes_right: float


def framed(
    task: WholeTask, orientation: Orientation, scale: Scale | None, has_notes: bool
) -> Framed:
    """Frame, title block and notes of a sheet, and the room above them.

    Args:
        task: what the sheet says.
        orientation: of the paper.
        scale: for the title block; none on a sheet without views.
        has_notes: whether this sheet carries the notes.
    """
    frame = frame_of(task.paper, orientation)
    fields = replace(task.fields, scale=scale.text if scale else "-")
    items: list[Item] = list(frame_items(frame))
    block, title = title_block(fields, frame.right, frame.bottom, task.style)
    items += block
    top, notes_right = title.top, frame.left
    if has_notes and task.notes:
        notes, top = place_notes(task.notes, frame, title, task.style)
        items += notes
        notes_right = items_box(notes).right
    region = Box2(left=frame.left, bottom=top, right=frame.right, top=frame.top)
    return Framed(items=tuple(items), region=region, title=title, notes_right=notes_right)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arranged:
    """The general arrangement, and the tables that found no room on it."""

    sheet: Sheet
    parts_left: Table | None
    figures_left: Table | None


def general_arrangement(task: WholeTask, table: Table) -> Arranged:
    """The sheet with the views, as many figures as keep it legible, and the parts list.

    Own rule: what is drawn on the views may cost one step of scale against bare views, no more;
    figures that would cost more go into a table on a sheet of their own.

    Args:
        task: what to draw.
        table: the parts list.

    Raises:
        NoRoomError: the piece does not fit at any standard scale.
    """
    bare, left_over = _first_fit(task, None, OnViews.OVERALL, math.inf)
    most = 2.6 * bare.scale.reduction
    best: tuple[Sheet, tuple[Reference, ...], Table | None] = (bare, left_over, table)
    for on_views in OnViews:
        found = None
        for wanted in (table, None):
            try:
                found = (*_first_fit(task, wanted, on_views, most), None if wanted else table)
                break
            except NoRoomError:
                continue
        if found is not None:
            best = found
            break
    sheet, left_over, parts_left = best
    named = tuple((each.what, length_of(each)) for each in left_over)
    figures = references_table(task.piece, named) if named else None
    return Arranged(sheet=sheet, parts_left=parts_left, figures_left=figures)


def _first_fit(
    task: WholeTask, table: Table | None, on_views: OnViews, most: float
) -> tuple[Sheet, tuple[Reference, ...]]:
    """The sheet at the largest scale down to 1 : `most`, and the figures left off its views."""
    reason = "no scale is small enough"
    for scale, iso in _attempts(task):
        if scale.reduction > most:
            break
        factors = (scale.factor, iso.factor)
        for orientation in Orientation:
            try:
                views = whole_views(
                    task.piece, factors, task.fields.projection, task.style, on_views
                )
                sheet = _arranged(task, table, views, (scale, iso), orientation)
                return sheet, views.left_over
            except NoRoomError as error:
                reason = str(error)
    raise NoRoomError(f"{task.piece.name} does not fit on {task.paper.title}: {reason}")


def _attempts(task: WholeTask) -> Iterator[tuple[Scale, Scale]]:
    """Scales of the views and of the isometric, from the largest that the paper could hold."""
    low, high = extents_of(task.piece)
    longest = max(b - a for a, b in zip(low, high, strict=True))
    scales = [s for s in scales_for(task.piece.shown.is_inch) if s.reduction >= 1]
    for index, scale in enumerate(scales):
        if longest * scale.factor < task.paper.value.width_mm:
            for iso in (scale, *scales[index + 1 : index + 3]):
                yield scale, iso


def _arranged(
    task: WholeTask,
    table: Table | None,
    views: WholeViews,
    scales: tuple[Scale, Scale],
    orientation: Orientation,
) -> Sheet:
    style = task.style
    scale, iso = scales
    begun = framed(task, orientation, scale, True)
    items = list(begun.items)
    region = begun.region
    blocks = _titled(views, scale, iso, style)
    if table is not None:
        wide, high = table_size(table, style)
        if wide > region.width:
            raise NoRoomError("the parts list is too wide")
        if high > region.height - 40.0:
            raise NoRoomError("the parts list is too high")
        has_notes_under = begun.title.right - wide < begun.notes_right + 2.0
        foot = region.bottom if has_notes_under else begun.title.top
        drawn, box = table_items(table, begun.title.right, foot, style)
        region = replace(region, bottom=max(region.bottom, box.top))
        items += drawn
    placed = _quartered(blocks, region.grown(-4.0), task.fields.projection)
    for block in placed:
        items += block.items
    return Sheet(
        name=task.name,
        title=task.fields.title,
        paper=task.paper,
        orientation=orientation,
        scale=scale,
        style=style,
        frame=frame_of(task.paper, orientation),
        items=tuple(items),
    )


def _titled(
    views: WholeViews, scale: Scale, iso: Scale, style: SheetStyle
) -> dict[WholeLook, Block]:
    blocks = {}
    for look, block in views.blocks.items():
        text = look.value
        if look is WholeLook.ISOMETRIC and iso != scale:
            text += f" ({iso.text})"
        middle = (block.core.left + block.core.right) / 2
        blocks[look] = block.with_items([heading(text, middle, block.box.bottom, style)])
    return blocks


def _quartered(
    blocks: dict[WholeLook, Block], region: Box2, projection: Projection
) -> list[Block]:
    """Front and side in line, the top view in line with the front, the isometric in the corner.

    Raises:
        NoRoomError: they are too wide or too high together.
    """
    front, side, top, iso = (
        blocks[look]
        for look in (WholeLook.FRONT, WholeLook.SIDE, WholeLook.TOP, WholeLook.ISOMETRIC)
    )
    side = side.moved(0.0, front.at[1] - side.at[1])
    top = top.moved(front.at[0] - top.at[0], 0.0)
    first_left = min(front.box.left, top.box.left)
    first_wide = max(front.box.right, top.box.right) - first_left
    second_wide = max(side.box.width, iso.box.width)
    row_low = min(front.box.bottom, side.box.bottom)
    row_high = max(front.box.top, side.box.top) - row_low
    other_high = max(top.box.height, iso.box.height)
    wide, high = first_wide + second_wide + _GAP_MM, row_high + other_high + _GAP_MM
    if wide > region.width or high > region.height:
        raise NoRoomError("the views do not fit")
    spare_x, spare_y = region.width - wide, region.height - high
    between_x = _GAP_MM + min(spare_x / 3, 30.0)
    between_y = _GAP_MM + min(spare_y / 3, 20.0)
    left = region.left + (region.width - first_wide - second_wide - between_x) / 2
    low = region.bottom + (region.height - row_high - other_high - between_y) / 2
    is_third = projection is Projection.THIRD_ANGLE
    row_at = low if is_third else low + other_high + between_y
    other_at = low + row_high + between_y if is_third else low
    dx = left - first_left
    second = left + first_wide + between_x
    front = front.moved(dx, row_at - row_low)
    side = side.moved(second + (second_wide - side.box.width) / 2 - side.box.left, row_at - row_low)
    top_low = other_at if is_third else other_at + other_high - top.box.height
    top = top.moved(dx, top_low - top.box.bottom)
    iso = iso.moved(
        second + (second_wide - iso.box.width) / 2 - iso.box.left,
        other_at + (other_high - iso.box.height) / 2 - iso.box.bottom,
    )
    return [front, side, top, iso]


def list_sheets(task: WholeTask, table: Table) -> list[Sheet]:
    """Sheets that hold nothing but the parts list, as many as it takes.

    Args:
        task: what the sheets say; the first one's name is used, later ones get a number.
        table: the parts list.
    """
    orientation = Orientation.PORTRAIT
    sheets = []
    begun = framed(task, orientation, None, False)
    rows = int((begun.region.height - 10.0) / row_height(task.style)) - 1
    for index, piece in enumerate(split_table(table, rows)):
        wide, high = table_size(piece, task.style)
        region = begun.region
        right = region.left + (region.width + wide) / 2
        drawn, _ = table_items(piece, right, region.top - 5.0 - high, task.style)
        sheets.append(
            Sheet(
                name=task.name if index == 0 else f"{task.name}-{index + 1}",
                title=task.fields.title,
                paper=task.paper,
                orientation=orientation,
                scale=Scale(1.0),
                style=task.style,
                frame=frame_of(task.paper, orientation),
                items=(*begun.items, *drawn),
            )
        )
    return sheets
