"""The surface of a dowel: it is no part of the piece, but it stands in the way like one."""

from __future__ import annotations

import math

from furniture.joints.joint import Fastener
from furniture.parts.vectors import Vector, add, cross, scaled, unit
from furniture.solids.facets import CHORD_MM, Facet


def dowel_facets(dowel: Fastener) -> tuple[Facet, ...]:
    """The dowel's surface in flat facets, piece frame [mm]."""
    radius = dowel.diameter_mm / 2
    sides = math.ceil(math.pi / math.acos(1.0 - CHORD_MM / radius))
    helper: Vector = (1.0, 0.0, 0.0) if abs(dowel.axis[0]) < 0.9 else (0.0, 1.0, 0.0)
    u_axis = unit(cross(dowel.axis, helper))
    v_axis = cross(dowel.axis, u_axis)

    def outward(turn: float) -> Vector:
        angle = 2 * math.pi * turn / sides
        return add(scaled(u_axis, math.cos(angle)), scaled(v_axis, math.sin(angle)))

    def ring(along: float) -> list[Vector]:
        middle = add(dowel.at, scaled(dowel.axis, along))
        return [add(middle, scaled(outward(turn), radius)) for turn in range(sides)]

    near, far = ring(-dowel.incoming_mm), ring(dowel.into_mm)
    ends = (
        Facet(outer=tuple(near), normal=scaled(dowel.axis, -1.0), edge_slack_mm=CHORD_MM),
        Facet(outer=tuple(far), normal=dowel.axis, edge_slack_mm=CHORD_MM),
    )
    return ends + tuple(
        Facet(
            outer=(near[turn], near[(turn + 1) % sides], far[(turn + 1) % sides], far[turn]),
            normal=outward(turn + 0.5),
            edge_slack_mm=CHORD_MM,
            face_slack_mm=CHORD_MM,
        )
        for turn in range(sides)
    )
