"""Openings: bores and slots."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import Enum
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit, pocket
from furniture.parts.cuts.figures import (
    Angle,
    Care,
    Figures,
    Says,
    Size,
    struck_on,
    sunk,
)
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import Hole, level_of
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.tools import OVERSHOOT_MM, Tool, Turned
from furniture.parts.vectors import Vector, add, scaled

SKIN_MM = 0.01
"""Least wood between a round opening and the nearest edge [mm]: at none the part falls in two."""
COUNTERSINK_DEG = 90.0
"""Between the sides of a countersink [deg]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore(Cut):
    """A round hole square to a face.

    Its centre is given by the two of x, y and z that lie in its face, each from the part's own
    corner: the third is left out.

    Args:
        face: that the drill goes in through.
        x_mm: along the grain, from `Face.NAMED_END`.
        y_mm: across the grain, from the face edge.
        z_mm: through the thickness, from the back side; for a hole in an edge or an end.
        diameter_mm: of the hole.
        depth_mm: of the hole (default: right through).
        countersink_diameter_mm: of a wide mouth, its sides at 90 degrees; 0 has none.
    """

    kind: ClassVar[str] = "bore"
    is_placed_by_centre: ClassVar[bool] = True
    is_bored: ClassVar[bool] = True

    face: Face
    x_mm: float | None = None
    y_mm: float | None = None
    z_mm: float | None = None
    diameter_mm: float
    depth_mm: float | None = None
    countersink_diameter_mm: float = 0.0

    @property
    def name(self) -> str:
        return "hole"

    def _centre(self, blank: Blank) -> Vector:
        """Where the axis meets the face, part frame [mm]."""
        given = (self.x_mm or 0.0, self.y_mm or 0.0, self.z_mm or 0.0)
        return put(given, self.face.axis, level_of(self.face, blank))

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        across = blank.across(self.face)
        depth = across + OVERSHOOT_MM if self.depth_mm is None else self.depth_mm
        outward = self.face.normal
        start = add(self._centre(blank), scaled(outward, OVERSHOOT_MM))
        inward = scaled(outward, -1.0)
        radius = self.diameter_mm / 2
        bore = Turned(
            origin=start,
            axis=inward,
            length_mm=depth + OVERSHOOT_MM,
            first_radius_mm=radius,
            second_radius_mm=radius,
        )
        if self.countersink_diameter_mm <= self.diameter_mm:
            return (bore,)
        mouth = self.countersink_diameter_mm / 2
        sink = Turned(  # sides at 90 degrees: radius falls as fast as depth grows
            origin=start,
            axis=inward,
            length_mm=OVERSHOOT_MM + mouth - radius,
            first_radius_mm=mouth + OVERSHOOT_MM,
            second_radius_mm=radius,
        )
        return (bore, sink)

    def removed_alone_mm3(self, blank: Blank) -> float:
        depth = blank.across(self.face) if self.depth_mm is None else self.depth_mm
        radius, mouth = self.diameter_mm / 2, self.countersink_diameter_mm / 2
        volume = math.pi * radius**2 * depth
        if mouth > radius:
            rise = mouth - radius
            frustum = math.pi * rise * (mouth**2 + mouth * radius + radius**2) / 3
            volume += frustum - math.pi * radius**2 * rise
        return volume

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        across = blank.across(self.face)
        widest = max(self.diameter_mm, self.countersink_diameter_mm) / 2
        why = "there are bits of this size"
        found = list(misfit("diameter_mm", self.diameter_mm, 0.2, 500.0, why))
        if found:  # no place would suit a hole that cannot be drilled
            return tuple(found)
        for axis, (name, value) in enumerate(
            (("x_mm", self.x_mm), ("y_mm", self.y_mm), ("z_mm", self.z_mm))
        ):
            if axis != self.face.axis:
                given = math.nan if value is None else value
                why = "the whole hole lies on the face, with wood all round it"
                low, high = widest + SKIN_MM, blank.size[axis] - widest - SKIN_MM
                found += misfit(name, given, low, high, why)
        if self.depth_mm is not None:
            why = "a blind hole leaves wood behind it"
            found += misfit("depth_mm", self.depth_mm, 1e-3, across - 1e-3, why)
        if self.countersink_diameter_mm:
            deepest = across if self.depth_mm is None else self.depth_mm
            found += misfit(
                "countersink_diameter_mm",
                self.countersink_diameter_mm,
                self.diameter_mm,
                self.diameter_mm + 2 * deepest,
                "a countersink is wider than its hole and no deeper",
            )
        return tuple(found)

    def shape(self, blank: Blank) -> Hole:
        centre, radius = self._centre(blank), self.diameter_mm / 2
        return Hole(
            face=self.face,
            first=centre,
            last=centre,
            radius_mm=radius,
            depth_mm=self.depth_mm,
            mouth_radius_mm=max(radius, self.countersink_diameter_mm / 2),
        )

    def figures(self, blank: Blank) -> Figures:
        shape, mouth = self.shape(blank), Size(self.countersink_diameter_mm, Care.RULE)
        has_sink = self.countersink_diameter_mm > self.diameter_mm
        sink = (Says.COUNTERSUNK.of(mouth, Angle(COUNTERSINK_DEG)),) if has_sink else ()
        return Figures(
            sizes=(Says.DIAMETER.dialled(self.diameter_mm),),
            more=(sunk(self.depth_mm), *sink),
            place=Says.FROM.of(self.face),
            at=shape.centre,
            seen=self.face,
            struck=struck_on(self.face, shape.centre),
            centres=((shape.centre, shape.mouth_radius_mm),),
        )

    def turned_about(self, axis: int, blank: Blank) -> Bore:
        values = [self.x_mm, self.y_mm, self.z_mm]
        for other in range(3):
            value = values[other]
            if other != axis and value is not None:
                values[other] = blank.size[other] - value
        face = self.face if axis == self.face.axis else self.face.opposite
        return replace(self, face=face, x_mm=values[0], y_mm=values[1], z_mm=values[2])


