"""Compiled loop for bars: the best rows of pieces along one side, copies limited."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray


@njit(cache=True, nogil=True)
def best_rows(
    room: int,
    sizes: NDArray[np.int64],
    copies: NDArray[np.int64],
    worth: NDArray[np.float64],
    counts: NDArray[np.int64],
    worths: NDArray[np.float64],
) -> None:
    """Fill counts[0] with the row worth most in `room`, worths[0] with its worth.

    counts[1 + k], where there are such rows, is the best of the rest with one more of piece k;
    worths[1 + k] is 0 where that would be one too many.
    """
    n = sizes.size
    bundles = 0
    for k in range(n):
        left = min(copies[k], room // sizes[k]) if worth[k] > 1e-12 else 0
        step = 1
        while left > 0:
            bundles += 1
            left -= min(step, left)
            step *= 2
    kind = np.empty(bundles, np.int64)
    size = np.empty(bundles, np.int64)
    at = 0
    for k in range(n):
        left = min(copies[k], room // sizes[k]) if worth[k] > 1e-12 else 0
        step = 1
        while left > 0:
            take = min(step, left)
            kind[at] = k
            size[at] = take
            at += 1
            left -= take
            step *= 2
    best = np.zeros(room + 1)
    taken = np.zeros((bundles, room + 1), np.bool_)
    for b in range(bundles):
        long = sizes[kind[b]] * size[b]
        gain = worth[kind[b]] * size[b]
        for place in range(room, long - 1, -1):
            total = best[place - long] + gain
            if total > best[place] + 1e-12:
                best[place] = total
                taken[b, place] = True
    for row in range(counts.shape[0]):
        k = row - 1
        counts[row, :] = 0
        worths[row] = 0.0
        place = room
        if k >= 0:
            if copies[k] < 1 or sizes[k] > room:
                continue
            place = room - sizes[k]
        top = best[place]
        for b in range(bundles - 1, -1, -1):
            if taken[b, place]:
                counts[row, kind[b]] += size[b]
                place -= sizes[kind[b]] * size[b]
        if k >= 0:
            counts[row, k] += 1
            top += worth[k]
            if counts[row, k] > copies[k]:
                continue
        worths[row] = top
