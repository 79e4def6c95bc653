"""Compiled loops: a few good fillings kept for every size of board, copies limited."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Whole = NDArray[np.int64]
Worths = NDArray[np.float64]
Words = NDArray[np.uint64]
Steps = NDArray[np.int32]


@njit(cache=True, nogil=True)
def _insert(
    slot: int, keep: int, score: float, words: Words, kind: int, at: int, k1: int, k2: int,
    scores: Worths, packed: Words, made: Steps, count: Steps,
) -> None:  # fmt: skip
    """Keep a filling among the best of its size unless it is there already."""
    n = count[slot]
    place = n
    while place > 0 and scores[slot, place - 1] < score:
        place -= 1
    for k in range(place - 1, -1, -1):
        if scores[slot, k] > score + 1e-9:
            break
        same = True
        for w in range(words.size):
            if packed[slot, k, w] != words[w]:
                same = False
                break
        if same:
            return
    if place >= keep:
        return
    for k in range(min(n, keep - 1), place, -1):
        scores[slot, k] = scores[slot, k - 1]
        for w in range(words.size):
            packed[slot, k, w] = packed[slot, k - 1, w]
        for w in range(4):
            made[slot, k, w] = made[slot, k - 1, w]
    scores[slot, place] = score
    for w in range(words.size):
        packed[slot, place, w] = words[w]
    made[slot, place, 0] = kind
    made[slot, place, 1] = at
    made[slot, place, 2] = k1
    made[slot, place, 3] = k2
    count[slot] = min(n + 1, keep)


@njit(cache=True, nogil=True)
def good_fillings(
    ls: Whole, ws: Whole, below_l: Whole, below_w: Whole,
    item_l: Whole, item_w: Whole, item_score: Worths, item_words: Words,
    limit_words: Words, high_words: Words, outside: Worths, at_least: float, keep: int,
    scores: Worths, packed: Words, made: Steps, count: Steps, first_slot: int, last_slot: int,
) -> int:  # fmt: skip
    """Up to `keep` good fillings of sizes first_slot to before last_slot; those before are done.

    Returns how many sizes were full, where some may be lost. A filling of ls[i] x ws[j] is of no
    use when its score + outside[i, j] < at_least. Copies are counted in fields of words, each with
    a high bit to spare. made: (kind, index, k1, k2) with kind 0 an item, 1 a cut across l at index,
    2 across w, 3 taken over from the size one l smaller, 4 one w smaller.
    """
    n_w = ws.size
    n_words = limit_words.size
    words = np.zeros(n_words, np.uint64)
    full = 0
    for slot in range(first_slot, last_slot):
        i = slot // n_w
        j = slot % n_w
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
                _insert(
                    slot, keep, scores[source, k], words, 3 + way, 0, k, 0,
                    scores, packed, made, count,
                )  # fmt: skip
        for t in range(item_l.size):
            if item_l[t] <= ls[i] and item_w[t] <= ws[j] and item_score[t] >= need:
                if (i > 0 and ls[i - 1] >= item_l[t]) or (j > 0 and ws[j - 1] >= item_w[t]):
                    continue
                for w in range(n_words):
                    words[w] = item_words[t, w]
                _insert(slot, keep, item_score[t], words, 0, t, 0, 0, scores, packed, made, count)
        overflowed = count[slot] == keep
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
                                break
                        if over:
                            continue
                        _insert(
                            slot, keep, score, words, 1 + way, a, k1, k2,
                            scores, packed, made, count,
                        )  # fmt: skip
                        if count[slot] == keep:
                            overflowed = True
                            floor = max(need, scores[slot, keep - 1] - 1e-9)
        full += overflowed
    return full
