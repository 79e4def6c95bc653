"""What is taken on a board's drawing: texts, and lines that no text may touch."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from exporters.sheets.paper import Box2
from furniture.parts.vectors import Point2

CLEAR_MM = 0.5
"""Between a text and anything else [mm on paper]. Own rule."""
LEADER_CLEAR_MM = 0.9
"""Between a leader and texts that are not its own [mm on paper]. Own rule."""
_FIRST_BATCH, _MOST_BATCH = 16, 512
MOST_TRIED = 1500
"""Places tried in one search, the cheapest first; so a crowded board is soon drawn. Own rule."""
_FAR = 1e6
_CALL = 1000
"""What it takes to look at all, beside each place and what it may meet. Own rule: as measured."""

Segment = tuple[Point2, Point2]


@dataclass(frozen=True, slots=True)
class Spot:
    """A place to try for a text: its box, where its leader starts and ends, and what it costs."""

    cost: float
    box: Box2
    leader: Segment | None = None


@dataclass(slots=True)
class Effort:
    """How much may be looked at for the lettering of boards, and was: places beside what is there.

    It is counted and not timed, so that a sheet is the same on every machine.
    """

    most: float = math.inf
    spent: float = 0.0


class Ground:
    """Texts and lines of a drawing in the making [mm on paper].

    Args:
        effort: that is spent in looking for places.
    """

    def __init__(self, effort: Effort) -> None:
        self._effort = effort
        self.texts: list[Box2] = []
        self._leaders: list[Segment] = []
        self._text_rows: NDArray[np.float64] = np.zeros((0, 4))
        self._line_rows: NDArray[np.float64] = np.zeros((0, 4))

    def add_text(self, box: Box2) -> None:
        """Note where a text stands."""
        self.texts.append(box)
        row = np.array([[box.left, box.bottom, box.right, box.top]])
        self._text_rows = np.vstack((self._text_rows, row))

    def add_lines(self, lines: Iterable[Segment]) -> None:
        """Note lines that no text may touch."""
        found = list(lines)
        rows = np.array([[*a, *b] for a, b in found]).reshape(-1, 4)
        self._line_rows = np.vstack((self._line_rows, rows))

    def add_leader(self, leader: Segment) -> None:
        """Note a leader: a line, and one that other leaders do not cross."""
        self._leaders.append(leader)
        self.add_lines([leader])

    def are_free(self, boxes: NDArray[np.float64], beside: float = 0.0) -> NDArray[np.bool_]:
        """For each box (left, bottom, right, top) with its clearance, whether it is free [mm].

        Args:
            boxes: of texts [mm].
            beside: more clearance from texts to the left and right, half of it over and under [mm].
        """
        self._effort.spent += _CALL + len(boxes) * (len(self._text_rows) + len(self._line_rows))
        grown = boxes + np.array((-CLEAR_MM, -CLEAR_MM, CLEAR_MM, CLEAR_MM))
        wider = grown + np.array((-beside, -beside / 2, beside, beside / 2))
        left, low, right, high = (wider[:, axis, None] for axis in range(4))
        rows = self._text_rows
        taken = (rows[None, :, 0] < right) & (rows[None, :, 2] > left)
        taken &= (rows[None, :, 1] < high) & (rows[None, :, 3] > low)
        free: NDArray[np.bool_] = np.logical_not(taken.any(axis=1))
        if free.any():
            free[free] = np.logical_not(_touched(grown[free], self._line_rows))
        return free

    def first_of(self, spots: Iterable[Spot]) -> Spot | None:
        """The cheapest spot whose box is free and whose leader is open; none when none is.

        A leader is open when it is off all texts and crosses no other leader.
        """
        ordered = sorted(spots, key=lambda each: each.cost)
        for batch in _batches(len(ordered)):
            tried = ordered[batch]
            leaders = [spot.leader or ((_FAR, _FAR), (_FAR, _FAR)) for spot in tried]
            lines = np.array([[*a, *b] for a, b in leaders])
            fits = self.are_free(rows_of([spot.box for spot in tried]))
            fits &= self._open(lines, may_cross=False)
            if fits.any():
                return tried[int(np.argmax(fits))]
        return None

    def first_open(
        self, lines: NDArray[np.float64], costs: NDArray[np.float64], *, may_cross: bool
    ) -> int | None:
        """The index of the cheapest open leader (x, y, x, y); none when none is open [mm].

        Args:
            may_cross: whether it may cross another leader.
        """
        order = np.argsort(costs, kind="stable")
        for batch in _batches(len(order)):
            tried = order[batch]
            is_open = self._open(lines[tried], may_cross=may_cross)
            if is_open.any():
                return int(tried[int(np.argmax(is_open))])
        return None

    def _open(self, lines: NDArray[np.float64], *, may_cross: bool) -> NDArray[np.bool_]:
        """For each line (x, y, x, y), whether it is off all texts and crosses no leader."""
        clear = LEADER_CLEAR_MM
        self._effort.spent += _CALL + len(lines) * (len(self._text_rows) + len(self._leaders))
        boxes = self._text_rows + np.array((-clear, -clear, clear, clear))
        low = np.zeros((len(lines), len(boxes)))
        high = np.ones((len(lines), len(boxes)))
        for axis in (0, 1):
            start, run = lines[:, axis, None], (lines[:, axis + 2] - lines[:, axis])[:, None]
            run = np.where(np.abs(run) < 1e-9, 1e-9, run)
            near, far = (
                (boxes[None, :, axis] - start) / run,
                (boxes[None, :, axis + 2] - start) / run,
            )
            low = np.maximum(low, np.minimum(near, far))
            high = np.minimum(high, np.maximum(near, far))
        blocked = (low < high).any(axis=1)
        if not may_cross and self._leaders:
            others = np.array([[*a, *b] for a, b in self._leaders])
            blocked |= _crossings(lines, others).any(axis=1)
        return np.logical_not(blocked)


def rows_of(boxes: Sequence[Box2]) -> NDArray[np.float64]:
    """The boxes as rows of left, bottom, right, top [mm]."""
    rows = [(box.left, box.bottom, box.right, box.top) for box in boxes]
    return np.array(rows, dtype=np.float64).reshape(-1, 4)


def _batches(count: int) -> Iterator[slice]:
    """Slices of growing length, `MOST_TRIED` in all: mostly one of the first few places will do."""
    start, size, count = 0, _FIRST_BATCH, min(count, MOST_TRIED)
    while start < count:
        yield slice(start, min(start + size, count))
        start, size = start + size, min(2 * size, _MOST_BATCH)


def _touched(boxes: NDArray[np.float64], lines: NDArray[np.float64]) -> NDArray[np.bool_]:
    """For each box (left, bottom, right, top), whether any line has a point inside it."""
    left, low = boxes[:, 0].min(), boxes[:, 1].min()
    right, high = boxes[:, 2].max(), boxes[:, 3].max()
    near = np.minimum(lines[:, 0], lines[:, 2]) < right
    near &= np.maximum(lines[:, 0], lines[:, 2]) > left
    near &= np.minimum(lines[:, 1], lines[:, 3]) < high
    near &= np.maximum(lines[:, 1], lines[:, 3]) > low
    some = lines[near]
    begin, end = np.zeros((len(boxes), len(some))), np.ones((len(boxes), len(some)))
    outside = np.zeros((len(boxes), len(some)), dtype=np.bool_)
    for axis in (0, 1):
        start = some[None, :, axis]
        run = some[None, :, axis + 2] - start
        least, most = boxes[:, axis, None], boxes[:, axis + 2, None]
        is_level = np.abs(run) < 1e-9
        outside |= is_level & ((start <= least) | (start >= most))
        safe = np.where(is_level, 1.0, run)
        first, second = (least - start) / safe, (most - start) / safe
        begin = np.where(is_level, begin, np.maximum(begin, np.minimum(first, second)))
        end = np.where(is_level, end, np.minimum(end, np.maximum(first, second)))
    is_in = np.logical_and(np.logical_not(outside), begin < end)
    return np.asarray(is_in.any(axis=1), dtype=np.bool_)


def _crossings(lines: NDArray[np.float64], others: NDArray[np.float64]) -> NDArray[np.bool_]:
    """For each line and each other, whether they cross at a point inside both."""
    ax, ay, bx, by = (lines[:, axis, None] for axis in range(4))
    cx, cy, dx, dy = (others[None, :, axis] for axis in range(4))
    first = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    second = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax)
    third = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx)
    fourth = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx)
    found: NDArray[np.bool_] = (first * second < -1e-9) & (third * fourth < -1e-9)
    return found
