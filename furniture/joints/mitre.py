"""The corner mitre: two rails meeting at a corner, both ends cut with the blade tilted."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.joint import GrainRelation, Joining, Joint, Role, Worked
from furniture.joints.mitre_plane import plane_of
from furniture.joints.relation import apart, centre_of_blank, clean
from furniture.parts.cuts import Mitre
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, dot, length, scaled, subtract
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class MitreJoint(Joint):
    """Two rails mitred at the corner where their ends meet; each blade tilts by half the turn."""

    kind: ClassVar[str] = "mitre"
    mitres_ends: ClassVar[bool] = True

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The mitres on both rails as they stand."""
        turn = math.degrees(
            math.acos(max(-1.0, min(1.0, dot(into.placement.z_axis, incoming.placement.z_axis))))
        )
        tilt = clean(turn / 2)
        first = _mitre(into, incoming, tilt)
        second = _mitre(incoming, into, tilt)
        problems: tuple[Draft, ...] = ()
        corners = [_long_point(into, first), _long_point(incoming, second)]
        if length(subtract(corners[0], corners[1])) > 1e-6 or not 1.0 <= tilt <= 60.0:
            need = "two rails whose outer faces meet at a corner"
            problems = (apart(self.kind, into, incoming, need),)
        plane = plane_of(incoming, second.shape(incoming.part.blank))
        towards = plane.outward
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=0.0,
            ways_in=_ways_in(into, incoming, first, second, towards),
            advice="an end-grain glue line: size it first, and add splines where it must be strong",
            role=Role.CORNER,
            faces=plane.rectangle(
                "mitre face",
                towards=towards,
                down=(0.0, plane.slope_mm),
                along=(0.0, plane.run_mm),
                out=(0.0, 0.0),
                glue=GrainRelation.END_TO_END,
            ),
        )
        return Worked(
            joining=joining,
            into_cuts=(first,),
            incoming_cuts=(second,),
            problems=problems,
        )


def _mitre(rail: Placed, other: Placed, tilt: float) -> Mitre:
    """The mitre on the end of `rail` that lies towards `other`, long point away from it."""
    towards = subtract(centre_of_blank(other), centre_of_blank(rail))
    along = dot(towards, rail.placement.x_axis)
    end = Face.FAR_END if along > 0 else Face.NAMED_END
    inward = dot(towards, rail.placement.z_axis)
    return Mitre(
        end=end,
        blade_tilt_deg=tilt,
        long_point_face=Face.BACK_SIDE if inward > 0 else Face.FACE_SIDE,
    )


def _long_point(rail: Placed, mitre: Mitre) -> Vector:
    """The long point at the face edge, piece frame [mm]."""
    blank = rail.part.blank
    x = blank.length_mm if mitre.end is Face.FAR_END else 0.0
    z = blank.thickness_mm if mitre.long_point_face is Face.FACE_SIDE else 0.0
    return rail.placement.to_piece((x, 0.0, z))


def _ways_in(
    into: Placed, incoming: Placed, first: Mitre, second: Mitre, towards: Vector
) -> tuple[Vector, ...]:
    """Straight on to the mitre, along the incoming rail, or along the other rail's outer face."""
    along_incoming = incoming.placement.direction_to_piece(second.end.normal)
    across = scaled(into.placement.direction_to_piece(first.end.normal), -1.0)
    return tuple(way for way in (towards, along_incoming, across) if dot(way, towards) > 1e-9)
