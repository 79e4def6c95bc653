"""A cut of one's own, in one file: a blind square hole in any face, and what a sheet says of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts import Channel, Cut, Misfit
from furniture.parts.cuts.cut import misfit, pocket
from furniture.parts.cuts.figures import Figures, Says, Wording, struck_on
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import Face
from furniture.parts.tools import Tool


class Corners(Wording):
    """How its corners are made."""

    CHOPPED = "corners chopped square"


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareHole(Cut):
    """A blind square hole; `first` and `second` are the two part axes in its face, in order."""

    kind: ClassVar[str] = "square hole"

    face: Face
    first_at_mm: float
    first_size_mm: float
    second_at_mm: float
    second_size_mm: float
    depth_mm: float

    def _spans(self) -> dict[int, tuple[float, float]]:
        first, second = (axis for axis in range(3) if axis != self.face.axis)
        return {
            first: (self.first_at_mm, self.first_at_mm + self.first_size_mm),
            second: (self.second_at_mm, self.second_at_mm + self.second_size_mm),
        }

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        return (pocket(blank, self.face, self._spans(), self.depth_mm),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        return self.first_size_mm * self.second_size_mm * self.depth_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        first, second = (blank.size[axis] for axis in range(3) if axis != self.face.axis)
        lies, deepest = "it lies on the face", blank.across(self.face) - 1e-3
        return (
            *misfit("first_at_mm", self.first_at_mm, 0.0, first - self.first_size_mm, lies),
            *misfit("second_at_mm", self.second_at_mm, 0.0, second - self.second_size_mm, lies),
            *misfit("first_size_mm", self.first_size_mm, 1.0, first, lies),
            *misfit("second_size_mm", self.second_size_mm, 1.0, second, lies),
            *misfit("depth_mm", self.depth_mm, 1e-3, deepest, "it leaves wood behind it"),
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
        )

    def figures(self, blank: Blank) -> Figures:
        shape = self.shape(blank)
        surface, (low, high) = shape.surface_mm(blank), shape.corners(blank)
        first, second = (Says.BARE.fitted(mm) for mm in (self.first_size_mm, self.second_size_mm))
        return Figures(
            sizes=(first, second, Says.DEEP.dialled(self.depth_mm)),
            more=(Corners.CHOPPED.of(),),
            place=Says.IN.of(self.face),
            at=shape.middle(blank, surface),
            seen=self.face,
            struck=struck_on(self.face, put(put(low, 2, high[2]), self.face.axis, surface)),
        )

    def turned_about(self, axis: int, blank: Blank) -> SquareHole:
        first, second = (each for each in range(3) if each != self.face.axis)
        at = [self.first_at_mm, self.second_at_mm]
        for index, (own, size) in enumerate(
            ((first, self.first_size_mm), (second, self.second_size_mm))
        ):
            if own != axis:
                at[index] = blank.size[own] - at[index] - size
        face = self.face if axis == self.face.axis else self.face.opposite
        return replace(self, face=face, first_at_mm=at[0], second_at_mm=at[1])
