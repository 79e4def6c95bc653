"""Sections through the whole piece, and its joints drawn large with their figures."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import permutations

from exporters.sheets.blocks import Block, heading, view_block
from exporters.sheets.callouts import NoRoomError, place_callout, place_first_free
from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.geometry import item_box, lettering_box
from exporters.sheets.hatches import hatches_of
from exporters.sheets.joint_details import JointDetail
from exporters.sheets.paper import Box2, Orientation, Scale, frame_of, scales_for
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.section_planes import Plane, Sectioned
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Item, Lettering, Sheet, Stroke
from exporters.sheets.whole_task import WholeTask, framed, sheet_of
from exporters.views.values import Arc, EdgeClass
from furniture.joints.joint import Role
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece, Stance, placed_named
from furniture.units import figure

_GAP_MM = 12.0
_CLEAR_MM = 0.5
_MARK_REACHES_MM = (7.0, 11.0, 15.0, 19.0, 23.0)
"""How far the ends of a cutting line may reach past a section, the nearest first. Own rule."""


def section_sheet(task: WholeTask, sections: Sectioned) -> Sheet:
    """The sheet with the sections at the largest scale that fits, each showing where others are.

    Args:
        task: what to draw.
        sections: where the piece is cut.

    Raises:
        NoRoomError: they do not fit at any standard scale.
    """
    reason = "no scale is small enough"
    for scale in scales_for(task.piece.shown.is_inch):
        if scale.reduction < 1:
            continue
        blocks = _blocks(task, sections, scale)
        for orientation in Orientation:
            try:
                return _sheet(task, scale, orientation, blocks, sections)
            except NoRoomError as error:
                reason = str(error)
    raise NoRoomError(f"the sections do not fit on {task.paper.title}: {reason}")


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A plane and its section on paper."""

    plane: Plane
    block: Block


def _blocks(task: WholeTask, sections: Sectioned, scale: Scale) -> list[_Drawn]:
    hatches, style = hatches_of(task.piece), task.style
    made = []
    for plane in sections.planes:
        if not plane.is_whole:
            continue
        block = view_block(
            plane.section.view,
            scale.factor,
            classes=(EdgeClass.VISIBLE,),
            cut=plane.section.cut,
            hatches=hatches,
        )
        circles = [_circle(block, each) for at, each in sections.details if at is plane]
        lines: list[Item] = []
        for other in sections.planes:
            if (plane.axis == 2) != (other.axis == 2) and plane.axis != 1:
                lines += _cutting_line(block, other, circles, style)
        block = block.with_items([*lines, *circles])
        middle = (block.core.left + block.core.right) / 2
        title = heading(plane.words, middle, block.box.bottom, style)
        made.append(_Drawn(plane, block.with_items([title])))
    return made


def _cutting_line(
    block: Block, other: Plane, circles: Sequence[Stroke], style: SheetStyle
) -> list[Item]:
    """Two strong ends of another section's line, its letter, and arrows the way it looks.

    They reach as far out as leaves their letters clear of the circles round joints.
    """
    core = block.core
    away = tuple(-value for value in _towards_eye(other))
    x, y = block.to_paper(other.point)
    origin = block.to_paper((0.0, 0.0, 0.0))
    tip = block.to_paper((away[0], away[1], away[2]))
    way = (tip[0] - origin[0], tip[1] - origin[1])
    is_upright = abs(way[0]) > abs(way[1])
    at = x if is_upright else y
    sign = 1.0 if (way[0] if is_upright else way[1]) > 0 else -1.0
    ends = (
        ((core.bottom, -1.0), (core.top, 1.0))
        if is_upright
        else ((core.left, -1.0), (core.right, 1.0))
    )
    items: list[Item] = []
    for edge, out in ends:
        marks: list[Item] = []
        for reach in _MARK_REACHES_MM:
            letter = _mark_letter(other, edge + out * reach, out, at, sign, is_upright, style)
            marks = [*_mark(edge + out, edge + out * reach, at, sign, is_upright, style), letter]
            if not any(_is_crossed(lettering_box(letter), circle) for circle in circles):
                break
        items += marks
    return items


def _mark(
    near: float, far: float, at: float, sign: float, is_upright: bool, style: SheetStyle
) -> list[Item]:
    """A strong end of a cutting line, and its arrow."""

    def put(along: float, across: float) -> tuple[float, float]:
        return (at + across, along) if is_upright else (along, at + across)

    direction = (sign, 0.0) if is_upright else (0.0, sign)
    return [
        stroke(put(near, 0.0), put(far, 0.0), LineClass.CUTTING_PLANE),
        stroke(put(far, 0.0), put(far, 5.0 * sign), LineClass.DIMENSION),
        arrowhead(put(far, 5.0 * sign), direction, style),
    ]


def _mark_letter(
    other: Plane,
    far: float,
    out: float,
    at: float,
    sign: float,
    is_upright: bool,
    style: SheetStyle,
) -> Lettering:
    """The letter behind the arrow at a strong end."""
    height = style.heading_height_mm
    back = at - sign * (1.2 + height * (0.4 if is_upright else 0.0))
    along = far - out * height * 0.5
    lx, ly = (back, along) if is_upright else (along, back)
    if is_upright:
        ly -= height / 2
    elif sign > 0:
        ly -= height
    return Lettering(text=other.letter, at=(lx, ly), height=height, anchor=Anchor.CENTRE)