class Along(Enum):
    """Which way a slot runs."""

    GRAIN = "along the grain"
    ACROSS = "across the grain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot(Cut):
    """A round-ended slot in a wide face.

    Args:
        face: `Face.FACE_SIDE` or `Face.BACK_SIDE`.
        x_mm: of its middle, along the grain from `Face.NAMED_END`.
        y_mm: of its middle, across the grain from the face edge.
        length_mm: over its round ends.
        width_mm: between its straight sides.
        along: with the grain or across it.
        depth_mm: into the face (default: right through).
    """

    kind: ClassVar[str] = "slot"
    is_placed_by_centre: ClassVar[bool] = True

    face: Face
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    along: Along = Along.GRAIN
    depth_mm: float | None = None

    def _half_spans(self) -> tuple[float, float]:
        half = (self.length_mm / 2, self.width_mm / 2)
        return half if self.along is Along.GRAIN else (half[1], half[0])

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        dx, dy = self._half_spans()
        depth = blank.thickness_mm + OVERSHOOT_MM if self.depth_mm is None else self.depth_mm
        radius = self.width_mm / 2
        spans = {0: (self.x_mm - dx, self.x_mm + dx), 1: (self.y_mm - dy, self.y_mm + dy)}
        return (pocket(blank, self.face, spans, depth, (radius, radius, radius, radius)),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        depth = blank.thickness_mm if self.depth_mm is None else self.depth_mm
        area = self.length_mm * self.width_mm - (1 - math.pi / 4) * self.width_mm**2
        return area * depth

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        dx, dy = self._half_spans()
        whole = "the whole slot lies on the face"
        found = [
            *misfit(
                "face", 0.0 if self.face in WIDE_FACES else 1.0, 0.0, 0.0, "slots need a wide face"
            ),
            *misfit("length_mm", self.length_mm, 0.2, math.inf, "a slot has a length"),
            *misfit("width_mm", self.width_mm, 0.2, self.length_mm, "a slot is longer than wide"),
            *misfit("x_mm", self.x_mm, dx + SKIN_MM, blank.length_mm - dx - SKIN_MM, whole),
            *misfit("y_mm", self.y_mm, dy + SKIN_MM, blank.width_mm - dy - SKIN_MM, whole),
        ]
        if self.depth_mm is not None:
            why = "a blind slot leaves wood behind it"
            found += misfit("depth_mm", self.depth_mm, 1e-3, blank.thickness_mm - 1e-3, why)
        return tuple(found)

    def shape(self, blank: Blank) -> Hole:
        half = (self.length_mm - self.width_mm) / 2
        dx, dy = (half, 0.0) if self.along is Along.GRAIN else (0.0, half)
        level = level_of(self.face, blank)
        return Hole(
            face=self.face,
            first=(self.x_mm - dx, self.y_mm - dy, level),
            last=(self.x_mm + dx, self.y_mm + dy, level),
            radius_mm=self.width_mm / 2,
            depth_mm=self.depth_mm,
            mouth_radius_mm=self.width_mm / 2,
        )

    def figures(self, blank: Blank) -> Figures:
        centre = self.shape(blank).centre
        way = Says.ALONG_GRAIN if self.along is Along.GRAIN else Says.ACROSS_GRAIN
        return Figures(
            sizes=(Says.LONG.ruled(self.length_mm), Says.WIDE.dialled(self.width_mm)),
            more=(Says.ROUND_ENDS.of(), way.of(), sunk(self.depth_mm)),
            place=Says.FROM.of(self.face),
            at=centre,
            seen=self.face,
            struck=struck_on(self.face, centre),
            centres=((centre, self.width_mm / 2),),
        )

    def turned_about(self, axis: int, blank: Blank) -> Slot:
        return replace(
            self,
            face=self.face if axis == 2 else self.face.opposite,
            x_mm=self.x_mm if axis == 0 else blank.length_mm - self.x_mm,
            y_mm=self.y_mm if axis == 1 else blank.width_mm - self.y_mm,
        )
