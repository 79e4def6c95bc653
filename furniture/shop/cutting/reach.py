"""Where cuts may lie, in whole units: at sums of sizes, and sizes floored to such sums."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray


def reachable(
    sizes: Sequence[tuple[int, int]], limit: int, origins: Sequence[int] = (0,)
) -> NDArray[np.int64]:
    """Sums of (size, copies) from any origin, each size so often at most, up to the limit.

    Ascending, the limit among them.
    """
    mask = (1 << (limit + 1)) - 1
    bits = 0
    for origin in origins:
        if 0 <= origin <= limit:
            bits |= 1 << origin
    for size, copies in sizes:
        left = min(copies, limit // size) if size else 0
        times = 1
        while left > 0:
            step = min(times, left)
            bits |= (bits << (size * step)) & mask
            left -= step
            times *= 2
    bits |= 1 << limit
    return np.array([n for n, bit in enumerate(reversed(bin(bits)[2:])) if bit == "1"], np.int64)


def floors(points: NDArray[np.int64], limit: int) -> NDArray[np.int64]:
    """For every size 0..limit the index of the greatest point that is no greater."""
    return (np.searchsorted(points, np.arange(limit + 1), side="right") - 1).astype(np.int64)
