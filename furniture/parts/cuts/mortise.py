"""The mortise: a blind square hole in any face, its corners square or as the cutter leaves them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit, pocket
from furniture.parts.cuts.figures import Care, Figures, Says, struck_on
from furniture.parts.cuts.left import put
from furniture.parts.cuts.opening import SKIN_MM
from furniture.parts.cuts.shapes import Channel, level_of
from furniture.parts.faces import Face
from furniture.parts.tools import Tool


@dataclass(frozen=True, slots=True, kw_only=True)
class Mortise(Cut):
    """A blind hole with four walls.

    Two directions lie in its face: the first is along the grain, or across it in an end; the second
    is across the grain, or through the thickness in an edge or an end.

    Args:
        face: that it is cut into.
        first_at_mm: where it begins along the first: from `Face.NAMED_END`, or from the face edge.
        first_size_mm: how long it is that way.
        second_at_mm: where it begins along the second: from the face edge, or from the back side.
        second_size_mm: how long it is that way.
        depth_mm: into the face.
        corner_radius_mm: of the cutter, left in its corners; 0 is chiselled square.
    """

    kind: ClassVar[str] = "mortise"

    face: Face
    first_at_mm: float
    first_size_mm: float
    second_at_mm: float
    second_size_mm: float
    depth_mm: float
    corner_radius_mm: float = 0.0

    @property
    def axes(self) -> tuple[int, int]:
        """The two part axes in its face."""
        first, second = (axis for axis in range(3) if axis != self.face.axis)
        return first, second

    def _spans(self) -> dict[int, tuple[float, float]]:
        first, second = self.axes
        return {
            first: (self.first_at_mm, self.first_at_mm + self.first_size_mm),
            second: (self.second_at_mm, self.second_at_mm + self.second_size_mm),
        }

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        r = self.corner_radius_mm
        return (pocket(blank, self.face, self._spans(), self.depth_mm, (r, r, r, r)),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        corners = (4.0 - math.pi) * self.corner_radius_mm**2
        return (self.first_size_mm * self.second_size_mm - corners) * self.depth_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        first, second = (blank.size[axis] - SKIN_MM for axis in self.axes)
        lies, deepest = "it has wood on all four sides", blank.across(self.face) - 1e-3
        least = min(self.first_size_mm, self.second_size_mm)
        return (
            *misfit("first_at_mm", self.first_at_mm, SKIN_MM, first - self.first_size_mm, lies),
            *misfit("second_at_mm", self.second_at_mm, SKIN_MM, second - self.second_size_mm, lies),
            *misfit("first_size_mm", self.first_size_mm, 1.0, first - SKIN_MM, lies),
            *misfit("second_size_mm", self.second_size_mm, 1.0, second - SKIN_MM, lies),
            *misfit("depth_mm", self.depth_mm, 1e-3, deepest, "it leaves wood behind it"),
            *misfit(
                "corner_radius_mm", self.corner_radius_mm, 0.0, least / 2, "the cutter goes into it"
            ),
        )

    def shape(self, blank: Blank) -> Channel:
        spans = self._spans()
        along = max(spans, key=lambda axis: spans[axis][1] - spans[axis][0])
        return Channel(
            face=self.face,
            along=along,
            wide=spans[3 - along - self.face.axis],
            floor_mm=abs(level_of(self.face, blank) - self.depth_mm),
            run=spans[along],
            corner_mm=self.corner_radius_mm,
            is_mortise=True,
        )

    def figures(self, blank: Blank) -> Figures:
        """Its walls are struck from the named end, the face edge and the face side, as it lies."""
        shape = self.shape(blank)
        level, (low, high) = shape.surface_mm(blank), shape.corners(blank)
        first, second = (Says.BARE.fitted(mm) for mm in (self.first_size_mm, self.second_size_mm))
        return Figures(
            sizes=(first, second, Says.DEEP.dialled(self.depth_mm)),
            more=Says.CORNERS.where_any(self.corner_radius_mm),
            place=Says.IN.of(self.face),
            at=shape.middle(blank, level),
            seen=self.face,
            struck=struck_on(self.face, put(put(low, 2, high[2]), self.face.axis, level), Care.FIT),
        )

    def turned_about(self, axis: int, blank: Blank) -> Mortise:
        at = {
            own: start if own == axis else blank.size[own] - end
            for own, (start, end) in self._spans().items()
        }
        first, second = self.axes
        face = self.face if axis == self.face.axis else self.face.opposite
        return replace(self, face=face, first_at_mm=at[first], second_at_mm=at[second])
