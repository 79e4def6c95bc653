"""Triangles and edges of a part, and of plain turned and square things, in their own frame [mm]."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.part import Part
from furniture.solids.make import solid_from

CHORD_MM, TURN_RAD = 0.05, 0.3
"""How far a triangle may lie from a curved face, and how far two may turn: smooth to the eye."""
_SMOOTH = math.cos(math.radians(8.0))
"""Faces that turn by less along an edge run into each other: no line is drawn there."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Points (n, 3), their normals, triangles (m, 3) wound as seen from outside, edges as chains.

    `faces` tells for each triangle which flat or curved face it belongs to; faces share no points.
    """

    points: NDArray[np.float64]
    normals: NDArray[np.float64]
    triangles: NDArray[np.int32]
    faces: NDArray[np.int32]
    strokes: tuple[NDArray[np.float64], ...] = ()

    def __post_init__(self) -> None:
        """What several readers share is not changed by one of them."""
        arrays: tuple[NDArray[Any], ...] = (
            self.points, self.normals, self.triangles, self.faces, *self.strokes,
        )  # fmt: skip
        for each in arrays:
            each.setflags(write=False)


def mesh_of(part: Part) -> Mesh:
    """The part's solid as triangles, part frame; equal work gives the same mesh.

    Args:
        part: of a piece.

    Raises:
        SolidError: the part's solid cannot be made.
    """
    return _mesh_from(part.blank, part.cuts)


@lru_cache(maxsize=512)
def _mesh_from(blank: Blank, cuts: tuple[Cut, ...]) -> Mesh:
    from cadquery import Shape
    from OCP.BRep import BRep_Tool
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.TopAbs import TopAbs_Orientation
    from OCP.TopLoc import TopLoc_Location

    # The mesh is kept on a copy, for the solid itself is shared with every other reader.
    shape = Shape.cast(BRepBuilderAPI_Copy(solid_from(blank, cuts).wrapped).Shape())
    BRepMesh_IncrementalMesh(shape.wrapped, CHORD_MM, False, TURN_RAD, False)
    points: list[Any] = []
    normals: list[Any] = []
    triangles: list[Any] = []
    faces: list[Any] = []
    for number, face in enumerate(shape.Faces()):
        found = BRep_Tool.Triangulation_s(face.wrapped, TopLoc_Location())
        nodes = (found.Node(index + 1) for index in range(found.NbNodes()))
        own = np.array([(node.X(), node.Y(), node.Z()) for node in nodes])
        corners = np.array(
            [found.Triangle(index + 1).Get() for index in range(found.NbTriangles())]
        ).reshape(-1, 3)
        if face.wrapped.Orientation() == TopAbs_Orientation.TopAbs_REVERSED:
            corners = corners[:, ::-1]
        corners = corners - 1
        triangles.append(corners + sum(len(each) for each in points))
        points.append(own)
        normals.append(_smoothed(own, corners))
        faces.append(np.full(len(corners), number))
    return Mesh(
        points=np.vstack(points),
        normals=np.vstack(normals),
        triangles=np.vstack(triangles).astype(np.int32),
        faces=np.concatenate(faces).astype(np.int32),
        strokes=tuple(_strokes(shape)),
    )


def _smoothed(points: Any, triangles: Any) -> Any:
    """Normals at the points of one face: a flat one stays flat, a curved one looks curved."""
    corners = points[triangles]
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    summed = np.zeros_like(points)
    for corner in range(3):
        np.add.at(summed, triangles[:, corner], across)
    size = np.linalg.norm(summed, axis=1, keepdims=True)
    return summed / np.where(size > 0.0, size, 1.0)


def _strokes(shape: Any) -> Any:
    """The edges that an eye sees: neither seams nor where a curve runs into a flat."""
    from OCP.BRep import BRep_Tool
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.GCPnts import GCPnts_TangentialDeflection
    from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE
    from OCP.TopExp import TopExp
    from OCP.TopoDS import TopoDS
    from OCP.TopTools import TopTools_IndexedDataMapOfShapeListOfShape

    beside = TopTools_IndexedDataMapOfShapeListOfShape()
    TopExp.MapShapesAndAncestors_s(shape.wrapped, TopAbs_EDGE, TopAbs_FACE, beside)
    for index in range(1, beside.Extent() + 1):
        edge = TopoDS.Edge_s(beside.FindKey(index))
        faces = [TopoDS.Face_s(each) for each in beside.FindFromIndex(index)]
        if BRep_Tool.Degenerated_s(edge) or any(BRep_Tool.IsClosed_s(edge, f) for f in faces):
            continue
        curve = BRepAdaptor_Curve(edge)
        middle = curve.Value((curve.FirstParameter() + curve.LastParameter()) / 2)
        if len(faces) == 2 and _runs_on(faces, middle):
            continue
        strung = GCPnts_TangentialDeflection(curve, TURN_RAD, CHORD_MM)
        found = [strung.Value(number + 1) for number in range(strung.NbPoints())]
        yield np.array([(point.X(), point.Y(), point.Z()) for point in found])


def _runs_on(faces: list[Any], middle: Any) -> bool:
    """Whether two faces have one normal where they meet."""
    from cadquery import Face, Vector

    one, other = (Face(each).normalAt(Vector(middle)) for each in faces)
    return bool(one.dot(other) > _SMOOTH)


def turned(profile: NDArray[np.float64], sides: int = 40) -> Mesh:
    """A thing turned about the z axis.

    Args:
        profile: rows of radius and height, from the axis at the foot to the axis at the top [mm].
        sides: of a circle.
    """
    turns = np.linspace(0.0, 2.0 * math.pi, sides, endpoint=False)
    ring = np.column_stack((np.cos(turns), np.sin(turns)))
    points, triangles, faces, normals = [], [], [], []
    count = 0
    for number, (low, high) in enumerate(pairwise(profile)):
        out = np.array([high[1] - low[1], -(high[0] - low[0])])
        size = float(np.hypot(*out))
        if size == 0.0:
            continue
        for radius, height in (low, high):
            points.append(np.column_stack((ring * radius, np.full(sides, height))))
            normals.append(np.column_stack((ring * out[0] / size, np.full(sides, out[1] / size))))
        here = np.arange(sides)
        after = (here + 1) % sides
        first = np.column_stack((here, after, here + sides)) + count
        second = np.column_stack((after, after + sides, here + sides)) + count
        triangles += [first, second]
        faces.append(np.full(2 * sides, number))
        count += 2 * sides
    rims = [
        np.column_stack((np.vstack((ring, ring[:1])) * radius, np.full(sides + 1, height)))
        for radius, height in profile
        if radius > 0.0
    ]
    return Mesh(
        points=np.vstack(points),
        normals=np.vstack(normals),
        triangles=np.vstack(triangles).astype(np.int32),
        faces=np.concatenate(faces).astype(np.int32),
        strokes=tuple(rims),
    )


def block(size: tuple[float, float, float]) -> Mesh:
    """An upright box with its foot's middle at the origin.

    Args:
        size: width, depth and height [mm].
    """
    half = np.array([size[0] / 2, size[1] / 2])
    points: list[NDArray[np.float64]] = []
    normals, triangles, strokes = [], [], []
    for axis in range(3):
        u, v = (axis + 1) % 3, (axis + 2) % 3
        for sign in (-1.0, 1.0):
            face = np.zeros((4, 3))
            face[:, axis] = sign
            for row, (a, b) in enumerate(((-1, -1), (1, -1), (1, 1), (-1, 1))):
                face[row, u], face[row, v] = a, b
            start = 4 * len(points)
            order = [[0, 1, 2], [0, 2, 3]] if sign > 0 else [[0, 2, 1], [0, 3, 2]]
            triangles += [[start + each for each in corner] for corner in order]
            normal = np.zeros(3)
            normal[axis] = sign
            normals.append(np.tile(normal, (4, 1)))
            points.append(face)
            strokes.append(np.vstack((face, face[:1])))
    scale = np.array([half[0], half[1], size[2] / 2])
    lift = np.array([0.0, 0.0, size[2] / 2])
    return Mesh(
        points=np.vstack(points) * scale + lift,
        normals=np.vstack(normals),
        triangles=np.array(triangles, dtype=np.int32),
        faces=np.repeat(np.arange(6), 2).astype(np.int32),
        strokes=tuple(each * scale + lift for each in strokes),
    )
