"""The sheets of the whole piece: general arrangement, exploded view, sections, parts list."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
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
from exporters.sheets.geometry import moved_item
from exporters.sheets.lists_sheet import Listed, lists_stacked
from exporters.sheets.paper import (
    Box2,
    Orientation,
    Projection,
    Scale,
    box_round,
    frame_of,
    scales_for,
)
from exporters.sheets.pens import SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.tables import (
    Table,
    references_table,
    row_height,
    split_table,
    table_items,
    table_size,
)
from exporters.sheets.values import Hatched, Item, Sheet
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from furniture.parts.vectors import Point2
from furniture.pieces.piece import Reference, extents_of

_GAP_MM = 10.0
_CLEAR_MM = 5.0
_LEAST_PICTURE = 0.25
_EDGE_MM = 3.0
_LEAST_VIEWS_MM = 40.0
_MOST_BESIDE = 0.6
"""Of the width, for lists beside the views. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arranged:
    """The general arrangement, and the lists and figures that found no room on it."""

    sheet: Sheet
    lists_left: tuple[Listed, ...]
    figures_left: Table | None


def general_arrangement(task: WholeTask, lists: tuple[Listed, ...], has_plan: bool) -> Arranged:
    """The sheet with the views, as many figures as keep it legible, and the lists.

    Own rule: what is drawn on the views may cost one step of scale against bare views, no more;
    figures that would cost more go into a table on another sheet. Lists cost no step.

    Args:
        task: what to draw.
        lists: of parts and of what is bought.
        has_plan: whether the set has a level section, so that the top view may give way to lists.

    Raises:
        NoRoomError: the piece does not fit at any standard scale.
    """
    every = tuple(_Shown)
    bare, left_over = _first_fit(task, (), OnViews.OVERALL, math.inf, every[:2])
    most = 2.6 * bare.scale.reduction
    for on_views in OnViews:
        try:
            bare, left_over = _first_fit(task, (), on_views, most, every[:2])
            break
        except NoRoomError:
            continue
    sheet, lists_left = bare, lists
    try:
        ways = every if has_plan else every[:2]
        sheet, left_over = _first_fit(task, lists, on_views, bare.scale.reduction + 1e-6, ways)
        lists_left = ()
    except NoRoomError:
        pass
    named = tuple((each.what, length_of(each)) for each in left_over)
    figures = references_table(task.piece, named) if named else None
    return Arranged(sheet=sheet, lists_left=lists_left, figures_left=figures)


def views_together(task: WholeTask, scale: Scale, has_plan: bool) -> Iterator[Block]:
    """The views with all their figures as one block, as low as they stand; first with the top view.

    Args:
        task: what to draw.
        scale: of the views.
        has_plan: whether the set has a level section, so that the top view may be left out.

    Raises:
        NoRoomError: their figures find no room at this scale.
    """
    projection = task.fields.projection
    views = whole_views(task.piece, scale.factor, projection, task.style, OnViews.ALL)
    if views.left_over:
        raise NoRoomError("figures find no room on the views")
    for looks in (tuple(views.blocks), (WholeLook.FRONT, WholeLook.SIDE))[: 1 + has_plan]:
        blocks = {look: _titled(views.blocks[look], look.value, task.style) for look in looks}
        wide, high = _in_line_size(blocks)
        room = Box2(left=0.0, bottom=0.0, right=wide, top=high)
        front, *others = _in_line(blocks, room, projection)
        yield front.with_items([item for block in others for item in block.items])


class _Shown(Enum):
    """What stands beside front and side, from the better to the worse."""

    ALL = "top view and picture"
    WITHOUT_PICTURE = "top view, the picture left to the exploded view"
    WITHOUT_TOP = "picture, the top view left to the level section"
    NEITHER = "neither"

    @property
    def has_picture(self) -> bool:
        """Whether the isometric is drawn."""
        return self in (_Shown.ALL, _Shown.WITHOUT_TOP)

    @property
    def has_top(self) -> bool:
        """Whether the top view is drawn."""
        return self in (_Shown.ALL, _Shown.WITHOUT_PICTURE)


class _Lists(Enum):
    """Where the lists stand."""

    UNDER = "under the views"
    BESIDE = "to their right"


