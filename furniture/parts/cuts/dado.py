"""Trenches: the dado across the grain and the groove along it, through or stopped."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.parts.blank import Blank
from furniture.parts.cuts.cut import Cut, Misfit, misfit, pocket
from furniture.parts.cuts.figures import (
    SECTION_OF_RUN,
    Care,
    Figures,
    Says,
    Size,
    Spanned,
    Struck,
    stopped,
    stops_struck,
)
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import Channel, level_of
from furniture.parts.faces import EDGES, WIDE_FACES, Face
from furniture.parts.tools import Tool


@dataclass(frozen=True, slots=True, kw_only=True)
class Dado(Cut):
    """A trench across the grain in a wide face.

    Args:
        face: `Face.FACE_SIDE` or `Face.BACK_SIDE`.
        lower_shoulder_mm: from `Face.NAMED_END` to the nearer wall of the trench.
        width_mm: from wall to wall, along the part.
        depth_mm: into the face.
        stop_from_face_edge_mm: wood left between the trench and the face edge; 0 runs through.
        stop_from_back_edge_mm: the same at the back edge.
        end_radius_mm: of the cutter, left in the corners of a stopped end; 0 is chiselled square.
    """

    kind: ClassVar[str] = "dado"

    face: Face
    lower_shoulder_mm: float
    width_mm: float
    depth_mm: float
    stop_from_face_edge_mm: float = 0.0
    stop_from_back_edge_mm: float = 0.0
    end_radius_mm: float = 0.0

    @property
    def upper_shoulder_mm(self) -> float:
        """The shoulder farther from the named end [mm]."""
        return self.lower_shoulder_mm + self.width_mm

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        spans = {
            0: (self.lower_shoulder_mm, self.upper_shoulder_mm),
            1: (self.stop_from_face_edge_mm, blank.width_mm - self.stop_from_back_edge_mm),
        }
        return (pocket(blank, self.face, spans, self.depth_mm, self._radii(blank)),)

    def _radii(self, blank: Blank) -> tuple[float, float, float, float]:
        """The cutter's radius in the corners that are inside the wood, as `pocket` takes them."""
        stops = (self.stop_from_face_edge_mm, self.stop_from_back_edge_mm)
        walls = (self.lower_shoulder_mm, blank.length_mm - self.upper_shoulder_mm)
        near = _end_radii(self.end_radius_mm, stops[0], walls)
        far = _end_radii(self.end_radius_mm, stops[1], walls)
        return (near[0], near[1], far[1], far[0])

    def removed_alone_mm3(self, blank: Blank) -> float:
        run = blank.width_mm - self.stop_from_face_edge_mm - self.stop_from_back_edge_mm
        return (run * self.width_mm - _rounded_off_mm2(self._radii(blank))) * self.depth_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        room = blank.length_mm - self.width_mm
        return _trench_misfits(
            self.face in WIDE_FACES,
            self.depth_mm,
            blank.thickness_mm,
            self.width_mm,
            blank.length_mm,
            self.end_radius_mm,
            (self.stop_from_face_edge_mm, self.stop_from_back_edge_mm, blank.width_mm),
            ("stop_from_face_edge_mm", "stop_from_back_edge_mm"),
        ) + misfit(
            "lower_shoulder_mm", self.lower_shoulder_mm, 0.0, room, "both shoulders lie on the part"
        )

    def shape(self, blank: Blank) -> Channel:
        return Channel(
            face=self.face,
            along=1,
            wide=(self.lower_shoulder_mm, self.upper_shoulder_mm),
            floor_mm=abs(level_of(self.face, blank) - self.depth_mm),
            run=(self.stop_from_face_edge_mm, blank.width_mm - self.stop_from_back_edge_mm),
            corner_mm=self.end_radius_mm,
        )

    def figures(self, blank: Blank) -> Figures:
        shape, is_open = self.shape(blank), self.stop_from_face_edge_mm <= 0
        surface = shape.surface_mm(blank)
        point = (self.lower_shoulder_mm, shape.run[1], surface)
        shoulder = Struck(axis=0, point=point, seen=self.face, care=Care.DIAL)
        stops = (
            (self.stop_from_face_edge_mm, Face.FACE_EDGE),
            (self.stop_from_back_edge_mm, Face.BACK_EDGE),
        )
        ended = stopped(*stops, corner_mm=self.end_radius_mm)
        return Figures(
            sizes=(Says.WIDE.dialled(self.width_mm), Says.DEEP.dialled(self.depth_mm)),
            more=ended or (Says.THROUGH.of(),),
            place=Says.IN.of(self.face),
            at=put(shape.middle(blank, shape.floor_mm), 1, 0.0)
            if is_open
            else shape.middle(blank, surface),
            seen=Face.FACE_EDGE if is_open else self.face,
            struck=(shoulder,),
            stops=stops_struck(blank, shape.middle(blank, surface), self.face, *stops),
            shoulder=shoulder,
            shoulder_to=put(point, 1, shape.run[0]),
            section_mm=(self.width_mm, self.depth_mm) if is_open else None,
        )

    def turned_about(self, axis: int, blank: Blank) -> Dado:
        shoulder = self.lower_shoulder_mm
        stops = (self.stop_from_face_edge_mm, self.stop_from_back_edge_mm)
        return replace(
            self,
            face=self.face if axis == 2 else self.face.opposite,
            lower_shoulder_mm=shoulder if axis == 0 else blank.length_mm - shoulder - self.width_mm,
            stop_from_face_edge_mm=stops[0] if axis == 1 else stops[1],
            stop_from_back_edge_mm=stops[1] if axis == 1 else stops[0],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove(Cut):
    """A trench along the grain, in a wide face or in an edge.

    Args:
        face: a wide face or an edge.
        offset_mm: to the nearer wall of the groove: from the face edge in a wide face, from the
            face side in an edge.
        width_mm: from wall to wall.
        depth_mm: into the face.
        stop_from_named_end_mm: wood left between the groove and `Face.NAMED_END`; 0 runs through.
        stop_from_far_end_mm: the same at `Face.FAR_END`.
        end_radius_mm: of the cutter, left in the corners of a stopped end; 0 is chiselled square.
    """

    kind: ClassVar[str] = "groove"

    face: Face
    offset_mm: float
    width_mm: float
    depth_mm: float
    stop_from_named_end_mm: float = 0.0
    stop_from_far_end_mm: float = 0.0
    end_radius_mm: float = 0.0

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        spans = {
            0: (self.stop_from_named_end_mm, blank.length_mm - self.stop_from_far_end_mm),
            3 - self.face.axis: self._walls(blank),
        }
        return (pocket(blank, self.face, spans, self.depth_mm, self._radii(blank)),)

    def _walls(self, blank: Blank) -> tuple[float, float]:
        """From wall to wall, part frame [mm]."""
        if self.face in WIDE_FACES:
            return (self.offset_mm, self.offset_mm + self.width_mm)
        top = blank.thickness_mm - self.offset_mm
        return (top - self.width_mm, top)

    def _radii(self, blank: Blank) -> tuple[float, float, float, float]:
        """The cutter's radius in the corners that are inside the wood, as `pocket` takes them."""
        beyond = blank.size[3 - self.face.axis] - self.offset_mm - self.width_mm
        walls = (self.offset_mm, beyond) if self.face in WIDE_FACES else (beyond, self.offset_mm)
        near = _end_radii(self.end_radius_mm, self.stop_from_named_end_mm, walls)
        far = _end_radii(self.end_radius_mm, self.stop_from_far_end_mm, walls)
        return (near[0], far[0], far[1], near[1])

    def removed_alone_mm3(self, blank: Blank) -> float:
        run = blank.length_mm - self.stop_from_named_end_mm - self.stop_from_far_end_mm
        return (run * self.width_mm - _rounded_off_mm2(self._radii(blank))) * self.depth_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        across = blank.size[3 - self.face.axis] if self.face.axis else 0.0
        return _trench_misfits(
            self.face in WIDE_FACES + EDGES,
            self.depth_mm,
            blank.across(self.face),
            self.width_mm,
            across,
            self.end_radius_mm,
            (self.stop_from_named_end_mm, self.stop_from_far_end_mm, blank.length_mm),
            ("stop_from_named_end_mm", "stop_from_far_end_mm"),
        ) + misfit("offset_mm", self.offset_mm, 0.0, across - self.width_mm, "both walls lie on it")

    def shape(self, blank: Blank) -> Channel:
        return Channel(
            face=self.face,
            along=0,
            wide=self._walls(blank),
            floor_mm=abs(level_of(self.face, blank) - self.depth_mm),
            run=(self.stop_from_named_end_mm, blank.length_mm - self.stop_from_far_end_mm),
            corner_mm=self.end_radius_mm,
        )

    def figures(self, blank: Blank) -> Figures:
        shape = self.shape(blank)
        walls, axis = self._walls(blank), shape.wide_axis
        mouth = shape.middle(blank, shape.surface_mm(blank))
        point = put(mouth, axis, walls[self.face in EDGES])
        near, far = (put(mouth, axis, wall) for wall in walls)
        floor = put(near, self.face.axis, shape.floor_mm)
        width, depth = (Size(mm, Care.DIAL) for mm in (self.width_mm, self.depth_mm))
        stops = (
            (self.stop_from_named_end_mm, Face.NAMED_END),
            (self.stop_from_far_end_mm, Face.FAR_END),
        )
        ended = stopped(*stops, corner_mm=self.end_radius_mm)
        return Figures(
            sizes=(Says.WIDE.dialled(self.width_mm), Says.DEEP.dialled(self.depth_mm)),
            more=(Says.ALONG_GRAIN.of(), *(ended or (Says.THROUGH.of(),))),
            place=Says.IN.of(self.face),
            at=shape.middle(blank, shape.floor_mm),
            seen=SECTION_OF_RUN[0],
            spans=(
                Spanned(size=width, start=near, end=far, seen=SECTION_OF_RUN[0]),
                Spanned(size=depth, start=near, end=floor, seen=SECTION_OF_RUN[0]),
            ),
            struck=(Struck(axis=axis, point=point, seen=SECTION_OF_RUN[0], care=Care.DIAL),),
            stops=stops_struck(blank, mouth, self.face, *stops),
        )

    def turned_about(self, axis: int, blank: Blank) -> Groove:
        across = blank.size[3 - self.face.axis]
        keeps_offset = (self.face in WIDE_FACES and axis == 1) or (self.face in EDGES and axis == 2)
        stops = (self.stop_from_named_end_mm, self.stop_from_far_end_mm)
        return replace(
            self,
            face=self.face if axis == self.face.axis else self.face.opposite,
            offset_mm=self.offset_mm if keeps_offset else across - self.offset_mm - self.width_mm,
            stop_from_named_end_mm=stops[0] if axis == 0 else stops[1],
            stop_from_far_end_mm=stops[1] if axis == 0 else stops[0],
        )


def _end_radii(radius: float, stop: float, walls: tuple[float, float]) -> tuple[float, float]:
    """The radius in the two corners of one end: none where the end or the wall runs out.

    Args:
        radius: the cutter's [mm].
        stop: wood left beyond the end [mm].
        walls: wood left beside the trench, low and high [mm].
    """
    if stop <= 0.0:
        return (0.0, 0.0)
    return (radius if walls[0] > 1e-9 else 0.0, radius if walls[1] > 1e-9 else 0.0)


def _rounded_off_mm2(radii: tuple[float, float, float, float]) -> float:
    """What round corners leave of a square-cornered trench [mm2]."""
    return (1.0 - math.pi / 4.0) * math.fsum(radius**2 for radius in radii)


def _trench_misfits(
    is_on_allowed_face: bool,
    depth: float,
    thickness: float,
    width: float,
    extent: float,
    radius: float,
    stops: tuple[float, float, float],
    stop_names: tuple[str, str],
) -> tuple[Misfit, ...]:
    first, second, run = stops
    return (
        *misfit("face", 0.0 if is_on_allowed_face else 1.0, 0.0, 0.0, "this cut needs a long face"),
        *misfit("depth_mm", depth, 1e-3, thickness - 1e-3, "a trench leaves wood behind it"),
        *misfit("width_mm", width, 1e-3, extent, "a trench is no wider than the part"),
        *misfit("end_radius_mm", radius, 0.0, width / 2, "a cutter is no wider than its trench"),
        *misfit(stop_names[0], first, 0.0, run - second - 1e-3, "a stop leaves some trench"),
        *misfit(stop_names[1], second, 0.0, run - first - 1e-3, "a stop leaves some trench"),
    )
