"""A part in the wood that it is cut from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from exporters.grain.wood import Colours, Points, Wood
from furniture.parts.vectors import Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class InWood:
    """A part in the wood it is cut from: its origin and its axes in the wood's frame [mm]."""

    wood: Wood
    origin: Vector
    axes: tuple[Vector, Vector, Vector]

    def colours(self, points: Points, dot_mm: float) -> Colours:
        """The colour at points of the part.

        Args:
            points: rows of x, y, z, part frame [mm].
            dot_mm: how far apart they are looked at [mm].
        """
        axes: NDArray[np.float64] = np.array(self.axes)
        return self.wood.colours(points @ axes + np.array(self.origin), dot_mm)
