"""Marks on a part's views: letters of details and of groups, the arrow along the grain."""

from __future__ import annotations

from exporters.sheets.annotation import Look
from exporters.sheets.arrange import Arrangement
from exporters.sheets.blocks import Block
from exporters.sheets.callouts import NoRoomError, place_first_free
from exporters.sheets.details import Detail, circle_on_view
from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.geometry import lettering_box
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Item, Lettering

_GRAIN_LENGTH_MM = 20.0


def detail_mark(
    detail: Detail, block: Block, room: Box2, space: Space, style: SheetStyle
) -> list[Item]:
    """The circle round what a detail shows, and its letter beside it."""
    circle, box = circle_on_view(block, detail)
    if not room.holds(box.grown(0.5)):
        raise NoRoomError(f"no room for the circle of detail {detail.letter}")
    space.add([circle])
    height = style.heading_height_mm
    x, y = box.centre
    tries = []
    for away in (0.8, 2.0, 3.5):
        for dx, dy in ((0.8, 0.8), (-0.8, 0.8), (0.8, -0.8), (-0.8, -0.8), (0.0, 1.0), (0.0, -1.0)):
            reach = box.width / 2 + away + height / 2
            at = (x + dx * reach, y + dy * reach - height / 2)
            tries.append(_lettering(detail.letter, at, height, Anchor.CENTRE, False))
    return [circle, _free(tries, f"letter {detail.letter}", space, 0.4)]


def tag(
    letter: str, target: tuple[float, float], block: Block, space: Space, style: SheetStyle
) -> Lettering:
    """The letter of a group beside one of its members, outside the view or inside."""
    height, core = style.text_height_mm, block.core
    tries = []
    for away in (2.4, 3.2, 4.0):
        for dx, dy in ((1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0), (0.0, 1.4), (0.0, -1.4)):
            at = (target[0] + dx * away, target[1] + dy * away - height / 2)
            tries.append(_lettering(letter, at, height, Anchor.CENTRE, False))
    for step in (1.2, 2.4, 4.0, 6.0):
        for dx in (0.0, 1.5, -1.5, 3.0, -3.0):
            for y in (core.bottom - step - height, core.top + step):
                tries.append(_lettering(letter, (target[0] + dx, y), height, Anchor.CENTRE, False))
    return _free(tries, f"tag {letter}", space, 0.4)


def _lettering(
    text: str, at: tuple[float, float], height: float, anchor: Anchor, is_turned: bool
) -> Lettering:
    return Lettering(text=text, at=at, height=height, anchor=anchor, is_turned=is_turned)


def _free(tries: list[Lettering], text: str, space: Space, clearance: float) -> Lettering:
    found = place_first_free([(each, lettering_box(each)) for each in tries], space, clearance)
    if found is None:
        raise NoRoomError(f"no room for: {text}")
    return found


def grain_arrow(face: Block, placed: Arrangement, space: Space, style: SheetStyle) -> list[Item]:
    """A double arrow along the grain, inside the face side where that is free.

    It stands without a word: with one it looked like a dimension.
    """
    half = _GRAIN_LENGTH_MM / 2
    size = (_GRAIN_LENGTH_MM, style.text_height_mm)
    places = space.free_places(*size, 0.8)
    core = face.core
    cx, cy = core.centre
    xs, ys = places[:, 0], places[:, 1]
    inside = (xs > core.left) & (xs + size[0] < core.right)
    inside &= (ys > core.bottom) & (ys + size[1] < core.top)
    away = abs(xs + size[0] / 2 - cx) + abs(ys + size[1] / 2 - cy) + (~inside) * 200.0
    others = [block.core for look, block in placed.blocks.items() if look is not Look.FACE_SIDE]
    others += [block.core for block in placed.others]
    for index in away.argsort(kind="stable"):
        left, low = float(xs[index]), float(ys[index])
        box = Box2(left=left, bottom=low, right=left + size[0], top=low + size[1])
        if not any(box.overlaps(other) for other in others):
            x, y = box.centre
            break
    else:
        raise NoRoomError("no room for the grain arrow")
    items: list[Item] = [stroke((x - half, y), (x + half, y), LineClass.GRAIN)]
    for sign in (-1.0, 1.0):
        items.append(arrowhead((x + sign * half, y), (sign, 0.0), style, LineClass.GRAIN))
    space.add(items)
    return items
