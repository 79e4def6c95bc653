"""Compiled loops of the strip beam: children of many half-filled boards, and which to keep.

A state is a row of numbers: boards closed, strip start and height, section start and length,
column front, area laid. Strips run along u, stacked along v; sections follow each other in a
strip, items are stacked in a section.
"""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

CLOSED, STRIP, HEIGHT, SECTION, LENGTH, FRONT, AREA, PIECES = range(8)
STACK, NEXT_SECTION, NEXT_STRIP, NEXT_BOARD = range(4)


@njit(cache=True, nogil=True)
def step(
    states: NDArray[np.int64],
    left: NDArray[np.int16],
    marks: NDArray[np.uint64],
    item_u: NDArray[np.int64],
    item_v: NDArray[np.int64],
    random_marks: NDArray[np.uint64],
    size_u: int,
    size_v: int,
    allowed_waste: int,
    bias: float,
    stages: int,
    guides: NDArray[np.float64],
    children: NDArray[np.int64],
    child_marks: NDArray[np.uint64],
) -> int:
    """Fill guides and children (parent, item, action, state...) for every state; returns count."""
    count = 0
    room = guides.size
    for s in range(states.shape[0]):
        closed = states[s, 0]
        strip = states[s, 1]
        height = states[s, 2]
        section = states[s, 3]
        length = states[s, 4]
        front = states[s, 5]
        area = states[s, 6]
        pieces = states[s, 7]
        for t in range(item_u.size):
            if left[s, t] == 0:
                continue
            du = item_u[t]
            dv = item_v[t]
            fits_free = False
            fits_here = False
            for action in range(4):
                n_closed = closed
                n_strip = strip
                if action == 0:
                    if stages < 3 or length == 0:
                        continue
                    n_section = section
                    n_length = max(length, du)
                    n_front = front + dv
                    n_height = max(height, n_front - strip)
                    if n_section + n_length > size_u or strip + n_height > size_v:
                        continue
                    fits_here = True
                    if n_length == length and n_height == height:
                        fits_free = True
                elif action == 1:
                    if length == 0:
                        continue
                    n_section = section + length
                    n_length = du
                    n_front = strip + dv
                    n_height = max(height, dv)
                    if n_section + du > size_u or strip + n_height > size_v:
                        continue
                    fits_here = True
                    if n_height == height:
                        fits_free = True
                elif action == 2:
                    if fits_free or length == 0:
                        continue
                    n_strip = strip + height
                    n_section = 0
                    n_length = du
                    n_front = n_strip + dv
                    n_height = dv
                    if n_front > size_v:
                        continue
                    fits_here = True
                else:
                    if fits_here:
                        continue
                    n_closed = closed + 1
                    n_strip = 0
                    n_section = 0
                    n_length = du
                    n_front = dv
                    n_height = dv
                n_area = area + du * dv
                behind = (
                    (n_closed - 1) * size_u * size_v
                    + size_u * n_strip
                    + n_height * n_section
                    + n_length * (n_front - n_strip)
                )
                waste = behind - n_area
                if waste > allowed_waste:
                    continue
                guide = (waste + 0.01 * n_area / (pieces + 1)) / n_area
                if bias > 0:
                    guide *= ((pieces + 1) / n_area) ** bias
                guides[count] = guide
                children[count, 0] = s
                children[count, 1] = t
                children[count, 2] = action
                children[count, 3] = n_closed
                children[count, 4] = n_strip
                children[count, 5] = n_height
                children[count, 6] = n_section
                children[count, 7] = n_length
                children[count, 8] = n_front
                children[count, 9] = n_area
                child_marks[count] = marks[s] + random_marks[t]
                count += 1
                if count == room:
                    return count
    return count


@njit(cache=True, nogil=True)
def keep_best(
    order: NDArray[np.int64],
    children: NDArray[np.int64],
    child_marks: NDArray[np.uint64],
    left: NDArray[np.int16],
    width: int,
    states: NDArray[np.int64],
    new_left: NDArray[np.int16],
    marks: NDArray[np.uint64],
    trail: NDArray[np.int32],
    table: NDArray[np.uint64],
) -> int:
    """Copy the first `width` children in order into states, each different one once."""
    table[:] = 0
    mask = table.size - 1
    count = 0
    for n in range(order.size):
        c = order[n]
        key = child_marks[c]
        for w in range(3, 9):
            key = (key ^ np.uint64(children[c, w] + 1)) * np.uint64(11400714819323198485)
            key ^= key >> np.uint64(29)
        if key == 0:
            key = np.uint64(1)
        slot = np.int64(key & np.uint64(mask))
        known = False
        while table[slot] != 0:
            if table[slot] == key:
                known = True
                break
            slot = (slot + 1) & mask
        if known:
            continue
        table[slot] = key
        parent = children[c, 0]
        t = children[c, 1]
        for w in range(7):
            states[count, w] = children[c, 3 + w]
        states[count, 7] = 0
        new_left[count] = left[parent]
        new_left[count, t] -= 1
        marks[count] = child_marks[c]
        trail[count, 0] = parent
        trail[count, 1] = t
        trail[count, 2] = children[c, 2]
        trail[count, 3] = children[c, 3] - 1
        trail[count, 4] = children[c, 6]
        trail[count, 5] = children[c, 8]
        count += 1
        if count == width:
            break
    return count
