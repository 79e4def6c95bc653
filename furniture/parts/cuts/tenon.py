"""The tenon: a tongue left standing on an end, with its cheeks, its edges and its shoulders."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit, pocket
from furniture.parts.cuts.figures import Care, Figures, Says, struck_on
from furniture.parts.cuts.left import put
from furniture.parts.cuts.stub import Stub
from furniture.parts.faces import ENDS, Face
from furniture.parts.tools import Tool
from furniture.parts.vectors import add, scaled


@dataclass(frozen=True, slots=True, kw_only=True)
class Tenon(Cut):
    """The wood round a tenon taken off an end: two cheeks and two edges, in one.

    Where the tenon reaches a face it has no shoulder there.

    Args:
        end: `Face.NAMED_END` or `Face.FAR_END`.
        length_mm: of the tenon, along the grain.
        from_face_side_mm: to the tenon's nearer cheek.
        thickness_mm: of the tenon.
        from_face_edge_mm: to the tenon's nearer edge.
        width_mm: of the tenon, across the grain.
    """

    kind: ClassVar[str] = "tenon"

    end: Face
    length_mm: float
    from_face_side_mm: float
    thickness_mm: float
    from_face_edge_mm: float
    width_mm: float

    def shoulders_mm(self, blank: Blank) -> dict[Face, float]:
        """How far it stands inside each of the four long faces [mm]."""
        return {
            Face.FACE_SIDE: self.from_face_side_mm,
            Face.BACK_SIDE: blank.thickness_mm - self.from_face_side_mm - self.thickness_mm,
            Face.FACE_EDGE: self.from_face_edge_mm,
            Face.BACK_EDGE: blank.width_mm - self.from_face_edge_mm - self.width_mm,
        }

    def shoulder_mm(self, blank: Blank) -> float:
        """Where its shoulders lie along the part [mm]."""
        return blank.length_mm - self.length_mm if self.end.is_far else self.length_mm

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        end = blank.length_mm if self.end.is_far else 0.0
        shoulder = self.shoulder_mm(blank)
        run = (min(end, shoulder), max(end, shoulder))
        return tuple(
            pocket(blank, face, {0: run, across: (0.0, blank.size[across])}, depth)
            for face, depth in self.shoulders_mm(blank).items()
            for across in (3 - face.axis,)
            if depth > 1e-9
        )

    def removed_alone_mm3(self, blank: Blank) -> float:
        section = blank.width_mm * blank.thickness_mm - self.width_mm * self.thickness_mm
        return section * self.length_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        if self.end not in ENDS:
            return misfit("end", 1.0, 0.0, 0.0, "a tenon stands on an end")
        thickness, width = blank.thickness_mm, blank.width_mm
        length, lies = blank.length_mm - 1e-3, "the tenon lies inside its part"
        found = (
            *misfit("length_mm", self.length_mm, 1e-3, length, "a tenon leaves some of the part"),
            *misfit("thickness_mm", self.thickness_mm, 1e-3, thickness, lies),
            *misfit("width_mm", self.width_mm, 1e-3, width, lies),
            *misfit(
                "from_face_side_mm", self.from_face_side_mm, 0.0, thickness - self.thickness_mm,
                lies,
            ),
            *misfit(
                "from_face_edge_mm", self.from_face_edge_mm, 0.0, width - self.width_mm, lies
            ),
        )  # fmt: skip
        if found or max(self.shoulders_mm(blank).values()) > 1e-9:
            return found
        why = "a tenon has a shoulder on one side at least"
        return misfit("thickness_mm", self.thickness_mm, 1e-3, thickness - 1e-3, why)

    def shape(self, blank: Blank) -> Stub:
        shoulders, shoulder = self.shoulders_mm(blank), self.shoulder_mm(blank)
        end = blank.length_mm if self.end.is_far else 0.0
        back_side, back_edge = shoulders[Face.BACK_SIDE], shoulders[Face.BACK_EDGE]
        return Stub(
            end=self.end,
            low=(min(end, shoulder), self.from_face_edge_mm, back_side),
            high=(
                max(end, shoulder),
                blank.width_mm - back_edge,
                blank.thickness_mm - self.from_face_side_mm,
            ),
        )

    def figures(self, blank: Blank) -> Figures:
        """Its upper cheek is struck from the face side, its lower edge from the face edge."""
        shape, end = self.shape(blank), blank.length_mm if self.end.is_far else 0.0
        thick, wide = Says.THICK.fitted(self.thickness_mm), Says.WIDE.fitted(self.width_mm)
        return Figures(
            sizes=(thick, wide, Says.LONG.fitted(self.length_mm)),
            place=Says.ON.of(self.end),
            at=put(scaled(add(shape.low, shape.high), 0.5), 0, end),
            seen=self.end,
            struck=struck_on(self.end, (end, shape.low[1], shape.high[2]), Care.FIT),
        )

    def turned_about(self, axis: int, blank: Blank) -> Tenon:
        shoulders = self.shoulders_mm(blank)
        side = Face.FACE_SIDE if axis == 2 else Face.BACK_SIDE
        edge = Face.FACE_EDGE if axis == 1 else Face.BACK_EDGE
        return replace(
            self,
            end=self.end if axis == 0 else self.end.opposite,
            from_face_side_mm=shoulders[side],
            from_face_edge_mm=shoulders[edge],
        )
