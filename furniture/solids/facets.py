"""Flat facets of a part's solid as plain values: what a proof by projection needs of the kernel."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from furniture.parts.part import Part
from furniture.parts.vectors import Vector
from furniture.solids.make import solid_of

CHORD_MM = 0.005
"""The farthest that a facet may lie from the curved face it stands for [mm]. Own rule: a
twentieth of the closest clearance that a hand fit has."""
_CHORD_TURN_RAD = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Facet:
    """A flat piece of a solid's surface [mm].

    Args:
        outer: the boundary, at least three points.
        holes: boundaries of what is missing inside it.
        normal: unit vector out of the wood.
        edge_slack_mm: how far the boundary may lie from the true one; 0 for straight sides.
        face_slack_mm: how far the facet may lie from the true face; 0 for a flat one.
    """

    outer: tuple[Vector, ...]
    holes: tuple[tuple[Vector, ...], ...] = ()
    normal: Vector
    edge_slack_mm: float = 0.0
    face_slack_mm: float = 0.0


@lru_cache(maxsize=512)
def facets_of(part: Part) -> tuple[Facet, ...]:
    """The whole surface of the part's solid, part frame: flat faces whole, curved in triangles.

    Args:
        part: equal parts give the same facets.

    Raises:
        SolidError: the part's solid cannot be made.
    """
    from cadquery import Shape
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
    from OCP.BRepMesh import BRepMesh_IncrementalMesh

    # The mesh is kept on a copy, for the solid itself is shared with every other reader.
    shape = Shape.cast(BRepBuilderAPI_Copy(solid_of(part).wrapped).Shape())
    BRepMesh_IncrementalMesh(shape.wrapped, CHORD_MM, False, _CHORD_TURN_RAD, False)
    found: list[Facet] = []
    for face in shape.Faces():
        found.extend(_flat(face) if face.geomType() == "PLANE" else _curved(face))
    return tuple(found)


def _triangulation(face: Any) -> tuple[Any, Any]:
    from OCP.BRep import BRep_Tool
    from OCP.TopLoc import TopLoc_Location

    where = TopLoc_Location()
    return BRep_Tool.Triangulation_s(face.wrapped, where), where


def _flat(face: Any) -> list[Facet]:
    mesh, where = _triangulation(face)
    normal = face.normalAt()
    is_straight = all(edge.geomType() == "LINE" for edge in face.Edges())
    return [
        Facet(
            outer=_boundary(face.outerWire(), face, mesh, where),
            holes=tuple(_boundary(wire, face, mesh, where) for wire in face.innerWires()),
            normal=(normal.x, normal.y, normal.z),
            edge_slack_mm=0.0 if is_straight else CHORD_MM,
        )
    ]


def _boundary(wire: Any, face: Any, mesh: Any, where: Any) -> tuple[Vector, ...]:
    """The nodes of the mesh round a wire, in order."""
    from OCP.BRep import BRep_Tool
    from OCP.BRepTools import BRepTools_WireExplorer
    from OCP.TopAbs import TopAbs_Orientation

    explorer = BRepTools_WireExplorer(wire.wrapped, face.wrapped)
    points: list[Vector] = []
    while explorer.More():
        edge = explorer.Current()
        nodes = list(BRep_Tool.PolygonOnTriangulation_s(edge, mesh, where).Nodes())
        if edge.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
            nodes.reverse()
        for node in nodes[:-1]:
            point = mesh.Node(node)
            points.append((point.X(), point.Y(), point.Z()))
        explorer.Next()
    return tuple(points)


def _curved(face: Any) -> list[Facet]:
    from OCP.TopAbs import TopAbs_Orientation

    mesh, _ = _triangulation(face)
    is_reversed = face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    found = []
    for index in range(1, mesh.NbTriangles() + 1):
        nodes = mesh.Triangle(index).Get()
        a, b, c = (mesh.Node(node) for node in nodes)
        across = (b.XYZ() - a.XYZ()).Crossed(c.XYZ() - a.XYZ())
        size = across.Modulus()
        if size < 1e-12:
            continue
        out = (-1.0 if is_reversed else 1.0) / size
        found.append(
            Facet(
                outer=tuple((point.X(), point.Y(), point.Z()) for point in (a, b, c)),
                normal=(across.X() * out, across.Y() * out, across.Z() * out),
                edge_slack_mm=CHORD_MM,
                face_slack_mm=CHORD_MM,
            )
        )
    return found
