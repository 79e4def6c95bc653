"""The gain: a shallow recess for a hinge's leaf, open at the face that its barrel stands out of."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit, pocket
from furniture.parts.cuts.figures import Care, Figures, Says, Size, Spanned, struck_on
from furniture.parts.cuts.left import put
from furniture.parts.cuts.opening import SKIN_MM
from furniture.parts.cuts.shapes import Channel, level_of
from furniture.parts.faces import ENDS, Face
from furniture.parts.tools import Tool


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain(Cut):
    """A recess sunk from one long face, along its arris with another, wood left at both ends.

    Args:
        face: the edge or wide face that the leaf lies in.
        side: the wide face or edge beside it, that it is open at.
        start_mm: where it begins along the grain, from `Face.NAMED_END`.
        length_mm: along the grain.
        into_mm: how far it goes in from `side`.
        depth_mm: below `face`.
    """

    kind: ClassVar[str] = "gain"

    face: Face
    side: Face
    start_mm: float
    length_mm: float
    into_mm: float
    depth_mm: float

    def _spans(self, blank: Blank) -> dict[int, tuple[float, float]]:
        level = level_of(self.side, blank)
        inner = abs(level - self.into_mm)
        return {
            0: (self.start_mm, self.start_mm + self.length_mm),
            self.side.axis: (min(level, inner), max(level, inner)),
        }

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        return (pocket(blank, self.face, self._spans(blank), self.depth_mm),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        return self.length_mm * self.into_mm * self.depth_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        if self.face in ENDS or self.side in ENDS or self.face.axis == self.side.axis:
            return misfit("side", 1.0, 0.0, 0.0, "a gain lies along a long arris of a part")
        room = blank.length_mm - SKIN_MM
        whole, behind = "wood is left at both of its ends", "wood is left behind it"
        return (
            *misfit("start_mm", self.start_mm, SKIN_MM, room - self.length_mm, whole),
            *misfit("length_mm", self.length_mm, 1.0, room - SKIN_MM, whole),
            *misfit("into_mm", self.into_mm, 1e-3, blank.across(self.side) - 1e-3, behind),
            *misfit("depth_mm", self.depth_mm, 1e-3, blank.across(self.face) - 1e-3, behind),
        )

    def shape(self, blank: Blank) -> Channel:
        spans = self._spans(blank)
        return Channel(
            face=self.face,
            along=0,
            wide=spans[self.side.axis],
            floor_mm=abs(level_of(self.face, blank) - self.depth_mm),
            run=spans[0],
            step=self.side,
        )

    def figures(self, blank: Blank) -> Figures:
        shape = self.shape(blank)
        level, side = shape.surface_mm(blank), level_of(self.side, blank)
        middle = shape.middle(blank, level)
        start = put(put(middle, self.side.axis, side), 0, self.start_mm)
        wall = put(middle, self.side.axis, abs(side - self.into_mm))
        across = Size(self.into_mm, Care.FIT), Size(self.depth_mm, Care.DIAL)
        return Figures(
            sizes=(
                Says.LONG.fitted(self.length_mm),
                Says.WIDE.fitted(self.into_mm),
                Says.DEEP.dialled(self.depth_mm),
            ),
            place=Says.ON_TOWARDS.of(self.face, self.side),
            at=middle,
            seen=self.face,
            spans=(
                Spanned(
                    size=Size(self.length_mm, Care.FIT),
                    start=start,
                    end=put(start, 0, self.start_mm + self.length_mm),
                    seen=self.face,
                ),
                Spanned(size=across[0], start=put(wall, self.side.axis, side), end=wall, seen=None),
                Spanned(
                    size=across[1],
                    start=wall,
                    end=put(wall, self.face.axis, shape.floor_mm),
                    seen=None,
                ),
            ),
            struck=struck_on(self.face, start, Care.FIT)[:1],
        )

    def turned_about(self, axis: int, blank: Blank) -> Gain:
        is_turned = axis != 0
        return replace(
            self,
            face=self.face if axis == self.face.axis else self.face.opposite,
            side=self.side if axis == self.side.axis else self.side.opposite,
            start_mm=blank.length_mm - self.start_mm - self.length_mm
            if is_turned
            else self.start_mm,
        )
