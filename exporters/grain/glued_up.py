"""A part that is glued up from strips: each strip shows the wood that it is sawn from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from exporters.grain.in_wood import InWood
from exporters.grain.wood import Colours, Points


@dataclass(frozen=True, slots=True, kw_only=True)
class GluedUpWood:
    """Strips side by side across a part, in the part's frame.

    Args:
        strips: each to which place across the part it reaches [mm], and its wood, in order.
    """

    strips: tuple[tuple[float, InWood], ...]

    @property
    def told(self) -> str:
        """Nothing: its boards say how true they are."""
        return ""

    def colours(self, points: Points, dot_mm: float) -> Colours:
        """The colour at each point, of the strip that it lies in.

        Args:
            points: rows of x, y, z, part frame [mm].
            dot_mm: how far apart they are looked at [mm].
        """
        ends = np.array([high for high, _ in self.strips[:-1]])
        which = np.searchsorted(ends, points[:, 1], side="right")
        found = np.empty((len(points), 3))
        for index, (_, wood) in enumerate(self.strips):
            here = which == index
            if here.any():
                found[here] = wood.colours(points[here], dot_mm)
        return found