def _is_crossed(box: Box2, circle: Stroke) -> bool:
    """Whether a box comes within a hair of a circle or lies in it."""
    assert isinstance(circle.shape, Arc)
    (x, y), radius = circle.shape.centre, circle.shape.radius
    dx = max(box.left - x, 0.0, x - box.right)
    dy = max(box.bottom - y, 0.0, y - box.top)
    return math.hypot(dx, dy) < radius + _CLEAR_MM


def _towards_eye(plane: Plane) -> Vector:
    return plane.section.view.frame.towards_eye


def _sheet(
    task: WholeTask,
    scale: Scale,
    orientation: Orientation,
    blocks: list[_Drawn],
    sections: Sectioned,
) -> Sheet:
    begun = framed(task, orientation, scale, False)
    placed = _placed(blocks, begun.region.grown(-6.0))
    items: list[Item] = list(begun.items)
    for each in placed:
        items += each.block.items
    space = Space(frame_of(task.paper, orientation))
    space.add(items)
    circled = [
        (next(each.block for each in placed if each.plane is plane), detail)
        for plane, detail in sections.details
        if plane.is_whole
    ]
    items += [_letter(block, detail, space, task.style) for block, detail in circled]
    cores = [each.block.core for each in placed]
    upright = next(each.block for each in placed if each.plane.axis == 0)
    for words, target in _heights(task.piece, sections.planes[0].at_mm):
        items += place_callout(words, upright.to_paper(target), space, task.style, cores)
    return sheet_of(task, orientation, scale, items)


def _placed(blocks: list[_Drawn], room: Box2) -> list[_Drawn]:
    """The sections in columns, the fewest that hold them."""
    for order in permutations(range(len(blocks))):
        for count in range(1, len(blocks) + 1):
            for columns in _splits(list(order), count):
                found = _in_columns(blocks, columns, room)
                if found is not None:
                    return found
    raise NoRoomError("the sections do not fit")


def _splits(order: list[int], count: int) -> list[list[list[int]]]:
    """Every way to cut a list into `count` runs that are not empty."""
    if count == 1:
        return [[order]]
    return [
        [order[:at], *rest]
        for at in range(1, len(order))
        for rest in _splits(order[at:], count - 1)
        if len(order) - at >= count - 1
    ]


def _in_columns(blocks: list[_Drawn], columns: list[list[int]], room: Box2) -> list[_Drawn] | None:
    boxes = [[blocks[index].block.box for index in column] for column in columns]
    widths = [max(box.width for box in column) for column in boxes]
    heights = [sum(box.height for box in column) + _GAP_MM * (len(column) - 1) for column in boxes]
    wide = sum(widths) + _GAP_MM * (len(columns) - 1)
    if wide > room.width or max(heights) > room.height:
        return None
    spare = (room.width - wide) / (len(columns) + 1)
    x = room.left + spare
    made: dict[int, _Drawn] = {}
    for column, width, high in zip(columns, widths, heights, strict=True):
        between = (room.height - high) / (len(column) + 1)
        y = room.top - between
        for index in column:
            block = blocks[index].block
            dx = x + width / 2 - block.box.centre[0]
            made[index] = replace(blocks[index], block=block.moved(dx, y - block.box.top))
            y -= block.box.height + _GAP_MM + between
        x += width + _GAP_MM + spare
    return [made[index] for index in range(len(blocks))]


def _circle(block: Block, detail: JointDetail) -> Stroke:
    """The circle round a joint that is drawn large elsewhere."""
    (u, v), radius = detail.circle
    centre = (block.at[0] + u * block.factor, block.at[1] + v * block.factor)
    size = max(radius * block.factor, 2.5)
    arc = Arc(centre=centre, radius=size, start_deg=0.0, end_deg=360.0)
    return Stroke(shape=arc, line_class=LineClass.DETAIL)


def _letter(block: Block, detail: JointDetail, space: Space, style: SheetStyle) -> Item:
    """The letter beside a joint's circle."""
    box, height = item_box(_circle(block, detail)), style.heading_height_mm
    x, y = box.centre
    tries = []
    for away in (1.0, 2.5, 4.5, 7.0, 10.0):
        for dx, dy in ((0.75, 0.75), (0.75, -0.75), (-0.75, 0.75), (-0.75, -0.75),
                       (1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)):  # fmt: skip
            reach = box.width / 2 + away + height / 2
            at = (x + dx * reach, y + dy * reach - height / 2)
            text = Lettering(text=detail.letter, at=at, height=height, anchor=Anchor.CENTRE)
            tries.append((text, lettering_box(text)))
    found = place_first_free(tries, space, 0.5)
    if found is None:
        raise NoRoomError(f"no room for the letter of detail {detail.letter}")
    return found


def _heights(piece: Piece, at_mm: float) -> list[tuple[str, Vector]]:
    """Where rims are planed flush after glue-up: their height as cut, and after."""
    found: list[tuple[str, Vector]] = []
    floor = "floor" if piece.stance is Stance.FLOOR else "lowest point"
    for joining in piece.joinings:
        rests = any(each.normal[2] < -0.99 and each.play_mm == 0.0 for each in joining.faces)
        into, incoming = placed_named(piece, joining.into), placed_named(piece, joining.incoming)
        low, high = box_of(into.part.blank, into.placement)
        _, top = box_of(incoming.part.blank, incoming.placement)
        proud = high[2] - top[2]
        is_rim = joining.role is Role.RIM and 0.02 < proud < 3.0
        if rests and is_rim and low[0] < at_mm < high[0] and not found:
            shown = piece.shown
            words = (
                f"rim: {figure(high[2], shown)} above the {floor} as cut, "
                f"{figure(top[2], shown)} when planed flush with the {joining.incoming}"
            )
            found.append((words, (at_mm, low[1], high[2])))
    return found
