"""A glue-up drawn into its room: the parts apart, the lines they come along, and their names."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.sheets.blocks import Block, picture_of
from exporters.sheets.geometry import items_box, moved_item, scaled_shape
from exporters.sheets.glue_shown import GlueUpShown
from exporters.sheets.paper import Box2
from exporters.sheets.part_names import names_of
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.set_up_picture import Picture
from exporters.sheets.values import Item, Stroke
from exporters.views.glue_up import OpenedView
from exporters.views.project import project_placed

_NAMES_BESIDE_MM = 14.0
"""How far a name may stand out beside a small picture. Own rule."""


def glue_up_pictures(
    shown: GlueUpShown, style: SheetStyle, size_mm: tuple[float, float]
) -> tuple[Picture, ...]:
    """What comes together, drawn apart, and what is then together, both to one scale.

    Args:
        shown: a glue-up; one without a picture gives none.
        style: pens and heights.
        size_mm: how wide and how high either may be, without names that stand out beside it.

    Raises:
        SolidError: a part cannot be made.
    """
    if shown.picture is None:
        return ()
    wide, high = size_mm
    beside = _NAMES_BESIDE_MM
    factor = min(_factor(shown.picture, wide, high), 1.0)
    block = _block(shown.picture, factor)
    room = Box2(left=-beside, bottom=-beside, right=wide + beside, top=high + beside)
    middle = (wide / 2 - block.box.centre[0], high / 2 - block.box.centre[1])
    apart = _with_names(shown.picture, block.moved(*middle), room, style)
    frame = shown.picture.view.frame
    together = picture_of(project_placed(shown.placed, frame), factor)
    return (_picture(apart), _picture(together.items))


def _picture(items: Sequence[Item]) -> Picture:
    around = items_box(items)
    return Picture(
        items=tuple(moved_item(item, -around.left, -around.bottom) for item in items),
        width=around.width,
        height=around.height,
    )


def named_picture(opened: OpenedView, room: Box2, style: SheetStyle) -> list[Item]:
    """The picture as large as its room allows, with the names of what comes in.

    It stands at the top of its room, beside the first words.

    Args:
        opened: what comes together.
        room: on paper [mm].
        style: pens and heights.
    """
    block = _block(opened, min(_factor(opened, room.width, room.height), 1.0))
    across, up = room.centre[0] - block.box.centre[0], room.top - block.box.top
    return _with_names(opened, block.moved(across, up), room, style)


def _factor(opened: OpenedView, wide: float, high: float) -> float:
    """The scale at which the picture just fills its room."""
    bare = _block(opened, 1.0).box
    return min(wide / bare.width, high / bare.height)


def _with_names(opened: OpenedView, block: Block, room: Box2, style: SheetStyle) -> list[Item]:
    (dx, dy), factor = block.at, block.factor
    corners = {
        each.instance: tuple((dx + u * factor, dy + v * factor) for u, v in each.corners)
        for each in opened.parts
    }
    return [*block.items, *names_of(opened.parts, corners, block.items, room, style)]


def _block(opened: OpenedView, factor: float) -> Block:
    """The parts and the lines that they come along."""
    return picture_of(opened.view, factor).with_items(
        [
            Stroke(shape=scaled_shape(line, factor), line_class=LineClass.CENTRE)
            for line in opened.trails
        ]
    )
