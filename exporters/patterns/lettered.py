"""The words on a stretch of a pattern, where there is room for them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import Any

from shapely.geometry import LineString, MultiLineString

from exporters.patterns.pattern import NamedLine, Note, Pattern
from exporters.patterns.tiles import Cross, cross_strokes
from exporters.sheets.callouts import NoRoomError, place_first_free, place_nearest
from exporters.sheets.clip import clipped_shape, inside_box
from exporters.sheets.geometry import lettering_box, shape_points
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space
from exporters.sheets.values import Anchor, Filled, Item, Lettering, Stroke
from furniture.parts.vectors import Point2

_REACH_MM = 4.5
"""What is shown of a point stands so far inside the window: a cross whole, an arrow's head."""
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
_TOUCH_MM = 0.05
_APART_MM = 4.0


def lettered(
    pattern: Pattern, crosses: Sequence[Cross], window: Box2, style: SheetStyle
) -> list[Item]:
    """What a window of the pattern shows, in the pattern's own plane: lines, crosses, words.

    Words that find no room are left out: the part's own sheet says them too.

    Args:
        pattern: at true size.
        crosses: registration marks.
        window: what is shown [mm].
        style: pens and heights.
    """
    region = inside_box(window)
    lines = [
        Stroke(shape=shape, line_class=each.line_class)
        for each in pattern.strokes
        for shape in clipped_shape(each.shape, region)
    ]
    inner = window.grown(-_REACH_MM)
    shown = [cross for cross in crosses if _holds(inner, cross.at)]
    items: list[Item] = [*lines]
    for cross in shown:
        items += cross_strokes(cross.at)
    space = Space(window)
    space.add(items)
    for cross in shown:
        items += _cross_letter(cross, space, style)
    for note in pattern.notes:
        items += _noted(note, inner, space, style, pattern.core)
    drawn = MultiLineString(
        [shape_points(each.shape) for each in lines if each.line_class is LineClass.VISIBLE]
    )
    for named in pattern.named:
        items += _named(named, drawn, inner, space, style, pattern.core)
    return items


def _holds(box: Box2, at: Point2) -> bool:
    return box.left <= at[0] <= box.right and box.bottom <= at[1] <= box.top


def _cross_letter(cross: Cross, space: Space, style: SheetStyle) -> list[Item]:
    x, y = cross.at
    height = style.heading_height_mm
    tries = []
    level = -height / 2
    for away, ups in ((1.5, (1.0, -1.0)), (3.0, (0.0,)), (3.0, (1.0, -1.0)), (5.0, (1.0, -1.0))):
        up = {1.0: away + 1.0, 0.0: level, -1.0: -away - height - 1.0}
        for dy, dx in product(ups, (1.0, -1.0)):
            anchor = Anchor.LEFT if dx > 0 else Anchor.RIGHT
            at = (x + dx * (away + (1.0 if dy else 2.0)), y + up[dy])
            text = Lettering(text=cross.letter, at=at, height=height, anchor=anchor)
            tries.append((text, lettering_box(text)))
    found = place_first_free(tries, space, 0.4)
    return [found] if found else []


def _noted(note: Note, inner: Box2, space: Space, style: SheetStyle, core: Box2) -> list[Item]:
    points = [point for point in note.points if _holds(inner, point)]
    if not points:
        return []
    text = f"{note.shared}{note.text}" if len(points) > 1 else note.text
    return _said(text, points, space, style, core)


def _named(
    named: NamedLine, drawn: Any, inner: Box2, space: Space, style: SheetStyle, core: Box2
) -> list[Item]:
    """A line's name at the middle of the stretch that this page shows, or elsewhere along it."""
    shown = inside_box(inner).intersection(inside_box(core))
    rest = LineString([named.start, named.end]).intersection(shown)
    if rest.is_empty or rest.length <= 0.0:
        return []
    spots = [rest.interpolate(share, normalized=True) for share in _SHARES]
    on_wood = [(spot.x, spot.y) for spot in spots if drawn.distance(spot) < _TOUCH_MM]
    return _said(named.text, on_wood, space, style, core)


def _said(
    text: str, points: list[Point2], space: Space, style: SheetStyle, core: Box2
) -> list[Item]:
    """The words outside the wood, else inside it, at whichever point they can stand best."""
    for keep_out in ([core], []):
        try:
            said = place_nearest(text, points, space, style, keep_out)
        except NoRoomError:
            continue
        space.add(_kept_clear(said))
        return said
    return []


def _kept_clear(said: Sequence[Item]) -> list[Item]:
    """Room beside words, so that two that stand in one line are not read as one sentence."""
    room = []
    for box in (
        lettering_box(item).grown(_APART_MM) for item in said if isinstance(item, Lettering)
    ):
        corners = (
            (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top),
            (box.left, box.top),
        )  # fmt: skip
        room.append(Filled(corners=corners, line_class=LineClass.TEXT))
    return list(room)
