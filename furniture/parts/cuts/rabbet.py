"""The rabbet: a step along an edge or an end, open on two faces."""

from __future__ import annotations

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
    stopped,
    stops_struck,
)
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import Channel, level_of
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face, face_on
from furniture.parts.tools import Tool


@dataclass(frozen=True, slots=True, kw_only=True)
class Rabbet(Cut):
    """A step down from an edge (or an end) and into the thickness from a wide face.

    Args:
        edge: the edge or the end that it runs along.
        face: the wide face that it is cut into.
        down_from_edge_mm: how wide it is, in from the edge.
        into_thickness_mm: how deep it is, in from the wide face.
        stop_at_low_mm: wood left whole where its run begins: at `Face.NAMED_END` for an edge, at
            the face edge for an end; 0 runs through.
        stop_at_high_mm: the same where its run ends.
    """

    kind: ClassVar[str] = "rabbet"

    edge: Face
    face: Face
    down_from_edge_mm: float
    into_thickness_mm: float
    stop_at_low_mm: float = 0.0
    stop_at_high_mm: float = 0.0

    def _run_axis(self) -> int:
        return 1 - self.edge.axis

    def tools(self, blank: Blank) -> tuple[Tool, ...]:
        axis, extent = self.edge.axis, blank.across(self.edge)
        down = self.down_from_edge_mm
        run = blank.size[self._run_axis()]
        spans = {
            axis: (extent - down, extent) if self.edge.is_far else (0.0, down),
            self._run_axis(): (self.stop_at_low_mm, run - self.stop_at_high_mm),
        }
        return (pocket(blank, self.face, spans, self.into_thickness_mm),)

    def removed_alone_mm3(self, blank: Blank) -> float:
        run = blank.size[self._run_axis()] - self.stop_at_low_mm - self.stop_at_high_mm
        return run * self.down_from_edge_mm * self.into_thickness_mm

    def misfits(self, blank: Blank) -> tuple[Misfit, ...]:
        is_placed = self.edge in EDGES + ENDS and self.face in WIDE_FACES
        if not is_placed:
            return misfit(
                "edge", 1.0, 0.0, 0.0, "a rabbet runs along an edge or end of a wide face"
            )
        extent = blank.across(self.edge)
        run = blank.size[self._run_axis()]
        low, high = self.stop_at_low_mm, self.stop_at_high_mm
        return (
            *misfit(
                "down_from_edge_mm",
                self.down_from_edge_mm,
                1e-3,
                extent - 1e-3,
                "the step leaves some of the part's width",
            ),
            *misfit(
                "into_thickness_mm",
                self.into_thickness_mm,
                1e-3,
                blank.thickness_mm - 1e-3,
                "the step leaves some of the part's thickness",
            ),
            *misfit("stop_at_low_mm", low, 0.0, run - high - 1e-3, "a stop leaves some rabbet"),
            *misfit("stop_at_high_mm", high, 0.0, run - low - 1e-3, "a stop leaves some rabbet"),
        )

    def shape(self, blank: Blank) -> Channel:
        edge, run = level_of(self.edge, blank), blank.size[self._run_axis()]
        inner = abs(edge - self.down_from_edge_mm)
        return Channel(
            face=self.face,
            along=self._run_axis(),
            wide=(min(edge, inner), max(edge, inner)),
            floor_mm=abs(level_of(self.face, blank) - self.into_thickness_mm),
            run=(self.stop_at_low_mm, run - self.stop_at_high_mm),
            step=self.edge,
        )

    def figures(self, blank: Blank) -> Figures:
        shape, run = self.shape(blank), self._run_axis()
        down, into = self.down_from_edge_mm, self.into_thickness_mm
        inner = abs(level_of(self.edge, blank) - down)
        stops = (
            (self.stop_at_low_mm, face_on(run, False)),
            (self.stop_at_high_mm, face_on(run, True)),
        )
        corner = put(shape.middle(blank, shape.floor_mm), self.edge.axis, inner)
        # each from a corner of the wood to where the blank's own corner was
        below = put(corner, self.edge.axis, level_of(self.edge, blank))
        beside = put(corner, self.face.axis, shape.surface_mm(blank))
        gone = put(below, self.face.axis, shape.surface_mm(blank))
        return Figures(
            sizes=(Says.DOWN.dialled(down), Says.INTO_THICKNESS.dialled(into)),
            more=stopped(*stops),
            place=Says.ALONG_ON.of(self.edge, self.face),
            at=corner,
            seen=SECTION_OF_RUN[run],
            spans=(
                Spanned(
                    size=Size(down, Care.DIAL), start=beside, end=gone, seen=SECTION_OF_RUN[run]
                ),
                Spanned(
                    size=Size(into, Care.DIAL), start=below, end=gone, seen=SECTION_OF_RUN[run]
                ),
            ),
            # of the two faces that show where it ends, the one that is drawn in any case
            stops=stops_struck(
                blank,
                shape.middle(blank, shape.surface_mm(blank)),
                self.face if self.face is Face.FACE_SIDE else self.edge,
                *stops,
            ),
            section_mm=(down, into),
        )

    def turned_about(self, axis: int, blank: Blank) -> Rabbet:
        turns_run = axis != self._run_axis()
        return replace(
            self,
            edge=self.edge if axis == self.edge.axis else self.edge.opposite,
            face=self.face if axis == 2 else self.face.opposite,
            stop_at_low_mm=self.stop_at_high_mm if turns_run else self.stop_at_low_mm,
            stop_at_high_mm=self.stop_at_low_mm if turns_run else self.stop_at_high_mm,
        )
