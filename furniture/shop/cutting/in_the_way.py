"""Which zones keep a part off its boards: those of the places with the fewest zones in the way."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.obstacles import barred_counts
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.values import (
    KEPT_OFF_KINDS,
    Board,
    CutPart,
    CuttingRequest,
    Saw,
    Zone,
)
from furniture.shop.cutting.zones import (
    TOUCH,
    bounds_of,
    is_tolerated,
    kept_off,
    usable_frame,
    width_kept,
)


def zones_in_the_way(
    request: CuttingRequest,
    boards: Sequence[Board],
    part: CutPart,
    is_over: Callable[[], bool],
) -> tuple[str, ...]:
    """The zones that alone keep the part off, else those of the place with the fewest, with boards.

    A part that lies as near the jointed edge and the tape end as the zones let it needs to be
    looked for behind zones only. Slanting zones are taken as their smallest rectangles.

    Args:
        boards: large enough for the part.
        part: of which no copy lies anywhere.
        is_over: whether to name those of the boards looked at so far.
    """
    fewest: int | None = None
    named: dict[str, None] = {}
    for board in boards:
        if is_over():
            break
        for flipped in (False, True):
            barring = [z for z in board.zones if not is_tolerated(z, part, flipped=flipped)]
            for zones in _fewest(board, part, request.saw, barring):
                if fewest is None or len(zones) < fewest:
                    fewest, named = len(zones), {}
                if len(zones) == fewest and (fewest == 1 or not named):
                    named.update(dict.fromkeys(f"{z.name} on board {board.name}" for z in zones))
    return tuple(named)


def _fewest(
    board: Board, part: CutPart, saw: Saw, barring: Sequence[Zone]
) -> Iterator[tuple[Zone, ...]]:
    """Each zone that bars a place by itself; where none does, those of a place with the fewest."""
    if not barring:
        return
    length, width = part.rough_length_mm, part.rough_width_mm
    boxes = np.array([_sides(_barred(zone, saw)) for zone in barring])
    xs, ys = _corners(board, part, saw, boxes)
    if not len(xs) or not len(ys):
        return
    counts = barred_counts(boxes, xs, ys, length, width)
    counts[counts == 0] = len(barring) + 1  # free as rectangles see it: a slanting zone is at fault
    edges = np.array([_edge(board, float(x), length) for x in xs]) - saw.edge_trim_mm
    counts[ys[None, :] + width > edges[:, None] + TOUCH] = len(barring) + 1
    least = counts.min()
    if least > len(barring):
        return
    if least == 1:
        numbers = np.arange(len(barring), dtype=np.int64)
        owners = barred_counts(boxes, xs, ys, length, width, numbers)
        for number in np.unique(owners[counts == 1]):
            yield (barring[int(number)],)
        return
    x, y = (
        float(line[n]) for line, n in zip((xs, ys), np.argwhere(counts == least)[0], strict=True)
    )
    meets = (boxes[:, 0] < x + length - TOUCH) & (boxes[:, 1] > x + TOUCH)
    meets &= (boxes[:, 2] < y + width - TOUCH) & (boxes[:, 3] > y + TOUCH)
    yield tuple(barring[int(n)] for n in np.flatnonzero(meets))


def _corners(
    board: Board, part: CutPart, saw: Saw, boxes: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Where the near corner of the part may be along and across the board [mm]."""
    frame = usable_frame(board, saw)
    ends = [s.at_mm - part.rough_length_mm for s in board.stations]
    starts = [
        frame.x_mm,
        frame.x_end_mm - part.rough_length_mm,
        *ends,
        *(s.at_mm for s in board.stations),
    ]
    xs = np.unique(np.round([*starts, *boxes[:, 1]], 6))
    xs = xs[(xs >= frame.x_mm - TOUCH) & (xs <= frame.x_end_mm - part.rough_length_mm + TOUCH)]
    ys = np.unique(np.round([frame.y_mm, *boxes[:, 3]], 6))
    return xs, ys[(ys >= frame.y_mm - TOUCH) & (ys <= frame.y_end_mm - part.rough_width_mm + TOUCH)]


def _edge(board: Board, x: float, length: float) -> float:
    """How wide the board is at its narrowest between x and x + length [mm]."""
    return width_kept(board, Rectangle(x_mm=x, y_mm=0.0, length_mm=length, width_mm=0.0), length)


def _barred(zone: Zone, saw: Saw) -> Rectangle:
    """The rectangle round what a part keeps off."""
    is_kept_off = zone.kind in KEPT_OFF_KINDS
    return bounds_of(kept_off(zone.outline, saw.off_faults_mm) if is_kept_off else zone.outline)


def _sides(box: Rectangle) -> tuple[float, float, float, float]:
    return box.x_mm, box.x_end_mm, box.y_mm, box.y_end_mm
