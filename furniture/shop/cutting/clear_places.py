"""How many rectangles bar a rectangle at every corner that matters, counted all at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.zones import TOUCH


def barred_counts(
    boxes: NDArray[np.float64],
    us: NDArray[np.float64],
    vs: NDArray[np.float64],
    u_size: float,
    v_size: float,
    weights: NDArray[np.int64] | None = None,
) -> NDArray[np.int64]:
    """For each near corner (u, v) how many boxes a rectangle there overlaps: by us, then by vs.

    A box bars a stretch of the corners each way, so four corners of its block say all.

    Args:
        boxes: rows of low u, high u, low v, high v [mm].
        us: ascending, near corners of the rectangle [mm].
        vs: the same across [mm].
        u_size: of the rectangle [mm].
        v_size: of the rectangle [mm].
        weights: what each box counts; None for one.
    """
    steps = np.zeros((len(us) + 1, len(vs) + 1), dtype=np.int64)
    first, last = (
        np.searchsorted(us, boxes[:, 0] - u_size + TOUCH, side="right"),
        np.searchsorted(us, boxes[:, 1] - TOUCH, side="left"),
    )
    low, high = (
        np.searchsorted(vs, boxes[:, 2] - v_size + TOUCH, side="right"),
        np.searchsorted(vs, boxes[:, 3] - TOUCH, side="left"),
    )
    is_any = (first < last) & (low < high)
    first, last, low, high = (each[is_any] for each in (first, last, low, high))
    count = np.ones(len(boxes), dtype=np.int64)[is_any] if weights is None else weights[is_any]
    for u, v, step in ((first, low, 1), (last, low, -1), (first, high, -1), (last, high, 1)):
        np.add.at(steps, (u, v), step * count)
    counts: NDArray[np.int64] = steps.cumsum(axis=0).cumsum(axis=1)[:-1, :-1]
    return counts
