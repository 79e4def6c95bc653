"""What all but takes a part: the boards and offcuts that miss by the least, and by how much."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

import numpy as np

from furniture.shop.cutting.plan import NearMiss, NearPlace, Offcut, Rectangle
from furniture.shop.cutting.values import Board, CutPart, Saw
from furniture.shop.cutting.zones import (
    TOUCH,
    Outline,
    bounds_of,
    clipped_to_band,
    is_square,
    missing_wood,
    obstacles_for,
    usable_frame,
)

NEAR_MM, MOST_NEAR = 10.0, 2
"""Beside the nearest, one that misses by no more is named, and so many in all [mm]. Own rule: what
a smaller allowance or trim might find."""

MOST_BANDS = 400
"""Bands that are looked at for a clear place. Own rule: 500 zones take a tenth of a second."""

MOST_SLANTING = 16
"""Outlines that are no rectangles and are followed as they slant. Own rule: as above."""


def near_misses(
    part: CutPart,
    boards: Iterable[Board],
    offcuts: Iterable[Offcut],
    saw: Saw,
    is_over: Callable[[], bool],
) -> tuple[NearMiss, ...]:
    """What misses by the least, the nearest first; only what was looked at before time was over.

    Args:
        part: one piece, that lies along the grain.
        offcuts: looked at beside, or instead.
        saw: its trims, and how far parts keep off faults.
        is_over: whether to name what was found so far.
    """
    by_name = {board.name: board for board in boards}
    places = [(board, usable_frame(board, saw), NearPlace.BOARD) for board in by_name.values()]
    places = [
        (by_name[each.board], each.place, NearPlace.OFFCUT)
        for each in offcuts
        if each.board in by_name
    ] or places
    found: list[NearMiss] = []
    for board, frame, place in sorted(places, key=lambda each: _hopes(part, each[0], each[1])):
        if is_over():
            break
        if len(found) >= MOST_NEAR:
            found = sorted(found, key=lambda each: each.lacks_mm)[:MOST_NEAR]
            if _hopes(part, board, frame) >= found[-1].lacks_mm - TOUCH:
                break
        miss = _miss(part, board, frame, place, saw)
        if miss.lacks_mm > TOUCH:
            found.append(miss)
    found.sort(key=lambda each: each.lacks_mm)
    return tuple(
        each for n, each in enumerate(found[:MOST_NEAR]) if not n or each.lacks_mm <= NEAR_MM
    )


def _hopes(part: CutPart, board: Board, frame: Rectangle) -> float:
    """What the place lacks at least, its faults and its taper not looked at [mm]."""
    short = max(0.0, part.rough_length_mm - frame.length_mm)
    return short + max(0.0, part.least_width_mm - min(frame.width_mm, board.greatest_width_mm))


def _miss(part: CutPart, board: Board, frame: Rectangle, place: NearPlace, saw: Saw) -> NearMiss:
    bare = missing_wood(board, saw.edge_trim_mm)
    sound = _lack(part, board, frame, bare)
    best = min(
        (
            _lack(part, board, frame, obstacles_for(board, part, saw, flipped=flipped))
            for flipped in (False, True)
        ),
        key=sum,
    )
    if place is NearPlace.BOARD and sum(sound) < sum(best) - TOUCH:
        place = NearPlace.CLEAR
    short, lacking = best
    allowed = part.rough_width_mm - part.least_width_mm
    return NearMiss(
        board=board.name, place=place, short_mm=short, allowed_mm=allowed if lacking else 0.0,
        narrow_mm=lacking + allowed if lacking else 0.0,
    )  # fmt: skip


def _lack(
    part: CutPart, board: Board, frame: Rectangle, outlines: Sequence[Outline]
) -> tuple[float, float]:
    """By how much the place is too short, or too narrow, or both where neither alone will do."""
    length, width = part.rough_length_mm, part.least_width_mm
    ways = []
    if frame.width_mm >= width - TOUCH:
        run = _longest_clear(outlines, frame, width)
        ways.append((max(0.0, length - run) if run > TOUCH else math.inf, 0.0))
    if frame.length_mm >= length - TOUCH:
        turned = [tuple((y, x) for x, y in outline) for outline in outlines]
        over = Rectangle(
            x_mm=frame.y_mm, y_mm=frame.x_mm, length_mm=frame.width_mm, width_mm=frame.length_mm
        )
        run = _longest_clear(turned, over, length)
        ways.append((0.0, max(0.0, width - run) if run > TOUCH else math.inf))
    short, narrow = min(ways, key=sum, default=(math.inf, math.inf))
    if short + narrow < math.inf:
        return short if short > TOUCH else 0.0, narrow if narrow > TOUCH else 0.0
    return max(0.0, length - frame.length_mm), max(0.0, width - frame.width_mm)


def _longest_clear(outlines: Sequence[Outline], frame: Rectangle, width: float) -> float:
    """The length of the longest clear rectangle of that width in the frame [mm]."""
    boxes = np.array([_sides(outline) for outline in outlines]).reshape(-1, 4)
    square = np.array([is_square(outline) for outline in outlines], dtype=np.bool_)
    if (~square).sum() > MOST_SLANTING:
        square[:] = True  # as their smallest rectangles: what is found is clear all the same
    last = frame.y_end_mm - width
    corners = np.array([y for outline in outlines for _, y in outline])
    bands = np.unique(np.round([frame.y_mm, last, *corners, *(corners - width)], 6))
    bands = bands[(bands >= frame.y_mm - TOUCH) & (bands <= last + TOUCH)]
    bands = bands[:: 1 + len(bands) // MOST_BANDS]
    if not len(bands):
        return 0.0
    low, high = bands[:, None] + TOUCH, bands[:, None] + width - TOUCH
    hit = (boxes[:, 1] < high) & (boxes[:, 3] > low)
    starts, ends = (np.where(hit, boxes[:, side], far) for side, far in ((0, np.inf), (2, -np.inf)))
    for number in np.flatnonzero(~square):
        for row in np.flatnonzero(hit[:, number]):
            inside = clipped_to_band(outlines[int(number)], float(low[row, 0]), float(high[row, 0]))
            xs = [x for x, _ in inside]
            starts[row, number] = min(xs, default=np.inf)
            ends[row, number] = max(xs, default=-np.inf)
    order = np.argsort(starts, axis=1)
    starts, ends = (np.take_along_axis(each, order, axis=1) for each in (starts, ends))
    sides = np.full((len(bands), 1), frame.x_mm), np.full((len(bands), 1), frame.x_end_mm)
    reached = np.maximum.accumulate(np.hstack((sides[0], ends)), axis=1)
    gaps = np.minimum(np.hstack((starts, sides[1])), frame.x_end_mm) - reached
    return float(max(0.0, gaps.max()))


def _sides(outline: Outline) -> tuple[float, float, float, float]:
    box = bounds_of(outline)
    return box.x_mm, box.y_mm, box.x_end_mm, box.y_end_mm
