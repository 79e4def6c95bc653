"""Compiled loops of the search for a layout without waste."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray


@njit(cache=True, nogil=True)
def _reaches(
    sizes: NDArray[np.int64],
    others: NDArray[np.int64],
    left: NDArray[np.uint16],
    most: int,
    target: int,
) -> bool:
    """Whether copies left that are at most `most` the other way add up to the target."""
    n_words = target // 64 + 1
    sums = np.zeros(n_words, np.uint64)
    sums[0] = np.uint64(1)
    for t in range(sizes.size):
        size = sizes[t]
        if left[t] == 0 or others[t] > most or size > target:
            continue
        skip = size // 64
        shift = np.uint64(size % 64)
        for _ in range(left[t]):
            for w in range(n_words - 1, skip - 1, -1):
                moved = sums[w - skip] << shift
                if shift > np.uint64(0) and w - skip >= 1:
                    moved |= sums[w - skip - 1] >> (np.uint64(64) - shift)
                sums[w] |= moved
        if (sums[target // 64] >> np.uint64(target % 64)) & np.uint64(1):
            return True
    return False


@njit(cache=True, nogil=True)
def _is_hopeful(
    rooms: NDArray[np.int32],
    n_rooms: int,
    left: NDArray[np.uint16],
    item_l: NDArray[np.int64],
    item_w: NDArray[np.int64],
) -> bool:
    """Whether sums of the sizes left can reach both sides of every room."""
    for r in range(n_rooms):
        length = rooms[r, 2]
        width = rooms[r, 3]
        if not _reaches(item_l, item_w, left, width, length):
            return False
        if not _reaches(item_w, item_l, left, length, width):
            return False
    return True


@njit(cache=True, nogil=True)
def _room_hash(length: int, width: int) -> np.uint64:
    h = np.uint64(length * 1000003 + width + 1) * np.uint64(0x9E3779B97F4A7C15)
    h ^= h >> np.uint64(29)
    h *= np.uint64(0xBF58476D1CE4E5B9)
    return h ^ (h >> np.uint64(32))


@njit(cache=True, nogil=True)
def candidates(
    count: int,
    left: NDArray[np.uint16],
    rooms: NDArray[np.int32],
    n_rooms: NDArray[np.int32],
    marks: NDArray[np.uint64],
    worth: NDArray[np.float64],
    item_l: NDArray[np.int64],
    item_w: NDArray[np.int64],
    item_mark: NDArray[np.uint64],
    item_worth: NDArray[np.float64],
    room_cost: NDArray[np.float64],
    score: NDArray[np.float64],
    mark: NDArray[np.uint64],
    origin: NDArray[np.int32],
    what: NDArray[np.int32],
) -> int:
    """Every way to lay one item in the corner of every state's smallest room; how many there are.

    what: (item, room, 0 for the rest beside it at full height or 1 for the rest above it at full
    length). room_cost[side]: what a room with that lesser side counts against a state.
    """
    n = 0
    n_types = item_l.size
    for s in range(count):
        pick = 0
        smallest = 1 << 60
        before = 0.0
        for r in range(n_rooms[s]):
            before += room_cost[min(rooms[s, r, 2], rooms[s, r, 3])]
            area = rooms[s, r, 2] * rooms[s, r, 3]
            if area < smallest:
                smallest = area
                pick = r
        length = rooms[s, pick, 2]
        width = rooms[s, pick, 3]
        before -= room_cost[min(length, width)]
        base = marks[s] - _room_hash(length, width)
        for t in range(n_types):
            if left[s, t] == 0 or item_l[t] > length or item_w[t] > width:
                continue
            beside = length - item_l[t]
            above = width - item_w[t]
            for way in range(2):
                if way == 1 and (beside == 0 or above == 0):
                    continue
                if n >= score.size:
                    return n
                cost = before
                h = base - item_mark[t]
                if beside > 0:
                    tall = width if way == 0 else item_w[t]
                    cost += room_cost[min(beside, tall)]
                    h += _room_hash(beside, tall)
                if above > 0:
                    long = item_l[t] if way == 0 else length
                    cost += room_cost[min(above, long)]
                    h += _room_hash(long, above)
                score[n] = worth[s] + item_worth[t] - cost
                mark[n] = h
                origin[n] = s
                what[n, 0] = t
                what[n, 1] = pick
                what[n, 2] = way
                n += 1
    return n


@njit(cache=True, nogil=True)
def kept_states(
    order: NDArray[np.int64],
    mark: NDArray[np.uint64],
    origin: NDArray[np.int32],
    what: NDArray[np.int32],
    left: NDArray[np.uint16],
    rooms: NDArray[np.int32],
    n_rooms: NDArray[np.int32],
    worth: NDArray[np.float64],
    item_l: NDArray[np.int64],
    item_w: NDArray[np.int64],
    item_worth: NDArray[np.float64],
    seen: NDArray[np.uint64],
    new_left: NDArray[np.uint16],
    new_rooms: NDArray[np.int32],
    new_n: NDArray[np.int32],
    new_marks: NDArray[np.uint64],
    new_worth: NDArray[np.float64],
    chosen: NDArray[np.int64],
) -> int:
    """Make the best candidates that are new and hopeful into states; returns how many.

    order: candidates, best first; seen: a hash table of zeros, a power of two long.
    """
    made = 0
    limit = new_left.shape[0]
    most_rooms = new_rooms.shape[1]
    mask = np.uint64(seen.size - 1)
    for c in order:
        h = mark[c]
        if h == np.uint64(0):
            h = np.uint64(1)
        spot = h & mask
        known = False
        while seen[spot] != np.uint64(0):
            if seen[spot] == h:
                known = True
                break
            spot = (spot + np.uint64(1)) & mask
        if known:
            continue
        seen[spot] = h
        s = origin[c]
        t = what[c, 0]
        pick = what[c, 1]
        n = 0
        for r in range(n_rooms[s]):
            if r != pick:
                for f in range(4):
                    new_rooms[made, n, f] = rooms[s, r, f]
                n += 1
        x, y = rooms[s, pick, 0], rooms[s, pick, 1]
        length, width = rooms[s, pick, 2], rooms[s, pick, 3]
        beside = length - item_l[t]
        above = width - item_w[t]
        if n + 2 > most_rooms:
            continue
        if beside > 0:
            new_rooms[made, n, 0] = x + item_l[t]
            new_rooms[made, n, 1] = y
            new_rooms[made, n, 2] = beside
            new_rooms[made, n, 3] = width if what[c, 2] == 0 else item_w[t]
            n += 1
        if above > 0:
            new_rooms[made, n, 0] = x
            new_rooms[made, n, 1] = y + item_w[t]
            new_rooms[made, n, 2] = item_l[t] if what[c, 2] == 0 else length
            new_rooms[made, n, 3] = above
            n += 1
        new_left[made] = left[s]
        new_left[made, t] -= 1
        if not _is_hopeful(new_rooms[made], n, new_left[made], item_l, item_w):
            continue
        new_n[made] = n
        new_marks[made] = mark[c]
        new_worth[made] = worth[s] + item_worth[t]
        chosen[made] = c
        made += 1
        if made == limit:
            break
    return made
