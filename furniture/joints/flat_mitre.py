"""The frame corner: two parts in one plane, both ends cut with the mitre gauge turned."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.joint import GrainRelation, Joining, Joint, Role, Worked
from furniture.joints.mitre_plane import MitrePlane
from furniture.joints.relation import (
    TOUCHING_MM,
    CannotMeet,
    apart,
    centre_of_blank,
    clean,
    overlap,
)
from furniture.parts.cuts import FlatMitre
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, dot, length, scaled, subtract
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatMitreJoint(Joint):
    """Two rails of a frame mitred where their ends meet; the mitre runs from corner to corner.

    Rails of one width share the turn evenly; at a square corner rails of two widths are cut so that
    the mitre still runs from the inner to the outer corner.
    """

    kind: ClassVar[str] = "flat mitre"
    mitres_ends: ClassVar[bool] = True

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The mitres on both rails as they lie.

        Raises:
            CannotMeet: the two do not lie in one plane.
        """
        if abs(dot(into.placement.z_axis, incoming.placement.z_axis)) < 1 - 1e-9:
            raise CannotMeet(f"{incoming.instance} does not lie flat with {into.instance}")
        first, second = _end_and_edge(into, incoming), _end_and_edge(incoming, into)
        turn = math.degrees(math.acos(_outer_cosine(into, first, incoming, second)))
        widths = (into.part.blank.width_mm, incoming.part.blank.width_mm)
        angles = _angles(turn, *widths)
        planes = (
            MitrePlane(part=into, end=first[0], long_point=first[1], angle_deg=angles[0]),
            MitrePlane(part=incoming, end=second[0], long_point=second[1], angle_deg=angles[1]),
        )
        cuts = tuple(
            FlatMitre(
                end=plane.end, gauge_angle_deg=plane.angle_deg, long_point_edge=plane.long_point
            )
            for plane in planes
        )
        height = _common_height(planes[1], planes[0])
        problems = self._problems(planes, turn, widths, height)
        joining = self._joining(planes, height)
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(
            joining=joining,
            into_cuts=cuts[:1],
            incoming_cuts=cuts[1:],
        )

    def _joining(
        self, planes: tuple[MitrePlane, MitrePlane], height: tuple[float, float]
    ) -> Joining:
        into, incoming = planes
        towards = incoming.outward
        along = incoming.part.placement.direction_to_piece(incoming.end.normal)
        across = scaled(into.part.placement.direction_to_piece(into.end.normal), -1.0)
        up = incoming.part.placement.z_axis
        return Joining(
            kind=self.kind,
            into=into.part.instance,
            incoming=incoming.part.instance,
            fit=None,
            clearance_mm=0.0,
            ways_in=(
                *(way for way in (towards, along, across) if dot(way, towards) > 1e-9),
                up,
                scaled(up, -1.0),
            ),
            advice="an end-grain glue line: size it first, and add splines or keys",
            role=Role.CORNER,
            faces=incoming.rectangle(
                "mitre face",
                towards=towards,
                down=(0.0, min(into.slope_mm, incoming.slope_mm)),
                along=height,
                out=(0.0, 0.0),
                glue=GrainRelation.END_TO_END,
            ),
        )

    def _problems(
        self,
        planes: tuple[MitrePlane, MitrePlane],
        turn: float,
        widths: tuple[float, float],
        height: tuple[float, float],
    ) -> tuple[Draft, ...]:
        into, incoming = planes
        corner = subtract(incoming.corner, into.corner)
        off = length(subtract(corner, scaled(into.along, dot(corner, into.along))))
        found = []
        if off > TOUCHING_MM or height[1] - height[0] <= TOUCHING_MM or not 2.0 <= turn <= 120.0:
            need = "two rails in one plane whose outer edges meet at a corner"
            found.append(apart(self.kind, into.part, incoming.part, need))
        if abs(widths[0] - widths[1]) > TOUCHING_MM and abs(turn - 90.0) > 1e-6:
            need = "rails of one width, or a square corner"
            found.append(apart(self.kind, into.part, incoming.part, need))
        return tuple(found)


def _end_and_edge(rail: Placed, other: Placed) -> tuple[Face, Face]:
    """The end of `rail` that lies towards `other`, and its edge that looks away from it."""
    towards = subtract(centre_of_blank(other), centre_of_blank(rail))
    end = Face.FAR_END if dot(towards, rail.placement.x_axis) > 0 else Face.NAMED_END
    is_up = dot(towards, rail.placement.y_axis) > 0
    return end, Face.FACE_EDGE if is_up else Face.BACK_EDGE


def _outer_cosine(
    into: Placed, first: tuple[Face, Face], incoming: Placed, second: tuple[Face, Face]
) -> float:
    ways: list[Vector] = [
        rail.placement.direction_to_piece(edge.normal)
        for rail, (_, edge) in ((into, first), (incoming, second))
    ]
    return max(-1.0, min(1.0, dot(ways[0], ways[1])))


def _angles(turn: float, into_width: float, incoming_width: float) -> tuple[float, float]:
    """The gauge's angle for both rails [deg]: each sets back by the other's width where square."""
    if abs(turn - 90.0) > 1e-6:
        return clean(turn / 2), clean(turn / 2)
    first = math.degrees(math.atan2(incoming_width, into_width))
    return clean(first), clean(90.0 - first)


def _common_height(plane: MitrePlane, other: MitrePlane) -> tuple[float, float]:
    """The span through the thickness that both rails share, from `plane`'s long point [mm]."""
    start = dot(subtract(other.corner, plane.corner), plane.along)
    end = start + dot(other.along, plane.along) * other.run_mm
    return overlap((0.0, plane.run_mm), (min(start, end), max(start, end)))
