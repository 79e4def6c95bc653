"""Which zones keep a part off its boards: those of the places with the fewest zones in the way."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.beds import Bed, FirstCut, Ground
from furniture.shop.cutting.blanks import blanks_of
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
    missing_wood,
    usable_frame,
)

MOST_PLACES = 250_000
"""Places looked at on one board. Own rule: 500 zones take half a second."""


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
        request: the saw.
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
    """The zones in the way of each place that has the fewest, each set of one zone once."""
    if not barring:
        return
    frame = usable_frame(board, saw)
    boxes = np.array([_sides(_barred(zone, saw)) for zone in barring])
    x, y = _places(board, part, saw, boxes, frame)
    if not len(x):
        return
    meets = boxes[:, 0] < x[:, None] + part.rough_length - TOUCH
    meets &= boxes[:, 2] > x[:, None] + TOUCH
    meets &= boxes[:, 1] < y[:, None] + part.rough_width - TOUCH
    meets &= boxes[:, 3] > y[:, None] + TOUCH
    counts = meets.sum(axis=1)
    counts[counts == 0] = len(barring) + 1  # free as rectangles see it: a slanting zone is at fault
    least = counts.min()
    if least > len(barring):
        return
    seen = set()
    for row in meets[counts == least]:
        numbers = tuple(int(n) for n in np.flatnonzero(row))
        if numbers not in seen:
            seen.add(numbers)
            yield tuple(barring[n] for n in numbers)


def _places(
    board: Board, part: CutPart, saw: Saw, boxes: NDArray[np.float64], frame: Rectangle
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Near corners of the places where the part is on the wood, if zones are not looked at."""
    ends = [s.at - part.rough_length for s in board.stations]
    starts = [frame.x, frame.x_end - part.rough_length, *ends, *(s.at for s in board.stations)]
    xs = np.unique(np.round([*starts, *boxes[:, 2]], 6))
    xs = xs[(xs >= frame.x - TOUCH) & (xs <= frame.x_end - part.rough_length + TOUCH)]
    ys = np.unique(np.round([frame.y, *boxes[:, 3]], 6))
    ys = ys[(ys >= frame.y - TOUCH) & (ys <= frame.y_end - part.rough_width + TOUCH)]
    while len(xs) * len(ys) > MOST_PLACES:
        xs = xs[::2]
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    bare = Board(
        name=board.name, length=board.length, stations=board.stations,
        thickness=board.thickness, species=board.species,
    )  # fmt: skip
    if not missing_wood(bare, saw.edge_trim):
        return x, y
    blanks = blanks_of(CuttingRequest(boards=(bare,), parts=(part,)), frozenset())
    ground = Ground(Bed(board=0, frame=frame), bare, blanks, saw, FirstCut.RIP)
    poses = [pose for pose in ground.poses if not pose.turned]
    on = [
        any(ground.is_free(pose, float(u - frame.x), float(v - frame.y)) for pose in poses)
        for u, v in zip(x, y, strict=True)
    ]
    return x[on], y[on]


def _barred(zone: Zone, saw: Saw) -> Rectangle:
    """The rectangle round what a part keeps off."""
    is_kept_off = zone.kind in KEPT_OFF_KINDS
    return bounds_of(kept_off(zone.outline, saw.off_faults) if is_kept_off else zone.outline)


def _sides(box: Rectangle) -> tuple[float, float, float, float]:
    return box.x, box.y, box.x_end, box.y_end
