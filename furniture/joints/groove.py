"""The groove joint: a panel's edge in a trench along the grain, with room to move."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import glued, rectangle
from furniture.joints.fit import SLIP, Fit
from furniture.joints.joint import (
    Joining,
    Joint,
    JointFace,
    Role,
    Worked,
)
from furniture.joints.relation import (
    apart,
    axis_along,
    box_in,
    clean,
    entered_face,
    extent,
    grain_between,
    out_of_range,
    overlap,
)
from furniture.parts.cuts import Groove
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Face, face_on
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, scaled
from furniture.rules.design import DADO_SHARE
from furniture.rules.joinery import LEAST_GRIP
from furniture.units import Draft, Least, Words


@dataclass(frozen=True, slots=True, kw_only=True)
class GrooveJoint(Joint):
    """A panel let into a groove along the grain of `into`, in a wide face or in an edge.

    The panel bears on the wall nearer to the face edge (groove in a wide face) or to the face side
    (groove in an edge); the fit's clearance lies at the other wall, the gap at the bottom.

    Args:
        fit: the clearance rule.
        gap_mm: between the panel's edge and the bottom, for seasonal movement.
        stop_mm: wood left between the groove and both ends; 0 runs through.
        stop_from_named_end_mm: the same at `Face.NAMED_END` only.
        stop_from_far_end_mm: the same at `Face.FAR_END` only.
        end_radius_mm: the cutter's radius left in stopped ends, which the panel stays clear of.
        is_glued: whether the panel is fixed there; a loose panel takes no glue.
    """

    kind: ClassVar[str] = "groove"

    fit: Fit = SLIP
    gap_mm: float = 0.0
    stop_mm: float = 0.0
    stop_from_named_end_mm: float = 0.0
    stop_from_far_end_mm: float = 0.0
    end_radius_mm: float = 0.0
    is_glued: bool = False

    @property
    def _stops(self) -> tuple[float, float]:
        """Wood left at the named and at the far end [mm]: each end's own figure before both's."""
        return (
            self.stop_from_named_end_mm or self.stop_mm,
            self.stop_from_far_end_mm or self.stop_mm,
        )

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The groove in `into` for the panel as it stands.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        low, high = box_in(into, incoming)
        blank = into.part.blank
        entered = entered_face(into, low, high, WIDE_FACES + EDGES)
        face = entered or Face.FACE_SIDE
        across = 3 - face.axis
        size = blank.across(face)
        reach = clean(size - low[face.axis] if face.is_far else high[face.axis])
        thickness = clean(high[across] - low[across])
        run = overlap((low[0], high[0]), extent(blank, 0))
        clearance = self.fit.clearance_mm(thickness)
        inward = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=clearance,
            ways_in=self._ways_in(into, inward),
            role=Role.HOUSING,
            faces=(
                *self._walls(into, incoming, face, (low, high), run, clearance),
                *self._stop_faces(into, face, (low, high), run, clearance),
            ),
        )
        problems = self._problems(into, incoming, entered, reach, run)
        if problems:
            return Worked(joining=joining, problems=problems)
        cut = Groove(
            face=face,
            offset_mm=clean(low[1] if face in WIDE_FACES else blank.thickness_mm - high[2]),
            width_mm=clean(thickness + clearance),
            depth_mm=clean(reach + self.gap_mm),
            stop_from_named_end_mm=self._stops[0],
            stop_from_far_end_mm=self._stops[1],
            end_radius_mm=self.end_radius_mm,
        )
        return Worked(joining=joining, into_cuts=(cut,))

    def _ways_in(self, into: Placed, inward: Vector) -> tuple[Vector, ...]:
        """Straight in, or along the groove from an end where it runs out."""
        along = into.placement.x_axis
        ways = [inward]
        if self._stops[0] <= 0.0:
            ways.append(along)
        if self._stops[1] <= 0.0:
            ways.append(scaled(along, -1.0))
        return tuple(ways)

    def _walls(
        self,
        into: Placed,
        incoming: Placed,
        face: Face,
        box: Box,
        run: tuple[float, float],
        clearance: float,
    ) -> tuple[JointFace, ...]:
        (low, high), across, axis = box, 3 - face.axis, face.axis
        edge, sunk = _sunk(into, face, box)
        walls = [("wall borne on", False, 0.0), ("other wall", True, clearance)]
        if face not in WIDE_FACES:
            walls = [("other wall", False, clearance), ("wall borne on", True, 0.0)]
        wall_grain = grain_between(
            into, across, incoming, axis_along(incoming, into.placement.axes[across])
        )
        grain = grain_between(into, axis, incoming, axis_along(incoming, into.placement.axes[axis]))
        return (
            *(
                found
                for what, is_far, play in walls
                for found in rectangle(
                    into,
                    what,
                    towards=face_on(across, is_far),
                    at=high[across] if is_far else low[across],
                    run=(0, run),
                    deep=(axis, sunk),
                    play_mm=play,
                    glue=glued(wall_grain, play, self.is_glued),
                )
            ),
            *rectangle(
                into,
                "bottom",
                towards=face.opposite,
                at=edge,
                run=(0, run),
                deep=(across, (low[across], high[across])),
                play_mm=self.gap_mm,
                glue=glued(grain, self.gap_mm, self.is_glued),
            ),
        )

    def _stop_faces(
        self, into: Placed, face: Face, box: Box, run: tuple[float, float], clearance: float
    ) -> tuple[JointFace, ...]:
        """The panel's ends off the flat of the stops."""
        (low, high), across = box, 3 - face.axis
        _, sunk = _sunk(into, face, box)
        below, above = (0.0, clearance) if face in WIDE_FACES else (clearance, 0.0)
        flat = (
            low[across] + max(0.0, self.end_radius_mm - below),
            high[across] - max(0.0, self.end_radius_mm - above),
        )
        length = into.part.blank.length_mm
        plays = (run[0] - self._stops[0], length - self._stops[1] - run[1])
        return tuple(
            found
            for towards, stop, play in zip(ENDS, self._stops, plays, strict=True)
            if stop > 0.0
            for found in rectangle(
                into,
                "stopped end",
                towards=towards,
                at=run[1] if towards.is_far else run[0],
                run=(across, flat),
                deep=(face.axis, sunk),
                play_mm=clean(max(0.0, play)),
            )
        )

    def _problems(
        self,
        into: Placed,
        incoming: Placed,
        face: Face | None,
        reach: float,
        run: tuple[float, float],
    ) -> tuple[Draft, ...]:
        if face is None:
            need = f"the edge of {incoming.instance} reaching into a long face of {into.instance}"
            return (apart(self.kind, into, incoming, need),)
        if axis_along(incoming, into.placement.axes[3 - face.axis]) != 2:
            need = f"{incoming.instance} with its edge along the grain of {into.instance}"
            return (apart(self.kind, into, incoming, need),)
        most = self.rules[DADO_SHARE] * into.part.blank.across(face)
        why: Words = (
            "a panel grips by ",
            Least(self.rules[LEAST_GRIP]),
            " and leaves half the wood behind its groove",
        )
        found = [
            *out_of_range(self, "reach into the groove", reach, self.rules[LEAST_GRIP], most, why),
            *out_of_range(
                self, "gap", self.gap_mm, 0.0, max(0.0, most - reach), "half the wood stays behind"
            ),
        ]
        length = into.part.blank.length_mm
        own = (self.stop_from_named_end_mm, self.stop_from_far_end_mm)
        names = ("stop_from_named_end", "stop_from_far_end")
        frees = (run[0], length - run[1])
        for name, its_own, stop, free in zip(names, own, self._stops, frees, strict=True):
            if stop != 0.0:
                why = f"{incoming.instance} lies between the stops, clear of the cutter's radius"
                most = free - self.end_radius_mm
                named = name if its_own else "stop"
                found += out_of_range(self, named, stop, min(1.0, most), most, why)
        return tuple(found)


def _sunk(into: Placed, face: Face, box: Box) -> tuple[float, tuple[float, float]]:
    """Where the panel's edge lies below a face of `into`, and the span it goes in [mm]."""
    edge = box[0][face.axis] if face.is_far else box[1][face.axis]
    surface = into.part.blank.across(face) if face.is_far else 0.0
    return edge, (min(edge, surface), max(edge, surface))
