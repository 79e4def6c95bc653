"""Cuts that slope: the mitre by tilted blade, the mitre on the flat, and the bevelled edge."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit
from furniture.parts.cuts.figures import SECTION_OF_RUN, Angle, Figures, Says
from furniture.parts.cuts.slopes import Slope
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face
from furniture.parts.tools import OVERSHOOT_MM, OutlinePoint, Prism, Tool
from furniture.parts.vectors import Vector, scaled

_AXES: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Mitre(Cut):
    """An end cut with the blade tilted: the cut runs through the thickness, over the whole width.

    The part's length is measured at the long point.

    Args:
        end: `Face.NAMED_END` or `Face.FAR_END`.
        blade_tilt_deg: of the saw's blade, such as `45 deg`.
        long_point_face: the wide face that keeps its whole length.
    """

    kind: ClassVar[str] = "mitre"

    end: Face
    blade_tilt_deg: float
    long_point_face: Face

    def setback_mm(self, blank: Blank) -> float:
        """How far the short point lies inside the long point [mm]."""
        return blank.thickness_mm * math.tan(math.radians(self.blade_tilt_deg))

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        return (_wedge(blank, self.end, self.long_point_face, self.blade_tilt_deg),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        return blank.width_mm * blank.thickness_mm * self.setback_mm(blank) / 2

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        placed = self.end in ENDS and self.long_point_face in WIDE_FACES
        return (
            *misfit("end", 0.0 if placed else 1.0, 0.0, 0.0, "a mitre is cut on an end"),
            *_tilt_misfits("blade_tilt_deg", self.blade_tilt_deg, blank.thickness_mm, blank, 0),
        )

    def shape(self, blank: Blank) -> Slope:
        return Slope(
            face=self.end,
            long_point=self.long_point_face,
            angle_deg=self.blade_tilt_deg,
            setback_mm=self.setback_mm(blank),
        )

    def figures(self, blank: Blank) -> Figures:
        return _figures(self.shape(blank), Says.BLADE_TILTED, blank)

    def turned_about(self, axis: int, blank: Blank) -> Mitre:
        return replace(
            self,
            end=self.end if axis == 0 else self.end.opposite,
            long_point_face=self.long_point_face if axis == 2 else self.long_point_face.opposite,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatMitre(Cut):
    """An end cut at an angle on the flat: the gauge is turned, the blade is square.

    Args:
        end: `Face.NAMED_END` or `Face.FAR_END`.
        gauge_angle_deg: that the mitre gauge is turned by, such as `45 deg`.
        long_point_edge: the edge that keeps its whole length.
    """

    kind: ClassVar[str] = "flat mitre"

    end: Face
    gauge_angle_deg: float
    long_point_edge: Face

    def setback_mm(self, blank: Blank) -> float:
        """How far the short point lies inside the long point [mm]."""
        return blank.width_mm * math.tan(math.radians(self.gauge_angle_deg))

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        return (_wedge(blank, self.end, self.long_point_edge, self.gauge_angle_deg),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        return blank.thickness_mm * blank.width_mm * self.setback_mm(blank) / 2

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        placed = self.end in ENDS and self.long_point_edge in EDGES
        return (
            *misfit("end", 0.0 if placed else 1.0, 0.0, 0.0, "a flat mitre is cut on an end"),
            *_tilt_misfits("gauge_angle_deg", self.gauge_angle_deg, blank.width_mm, blank, 0),
        )

    def shape(self, blank: Blank) -> Slope:
        return Slope(
            face=self.end,
            long_point=self.long_point_edge,
            angle_deg=self.gauge_angle_deg,
            setback_mm=self.setback_mm(blank),
        )

    def figures(self, blank: Blank) -> Figures:
        return _figures(self.shape(blank), Says.GAUGE_TURNED, blank)

    def turned_about(self, axis: int, blank: Blank) -> FlatMitre:
        return replace(
            self,
            end=self.end if axis == 0 else self.end.opposite,
            long_point_edge=self.long_point_edge if axis == 1 else self.long_point_edge.opposite,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bevel(Cut):
    """A rip with the blade tilted along a whole edge; the width is measured at the long point.

    Args:
        edge: `Face.FACE_EDGE` or `Face.BACK_EDGE`.
        blade_tilt_deg: of the saw's blade, such as `10 deg`.
        long_point_face: the wide face that keeps its whole width.
    """

    kind: ClassVar[str] = "bevel"

    edge: Face
    blade_tilt_deg: float
    long_point_face: Face

    def setback_mm(self, blank: Blank) -> float:
        """How far the short point lies inside the long point, across the width [mm]."""
        return blank.thickness_mm * math.tan(math.radians(self.blade_tilt_deg))

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        return (_wedge(blank, self.edge, self.long_point_face, self.blade_tilt_deg),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        return blank.length_mm * blank.thickness_mm * self.setback_mm(blank) / 2

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        placed = self.edge in EDGES and self.long_point_face in WIDE_FACES
        return (
            *misfit("edge", 0.0 if placed else 1.0, 0.0, 0.0, "a bevel is cut along an edge"),
            *_tilt_misfits("blade_tilt_deg", self.blade_tilt_deg, blank.thickness_mm, blank, 1),
        )

    def shape(self, blank: Blank) -> Slope:
        return Slope(
            face=self.edge,
            long_point=self.long_point_face,
            angle_deg=self.blade_tilt_deg,
            setback_mm=self.setback_mm(blank),
        )

    def figures(self, blank: Blank) -> Figures:
        return _figures(self.shape(blank), Says.BLADE_TILTED, blank)

    def turned_about(self, axis: int, blank: Blank) -> Bevel:
        return replace(
            self,
            edge=self.edge if axis == 1 else self.edge.opposite,
            long_point_face=self.long_point_face if axis == 2 else self.long_point_face.opposite,
        )


def _figures(slope: Slope, set_by: Says, blank: Blank) -> Figures:
    return Figures(
        sizes=(set_by.of(Angle(slope.angle_deg)),),
        place=Says.LONG_POINT.of(slope.face, slope.long_point),
        at=slope.middle(blank, scaled(blank.size, 0.5)),
        seen=SECTION_OF_RUN[slope.along],
    )


def _tilt_misfits(
    field: str, angle: float, rise: float, blank: Blank, axis: int
) -> tuple[Misfit, ...]:
    steepest = math.degrees(math.atan2(blank.size[axis], rise))
    return misfit(field, angle, 0.1, min(60.0, steepest - 0.01), "a saw tilts or turns this far")


def _wedge(blank: Blank, cut_face: Face, long_point: Face, angle_deg: float) -> Prism:
    """The wedge beyond a plane through the long point arris, leaning in by `angle_deg`."""
    run, rise = cut_face.axis, long_point.axis
    third = 3 - run - rise
    slope = math.tan(math.radians(angle_deg))
    extent, depth = blank.size[run], blank.size[rise]
    # In (run, rise) coordinates measured out of the end and down from the long point face:
    over = OVERSHOOT_MM
    flat = [(over, 0.0), (over, depth + over), (-(depth + over) * slope, depth + over), (0.0, 0.0)]
    corners = []
    for out, down in flat:
        along = extent + out if cut_face.is_far else -out
        height = depth - down if long_point.is_far else down
        corners.append((along, height))
    if _area(corners) < 0:
        corners.reverse()
    origin = [0.0, 0.0, 0.0]
    sweep = [0.0, 0.0, 0.0]
    sweep[third] = blank.size[third] + 2 * over
    origin[third] = -over
    return Prism(
        origin=(origin[0], origin[1], origin[2]),
        u_axis=_AXES[run],
        v_axis=_AXES[rise],
        outline=tuple(OutlinePoint(u=u, v=v) for u, v in corners),
        sweep=(sweep[0], sweep[1], sweep[2]),
    )


def _area(corners: list[tuple[float, float]]) -> float:
    return 0.5 * sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
