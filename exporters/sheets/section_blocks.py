"""Sections through the whole piece, each a block with the places of the others and of details."""

from __future__ import annotations

import math
from collections.abc import Sequence
from contextlib import suppress
from itertools import pairwise

from exporters.sheets.blocks import Block, heading, view_block
from exporters.sheets.callouts import NoRoomError, place_callout, place_first_free
from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.geometry import item_box, lettering_box, shape_points
from exporters.sheets.hatches import hatches_of
from exporters.sheets.joint_details import JointDetail
from exporters.sheets.opened_lids import opened_items, turning_in
from exporters.sheets.paper import Box2, Scale
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.section_planes import Plane, Sectioned
from exporters.sheets.space import Space, crosses_box
from exporters.sheets.values import Anchor, Item, Lettering, Stroke
from exporters.views.values import Arc, EdgeClass
from furniture.joints.joint import Role
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece, Stance, placed_named
from furniture.units import figure

_CLEAR_MM = 0.5
_ROUND_MM = 60.0
"""Room round a section in which its words may stand. Own rule."""
_MARK_REACHES_MM = (7.0, 11.0, 15.0, 19.0, 23.0)
"""How far the ends of a cutting line may reach past a section, the nearest first. Own rule."""


def section_blocks(
    piece: Piece,
    sections: Sectioned,
    scales: Sequence[Scale],
    style: SheetStyle,
    told: Scale | None = None,
) -> list[Block]:
    """Each section with its title and its words, showing where others are; its origin at 0, 0.

    Each is drawn at the first of these scales at which its words stand clear, and says it where it
    is not that of its sheet.

    Args:
        piece: what is cut.
        sections: where.
        scales: that they may have, best first.
        style: pens and heights.
        told: by the sheet; left out, the first.

    Raises:
        NoRoomError: a section's words find no room round it at any of them.
    """
    whole = [plane for plane in sections.planes if plane.is_whole]
    return [_at_any(piece, sections, plane, scales, style, told or scales[0]) for plane in whole]


def _at_any(
    piece: Piece,
    sections: Sectioned,
    plane: Plane,
    scales: Sequence[Scale],
    style: SheetStyle,
    told: Scale,
) -> Block:
    """The section at the first of these scales at which its words stand clear."""
    *others, last = scales
    for scale in others:
        with suppress(NoRoomError):
            return _section_block(piece, sections, plane, scale, style, told)
    return _section_block(piece, sections, plane, last, style, told)


def _section_block(
    piece: Piece,
    sections: Sectioned,
    plane: Plane,
    scale: Scale,
    style: SheetStyle,
    told: Scale,
) -> Block:
    block = view_block(
        plane.section.view,
        scale.factor,
        classes=(EdgeClass.VISIBLE,),
        cut=plane.section.cut,
        hatches=hatches_of(piece, plane.section.view.frame),
    )
    core = block.core
    block = block.with_items(list(opened_items(piece, plane.axis, block)))
    details = [each for at, each in sections.details if at is plane]
    circles = [_circle(block, each) for each in details]
    lines: list[Item] = []
    for other in sections.planes:
        if plane.marks(other):
            lines += _cutting_line(block, other, circles, style)
    block = block.with_items([*lines, *circles])
    _check_marks(plane, lines, block)
    space = Space(block.box.grown(_ROUND_MM))
    space.add(block.items)
    block = block.with_items([_letter(block, each, space, style) for each in details])
    middle = (core.left + core.right) / 2
    opened = "".join(
        f", {each.instance} open by {each.opens_deg:g}°" for each in turning_in(piece, plane.axis)
    )
    own = "" if scale == told else f" ({scale.text})"
    words = f"{plane.words}{opened}{own}"
    block = block.with_items([heading(words, middle, block.box.bottom, style)])
    space.add(block.items)
    if plane is sections.planes[0]:
        for words, target in _heights(piece, plane.at_mm):
            at = block.to_paper(target)
            block = block.with_items(place_callout(words, at, space, style, [core]))
    return block


def _check_marks(plane: Plane, marks: Sequence[Item], block: Block) -> None:
    """Whether every letter of a cutting line can be read.

    Raises:
        NoRoomError: a line runs through one of them.
    """
    drawn = [
        line
        for item in block.items
        if isinstance(item, Stroke)
        for line in pairwise(shape_points(item.shape))
    ]
    for mark in marks:
        if isinstance(mark, Lettering):
            box = lettering_box(mark).grown(_CLEAR_MM / 2)
            if any(crosses_box(*line, box) for line in drawn):
                raise NoRoomError(f"no room for the letters round {plane.words}")


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
