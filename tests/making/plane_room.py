"""The room of a plane that levels a face: what it sweeps past the ends, aside and above."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from manifold3d import Manifold

PLANE_MM = (60.0, 20.0, 140.0)
"""Past the ends of a face, aside of it, and above it."""


def swept_by_a_plane(low: np.ndarray, high: np.ndarray, side: Sequence[float]) -> Manifold:
    """The box that a plane wants on one side of a part.

    Args:
        low: least corner of the box round the part [mm].
        high: its greatest corner [mm].
        side: unit vector out of the face, along an axis.
    """
    low, high, way = low.copy(), high.copy(), np.array(side)
    axis = int(np.argmax(np.abs(way)))
    across = [each for each in range(3) if each != axis]
    long = max(across, key=lambda each: high[each] - low[each])
    for each in across:
        room = PLANE_MM[0] if each == long else PLANE_MM[1]
        low[each], high[each] = low[each] - room, high[each] + room
    if way[axis] > 0:
        low[axis], high[axis] = high[axis] + 0.1, high[axis] + PLANE_MM[2]
    else:
        low[axis], high[axis] = low[axis] - PLANE_MM[2], low[axis] - 0.1
    return Manifold.cube(high - low).translate(low)
