"""Compiled loops for one board with limited copies: a few good fillings kept for every size."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray


@njit(cache=True, nogil=True)
def outside_values(
    ls: NDArray[np.int64],
    ws: NDArray[np.int64],
    below_l: NDArray[np.int64],
    below_w: NDArray[np.int64],
    best: NDArray[np.float64],
    outside: NDArray[np.float64],
) -> None:
    """Fill outside[i, j]: most that can be had beside a piece ls[i] x ws[j] of the whole board.

    The whole board is ls[-1] x ws[-1]; best[below_l[s], below_w[t]] is the value of s x t
    standing free.

    Source: K. V. Viswanathan, A. Bagchi, "Best-first search methods for constrained
    two-dimensional cutting stock problems", Operations Research 41 (1993), 768-776.
    """
    n_l = ls.size
    n_w = ws.size
    for i in range(n_l - 1, -1, -1):
        for j in range(n_w - 1, -1, -1):
            top = 0.0
            column = below_w[ws[j]]
            for a in range(i + 1, n_l):
                top = max(top, outside[a, j] + best[below_l[ls[a] - ls[i]], column])
            row = below_l[ls[i]]
            for b in range(j + 1, n_w):
                top = max(top, outside[i, b] + best[row, below_w[ws[b] - ws[j]]])
            outside[i, j] = top


@njit(cache=True, nogil=True)
def _insert(
    slot: int,
    keep: int,
    score: float,
    words: NDArray[np.uint64],
    how: NDArray[np.int32],
    scores: NDArray[np.float64],
    packed: NDArray[np.uint64],
    made: NDArray[np.int32],
    count: NDArray[np.int32],
) -> None:
    """Keep a filling among the best of its size unless it is there already."""
    n = count[slot]
    n_words = words.size
    place = n
    while place > 0 and scores[slot, place - 1] < score:
        place -= 1
    for k in range(place - 1, -1, -1):
        if scores[slot, k] > score + 1e-9:
            break
        same = True
        for w in range(n_words):
            if packed[slot, k, w] != words[w]:
                same = False
                break
        if same:
            return
    if place >= keep:
        return
    last = min(n, keep - 1)
    for k in range(last, place, -1):
        scores[slot, k] = scores[slot, k - 1]
        for w in range(n_words):
            packed[slot, k, w] = packed[slot, k - 1, w]
        for w in range(4):
            made[slot, k, w] = made[slot, k - 1, w]
    scores[slot, place] = score
    for w in range(n_words):
        packed[slot, place, w] = words[w]
    for w in range(4):
        made[slot, place, w] = how[w]
    count[slot] = min(n + 1, keep)


@njit(cache=True, nogil=True)
def _covered(
    slot: int,
    words: NDArray[np.uint64],
    high_words: NDArray[np.uint64],
    packed: NDArray[np.uint64],
    scores: NDArray[np.float64],
    made: NDArray[np.int32],
    count: NDArray[np.int32],
) -> bool:
    """Whether a kept filling holds all that this one holds; those that it covers are dropped."""
    n_words = words.size
    n = count[slot]
    for k in range(n):
        within = True
        for w in range(n_words):
            if ((packed[slot, k, w] | high_words[w]) - words[w]) & high_words[w] != high_words[w]:
                within = False
                break
        if within:
            return True
    kept = 0
    for k in range(n):
        within = True
        for w in range(n_words):
            if ((words[w] | high_words[w]) - packed[slot, k, w]) & high_words[w] != high_words[w]:
                within = False
                break
        if within:
            continue
        if kept < k:
            scores[slot, kept] = scores[slot, k]
            for w in range(n_words):
                packed[slot, kept, w] = packed[slot, k, w]
            for w in range(4):
                made[slot, kept, w] = made[slot, k, w]
        kept += 1
    count[slot] = kept
    return False


@njit(cache=True, nogil=True)
def _drop_spare(
    words: NDArray[np.uint64],
    limit_words: NDArray[np.uint64],
    high_words: NDArray[np.uint64],
    item_words: NDArray[np.uint64],
    item_score: NDArray[np.float64],
) -> float:
    """Take copies beyond the limits out of the words; returns the score that goes with them."""
    dropped = 0.0
    for t in range(item_score.size):
        for w in range(words.size):
            unit = item_words[t, w]
            if unit == 0:
                continue
            high = high_words[w]
            while True:
                top = unit
                while top & high == 0:
                    top = top << np.uint64(1)
                field = (top - unit) | top
                if (words[w] & field) <= (limit_words[w] & field):
                    break
                words[w] -= unit
                dropped += item_score[t]
    return dropped


@njit(cache=True, nogil=True)
def good_fillings(
    ls: NDArray[np.int64],
    ws: NDArray[np.int64],
    below_l: NDArray[np.int64],
    below_w: NDArray[np.int64],
    item_l: NDArray[np.int64],
    item_w: NDArray[np.int64],
    item_score: NDArray[np.float64],
    item_words: NDArray[np.uint64],
    limit_words: NDArray[np.uint64],
    high_words: NDArray[np.uint64],
    outside: NDArray[np.float64],
    at_least: float,
    keep: int,
    scores: NDArray[np.float64],
    packed: NDArray[np.uint64],
    made: NDArray[np.int32],
    count: NDArray[np.int32],
    all_needed: bool,
    first_slot: int,
    last_slot: int,
) -> int:
    """Up to `keep` good fillings of every size; returns how many sizes were full.

    all_needed: every copy must be cut, so a filling within another of its size is of no use, and
    copies cut too often are dropped; scores must not be negative then.
    Only for the sizes numbered first_slot up to before last_slot; all before must be done.
    Where a size was full some fillings may be lost.

    Score counts with the prices that the bound uses; a filling of ls[i] x ws[j] is of no use
    when score + outside[i, j] < at_least. made: (kind, index, k1, k2) with kind 0 an item, 1 a
    cut across l at index, 2 across w, 3 taken over from the size one l smaller, 4 one w smaller.
    """
    n_w = ws.size
    n_words = limit_words.size
    words = np.zeros(n_words, np.uint64)
    how = np.zeros(4, np.int32)
    full = 0
    for slot in range(first_slot, last_slot):
        i = slot // n_w
        j = slot % n_w
        overflowed = False
        need = at_least - outside[i, j] - 1e-7
        for way in range(2):
            if (i == 0 and way == 0) or (j == 0 and way == 1):
                continue
            source = slot - n_w if way == 0 else slot - 1
            for k in range(count[source]):
                if scores[source, k] < need:
                    break
                for w in range(n_words):
                    words[w] = packed[source, k, w]
                how[0] = 3 + way
                how[1] = 0
                how[2] = k
                how[3] = 0
                if not all_needed or not _covered(
                    slot, words, high_words, packed, scores, made, count
                ):
                    _insert(slot, keep, scores[source, k], words, how, scores, packed, made, count)
        for t in range(item_l.size):
            if item_l[t] <= ls[i] and item_w[t] <= ws[j] and item_score[t] >= need:
                if i > 0 and ls[i - 1] >= item_l[t]:
                    continue
                if j > 0 and ws[j - 1] >= item_w[t]:
                    continue
                for w in range(n_words):
                    words[w] = item_words[t, w]
                how[0] = 0
                how[1] = t
                how[2] = 0
                how[3] = 0
                if not all_needed or not _covered(
                    slot, words, high_words, packed, scores, made, count
                ):
                    _insert(slot, keep, item_score[t], words, how, scores, packed, made, count)
        overflowed = overflowed or count[slot] == keep
        for way in range(2):
            end = i if way == 0 else j
            for a in range(1, end):
                if way == 0:
                    if 2 * ls[a] > ls[i]:
                        break
                    one = a * n_w + j
                    two = below_l[ls[i] - ls[a]] * n_w + j
                else:
                    if 2 * ws[a] > ws[j]:
                        break
                    one = i * n_w + a
                    two = i * n_w + below_w[ws[j] - ws[a]]
                if count[one] == 0 or count[two] == 0:
                    continue
                floor = need
                if count[slot] == keep:
                    floor = max(need, scores[slot, keep - 1] - 1e-9)
                if scores[one, 0] + scores[two, 0] < floor:
                    continue
                for k1 in range(count[one]):
                    if scores[one, k1] + scores[two, 0] < floor:
                        break
                    for k2 in range(count[two]):
                        score = scores[one, k1] + scores[two, k2]
                        if score < floor:
                            break
                        over = False
                        for w in range(n_words):
                            total = packed[one, k1, w] + packed[two, k2, w]
                            words[w] = total
                            left = (limit_words[w] | high_words[w]) - total
                            if left & high_words[w] != high_words[w]:
                                over = True
                        if over:
                            if not all_needed:
                                continue
                            score -= _drop_spare(
                                words, limit_words, high_words, item_words, item_score
                            )
                            if score < floor:
                                continue
                        how[0] = 1 + way
                        how[1] = a
                        how[2] = k1
                        how[3] = k2
                        if not all_needed or not _covered(
                            slot, words, high_words, packed, scores, made, count
                        ):
                            _insert(slot, keep, score, words, how, scores, packed, made, count)
                        if count[slot] == keep:
                            overflowed = True
                            floor = max(need, scores[slot, keep - 1] - 1e-9)
        full += overflowed
    return full
