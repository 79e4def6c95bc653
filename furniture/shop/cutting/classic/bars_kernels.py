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
    with_each: NDArray[np.int64],
    worth_each: NDArray[np.float64],
) -> float:
    """Most price that fits into `length`; counts is filled with how many of each size.

    with_each[k] is filled with the best filling that adds one of size k to the best of the rest
    (worth_each[k] is 0 when that would be one too many); pass an empty array for none.
    """
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
    for k in range(with_each.shape[0]):
        worth_each[k] = 0.0
        if copies[k] < 1 or sizes[k] > length:
            continue
        row = with_each[k]
        row[:] = 0
        room = length - sizes[k]
        worth = best[room] + prices[k]
        if worth <= 1.0 + 1e-6:
            continue
        for b in range(pieces - 1, -1, -1):
            if chosen[b, room]:
                row[kind[b]] += bundle[b]
                room -= sizes[kind[b]] * bundle[b]
        row[k] += 1
        if row[k] <= copies[k]:
            worth_each[k] = worth
    return best[length]