def _first_fit(
    task: WholeTask,
    lists: tuple[Listed, ...],
    on_views: OnViews,
    most: float,
    ways: Sequence[_Shown],
) -> tuple[Sheet, tuple[Reference, ...]]:
    """The sheet at the largest scale down to 1 : `most`, and the figures left off its views."""
    reason = "no scale is small enough"
    for scale in _attempts(task):
        if scale.reduction > most:
            break
        try:
            views = whole_views(
                task.piece, scale.factor, task.fields.projection, task.style, on_views
            )
        except NoRoomError as error:
            reason = str(error)
            continue
        for shown, orientation, where in product(ways, Orientation, _Lists):
            if not lists and where is _Lists.BESIDE:
                continue
            try:
                sheet = _arranged(task, (lists, where), views, scale, orientation, shown)
                return sheet, views.left_over
            except NoRoomError as error:
                reason = str(error)
    raise NoRoomError(f"{task.piece.name} does not fit on {task.paper.title}: {reason}")


def _attempts(task: WholeTask) -> Iterator[Scale]:
    """Scales of the views, from the largest that the paper could hold."""
    low, high = extents_of(task.piece)
    longest = max(b - a for a, b in zip(low, high, strict=True))
    for scale in scales_for(task.piece.shown.is_inch):
        if scale.reduction >= 1 and longest * scale.factor < task.paper.value.width_mm:
            yield scale


def _arranged(
    task: WholeTask,
    lists: tuple[tuple[Listed, ...], _Lists],
    views: WholeViews,
    scale: Scale,
    orientation: Orientation,
    shown: _Shown,
) -> Sheet:
    style = task.style
    begun = framed(task, orientation, scale, True)
    items = list(begun.items)
    region = begun.region
    looks = [look for look in views.blocks if look is not WholeLook.TOP or shown.has_top]
    blocks = {look: _titled(views.blocks[look], look.value, style) for look in looks}
    if lists[0]:
        drawn, region = _with_lists(*lists, region, style)
        items += drawn
    region = region.grown(-4.0)
    if shown is _Shown.WITHOUT_TOP:
        views_placed = _with_picture(task, scale, blocks, region)
        items += [item for block in views_placed for item in block.items]
        return sheet_of(task, orientation, scale, items)
    placed = _in_line(blocks, region, task.fields.projection)
    for block in placed:
        items += block.items
    if shown.has_picture:
        items += _isometric(task, scale, orientation, placed, items).items
    return sheet_of(task, orientation, scale, items)


def _with_picture(
    task: WholeTask, scale: Scale, blocks: dict[WholeLook, Block], region: Box2
) -> list[Block]:
    """The views and the picture: at their right, as high as the front view, or above them.

    Raises:
        NoRoomError: neither leaves the views room, whatever the picture's scale.
    """
    least = _LEAST_PICTURE * blocks[WholeLook.FRONT].core.height
    for picture in _pictures(task, scale, least):
        box = picture.box
        beside = replace(region, right=region.right - box.width - _GAP_MM)
        under = replace(region, top=region.top - box.height - _GAP_MM)
        for room in (beside, under):
            if box.height > region.height or box.width > region.width:
                continue
            try:
                placed = _in_line(blocks, room, task.fields.projection)
            except NoRoomError:
                continue
            low = region.top - box.height
            if room is beside:
                low = min(max(placed[0].box.bottom, region.bottom), low)
            return [*placed, picture.moved(region.right - box.right, low - box.bottom)]
    raise NoRoomError("no room for the isometric")


def _with_lists(
    lists: tuple[Listed, ...], where: _Lists, region: Box2, style: SheetStyle
) -> tuple[list[Item], Box2]:
    """The lists along the foot of the region or down its right side, and the room that is left.

    Raises:
        NoRoomError: they leave none.
    """
    is_under = where is _Lists.UNDER
    room = region.width - 2 * _EDGE_MM
    items, box = lists_stacked(lists, room if is_under else _MOST_BESIDE * room, style)
    needed = box.height + 2 * _EDGE_MM + (_LEAST_VIEWS_MM if is_under else 0.0)
    if needed > region.height or (not is_under and box.width > room - _LEAST_VIEWS_MM):
        raise NoRoomError("the lists leave no room for views")
    if is_under:
        left, top = region.left + _EDGE_MM, region.bottom + _EDGE_MM + box.height
        rest = replace(region, bottom=top + _EDGE_MM)
    else:
        left, top = region.right - _EDGE_MM - box.width, region.top - _EDGE_MM
        rest = replace(region, right=left)
    return [moved_item(item, left, top) for item in items], rest


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
    for block in _pictures(task, scale, _LEAST_PICTURE * placed[0].core.height):
        places = space.free_places(block.box.width, block.box.height, _CLEAR_MM)
        if len(places):
            x, y = (float(value) for value in _roomiest(places, block.box, placed))
            return block.moved(x - block.box.left, y - block.box.bottom)
    raise NoRoomError("no room for the isometric")


