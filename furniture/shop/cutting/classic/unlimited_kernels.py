"""Compiled loops of the unlimited programme: best value of every size, faults or none."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Numbers = NDArray[np.generic]


@njit(cache=True, nogil=True)
def best_values(
    ls: NDArray[np.int64],
    ws: NDArray[np.int64],
    below_l: NDArray[np.int64],
    below_w: NDArray[np.int64],
    item_l: NDArray[np.int64],
    item_w: NDArray[np.int64],
    value: Numbers,
    best: Numbers,
) -> None:
    """Fill best[i, j] with the value of the board ls[i] x ws[j].

    ls, ws: reachable sums from 0, ascending; below_l[s]: index of the greatest sum <= s.
    """
    n_l = ls.size
    n_w = ws.size
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
                    if value[k] > row[j]:
                        row[j] = value[k]
        for a in range(1, i):
            if 2 * ls[a] > ls[i]:
                break
            if not fresh[a]:
                continue
            row_a = best[a]
            row_b = best[below_l[ls[i] - ls[a]]]
            for j in range(n_w):
                total = row_a[j] + row_b[j]
                row[j] = max(row[j], total)
        count = 0
        for j in range(1, n_w):
            top = max(row[j], row[j - 1])
            half = ws[j] // 2
            for s in range(count):
                c = steps[s]
                if ws[c] > half:
                    break
                total = row[c] + row[below_w[ws[j] - ws[c]]]
                top = max(top, total)
            row[j] = top
            if top > row[j - 1]:
                steps[count] = j
                count += 1
        if i > 0:
            for j in range(n_w):
                if row[j] > best[i - 1, j]:
                    fresh[i] = True
                    break


@njit(cache=True, nogil=True)
def faulty_values(
    xs: NDArray[np.int64],
    ys: NDArray[np.int64],
    faults: NDArray[np.int64],
    item_l: NDArray[np.int64],
    item_w: NDArray[np.int64],
    value: NDArray[np.int32],
    row_of: NDArray[np.int64],
    start_of: NDArray[np.int64],
    best: NDArray[np.int32],
) -> None:
    """Fill best[row_of[a, b], start_of[c] + d - c]: xs[a]..xs[b] by ys[c]..ys[d] with its faults.

    A position is a sum of sizes from 0 or from the far edge of a fault, or the board's end.
    """
    n_x = xs.size
    n_y = ys.size
    holds_any = np.zeros(best.shape[0], np.bool_)
    for span in range(1, n_x):
        for a in range(n_x - span):
            b = a + span
            row = best[row_of[a, b]]
            _single_items(a, b, xs, ys, faults, item_l, item_w, value, start_of, row)
            for p in range(a + 1, b):
                one = row_of[a, p]
                two = row_of[p, b]
                if not holds_any[one] and p != a + 1:
                    continue
                if not holds_any[two] and p != b - 1:
                    continue
                row_one = best[one]
                row_two = best[two]
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


@njit(cache=True, nogil=True)
def _single_items(
    a: int,
    b: int,
    xs: NDArray[np.int64],
    ys: NDArray[np.int64],
    faults: NDArray[np.int64],
    item_l: NDArray[np.int64],
    item_w: NDArray[np.int64],
    value: NDArray[np.int32],
    start_of: NDArray[np.int64],
    row: NDArray[np.int32],
) -> None:
    for k in range(item_l.size):
        if item_l[k] > xs[b] - xs[a]:
            continue
        for c in range(ys.size - 1):
            clear = ys[c] + item_w[k] <= ys[-1]
            for f in range(faults.shape[0]):
                if (
                    faults[f, 0] < xs[a] + item_l[k]
                    and faults[f, 2] > xs[a]
                    and faults[f, 1] < ys[c] + item_w[k]
                    and faults[f, 3] > ys[c]
                ):
                    clear = False
            if not clear:
                continue
            for d in range(c + 1, ys.size):
                if ys[d] - ys[c] >= item_w[k]:
                    place = start_of[c] + d - c
                    row[place] = max(row[place], value[k])
