"""What every source of wood answers: the colour of any of its points."""

from __future__ import annotations

from typing import Protocol

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
"""Points as rows of x, y, z [mm]."""
Colours = NDArray[np.float64]
"""Colours as rows of red, green and blue, each 0 to 1 (sRGB)."""


class Wood(Protocol):
    """A board whose colour is known at every point: sawn virtually, or photographed.

    Board frame: x along the grain from the end the tape was hooked on, y across from the straight
    edge, z from the lower face [mm].
    """

    @property
    def told(self) -> str:
        """How true it is to the maker's board, in a sentence; empty where nothing is known."""
        ...

    def colours(self, points: Points, dot_mm: float) -> Colours:
        """The colour at each point.

        Args:
            points: rows of x, y, z, board frame [mm].
            dot_mm: how far apart the points are looked at; what is finer is averaged [mm].
        """
        ...
