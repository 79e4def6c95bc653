"""A cut of one's own, in one file: a blind square hole in any face, and what a sheet says of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from exporters.sheets.annotate import annotate
from exporters.sheets.annotation import LOOK_OF_FACE, Annotation, Bench, Position
from furniture.parts.blank import Blank
from furniture.parts.cuts import Channel, Cut, Misfit
from furniture.parts.cuts.cut import misfit, pocket
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import Face
from furniture.parts.tools import Tool


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


@annotate.register
def _square_hole(cut: SquareHole, bench: Bench) -> Annotation:
    low, high = cut.shape(bench.blank).corners(bench.blank)
    look = LOOK_OF_FACE[cut.face]
    point = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    point[cut.face.axis] = level_of(cut.face, bench.blank)
    corner = list(point)
    for axis in range(3):
        if axis != cut.face.axis:
            corner[axis] = high[axis] if axis == 2 else low[axis]
    return Annotation(
        noun="square hole",
        spec=f"{bench.caliper(cut.first_size_mm)} x {bench.caliper(cut.second_size_mm)} x "
        f"{bench.dial(cut.depth_mm)} deep",
        place=f"in {cut.face.value}",
        target=(point[0], point[1], point[2]),
        look=look,
        positions=tuple(
            Position(
                axis=axis,
                value_mm=bench.from_face_side(high[2]) if axis == 2 else low[axis],
                point=(corner[0], corner[1], corner[2]),
                look=look,
            )
            for axis in range(3)
            if axis != cut.face.axis
        ),
    )