def _pictures(task: WholeTask, scale: Scale, least: float) -> Iterator[Block]:
    """The isometric with its title at the views' scale and smaller ones, down to a height [mm]."""
    for smaller in scales_for(task.piece.shown.is_inch):
        if smaller.factor > scale.factor:
            continue
        bare = isometric_block(task.piece, smaller.factor)
        if bare.core.height < least:
            return
        words = WholeLook.ISOMETRIC.value + (f" ({smaller.text})" if smaller != scale else "")
        yield _titled(bare, words, task.style)


def _corners(box: Box2) -> tuple[Point2, ...]:
    return (
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)
    )  # fmt: skip


def _roomiest(places: NDArray[np.float64], box: Box2, placed: list[Block]) -> NDArray[np.float64]:
    """The place nearest to the corner that the three views leave open, else nearest to them."""
    side, last = placed[1], placed[-1]
    wanted = (side.box.centre[0] - box.width / 2, last.box.centre[1] - box.height / 2)
    away = np.abs(places[:, 0] - wanted[0]) + np.abs(places[:, 1] - wanted[1])
    nearest: NDArray[np.float64] = places[int(away.argmin())]
    return nearest


def _in_line_size(blocks: dict[WholeLook, Block]) -> tuple[float, float]:
    """The least width and height of the views in line [mm]."""
    front, side = blocks[WholeLook.FRONT], blocks[WholeLook.SIDE]
    side = side.moved(0.0, front.at[1] - side.at[1])
    tops = [block.moved(front.at[0] - block.at[0], 0.0)
            for look, block in blocks.items() if look is WholeLook.TOP]  # fmt: skip
    first = box_round([block.box for block in (front, *tops)])
    row = box_round([front.box, side.box])
    wide = first.width + side.box.width + _GAP_MM
    return wide, row.height + sum(block.box.height + _GAP_MM for block in tops)


def _in_line(blocks: dict[WholeLook, Block], region: Box2, projection: Projection) -> list[Block]:
    """Front and side in line, the top view, if it is there, in line with the front.

    Raises:
        NoRoomError: they are too wide or too high together.
    """
    front, side = blocks[WholeLook.FRONT], blocks[WholeLook.SIDE]
    side = side.moved(0.0, front.at[1] - side.at[1])
    tops = [block.moved(front.at[0] - block.at[0], 0.0)
            for look, block in blocks.items() if look is WholeLook.TOP]  # fmt: skip
    first_left = min(block.box.left for block in (front, *tops))
    first_wide = max(block.box.right for block in (front, *tops)) - first_left
    row_low = min(front.box.bottom, side.box.bottom)
    row_high = max(front.box.top, side.box.top) - row_low
    wide, high = _in_line_size(blocks)
    if wide > region.width or high > region.height:
        raise NoRoomError("the views do not fit")
    between_x = _GAP_MM + min((region.width - wide) / 3, 30.0)
    between_y = _GAP_MM + min((region.height - high) / 3, 20.0)
    left = region.left + (region.width - wide - between_x + _GAP_MM) / 2
    spare = (region.height - high) / 2
    low = region.bottom + spare - sum((between_y - _GAP_MM) / 2 for _ in tops)
    is_third = projection is Projection.THIRD_ANGLE
    under = 0.0 if is_third else sum(block.box.height + between_y for block in tops)
    row_at = low + under
    top_at = low + row_high + between_y if is_third else low
    return [
        front.moved(left - first_left, row_at - row_low),
        side.moved(left + first_wide + between_x - side.box.left, row_at - row_low),
        *(block.moved(left - first_left, top_at - block.box.bottom) for block in tops),
    ]


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
