"""The dado joint: a part housed across the grain of another, through its whole width."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.errors import Problem
from furniture.joints.fit import GLUE_BRIDGES_MM, SLIP, Fit
from furniture.joints.joint import (
    Contact,
    GlueFace,
    GrainRelation,
    Joining,
    Joint,
    Seat,
    Worked,
)
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    box_in,
    clean,
    extent,
    long_arrises_of,
    overlap,
)
from furniture.parts.cuts import Cut, Dado, Rabbet
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, scaled


@dataclass(frozen=True, slots=True, kw_only=True)
class DadoJoint(Joint):
    """A part housed in a trench across the grain of `into`, resting on its lower shoulder.

    The trench is as wide as the measured part plus the fit's clearance, which lies above the part.
    Where the part reaches the end of `into`, the trench opens into a rabbet and nothing lies above.

    Args:
        fit: the clearance rule.
        bottom_gap_mm: left between the part's edge and the bottom of the trench, for movement.
        inset_mm: how far a notch has set the part's edge back from its blank at the joint.
    """

    kind: ClassVar[str] = "dado"

    fit: Fit = SLIP
    bottom_gap_mm: float = 0.0
    inset_mm: float = 0.0

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The trench in `into` for the incoming part as it stands.

        Raises:
            ValueError: the parts do not stand square to each other.
        """
        low, high = box_in(into, incoming)
        blank = into.part.blank
        from_face = high[2] > blank.thickness_mm + TOUCHING_MM
        face = Face.FACE_SIDE if from_face else Face.BACK_SIDE
        reach = (blank.thickness_mm - low[2] if from_face else high[2]) - self.inset_mm
        run = overlap((low[1], high[1]), extent(blank, 1))
        thickness = clean(high[0] - low[0])
        seat = Seat(run_mm=run[1] - run[0], depth_mm=clean(reach), thickness_mm=thickness)
        clearance = self.fit.clearance_mm(thickness)
        depth = clean(reach + self.bottom_gap_mm)
        is_at_end = high[0] >= blank.length_mm - TOUCHING_MM
        cut: Cut
        if is_at_end:
            cut = Rabbet(
                edge=Face.FAR_END,
                face=face,
                down_from_edge_mm=clean(blank.length_mm - low[0]),
                into_thickness_mm=depth,
            )
        else:
            cut = Dado(
                face=face,
                lower_shoulder_mm=clean(low[0]),
                width_mm=clean(thickness + clearance),
                depth_mm=depth,
            )
        problems: tuple[Problem, ...] = ()
        if reach <= TOUCHING_MM or run[1] - run[0] < blank.width_mm - TOUCHING_MM:
            need = f"{incoming.instance} reaching into {into.instance} over its whole width"
            problems = (apart(self.kind, into, incoming, need),)
        inward = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        down = into.placement.direction_to_piece((-1.0, 0.0, 0.0))
        going_in = incoming.placement.face_towards(inward)
        hidden = long_arrises_of(going_in, _run_axis(incoming, into))
        joining = Joining(
            kind="rabbet" if is_at_end else self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=0.0 if is_at_end else clearance,
            glue=self._glue(seat, clearance, is_at_end, going_in),
            ways_in=(inward,) if not is_at_end else (inward, down),
            contacts=self._contacts(into, face, low, high, run, depth, inward, down, is_at_end),
            seat=seat,
        )
        return Worked(joining=joining, into_cuts=(cut,), incoming_hidden=hidden, problems=problems)

    def _glue(
        self, seat: Seat, clearance: float, is_at_end: bool, going_in: Face
    ) -> tuple[GlueFace, ...]:
        cheek = seat.run_mm * seat.depth_mm
        cheeks = 1 if is_at_end or clearance > GLUE_BRIDGES_MM else 2
        faces = [GlueFace(area_mm2=cheek, grain=GrainRelation.CROSSING)] * cheeks
        if self.bottom_gap_mm <= GLUE_BRIDGES_MM:
            grain = GrainRelation.CROSSING if going_in.axis == 1 else GrainRelation.LONG_TO_END
            faces.append(GlueFace(area_mm2=seat.run_mm * seat.thickness_mm, grain=grain))
        return tuple(faces)

    def _contacts(
        self,
        into: Placed,
        face: Face,
        low: Vector,
        high: Vector,
        run: tuple[float, float],
        depth: float,
        inward: Vector,
        down: Vector,
        is_at_end: bool,
    ) -> tuple[Contact, ...]:
        middle = (run[0] + run[1]) / 2
        surface = into.part.blank.thickness_mm if face is Face.FACE_SIDE else 0.0
        sign = -1.0 if face is Face.FACE_SIDE else 1.0
        edge = surface + sign * (depth - self.bottom_gap_mm)
        half_in = (surface + edge) / 2
        place = into.placement.to_piece
        contacts = [
            Contact(
                what="lower shoulder", at=place((low[0], middle, half_in)), towards=down,
                stand_off_mm=0.0,
            ),
            Contact(
                what="bottom", at=place(((low[0] + high[0]) / 2, middle, edge)), towards=inward,
                stand_off_mm=self.bottom_gap_mm,
            ),
        ]  # fmt: skip
        if not is_at_end:
            contacts.append(
                Contact(
                    what="upper shoulder",
                    at=place((high[0], middle, half_in)),
                    towards=scaled(down, -1.0),
                    stand_off_mm=self.fit.clearance_mm(clean(high[0] - low[0])),
                )
            )
        return tuple(contacts)


def _run_axis(incoming: Placed, into: Placed) -> int:
    """The incoming part's axis that lies along the trench."""
    along = into.placement.y_axis
    turned = incoming.placement.direction_to_part(along)
    return max(range(3), key=lambda axis: abs(turned[axis]))
