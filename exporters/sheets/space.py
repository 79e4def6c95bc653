"""The free space of a sheet: where one more text can stand, and where its leader can run."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from exporters.sheets.geometry import item_box, lettering_box, shape_points
from exporters.sheets.paper import Box2, box_round
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Figure, Filled, Hatched, Item, Lettering, Stroke
from exporters.views.values import Line
from furniture.parts.vectors import Point2

_CELL_MM = 0.5
_THIN = frozenset(
    {LineClass.DIMENSION, LineClass.LEADER, LineClass.CUTTING_PLANE, LineClass.DETAIL}
)
_OF_PARTS = frozenset(
    {
        LineClass.VISIBLE,
        LineClass.PICTURE,
        LineClass.FINE_PICTURE,
        LineClass.HIDDEN,
        LineClass.CENTRE,
        LineClass.BREAK,
    }
)


class Space:
    """A grid over the frame that remembers what is drawn, and the texts and lines themselves."""

    def __init__(self, frame: Box2) -> None:
        self.frame = frame
        self._columns = math.ceil(frame.width / _CELL_MM)
        self._rows = math.ceil(frame.height / _CELL_MM)
        self._taken = np.zeros((self._rows, self._columns), dtype=bool)
        self._sums: NDArray[np.int32] | None = None
        self._texts: list[Box2] = []
        self._part_lines: list[tuple[Point2, Point2]] = []
        self._thin_lines: list[tuple[Point2, Point2]] = []
        self._leaders: list[tuple[Point2, Point2]] = []
        self._arrays: tuple[NDArray[np.float64], ...] | None = None

    def add(self, items: Iterable[Item]) -> None:
        """Note everything that is drawn by these items."""
        for item in items:
            self._add(item)
        self._sums = None
        self._arrays = None

    def _add(self, item: Item) -> None:
        if isinstance(item, Lettering):
            self._add_text(lettering_box(item))
        elif isinstance(item, Stroke):
            points = shape_points(item.shape)
            for start, end in pairwise(points):
                self._mark(start, end)
            if item.line_class is LineClass.LEADER:
                self._leaders.extend(pairwise(points))
            if item.line_class in _THIN:
                self._thin_lines.extend(pairwise(points))
            elif item.line_class in _OF_PARTS:
                self._part_lines.extend(pairwise(points))
        elif isinstance(item, (Filled, Hatched)):
            self._fill(item_box(item))
            if isinstance(item, Hatched):
                self._part_lines.extend(pairwise((*item.outline, item.outline[0])))
        elif isinstance(item, Figure):
            for part in item.drawn:
                self._add(part)
            texts = [lettering_box(part) for part in item.drawn if isinstance(part, Lettering)]
            if len(texts) > 1:  # a fraction is set of several, and nothing runs between them
                self._add_text(box_round(texts))

    def _add_text(self, box: Box2) -> None:
        self._texts.append(box)
        self._fill(box)

    def _cells(self, box: Box2) -> tuple[int, int, int, int]:
        left = max(0, math.floor((box.left - self.frame.left) / _CELL_MM))
        right = min(self._columns, math.ceil((box.right - self.frame.left) / _CELL_MM))
        low = max(0, math.floor((box.bottom - self.frame.bottom) / _CELL_MM))
        high = min(self._rows, math.ceil((box.top - self.frame.bottom) / _CELL_MM))
        return left, right, low, high

    def _fill(self, box: Box2) -> None:
        left, right, low, high = self._cells(box)
        self._taken[low:high, left:right] = True

    def _mark(self, start: Point2, end: Point2) -> None:
        steps = max(1, math.ceil(math.dist(start, end) / (_CELL_MM / 2)))
        t = np.linspace(0.0, 1.0, steps + 1)
        x = ((start[0] + (end[0] - start[0]) * t - self.frame.left) / _CELL_MM).astype(int)
        y = ((start[1] + (end[1] - start[1]) * t - self.frame.bottom) / _CELL_MM).astype(int)
        inside = (x >= 0) & (x < self._columns) & (y >= 0) & (y < self._rows)
        self._taken[y[inside], x[inside]] = True

    def is_free(self, box: Box2, clearance: float) -> bool:
        """Whether nothing is drawn within `clearance` [mm] of the box, all inside the frame."""
        grown = box.grown(clearance)
        if not self.frame.holds(grown):
            return False
        left, right, low, high = self._cells(grown)
        return not bool(self._taken[low:high, left:right].any())

    def free_places(self, width: float, height: float, clearance: float) -> NDArray[np.float64]:
        """Every lower left corner, on a 1 mm grid, where such a box stands free [mm].

        Args:
            width: of the box [mm].
            height: of the box [mm].
            clearance: to anything drawn [mm].
        """
        if self._sums is None:
            sums = np.zeros((self._rows + 1, self._columns + 1), dtype=np.int32)
            np.cumsum(np.cumsum(self._taken, axis=0, dtype=np.int32), axis=1, out=sums[1:, 1:])
            self._sums = sums
        sums = self._sums
        wide = math.ceil((width + 2 * clearance) / _CELL_MM) + 1
        high = math.ceil((height + 2 * clearance) / _CELL_MM) + 1
        if wide >= self._columns or high >= self._rows:
            return np.zeros((0, 2))
        above, below = sums[high::2], sums[:-high:2]  # every second cell is a millimetre
        count = above[:, wide::2] - below[:, wide::2] - above[:, :-wide:2] + below[:, :-wide:2]
        rows, columns = np.nonzero(count == 0)
        x = self.frame.left + columns * 2 * _CELL_MM + clearance + _CELL_MM / 2
        y = self.frame.bottom + rows * 2 * _CELL_MM + clearance + _CELL_MM / 2
        return np.column_stack((x, y))

    def _lists(self) -> tuple[NDArray[np.float64], ...]:
        """Text boxes (left, bottom, right, top); thin, part and leader lines (x, y, x, y) [mm]."""
        if self._arrays is None:
            boxes = [(box.left, box.bottom, box.right, box.top) for box in self._texts]
            self._arrays = tuple(
                np.array(rows, dtype=np.float64).reshape(-1, 4)
                for rows in (
                    boxes,
                    [(*a, *b) for a, b in self._thin_lines],
                    [(*a, *b) for a, b in self._part_lines],
                    [(*a, *b) for a, b in self._leaders],
                )
            )
        return self._arrays

    def crosses_text(self, start: Point2, end: Point2, clearance: float) -> bool:
        """Whether a straight line would come within `clearance` of a text [mm]."""
        return bool(self.cross_texts(np.array([start]), end, clearance)[0])

    def cross_texts(
        self, starts: NDArray[np.float64], end: Point2, clearance: float
    ) -> NDArray[np.bool_]:
        """The same for many lines to one end, a row of x and y for each start [mm]."""
        boxes = self._lists()[0] + np.array((-clearance, -clearance, clearance, clearance))
        met = meet_boxes(starts[:, None], end, boxes)
        return np.asarray(met.any(axis=1), dtype=np.bool_)

    def cross_leaders(self, starts: NDArray[np.float64], end: Point2) -> NDArray[np.bool_]:
        """Whether lines to one end cross a leader, a row of x and y for each start [mm]."""
        return _crossings(starts, end, self._lists()[3]) > 0

    def lines_crossed(self, start: Point2, end: Point2) -> tuple[int, int]:
        """How many dimension and leader lines, and how many lines of the parts, it would cross."""
        thin, drawn = self.all_lines_crossed(np.array([start]), end)
        return int(thin[0]), int(drawn[0])

    def all_lines_crossed(
        self, starts: NDArray[np.float64], end: Point2
    ) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
        """The same for many lines to one end, a row of x and y for each start [mm]."""
        _, thin, drawn, _ = self._lists()
        return _crossings(starts, end, thin), _crossings(starts, end, drawn)


def _crossings(
    starts: NDArray[np.float64], end: Point2, lines: NDArray[np.float64]
) -> NDArray[np.int64]:
    """How many of the lines cross the one from each start to end at a point inside both."""
    if not len(starts):
        return np.zeros(0, dtype=np.int64)
    for axis in (0, 1):  # lines that lie beside all of them cross none
        low, high = min(starts[:, axis].min(), end[axis]), max(starts[:, axis].max(), end[axis])
        near, far = lines[:, axis], lines[:, axis + 2]
        lines = lines[(np.maximum(near, far) >= low) & (np.minimum(near, far) <= high)]
    ax, ay = starts[:, :1], starts[:, 1:]
    dx, dy = end[0] - ax, end[1] - ay
    cx, cy, ex, ey = lines.T
    first = dx * (cy - ay) - dy * (cx - ax)
    second = dx * (ey - ay) - dy * (ex - ax)
    lx, ly = ex - cx, ey - cy
    third = lx * (ay - cy) - ly * (ax - cx)
    fourth = lx * (end[1] - cy) - ly * (end[0] - cx)
    slack = -1e-9
    crossed = (first * second < slack) & (third * fourth < slack)
    return np.asarray(crossed.sum(axis=1), dtype=np.int64)


def leaders_cross(items: Iterable[Item]) -> bool:
    """Whether two of the straight leaders among these items cross."""
    leaders = [
        (each.shape.start, each.shape.end)
        for each in items
        if isinstance(each, Stroke) and each.line_class is LineClass.LEADER
        if isinstance(each.shape, Line)
    ]
    lines = np.array([(*start, *end) for start, end in leaders], dtype=np.float64).reshape(-1, 4)
    return any(_crossings(np.array([start]), end, lines)[0] > 0 for start, end in leaders)


def meet_boxes(
    starts: NDArray[np.float64], end: Point2, boxes: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Whether lines from the starts to one end have a point inside the boxes (Liang and Barsky).

    Args:
        starts: x and y in the last axis [mm].
        end: of every line [mm].
        boxes: left, bottom, right and top in the last axis, of a shape that goes with starts [mm].
    """
    low: NDArray[np.float64] = np.zeros(1)
    high: NDArray[np.float64] = np.ones(1)
    for axis in (0, 1):
        delta = end[axis] - starts[..., axis]
        delta = np.where(delta == 0.0, 1e-12, delta)
        near = (boxes[..., axis] - starts[..., axis]) / delta
        far = (boxes[..., axis + 2] - starts[..., axis]) / delta
        low = np.maximum(low, np.minimum(near, far))
        high = np.minimum(high, np.maximum(near, far))
    return np.asarray(low < high)


def crosses_box(start: Point2, end: Point2, box: Box2) -> bool:
    """Whether a straight line has any point inside a box (Liang and Barsky's clipping)."""
    low, high = 0.0, 1.0
    for p, delta, least, most in (
        (start[0], end[0] - start[0], box.left, box.right),
        (start[1], end[1] - start[1], box.bottom, box.top),
    ):
        if abs(delta) < 1e-12:
            if p <= least or p >= most:
                return False
            continue
        near, far = sorted(((least - p) / delta, (most - p) / delta))
        low, high = max(low, near), min(high, far)
        if low >= high:
            return False
    return True
