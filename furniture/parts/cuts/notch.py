"""Bites out of an edge or an end: the notch, and the finger notch of a lid."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit, pocket
from furniture.parts.cuts.figures import (
    Care,
    Figures,
    Says,
    Size,
    Spanned,
    Struck,
)
from furniture.parts.cuts.left import put
from furniture.parts.cuts.opening import SKIN_MM
from furniture.parts.cuts.shapes import Bite, level_of
from furniture.parts.faces import EDGES, ENDS, Face
from furniture.parts.tools import OVERSHOOT_MM, OutlinePoint, Prism, Tool
from furniture.parts.vectors import Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Notch(Cut):
    """A square-cornered bite out of an edge or an end, right through the thickness.

    Args:
        edge: an edge or an end.
        start_mm: from `Face.NAMED_END` along an edge, from the face edge along an end.
        length_mm: along the edge or the end.
        depth_mm: in from it.
        inner_radius_mm: of the two inner corners, as a router bit leaves them; 0 is square.
    """

    kind: ClassVar[str] = "notch"

    edge: Face
    start_mm: float
    length_mm: float
    depth_mm: float
    inner_radius_mm: float = 0.0

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        run_axis = 1 - self.edge.axis
        low, high = self.shape(blank).corners(blank)
        spans = {axis: (low[axis], high[axis]) for axis in (0, 1)}
        at_start = self.inner_radius_mm if low[run_axis] > 1e-9 else 0.0
        at_end = self.inner_radius_mm if high[run_axis] < blank.size[run_axis] - 1e-9 else 0.0
        inner_is_low = self.edge.is_far
        if run_axis == 0:
            radii = (at_start, at_end, 0.0, 0.0) if inner_is_low else (0.0, 0.0, at_end, at_start)
        else:
            radii = (at_start, 0.0, 0.0, at_end) if inner_is_low else (0.0, at_start, at_end, 0.0)
        depth = blank.thickness_mm + OVERSHOOT_MM
        return (pocket(blank, Face.FACE_SIDE, spans, depth, radii),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        run = blank.size[1 - self.edge.axis]
        corners = (self.start_mm > 1e-9) + (self.start_mm + self.length_mm < run - 1e-9)
        rounding = corners * (1 - math.pi / 4) * self.inner_radius_mm**2
        return (self.length_mm * self.depth_mm - rounding) * blank.thickness_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        if self.edge not in EDGES + ENDS:
            return misfit("edge", 1.0, 0.0, 0.0, "a notch is cut from an edge or an end")
        run, extent = blank.size[1 - self.edge.axis], blank.across(self.edge)
        return (
            *misfit("depth_mm", self.depth_mm, 1e-3, extent - 1e-3, "a notch leaves some part"),
            *misfit("length_mm", self.length_mm, 1e-3, run - 1e-3, "a notch leaves some edge"),
            *misfit(
                "start_mm", self.start_mm, 0.0, run - self.length_mm, "a notch lies on the part"
            ),
            *misfit(
                "inner_radius_mm",
                self.inner_radius_mm,
                0.0,
                min(self.length_mm / 2, self.depth_mm),
                "the cutter fits the notch",
            ),
        )

    def shape(self, blank: Blank) -> Bite:
        del blank
        return Bite(
            edge=self.edge,
            span=(self.start_mm, self.start_mm + self.length_mm),
            depth_mm=self.depth_mm,
            corner_mm=self.inner_radius_mm,
        )

    def figures(self, blank: Blank) -> Figures:
        run = blank.size[1 - self.edge.axis]
        low, high = self.start_mm, self.start_mm + self.length_mm
        is_open = abs(low) <= 1e-9, abs(high - run) <= 1e-9
        wall, end = (high, low) if is_open[0] else (low, high)

        def at(along: float, inwards: float) -> Vector:
            return _on_face_side(self.edge, along, inwards, blank)

        floor, mouth = at(end, self.depth_mm), at(end, 0.0)
        length = Spanned(
            size=Size(self.length_mm, Care.FIT), start=at(wall, 0.0), end=mouth, seen=Face.FACE_SIDE
        )
        depth = Spanned(
            size=Size(self.depth_mm, Care.FIT), start=floor, end=mouth, seen=Face.FACE_SIDE
        )
        struck = Struck(
            axis=1 - self.edge.axis, point=at(low, 0.0), seen=Face.FACE_SIDE, care=Care.FIT
        )
        return Figures(
            sizes=(Says.LONG.fitted(self.length_mm), Says.DEEP.fitted(self.depth_mm)),
            more=Says.INNER_CORNERS.where_any(self.inner_radius_mm),
            place=Says.FROM.of(self.edge),
            at=at((low + high) / 2, self.depth_mm),
            seen=Face.FACE_SIDE,
            spans=(length, depth),
            # one that takes a corner off lies where its own figures say
            struck=() if any(is_open) else (struck,),
        )

    def turned_about(self, axis: int, blank: Blank) -> Notch:
        run_axis = 1 - self.edge.axis
        start = self.start_mm
        if axis != run_axis:
            start = blank.size[run_axis] - start - self.length_mm
        edge = self.edge if axis == self.edge.axis else self.edge.opposite
        return replace(self, edge=edge, start_mm=start)


@dataclass(frozen=True, slots=True, kw_only=True)
class FingerNotch(Cut):
    """A half-round bite out of an edge or an end, to lift a lid by; its centre lies on the edge.

    Args:
        edge: an edge or an end.
        centre_mm: from `Face.NAMED_END` along an edge, from the face edge along an end.
        radius_mm: of the half round.
    """

    kind: ClassVar[str] = "finger notch"

    edge: Face
    centre_mm: float
    radius_mm: float

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        sides = (-self.radius_mm, self.radius_mm)
        return (
            Prism(
                origin=put(_on_face_side(self.edge, self.centre_mm, 0.0, blank), 2, -OVERSHOOT_MM),
                u_axis=(1.0, 0.0, 0.0),
                v_axis=(0.0, 1.0, 0.0),
                outline=tuple(OutlinePoint(u=side, v=0.0, bulge=1.0) for side in sides),
                sweep=(0.0, 0.0, blank.thickness_mm + 2 * OVERSHOOT_MM),
            ),
        )

    def removed_alone_mm3(self, blank: Blank) -> float:
        return math.pi * self.radius_mm**2 / 2 * blank.thickness_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        if self.edge not in EDGES + ENDS:
            return misfit("edge", 1.0, 0.0, 0.0, "a finger notch is cut from an edge or an end")
        run, extent = blank.size[1 - self.edge.axis], blank.across(self.edge)
        r = self.radius_mm
        return (
            *misfit("radius_mm", r, 1.0, min(run / 2, extent) - 1e-3, "it leaves some of the edge"),
            *misfit(
                "centre_mm",
                self.centre_mm,
                r + SKIN_MM,
                run - r - SKIN_MM,
                "the whole notch lies on the edge",
            ),
        )

    def shape(self, blank: Blank) -> Bite:
        del blank
        return Bite(
            edge=self.edge,
            span=(self.centre_mm - self.radius_mm, self.centre_mm + self.radius_mm),
            depth_mm=self.radius_mm,
            corner_mm=self.radius_mm,
        )

    def figures(self, blank: Blank) -> Figures:
        centre = _on_face_side(self.edge, self.centre_mm, 0.0, blank)
        return Figures(
            sizes=(Says.RADIUS.ruled(self.radius_mm),),
            more=(Says.HALF_ROUND.of(),),
            place=Says.CENTRED_ON.of(self.edge),
            at=_on_face_side(self.edge, self.centre_mm, self.radius_mm, blank),
            seen=Face.FACE_SIDE,
            struck=(Struck(axis=1 - self.edge.axis, point=centre, seen=Face.FACE_SIDE),),
            centres=((centre, self.radius_mm),),
        )

    def turned_about(self, axis: int, blank: Blank) -> FingerNotch:
        run_axis = 1 - self.edge.axis
        centre = self.centre_mm if axis == run_axis else blank.size[run_axis] - self.centre_mm
        edge = self.edge if axis == self.edge.axis else self.edge.opposite
        return replace(self, edge=edge, centre_mm=centre)


def _on_face_side(edge: Face, along: float, inwards: float, blank: Blank) -> Vector:
    """A point of the face side, so far along an edge and so far inside it [mm]."""
    point = put((0.0, 0.0, blank.thickness_mm), 1 - edge.axis, along)
    return put(point, edge.axis, abs(level_of(edge, blank) - inwards))
