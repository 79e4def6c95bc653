"""Compiled loops: the most that every size of board is worth when copies are endless."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Whole = NDArray[np.int64]
Worths = NDArray[np.float64]


@njit(cache=True, nogil=True)
def best_values(
    ls: Whole, ws: Whole, below_l: Whole, below_w: Whole,
    item_l: Whole, item_w: Whole, value: Worths, best: Worths,
) -> None:  # fmt: skip
    """Fill best[i, j] with the worth of a clear board ls[i] x ws[j].

    ls, ws: reachable sums from 0, ascending; below_l[s]: index of the greatest sum <= s.
    """
    n_l, n_w = ls.size, ws.size
    fresh = np.zeros(n_l, np.bool_)
    steps = np.empty(n_w, np.int64)
    for i in range(n_l):
        row = best[i]
        if i > 0:
            row[:] = best[i - 1]
        for k in range(item_l.size):
            if item_l[k] <= ls[i] and value[k] > 0:
                first = below_w[item_w[k]]
                if ws[first] < item_w[k]:
                    first += 1
                for j in range(first, n_w):
                    row[j] = max(row[j], value[k])
        for a in range(1, i):
            if 2 * ls[a] > ls[i]:
                break
            if fresh[a]:
                row_a = best[a]
                row_b = best[below_l[ls[i] - ls[a]]]
                for j in range(n_w):
                    row[j] = max(row[j], row_a[j] + row_b[j])
        count = 0
        for j in range(1, n_w):
            top = max(row[j], row[j - 1])
            for s in range(count):
                c = steps[s]
                if 2 * ws[c] > ws[j]:
                    break
                top = max(top, row[c] + row[below_w[ws[j] - ws[c]]])
            row[j] = top
            if top > row[j - 1]:
                steps[count] = j
                count += 1
        for j in range(n_w):
            if i > 0 and row[j] > best[i - 1, j]:
                fresh[i] = True
                break


@njit(cache=True, nogil=True)
def spots_behind(
    ls: Whole, ws: Whole, below_l: Whole, below_w: Whole,
    item_l: Whole, item_w: Whole, value: Worths, order: Whole, best: Worths,
    length: int, width: int, spots: Whole,
) -> int:  # fmt: skip
    """Fill spots with item, x and y of a layout that is worth best[-1, -1]; returns how many.

    order: items, the dearest first; spots: room for the smallest items all over the board.
    """
    stack = [(length, width, 0, 0)]
    count = 0
    while stack:
        long, wide, x, y = stack.pop()
        i, j = below_l[long], below_w[wide]
        top = best[i, j]
        if top <= 1e-12:
            continue
        while i > 0 and best[i - 1, j] >= top:
            i -= 1
        while j > 0 and best[i, j - 1] >= top:
            j -= 1
        long, wide = ls[i], ws[j]
        item, gain, axis, at = -1, -1.0, -1, 0
        for k in order:
            if item_l[k] <= long and item_w[k] <= wide:
                item, gain = k, value[k]
                break
        for a in range(1, i):
            if 2 * ls[a] > long:
                break
            total = best[a, j] + best[below_l[long - ls[a]], j]
            if total > gain + 1e-12:
                gain, axis, at = total, 0, ls[a]
        for b in range(1, j):
            if 2 * ws[b] > wide:
                break
            total = best[i, b] + best[i, below_w[wide - ws[b]]]
            if total > gain + 1e-12:
                gain, axis, at = total, 1, ws[b]
        if axis == 0:
            stack.append((at, wide, x, y))
            stack.append((long - at, wide, x + at, y))
        elif axis == 1:
            stack.append((long, at, x, y))
            stack.append((long, wide - at, x, y + at))
        else:
            spots[count, 0] = item
            spots[count, 1] = x
            spots[count, 2] = y
            count += 1
    return count


@njit(cache=True, nogil=True)
def outside_values(
    ls: Whole, ws: Whole, below_l: Whole, below_w: Whole, best: Worths, outside: Worths,
) -> None:  # fmt: skip
    """Fill outside[i, j]: the most to be had beside a piece ls[i] x ws[j] of the whole board.

    The whole board is ls[-1] x ws[-1]; best[below_l[s], below_w[t]] is the worth of s x t.

    Source: K. V. Viswanathan, A. Bagchi, "Best-first search methods for constrained
    two-dimensional cutting stock problems", Operations Research 41 (1993), 768-776.
    """
    for i in range(ls.size - 1, -1, -1):
        for j in range(ws.size - 1, -1, -1):
            top = 0.0
            column = below_w[ws[j]]
            for a in range(i + 1, ls.size):
                top = max(top, outside[a, j] + best[below_l[ls[a] - ls[i]], column])
            row = below_l[ls[i]]
            for b in range(j + 1, ws.size):
                top = max(top, outside[i, b] + best[row, below_w[ws[b] - ws[j]]])
            outside[i, j] = top


@njit(cache=True, nogil=True)
def faulty_values(
    xs: Whole, ys: Whole, item_l: Whole, item_w: Whole, value: NDArray[np.int32],
    clear: NDArray[np.bool_], row_of: Whole, start_of: Whole, best: NDArray[np.int32],
) -> None:  # fmt: skip
    """Fill best[row_of[a, b], start_of[c] + d - c] with the worth of xs[a]..xs[b] by ys[c]..ys[d].

    clear[k, a, c]: whether item k may lie with its near corner at (xs[a], ys[c]).
    """
    n_x, n_y = xs.size, ys.size
    holds_any = np.zeros(best.shape[0], np.bool_)
    for reach in range(1, n_x):
        for a in range(n_x - reach):
            b = a + reach
            row = best[row_of[a, b]]
            for k in range(item_l.size):
                if item_l[k] > xs[b] - xs[a]:
                    continue
                for c in range(n_y - 1):
                    if clear[k, a, c]:
                        for d in range(c + 1, n_y):
                            if ys[d] - ys[c] >= item_w[k]:
                                place = start_of[c] + d - c
                                row[place] = max(row[place], value[k])
            for p in range(a + 1, b):
                one, two = row_of[a, p], row_of[p, b]
                if (not holds_any[one] and p != a + 1) or (not holds_any[two] and p != b - 1):
                    continue
                row_one, row_two = best[one], best[two]
                for k in range(row.size):
                    row[k] = max(row[k], row_one[k] + row_two[k])
            for c in range(n_y - 2, -1, -1):
                from_c = start_of[c] - c
                for q in range(c + 1, n_y - 1):
                    low = row[from_c + q]
                    if low == 0 and q != c + 1:
                        continue
                    from_q = start_of[q] - q
                    for d in range(q + 1, n_y):
                        row[from_c + d] = max(row[from_c + d], low + row[from_q + d])
                for d in range(c + 1, n_y):
                    row[from_c + d] = max(row[from_c + d], row[from_c + d - 1])
            holds_any[row_of[a, b]] = row.max() > 0
