"""The sheets of the whole piece: general arrangement, exploded view, sections, parts list."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import Enum
from itertools import product

import numpy as np
from numpy.typing import NDArray

from exporters.sheets.assembly_views import (
    OnViews,
    WholeLook,
    WholeViews,
    isometric_block,
    length_of,
    whole_views,
)
from exporters.sheets.blocks import Block, heading
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.paper import (
    Box2,
    Orientation,
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
from exporters.sheets.space import Space
from exporters.sheets.values import Hatched, Item, Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from furniture.parts.vectors import Point2
from furniture.pieces.piece import Reference, extents_of

_GAP_MM = 10.0
_CLEAR_MM = 5.0
_LEAST_PICTURE = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Arranged:
    """The general arrangement, and the tables that found no room on it."""

    sheet: Sheet
    parts_left: Table | None
    figures_left: Table | None


def general_arrangement(task: WholeTask, table: Table | None) -> Arranged:
    """The sheet with the views, as many figures as keep it legible, and the parts list.

    Own rule: what is drawn on the views may cost one step of scale against bare views, no more;
    figures that would cost more go into a table on a sheet of their own.

    Args:
        task: what to draw.
        table: the parts list, unless it stands elsewhere.

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
    for scale in _attempts(task):
        if scale.reduction > most:
            break
        for picture, orientation in product(_Picture, Orientation):
            try:
                views = whole_views(
                    task.piece, scale.factor, task.fields.projection, task.style, on_views
                )
                sheet = _arranged(task, table, views, scale, orientation, picture)
                return sheet, views.left_over
            except NoRoomError as error:
                reason = str(error)
    raise NoRoomError(f"{task.piece.name} does not fit on {task.paper.title}: {reason}")


class _Picture(Enum):
    """Whether the isometric stands beside the views, from the better to the worse."""

    SHOWN = "shown"
    LEFT_TO_EXPLODED_VIEW = "left to the exploded view"


def _attempts(task: WholeTask) -> Iterator[Scale]:
    """Scales of the views, from the largest that the paper could hold."""
    low, high = extents_of(task.piece)
    longest = max(b - a for a, b in zip(low, high, strict=True))
    for scale in scales_for(task.piece.shown.is_inch):
        if scale.reduction >= 1 and longest * scale.factor < task.paper.value.width_mm:
            yield scale


def _arranged(
    task: WholeTask,
    table: Table | None,
    views: WholeViews,
    scale: Scale,
    orientation: Orientation,
    picture: _Picture,
) -> Sheet:
    style = task.style
    begun = framed(task, orientation, scale, True)
    items = list(begun.items)
    region = begun.region
    blocks = {look: _titled(block, look.value, style) for look, block in views.blocks.items()}
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
    placed = _in_line(blocks, region.grown(-4.0), task.fields.projection)
    for block in placed:
        items += block.items
    if picture is _Picture.SHOWN:
        items += _isometric(task, scale, orientation, placed, items).items
    return sheet_of(task, orientation, scale, items)


def _titled(block: Block, words: str, style: SheetStyle) -> Block:
    middle = (block.core.left + block.core.right) / 2
    return block.with_items([heading(words, middle, block.box.bottom, style)])


def _isometric(
    task: WholeTask, scale: Scale, orientation: Orientation, placed: list[Block], items: list[Item]
) -> Block:
    """The picture of the piece at the largest scale, the views' at most, that finds room.

    Own rule: at least a quarter as high as the front view, or it shows nothing.
    """
    frame = frame_of(task.paper, orientation)
    space = Space(frame)
    space.add(items)
    for block in placed:
        for box in (block.core, block.box):
            space.add([Hatched(outline=_corners(box))])
    least = _LEAST_PICTURE * placed[0].core.height
    for smaller in scales_for(task.piece.shown.is_inch):
        if smaller.factor > scale.factor:
            continue
        bare = isometric_block(task.piece, smaller.factor)
        if bare.core.height < least:
            break
        words = WholeLook.ISOMETRIC.value + (f" ({smaller.text})" if smaller != scale else "")
        block = _titled(bare, words, task.style)
        places = space.free_places(block.box.width, block.box.height, _CLEAR_MM)
        if len(places):
            x, y = (float(value) for value in _roomiest(places, block.box, placed))
            return block.moved(x - block.box.left, y - block.box.bottom)
    raise NoRoomError("no room for the isometric")


def _corners(box: Box2) -> tuple[Point2, ...]:
    return (
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)
    )  # fmt: skip


def _roomiest(places: NDArray[np.float64], box: Box2, placed: list[Block]) -> NDArray[np.float64]:
    """The place nearest to the corner that the three views leave open, else nearest to them."""
    _, side, top = placed
    wanted = (side.box.centre[0] - box.width / 2, top.box.centre[1] - box.height / 2)
    away = np.abs(places[:, 0] - wanted[0]) + np.abs(places[:, 1] - wanted[1])
    nearest: NDArray[np.float64] = places[int(away.argmin())]
    return nearest


def _in_line(blocks: dict[WholeLook, Block], region: Box2, projection: Projection) -> list[Block]:
    """Front and side in line, the top view in line with the front.

    Raises:
        NoRoomError: they are too wide or too high together.
    """
    front, side, top = (blocks[look] for look in (WholeLook.FRONT, WholeLook.SIDE, WholeLook.TOP))
    side = side.moved(0.0, front.at[1] - side.at[1])
    top = top.moved(front.at[0] - top.at[0], 0.0)
    first_left = min(front.box.left, top.box.left)
    first_wide = max(front.box.right, top.box.right) - first_left
    row_low = min(front.box.bottom, side.box.bottom)
    row_high = max(front.box.top, side.box.top) - row_low
    wide, high = first_wide + side.box.width + _GAP_MM, row_high + top.box.height + _GAP_MM
    if wide > region.width or high > region.height:
        raise NoRoomError("the views do not fit")
    between_x = _GAP_MM + min((region.width - wide) / 3, 30.0)
    between_y = _GAP_MM + min((region.height - high) / 3, 20.0)
    left = region.left + (region.width - wide - between_x + _GAP_MM) / 2
    low = region.bottom + (region.height - high - between_y + _GAP_MM) / 2
    is_third = projection is Projection.THIRD_ANGLE
    row_at = low if is_third else low + top.box.height + between_y
    top_at = low + row_high + between_y if is_third else low
    front = front.moved(left - first_left, row_at - row_low)
    side = side.moved(left + first_wide + between_x - side.box.left, row_at - row_low)
    top = top.moved(left - first_left, top_at - top.box.bottom)
    return [front, side, top]


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
    for index, piece in enumerate(split_table(table, rows), start=1):
        wide, high = table_size(piece, task.style)
        region = begun.region
        right = region.left + (region.width + wide) / 2
        drawn, _ = table_items(piece, right, region.top - 5.0 - high, task.style)
        sheets.append(sheet_of(task, orientation, Scale(1.0), [*begun.items, *drawn], index))
    return sheets
