"""What is taken on a board's drawing: texts, and lines that no text may touch."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from exporters.sheets.paper import Box2
from exporters.sheets.space import crosses_box
from furniture.parts.vectors import Point2

CLEAR_MM = 0.5
"""Between a text and anything else [mm on paper]. Own rule."""

_BATCH = 256
_FAR = 1e6

Segment = tuple[Point2, Point2]


@dataclass(frozen=True, slots=True)
class Spot:
    """A place to try for a text: its box, where its leader starts and ends, and what it costs."""

    cost: float
    box: Box2
    leader: Segment | None = None


class Ground:
    """Texts and lines of a drawing in the making [mm on paper]."""

    def __init__(self) -> None:
        self.texts: list[Box2] = []
        self._lines: list[Segment] = []
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
        self._lines += found
        rows = np.array([[*a, *b] for a, b in found]).reshape(-1, 4)
        self._line_rows = np.vstack((self._line_rows, rows))

    def add_leader(self, leader: Segment) -> None:
        """Note a leader: a line, and one that other leaders do not cross."""
        self._leaders.append(leader)
        self.add_lines([leader])

    def is_free(self, box: Box2, beside: float = 0.0) -> bool:
        """Whether a text's box with its clearance is off all texts and lines.

        Args:
            box: of the text [mm].
            beside: more clearance from texts to its left and right, half of it over and under [mm].
        """
        grown = box.grown(CLEAR_MM)
        rows = self._text_rows
        apart = (rows[:, 0] >= grown.right + beside) | (rows[:, 2] <= grown.left - beside)
        apart |= (rows[:, 1] >= grown.top + beside / 2) | (rows[:, 3] <= grown.bottom - beside / 2)
        if not bool(apart.all()):
            return False
        lines = self._line_rows
        left, right = np.minimum(lines[:, 0], lines[:, 2]), np.maximum(lines[:, 0], lines[:, 2])
        low, high = np.minimum(lines[:, 1], lines[:, 3]), np.maximum(lines[:, 1], lines[:, 3])
        near = (left < grown.right) & (right > grown.left) & (low < grown.top)
        near &= high > grown.bottom
        for index in np.nonzero(near)[0]:
            start, end = self._lines[int(index)]
            if _touches(start, end, grown):
                return False
        return True

    def first_of(
        self, spots: Iterable[Spot], *, may_cross: bool = False, beside: float = 0.0
    ) -> Spot | None:
        """The cheapest spot whose box is free and whose leader is open; none when none is.

        A leader is open when it is off all texts and, unless it may, crosses no other leader.

        Args:
            spots: to choose from.
            may_cross: whether its leader may cross another.
            beside: more clearance from texts to its left and right [mm].
        """
        ordered = sorted(spots, key=lambda each: each.cost)
        known: dict[Box2, bool] = {}
        for start in range(0, len(ordered), _BATCH):
            batch = ordered[start : start + _BATCH]
            leaders = [spot.leader or ((_FAR, _FAR), (_FAR, _FAR)) for spot in batch]
            is_open = self._open(np.array([[*a, *b] for a, b in leaders]), may_cross=may_cross)
            for index in np.nonzero(is_open)[0]:
                spot = batch[int(index)]
                if spot.box not in known:
                    known[spot.box] = self.is_free(spot.box, beside)
                if known[spot.box]:
                    return spot
        return None

    def _open(self, lines: NDArray[np.float64], *, may_cross: bool) -> NDArray[np.bool_]:
        """For each line (x, y, x, y), whether it is off all texts and crosses no leader."""
        boxes = self._text_rows + np.array((-CLEAR_MM, -CLEAR_MM, CLEAR_MM, CLEAR_MM))
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


def _touches(start: Point2, end: Point2, box: Box2) -> bool:
    if abs(start[0] - end[0]) < 1e-9 and abs(start[1] - end[1]) < 1e-9:
        return box.left < start[0] < box.right and box.bottom < start[1] < box.top
    return crosses_box(start, end, box)


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
