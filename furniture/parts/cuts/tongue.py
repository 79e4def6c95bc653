"""The rounded tongue: the end of a tongue eased to the radius that a router bit leaves."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import QUARTER_TURN_BULGE, Cut, Misfit, misfit
from furniture.parts.cuts.figures import Figures, Says
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import TongueEnd, level_of
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.parts.tools import OVERSHOOT_MM, OutlinePoint, Prism, Tool
from furniture.parts.vectors import Vector, scaled


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundedTongue(Cut):
    """Both arrises at the end of a tongue rounded, over the depth that goes into a stopped trench.

    The tongue stands on `edge`; its end looks towards `side` and lies `inset_mm` inside it, where a
    notch has set it back.
    """

    kind: ClassVar[str] = "rounded tongue"

    edge: Face
    side: Face
    inset_mm: float
    depth_mm: float
    radius_mm: float

    def _at(self, blank: Blank, height: float, down: float) -> Vector:
        """A point on the tongue's end, so high above the back side and so far inside `edge`."""
        point = put((0.0, 0.0, height), self.side.axis, _inside(self.side, self.inset_mm, blank))
        return put(point, self.edge.axis, _inside(self.edge, down, blank))

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        return tuple(self._round(blank, wide) for wide in WIDE_FACES)

    def _round(self, blank: Blank, wide: Face) -> Prism:
        over, r = OVERSHOOT_MM, self.radius_mm
        # Beside a notch the tool starts at the tongue's end: past it is wood of the shoulder.
        start = 0.0 if self.inset_mm > 0.0 else -over
        outline = [(-over, start, 0.0), (r, start, 0.0)]
        if start < 0.0:
            outline.append((r, 0.0, 0.0))
        u, v, _ = outline.pop()
        outline += [(u, v, -QUARTER_TURN_BULGE), (0.0, r, 0.0), (-over, r, 0.0)]
        return Prism(
            origin=self._at(blank, level_of(wide, blank), -over),
            u_axis=scaled(wide.normal, -1.0),
            v_axis=scaled(self.side.normal, -1.0),
            outline=tuple(OutlinePoint(u=u, v=v, bulge=b) for u, v, b in outline),
            sweep=scaled(self.edge.normal, -(self.depth_mm + over)),
        )

    def removed_alone_mm3(self, blank: Blank) -> float:
        return 2 * (1 - math.pi / 4) * self.radius_mm**2 * self.depth_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        is_placed = (
            self.edge in EDGES + ENDS
            and self.side in EDGES + ENDS
            and self.side.axis != self.edge.axis
        )
        if not is_placed:
            why = "a tongue stands on an edge or an end and stops short of its neighbour"
            return misfit("side", 1.0, 0.0, 0.0, why)
        run, extent = blank.across(self.side), blank.across(self.edge)
        r = self.radius_mm
        return (
            *misfit("radius_mm", r, 0.1, blank.thickness_mm / 2, "two rounds meet at the middle"),
            *misfit("inset_mm", self.inset_mm, 0.0, run - r - 1e-3, "the tongue lies on the part"),
            *misfit("depth_mm", self.depth_mm, 1e-3, extent - 1e-3, "a tongue leaves some part"),
        )

    def shape(self, blank: Blank) -> TongueEnd:
        del blank
        return TongueEnd(
            edge=self.edge,
            side=self.side,
            inset_mm=self.inset_mm,
            depth_mm=self.depth_mm,
            radius_mm=self.radius_mm,
        )

    def figures(self, blank: Blank) -> Figures:
        return Figures(
            sizes=(Says.BOTH_ARRISES.ruled(self.radius_mm),),
            more=(Says.FROM_TONGUE_END.ruled(self.depth_mm),),
            place=Says.ON_TOWARDS.of(self.edge, self.side),
            at=self._at(blank, blank.thickness_mm / 2, self.depth_mm / 2),
            seen=Face.FACE_SIDE,
        )

    def turned_about(self, axis: int, blank: Blank) -> RoundedTongue:
        return replace(
            self,
            edge=self.edge if axis == self.edge.axis else self.edge.opposite,
            side=self.side if axis == self.side.axis else self.side.opposite,
        )


def _inside(face: Face, down: float, blank: Blank) -> float:
    """Where something lies so far inside a face, on that face's axis [mm]."""
    return blank.across(face) - down if face.is_far else down
