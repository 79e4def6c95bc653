"""What readers ask of a joint as made, worked out from its faces and fasteners alone."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.joints.joint import HoldBy, Joining, JointFace
from furniture.joints.mitre_plane import planes_on
from furniture.joints.relation import axis_along
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, cross, dot

_SAME_WAY = 1.0 - 1e-6
_ACROSS = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Housing:
    """What is let in [mm]: along the housing, into it, and the thickness of the part there."""

    run_mm: float
    depth_mm: float
    thickness_mm: float


def extent_along(face: JointFace, way: Vector) -> float:
    """How far a face reaches along a way that is one of its sides [mm]."""
    return face.run_mm if abs(dot(face.along, way)) > 0.5 else face.deep_mm


def faces_towards(joining: Joining, way: Vector) -> tuple[JointFace, ...]:
    """The faces that look along a way of the piece."""
    return tuple(face for face in joining.faces if dot(face.normal, way) > _SAME_WAY)


def is_face_to_face(joining: Joining) -> bool:
    """Whether plain faces of one side meet and nothing locates them but a maker's measure.

    They look one way, and the part may be slid home any way along them. Screws that hold it without
    glue are driven where it is held; whatever else crosses the joint locates it.
    """
    is_screwed = not joining.glued_faces and all(
        each.by is HoldBy.SCREW for each in joining.fasteners
    )
    if not joining.faces or (joining.fasteners and not is_screwed):
        return False
    normal = joining.faces[0].normal
    along = [way for way in joining.ways_in if abs(dot(way, normal)) < _ACROSS]
    return all(dot(face.normal, normal) > _SAME_WAY for face in joining.faces) and any(
        abs(dot(first, second)) < _ACROSS for first in along for second in along
    )


def closes_on_both_sides(joining: Joining, incoming: Placed) -> bool:
    """Whether some face of the joint looks at another through the part: stopped ends do not.

    Args:
        joining: the joint.
        incoming: the part that is let in.
    """
    ways = [f.normal for f in joining.faces if axis_along(incoming, f.normal) == 2]
    return any(dot(first, second) < -_SAME_WAY for first in ways for second in ways)


def edge_face(joining: Joining, incoming: Placed) -> JointFace | None:
    """What lies before the edge or the end of a panel that is let in: its largest such face."""
    return max(
        (face for face in joining.faces if axis_along(incoming, face.normal) != 2),
        key=lambda face: face.area_mm2,
        default=None,
    )


def housing_of(joining: Joining, incoming: Placed) -> Housing | None:
    """What of a part is let into the other: nothing where only an edge or only a side meets.

    Args:
        joining: the joint.
        incoming: the part that is let in.
    """
    edge = edge_face(joining, incoming)
    sides = [face for face in joining.faces if axis_along(incoming, face.normal) == 2]
    if edge is None or not sides:
        return None
    along = cross(edge.normal, sides[0].normal)
    run = math.fsum(extent_along(face, along) for face in faces_towards(joining, edge.normal))
    return Housing(
        run_mm=run,
        depth_mm=max(extent_along(face, edge.normal) for face in sides),
        thickness_mm=extent_along(edge, sides[0].normal),
    )


def is_tilted_mitre(joining: Joining, incoming: Placed) -> bool:
    """Whether the two meet on a mitre that was sawn with the blade tilted."""
    return any(axis == 1 for axis in _mitres_met(joining, incoming))


def is_flat_mitre(joining: Joining, incoming: Placed) -> bool:
    """Whether the two meet on a mitre that was sawn with the gauge turned."""
    return any(axis == 2 for axis in _mitres_met(joining, incoming))


def _mitres_met(joining: Joining, incoming: Placed) -> list[int]:
    """The incoming part's axis along every mitre of its own that is a face of the joint."""
    return [
        plane.third_axis
        for plane in planes_on(incoming)
        for face in joining.faces
        if dot(plane.outward, face.normal) > _SAME_WAY and abs(plane.read(face.centre)[2]) < 1e-3
    ]
