"""A part that is glued up from strips: each strip shows the wood that it is sawn from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from exporters.grain.in_wood import InWood
from exporters.grain.wood import Colours, Points, Wood
from furniture.making.breaking_out import lie_of
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.blanks import StripPlace, in_strips, strip_places
from furniture.shop.cutting.plan import Placement


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


def glued_up_from(cutting: CuttingOutcome, woods: Mapping[str, Wood]) -> dict[str, GluedUpWood]:
    """The wood of every instance that the plan glues up from strips.

    Args:
        cutting: the plan.
        woods: of its boards, by name.
    """
    parts = {each.name: each for each in in_strips(cutting.job.request).parts}
    thick = {each.name: each.thickness for each in cutting.job.boards}
    laid: dict[str, list[Placement]] = {}
    for board in cutting.used:
        for each in board.placements:
            if each.strip:
                laid.setdefault(cutting.laid(each).instances[0], []).append(each)
    found = {}
    for instance, placements in laid.items():
        part = parts[placements[0].part]
        places = strip_places(part)
        if len(placements) != len(places):  # not all of them have a place
            continue
        in_order = sorted(placements, key=lambda each: each.strip)
        size = (part.length, part.thickness)
        found[instance] = GluedUpWood(
            strips=tuple(
                (place.high, _strip(each, place, size, thick[each.board], woods[each.board]))
                for each, place in zip(in_order, places, strict=True)
            )
        )
    return found


def _strip(
    laid: Placement, place: StripPlace, size: tuple[float, float], thick: float, wood: Wood
) -> InWood:
    """The part in the frame of a strip's board: right wherever the strip lies in it."""
    long = laid.place.width if laid.is_turned else laid.place.length
    low = ((long - size[0]) / 2, place.before, max(0.0, thick - size[1]) / 2)
    origin, axes = lie_of(laid, (0.0, thick), low)
    back = np.array(origin) - place.low * np.array(axes[1])
    return InWood(wood=wood, origin=(back[0], back[1], back[2]), axes=axes)
