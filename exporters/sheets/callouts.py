"""Callouts: words beside a view and a leader to the feature, placed where there is room."""

from __future__ import annotations

import math

from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space, crosses_box
from exporters.sheets.values import Item, Lettering
from furniture.errors import KnifewallError
from furniture.parts.vectors import Point2

LINE_SHARE = 1.55
"""From one base line to the next, as a share of the height of a capital."""
_LANDING_MM = 2.5
_TRIED_PLACES = 900


class NoRoomError(KnifewallError, ValueError):
    """There is no free place on the sheet for something that must stand on it."""


def text_lines(
    lines: tuple[str, ...], left: float, top: float, style: SheetStyle
) -> list[Lettering]:
    """Lines of text under each other, from the top down [mm]."""
    height = style.text_height_mm
    return [
        Lettering(text=line, at=(left, top - height - index * height * LINE_SHARE), height=height)
        for index, line in enumerate(lines)
    ]


def lines_size(lines: tuple[str, ...], style: SheetStyle) -> tuple[float, float]:
    """Width and height of lines of text [mm]."""
    height = style.text_height_mm
    wide = max(text_width(line, height) for line in lines)
    return wide, height * (1 + (len(lines) - 1) * LINE_SHARE + 0.32)


def place_callout(
    text: str,
    target: Point2,
    space: Space,
    style: SheetStyle,
    keep_out: list[Box2],
    *,
    has_leader: bool = True,
) -> list[Item]:
    """The callout's texts and leaders, already noted in the space.

    The nearest place wins whose leader crosses no text; each dimension line it would cross counts
    as a detour.

    Args:
        text: one paragraph; it is broken into lines.
        target: where the leader runs to [mm].
        space: of the sheet.
        style: pens and heights.
        keep_out: rectangles where no text may stand (the parts themselves) [mm].
        has_leader: without one the words stand near the target.

    Raises:
        NoRoomError: there is no such place.
    """
    best = _best_of(text, target, space, style, keep_out, has_leader)
    if best is None:
        raise NoRoomError(f"no room for: {text}")
    space.add(best[1])
    return best[1]


def place_nearest(
    text: str,
    targets: list[Point2],
    space: Space,
    style: SheetStyle,
    keep_out: list[Box2],
) -> list[Item]:
    """The callout with a leader to whichever of its targets it can stand beside best.

    Args:
        text: one paragraph.
        targets: equal features, one of which is pointed at [mm].
        space: of the sheet.
        style: pens and heights.
        keep_out: rectangles where no text may stand [mm].

    Raises:
        NoRoomError: there is no place for it.
    """
    found = [_best_of(text, target, space, style, keep_out, True) for target in targets]
    best = min((each for each in found if each is not None), key=lambda each: each[0], default=None)
    if best is None:
        raise NoRoomError(f"no room for: {text}")
    space.add(best[1])
    return best[1]


def _best_of(
    text: str,
    target: Point2,
    space: Space,
    style: SheetStyle,
    keep_out: list[Box2],
    has_leader: bool,
) -> tuple[float, list[Item]] | None:
    best: tuple[float, list[Item]] | None = None
    for line_width in (34.0, 55.0, 90.0):
        lines = wrapped(text, style.text_height_mm, line_width)
        found = _best_place(lines, target, space, style, keep_out, has_leader)
        if found is not None and (best is None or found[0] < best[0] - 3.0):
            best = found
    return best


def _best_place(
    lines: tuple[str, ...],
    target: Point2,
    space: Space,
    style: SheetStyle,
    keep_out: list[Box2],
    has_leader: bool,
) -> tuple[float, list[Item]] | None:
    wide, high = lines_size(lines, style)
    places = space.free_places(wide + 2 * _LANDING_MM, high, style.text_clearance_mm)
    left, low = places[:, 0] + _LANDING_MM, places[:, 1]
    for other in keep_out:  # before the nearest are picked: a large view would use them all up
        apart = (left >= other.right) | (left + wide <= other.left)
        apart |= (low >= other.top) | (low + high <= other.bottom)
        places, left, low = places[apart], left[apart], low[apart]
    if not len(places):
        return None
    x = places[:, 0] + _LANDING_MM + wide / 2
    y = places[:, 1] + high / 2
    near_x = abs(x - target[0]) - wide / 2
    distance = (near_x.clip(0.0) ** 2 + (abs(y - target[1]) - high / 2).clip(0.0) ** 2) ** 0.5
    best: tuple[float, list[Item]] | None = None
    order = distance.argsort(kind="stable")[:_TRIED_PLACES]
    for index in order:
        reach = float(distance[index])
        if best is not None and reach >= best[0]:
            break
        corner = (float(places[index, 0]) + _LANDING_MM, float(places[index, 1]))
        box = Box2(left=corner[0], bottom=corner[1], right=corner[0] + wide, top=corner[1] + high)
        tried = _leader(box, lines, target, space, style) if has_leader else (0.0, [])
        if tried is None:
            continue
        cost = reach + tried[0] + (6.0 if reach < 5.0 else 0.0)
        if best is None or cost < best[0]:
            best = (cost, [*text_lines(lines, box.left, box.top, style), *tried[1]])
    return best


def _leader(
    box: Box2,
    lines: tuple[str, ...],
    target: Point2,
    space: Space,
    style: SheetStyle,
) -> tuple[float, list[Item]] | None:
    """The leader from one end of the first line, and what it costs; none when it hits a text."""
    height = style.text_height_mm
    level = box.top - height / 2
    first_end = box.left + text_width(lines[0], height)
    best: tuple[float, list[Item]] | None = None
    for start, outward in (((box.left - 0.8, level), -1.0), ((first_end + 0.8, level), 1.0)):
        elbow = (start[0] + outward * (_LANDING_MM - 0.8), level)
        run = (target[0] - elbow[0], target[1] - elbow[1])
        if math.hypot(*run) < 3.0 or run[0] * outward < -0.2 * abs(run[1]):
            continue
        if crosses_box(elbow, target, box.grown(0.6)) or space.crosses_text(elbow, target, 0.5):
            continue
        slope = math.degrees(math.atan2(abs(run[1]), abs(run[0])))
        thin, drawn = space.lines_crossed(elbow, target)
        cost = 8.0 * thin + 5.0 * drawn
        cost += 10.0 if slope < 12 or slope > 80 else 0.0
        if best is None or cost < best[0]:
            items: list[Item] = [
                stroke(start, elbow, LineClass.LEADER),
                stroke(elbow, target, LineClass.LEADER),
                arrowhead(target, run, style, LineClass.LEADER),
            ]
            best = (cost, items)
    return best


def place_first_free(
    candidates: list[tuple[Lettering, Box2]], space: Space, clearance: float
) -> Lettering | None:
    """The first text whose box stands free, noted in the space; none when no place is free.

    Args:
        candidates: texts with their boxes, best first.
        space: of the sheet.
        clearance: to anything drawn [mm].
    """
    for text, box in candidates:
        if space.is_free(box, clearance):
            space.add([text])
            return text
    return None
