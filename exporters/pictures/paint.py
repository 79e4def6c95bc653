"""The colour of a body's points: the wood that it is cut from, or its one colour."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from exporters.grain.in_wood import InWood
from exporters.render.render import Painter, plain
from exporters.scene.scene import Body


def painter_of(woods: Mapping[str, InWood]) -> Painter:
    """A painter that shows each part in its own wood, and all else plain.

    Args:
        woods: by instance.
    """

    def paint(body: Body, points: NDArray[np.float64], dot_mm: float) -> NDArray[np.float64]:
        wood = None if body.placed is None else woods.get(body.name)
        if wood is None:
            return plain(body, points, dot_mm)
        return wood.colours(points, dot_mm)

    return paint
