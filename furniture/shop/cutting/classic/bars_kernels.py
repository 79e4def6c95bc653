"""Compiled loops for bars: the best filling of one bar by prices, copies limited."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray


@njit(cache=True)
def best_filling(
    length: int,
    sizes: NDArray[np.int64],
    copies: NDArray[np.int64],
    prices: NDArray[np.float64],
    counts: NDArray[np.int64],
) -> float:
    """Most price that fits into `length`; counts is filled with how many of each size."""
    n = sizes.size
    pieces = 0
    for k in range(n):
        left = min(copies[k], length // sizes[k]) if prices[k] > 1e-12 else 0
        step = 1
        while left > 0:
            take = min(step, left)
            pieces += 1
            left -= take
            step *= 2
    kind = np.empty(pieces, np.int64)
    bundle = np.empty(pieces, np.int64)
    at = 0
    for k in range(n):
        left = min(copies[k], length // sizes[k]) if prices[k] > 1e-12 else 0
        step = 1
        while left > 0:
            take = min(step, left)
            kind[at] = k
            bundle[at] = take
            at += 1
            left -= take
            step *= 2
    best = np.zeros(length + 1)
    chosen = np.zeros((pieces, length + 1), np.bool_)
    for b in range(pieces):
        size = sizes[kind[b]] * bundle[b]
        price = prices[kind[b]] * bundle[b]
        for room in range(length, size - 1, -1):
            total = best[room - size] + price
            if total > best[room] + 1e-12:
                best[room] = total
                chosen[b, room] = True
    counts[:] = 0
    room = length
    for b in range(pieces - 1, -1, -1):
        if chosen[b, room]:
            counts[kind[b]] += bundle[b]
            room -= sizes[kind[b]] * bundle[b]
    return best[length]
