"""Callouts: words beside a view and a leader to the feature, placed where there is room."""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space, meet_boxes
from exporters.sheets.values import Item, Lettering, Stroke
from exporters.views.values import Line
from furniture.errors import KnifewallError
from furniture.parts.vectors import Point2

LINE_SHARE = 1.55
"""From one base line to the next, as a share of the height of a capital."""
CLOSE_SHARE = 1.33
"""The same in lists and cells, which rules hold apart: closer than beside a drawing. Own rule."""
_LANDING_MM = 2.5
_WIDTHS_MM = (34.0, 55.0, 90.0)
_OTHER_WIDTHS_MM = (24.0, 29.0, 39.0, 45.0)
FAR_MM = 50.0
"""A longer leader is likely to cross a view: then other widths of the words are tried too."""
_LEAST_SLANT = 0.25
"""A leader that has to come one way slants so much that way at least, of its length. Own rule."""
_TRIED_PLACES = 900
_AT_ONCE = 60


class NoRoomError(KnifewallError, ValueError):
    """There is no free place on the sheet for something that must stand on it."""


class NoRoomForWordsError(NoRoomError):
    """What is drawn has room, and words that are led to it have none."""


def text_lines(
    lines: tuple[str, ...], left: float, top: float, style: SheetStyle, share: float = LINE_SHARE
) -> list[Lettering]:
    """Lines of text under each other, from the top down [mm]; `share` of a capital apart."""
    height = style.text_height_mm
    return [
        Lettering(text=line, at=(left, top - height - index * height * share), height=height)
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
    best = _best_of(text, target, space, style, keep_out, has_leader, math.inf)
    return _noted(best, text, space)


def place_nearest(
    text: str,
    targets: list[Point2],
    space: Space,
    style: SheetStyle,
    keep_out: list[Box2],
    way: Point2 | None = None,
) -> list[Item]:
    """The callout with a leader to whichever of its targets it can stand beside best.

    Args:
        text: one paragraph.
        targets: equal features, one of which is pointed at [mm].
        space: of the sheet.
        style: pens and heights.
        keep_out: rectangles where no text may stand [mm].
        way: the leader comes along it, a unit vector; none lets it come from anywhere.

    Raises:
        NoRoomError: there is no place for it.
    """
    best: tuple[float, list[Item]] | None = None
    for target in targets:
        below = math.inf if best is None else best[0]
        best = _best_of(text, target, space, style, keep_out, True, below, way) or best
    return _noted(best, text, space)


def _noted(best: tuple[float, list[Item]] | None, text: str, space: Space) -> list[Item]:
    """What is drawn at the best place, noted in the space.

    Raises:
        NoRoomForWordsError: there is no such place.
    """
    if best is None:
        raise NoRoomForWordsError(f"no room for: {text}")
    space.add(best[1])
    return best[1]


def _best_of(
    text: str,
    target: Point2,
    space: Space,
    style: SheetStyle,
    keep_out: list[Box2],
    has_leader: bool,
    below: float,
    way: Point2 | None = None,
) -> tuple[float, list[Item]] | None:
    """The best place that costs less than `below`, and what is drawn there."""
    best: tuple[float, list[Item]] | None = None
    tried: set[tuple[str, ...]] = set()
    for line_width in (*_WIDTHS_MM, *_OTHER_WIDTHS_MM):
        if line_width in _OTHER_WIDTHS_MM and best is not None and best[0] <= FAR_MM:
            break
        lines = wrapped(text, style.text_height_mm, line_width)
        if lines not in tried:
            tried.add(lines)
            most = below if best is None else best[0] - 3.0
            best = _best_place(lines, target, space, style, keep_out, has_leader, most, way) or best
    return best


def _best_place(
    lines: tuple[str, ...],
    target: Point2,
    space: Space,
    style: SheetStyle,
    keep_out: list[Box2],
    has_leader: bool,
    below: float,
    way: Point2 | None,
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
    order = distance.argsort(kind="stable")[:_TRIED_PLACES]
    first = text_width(lines[0], style.text_height_mm)
    cheapest = below
    found: list[Item] | None = None
    for some in np.split(order, range(_AT_ONCE, len(order), _AT_ONCE)):
        corners = places[some] + np.array((_LANDING_MM, 0.0))
        reach = distance[some]
        if reach[0] >= cheapest:
            break
        leaders = _Leaders(corners, (wide, high, first), target, style, way)
        own = reach + np.where(reach < 5.0, 6.0, 0.0)
        costs = leaders.costs(space, cheapest - own) if has_leader else np.zeros((len(some), 1))
        total = own + costs.min(axis=1)
        nearest = int(total.argmin())
        if total[nearest] < cheapest:
            cheapest = float(total[nearest])
            edge, top = float(corners[nearest, 0]), float(corners[nearest, 1]) + high
            items = leaders.drawn(nearest, int(costs[nearest].argmin())) if has_leader else []
            found = [*text_lines(lines, edge, top, style), *items]
    return None if found is None else (cheapest, found)


class _Leaders:
    """The two leaders that each of many places has: from either end of the first line."""

    def __init__(
        self,
        corners: NDArray[np.float64],
        sizes: tuple[float, float, float],
        target: Point2,
        style: SheetStyle,
        way: Point2 | None,
    ) -> None:
        wide, high, first = sizes
        self._target, self._style, self._way = target, style, way
        self._boxes = np.column_stack((corners, corners + np.array((wide, high))))
        self._levels = corners[:, 1] + high - style.text_height_mm / 2
        self._starts = (corners[:, 0] - 0.8, corners[:, 0] + first + 0.8)
        out = _LANDING_MM - 0.8
        self._elbows = (self._starts[0] - out, self._starts[1] + out)

    def costs(self, space: Space, spare: NDArray[np.float64]) -> NDArray[np.float64]:
        """Of both leaders of each place; infinite where one hits a text, folds back, or costs as
        much as there is to spare.
        """
        return np.column_stack([self._costs(side, space, spare) for side in (0, 1)])

    def _costs(self, side: int, space: Space, spare: NDArray[np.float64]) -> NDArray[np.float64]:
        elbows = np.column_stack((self._elbows[side], self._levels))
        run_x, run_y = self._target[0] - elbows[:, 0], self._target[1] - elbows[:, 1]
        outward = (-1.0, 1.0)[side]
        slope = np.degrees(np.arctan2(abs(run_y), abs(run_x)))
        cost = np.where((slope < 12) | (slope > 80), 10.0, 0.0)
        far = np.hypot(run_x, run_y)
        good = (far >= 3.0) & (run_x * outward >= -0.2 * abs(run_y))
        if self._way is not None:
            good &= run_x * self._way[0] + run_y * self._way[1] >= _LEAST_SLANT * far
        left = np.flatnonzero(good & (cost < spare))
        grown = self._boxes[left] + np.array((-0.6, -0.6, 0.6, 0.6))
        left = left[~meet_boxes(elbows[left], self._target, grown)]
        left = left[~space.cross_texts(elbows[left], self._target, 0.5)]
        left = left[~space.cross_leaders(elbows[left], self._target)]
        thin, drawn = space.all_lines_crossed(elbows[left], self._target)
        found = np.full(len(elbows), math.inf)
        found[left] = cost[left] + 8.0 * thin + 5.0 * drawn
        return found

    def drawn(self, place: int, side: int) -> list[Item]:
        """The lines and the arrowhead of one of them."""
        level = float(self._levels[place])
        start = (float(self._starts[side][place]), level)
        elbow = (float(self._elbows[side][place]), level)
        run = (self._target[0] - elbow[0], self._target[1] - elbow[1])
        return [
            stroke(start, elbow, LineClass.LEADER),
            stroke(elbow, self._target, LineClass.LEADER),
            arrowhead(self._target, run, self._style, LineClass.LEADER),
        ]


def longest_leader_mm(items: Iterable[Item]) -> float:
    """The length of the longest straight run of a leader; 0 where there is none [mm]."""
    return max(
        (
            math.dist(each.shape.start, each.shape.end)
            for each in items
            if isinstance(each, Stroke) and each.line_class is LineClass.LEADER
            if isinstance(each.shape, Line)
        ),
        default=0.0,
    )


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
