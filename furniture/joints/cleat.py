"""The bevelled hanging cleat: two strips whose bevelled edges hook together."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.joint import Joining, Joint, JointFace, Role, Worked
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    box_in,
    clean,
    extent,
    out_of_range,
    overlap,
)
from furniture.parts.cuts import Bevel
from furniture.parts.faces import EDGES, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, scaled
from furniture.rules.joinery import LEAST_CLEAT_TILT, MOST_CLEAT_TILT
from furniture.units import Draft, WordedDraft


@dataclass(frozen=True, slots=True, kw_only=True)
class CleatJoint(Joint):
    """A bevelled strip hung on another: `into` is fixed to the wall, the incoming one hooks on it.

    The two blanks stand face to face in one plane and overlap in height by the bevel's rise; the
    wall cleat keeps its long point away from the wall, so that the piece is drawn to the wall.

    Args:
        blade_tilt_deg: of both bevels.
    """

    kind: ClassVar[str] = "hanging cleat"

    blade_tilt_deg: float = 45.0

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The bevels on both strips as they stand.

        Raises:
            CannotMeet: the strips do not stand square to each other.
        """
        low, high = box_in(into, incoming)
        blank = into.part.blank
        is_above = (low[1] + high[1]) / 2 > blank.width_mm / 2
        edge = Face.BACK_EDGE if is_above else Face.FACE_EDGE
        rise = clean(blank.thickness_mm * math.tan(math.radians(self.blade_tilt_deg)))
        covered = clean(blank.width_mm - low[1] if is_above else high[1])
        towards = into.placement.direction_to_piece(scaled(edge.normal, -1.0))
        own_edge = incoming.placement.face_towards(towards)
        outer = into.placement.z_axis
        first = Bevel(edge=edge, blade_tilt_deg=self.blade_tilt_deg, long_point_face=Face.FACE_SIDE)
        second = Bevel(
            edge=own_edge if own_edge in EDGES else Face.FACE_EDGE,
            blade_tilt_deg=self.blade_tilt_deg,
            long_point_face=incoming.placement.face_towards(scaled(outer, -1.0)),
        )
        run = overlap((low[0], high[0]), extent(blank, 0))
        slope = blank.thickness_mm / math.cos(math.radians(self.blade_tilt_deg))
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=0.0,
            ways_in=(towards,),
            advice="hang it from above; nothing is glued here",
            role=Role.SEAT,
            faces=(self._face(into, edge, run, slope),),
        )
        problems = self._problems(into, incoming, own_edge, covered, rise, (low, high))
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(
            joining=joining,
            into_cuts=(first,),
            incoming_cuts=(second,),
        )

    def _face(self, into: Placed, edge: Face, run: tuple[float, float], slope: float) -> JointFace:
        """The slope on which the hung strip rests."""
        blank, tilt = into.part.blank, math.radians(self.blade_tilt_deg)
        half_rise = blank.thickness_mm * math.tan(tilt) / 2
        y = blank.width_mm - half_rise if edge is Face.BACK_EDGE else half_rise
        way = add(scaled(edge.normal, -math.cos(tilt)), (0.0, 0.0, math.sin(tilt)))
        return JointFace(
            what="bevel",
            centre=into.placement.to_piece((sum(run) / 2, y, blank.thickness_mm / 2)),
            normal=into.placement.direction_to_piece(way),
            along=into.placement.x_axis,
            run_mm=max(0.0, run[1] - run[0]),
            deep_mm=slope,
            play_mm=0.0,
            glue=None,
        )

    def _problems(
        self,
        into: Placed,
        incoming: Placed,
        own_edge: Face,
        covered: float,
        rise: float,
        box: tuple[Vector, Vector],
    ) -> tuple[Draft, ...]:
        low, high = box
        tilt = self.blade_tilt_deg
        flattest, steepest = self.rules[LEAST_CLEAT_TILT], self.rules[MOST_CLEAT_TILT]
        if not flattest - 1e-9 <= tilt <= steepest + 1e-9:
            nearest = min(max(tilt, flattest), steepest)
            return (
                WordedDraft(
                    parameter=f"{self.kind} of {self.incoming} in {self.into}: blade_tilt",
                    given=f"{tilt:.4g} degrees",
                    allowed=f"{flattest:g} to {steepest:g} degrees",
                    why="a flatter bevel lets go and a steeper one slides (common practice)",
                    remedy=f"make it {nearest:g} degrees",
                ),
            )
        is_level = (
            abs(low[2]) <= TOUCHING_MM
            and abs(high[2] - into.part.blank.thickness_mm) <= TOUCHING_MM
        )
        run = overlap((low[0], high[0]), extent(into.part.blank, 0))
        if not is_level or own_edge not in EDGES or run[1] - run[0] <= TOUCHING_MM:
            need = f"two strips of one thickness, {incoming.instance} edge to edge over the other"
            return (apart(self.kind, into, incoming, need),)
        why = "the blanks overlap in height by the rise of their bevels"
        return out_of_range(self, "overlap of the two strips", covered, rise, rise, why)
