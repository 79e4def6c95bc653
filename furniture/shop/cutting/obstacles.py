"""What bars parts on a bed: how far it reaches into a band, and how much of it bars each corner."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.zones import TOUCH, Outline, bounds_of, clipped_to_band, is_square

FEW = 16
"""More outlines are looked at as arrays. Own rule: up to so many that takes longer."""

Stretch = tuple[float, float]


class Axis(IntEnum):
    """The axes of a bed: u and v."""

    ALONG = 0
    ACROSS = 1


@dataclass(frozen=True, slots=True)
class _Entry:
    """An outline with u first and with v first; sides: low u, high u, low v, high v [mm]."""

    ways: tuple[Outline, Outline]
    sides: tuple[float, float, float, float]
    is_rectangle: bool


class Obstacles:
    """Outlines on a bed that a part may touch but not overlap; equal to none but itself.

    Attributes:
        heights: at which v corners stand, the lowest first [mm].
        squares: low u, high u, low v, high v of those that are rectangles, a row each, where they
            are many [mm].
    """

    def __init__(self, outlines: Sequence[Outline]) -> None:
        self.is_many = len(outlines) > FEW
        self.heights = sorted({v for outline in outlines for _, v in outline})
        boxes = [bounds_of(outline) for outline in outlines]
        entries = [
            _Entry(
                ways=(outline, tuple((v, u) for u, v in outline)),
                sides=(box.x_mm, box.x_end_mm, box.y_mm, box.y_end_mm),
                is_rectangle=is_square(outline),
            )
            for outline, box in zip(outlines, boxes, strict=True)
        ]
        square = [each.sides for each in entries if each.is_rectangle and self.is_many]
        self.squares = np.array(square).reshape(-1, 4)
        singly = [each for each in entries if not (self.is_many and each.is_rectangle)]
        self._singly = singly if len(singly) <= FEW else []
        self._slanting = _Slanting([each.ways[Axis.ALONG] for each in singly if not self._singly])

    def stretches(self, axis: Axis, low: float, high: float) -> list[Stretch]:
        """From where to where along an axis each outline reaches that meets a band [mm].

        Args:
            low: where the band begins on the other axis [mm].
            high: where it ends [mm].
        """
        low, high, own, other = low + TOUCH, high - TOUCH, 2 * axis, 2 * (1 - axis)
        found = self._slanting.stretches(axis, low, high)
        if self.is_many:
            meets = (self.squares[:, other + 1] >= low) & (self.squares[:, other] <= high)
            found += [(a, b) for a, b in self.squares[meets, own : own + 2].tolist()]
        for each in self._singly:
            if each.sides[other + 1] < low or each.sides[other] > high:
                continue
            reach: tuple[float, ...] = each.sides[own : own + 2]
            if not each.is_rectangle:
                reach = tuple(at for at, _ in clipped_to_band(each.ways[axis], low, high))
            if reach:
                found.append((min(reach), max(reach)))
        return found


class _Slanting:
    """Many outlines that are no rectangles, as arrays of their edges."""

    def __init__(self, outlines: Sequence[Outline]) -> None:
        corners = [corner for outline in outlines for corner in outline]
        before = [corner for outline in outlines for corner in (outline[-1], *outline[:-1])]
        self._ends = np.array([before, corners]).reshape(2, -1, 2)
        counts = [len(outline) for outline in outlines]
        self._firsts = np.cumsum([0, *counts[:-1]]) if counts else np.zeros(0, np.int64)
        steps = self._ends[1] - self._ends[0]
        level = np.where(steps == 0.0, np.inf, steps)
        self._slopes = steps / level[:, ::-1]

    def stretches(self, axis: Axis, low: float, high: float) -> list[Stretch]:
        """From where to where along an axis each reaches that meets a band [mm]."""
        if not len(self._firsts):
            return []
        here, there = self._ends[:, :, axis], self._ends[:, :, 1 - axis]
        inside = here + (np.clip(there, low, high) - there) * self._slopes[:, axis]
        is_off = (there.max(axis=0) < low) | (there.min(axis=0) > high)
        starts = np.minimum.reduceat(np.where(is_off, np.inf, inside.min(axis=0)), self._firsts)
        ends = np.maximum.reduceat(np.where(is_off, -np.inf, inside.max(axis=0)), self._firsts)
        met = np.flatnonzero(ends >= starts)
        return list(zip(starts[met].tolist(), ends[met].tolist(), strict=True))


def barred_counts(
    boxes: NDArray[np.float64],
    us: NDArray[np.float64],
    vs: NDArray[np.float64],
    u_size: float,
    v_size: float,
    weights: NDArray[np.int64] | None = None,
) -> NDArray[np.int64]:
    """For each near corner (u, v) how many boxes a rectangle there overlaps: by us, then by vs.

    A box bars a stretch of the corners each way, so four corners of its block say all.

    Args:
        boxes: rows of low u, high u, low v, high v [mm].
        us: ascending, near corners of the rectangle [mm].
        vs: the same across [mm].
        u_size: of the rectangle [mm].
        v_size: of the rectangle [mm].
        weights: what each box counts; None for one.
    """
    steps = np.zeros((len(us) + 1, len(vs) + 1), dtype=np.int64)
    first, last = (
        np.searchsorted(us, boxes[:, 0] - u_size + TOUCH, side="right"),
        np.searchsorted(us, boxes[:, 1] - TOUCH, side="left"),
    )
    low, high = (
        np.searchsorted(vs, boxes[:, 2] - v_size + TOUCH, side="right"),
        np.searchsorted(vs, boxes[:, 3] - TOUCH, side="left"),
    )
    is_any = (first < last) & (low < high)
    first, last, low, high = (each[is_any] for each in (first, last, low, high))
    count = np.ones(len(boxes), dtype=np.int64)[is_any] if weights is None else weights[is_any]
    for u, v, step in ((first, low, 1), (last, low, -1), (first, high, -1), (last, high, 1)):
        np.add.at(steps, (u, v), step * count)
    counts: NDArray[np.int64] = steps.cumsum(axis=0).cumsum(axis=1)[:-1, :-1]
    return counts
