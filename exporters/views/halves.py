"""Kernel solids cut by a plane: the half beyond it, and the wood it cuts as plain areas."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from exporters.views.values import CutArea, ViewFrame
from furniture.parts.vectors import Point2, Vector, dot, scaled, subtract

_CLOSE_MM = 1e-3
_REACH_MM = 1e5
"""A cutting plane is drawn this large [mm]: over any piece that stands in a room. Own rule."""


def halved(solid: Any, frame: ViewFrame, through: Vector) -> tuple[Any | None, list[CutArea]]:
    """What of a kernel solid lies beyond the plane square to the eye, and where the plane cuts it.

    Nothing beyond is None; a solid wholly beyond comes back as it is, uncut.

    Args:
        solid: a kernel shape.
        frame: how it is looked at.
        through: a point of the plane [mm].
    """
    low, high = _depths(solid, frame, through)
    if low >= -_CLOSE_MM:
        return None, []
    if high <= _CLOSE_MM:
        return solid, []
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    away = gp_Vec(*scaled(frame.towards_eye, -2.0 * _REACH_MM))
    half_space = BRepPrimAPI_MakePrism(_plane_face(frame, through), away).Shape()
    half = BRepAlgoAPI_Common(solid, half_space).Shape()
    faces = list(_faces_in_plane(half, frame, through))
    return half, [_area(face, frame) for face in faces]


def _faces_in_plane(half: Any, frame: ViewFrame, through: Vector) -> Iterator[Any]:
    """The flat faces of the half that lie in the cutting plane."""
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_Plane
    from OCP.TopAbs import TopAbs_FACE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    faces = TopExp_Explorer(half, TopAbs_FACE)
    while faces.More():
        face = TopoDS.Face_s(faces.Current())
        faces.Next()
        surface = BRepAdaptor_Surface(face, False)
        if surface.GetType() != GeomAbs_Plane:
            continue
        plane = surface.Plane()
        at, normal = plane.Location(), plane.Axis().Direction()
        is_level = abs(dot((normal.X(), normal.Y(), normal.Z()), frame.towards_eye)) > 1.0 - 1e-9
        depth = dot(subtract((at.X(), at.Y(), at.Z()), through), frame.towards_eye)
        if is_level and abs(depth) < _CLOSE_MM:
            yield face


def _area(face: Any, frame: ViewFrame) -> CutArea:
    from OCP.BRepTools import BRepTools
    from OCP.TopAbs import TopAbs_WIRE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    outer = BRepTools.OuterWire_s(face)
    holes = []
    wires = TopExp_Explorer(face, TopAbs_WIRE)
    while wires.More():
        wire = TopoDS.Wire_s(wires.Current())
        if not wire.IsSame(outer):
            holes.append(_ring(wire, face, frame))
        wires.Next()
    return CutArea(outline=_ring(outer, face, frame), holes=tuple(holes))


def _depths(solid: Any, frame: ViewFrame, through: Vector) -> tuple[float, float]:
    """The least and greatest height of the solid over the plane, towards the eye [mm]."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib
    from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf
    from OCP.TopLoc import TopLoc_Location

    into_frame = gp_Trsf()
    into_frame.SetTransformation(
        gp_Ax3(gp_Pnt(*through), gp_Dir(*frame.towards_eye), gp_Dir(*frame.right))
    )
    box = Bnd_Box()
    BRepBndLib.Add_s(solid.Moved(TopLoc_Location(into_frame)), box, False)
    _, _, low, _, _, high = box.Get()
    return (low, high)


def _plane_face(frame: ViewFrame, through: Vector) -> Any:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
    from OCP.gp import gp_Ax3, gp_Dir, gp_Pln, gp_Pnt

    plane = gp_Pln(gp_Ax3(gp_Pnt(*through), gp_Dir(*frame.towards_eye), gp_Dir(*frame.right)))
    reach = _REACH_MM
    return BRepBuilderAPI_MakeFace(plane, -reach, reach, -reach, reach).Face()


def _ring(wire: Any, face: Any, frame: ViewFrame) -> tuple[Point2, ...]:
    """The corners of a wire in order, curves strung with chords 0.01 mm off at most."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.BRepTools import BRepTools_WireExplorer
    from OCP.GCPnts import GCPnts_TangentialDeflection
    from OCP.TopAbs import TopAbs_REVERSED

    points: list[Point2] = []
    explorer = BRepTools_WireExplorer(wire, face)
    while explorer.More():
        edge = explorer.Current()
        strung = GCPnts_TangentialDeflection(BRepAdaptor_Curve(edge), 0.2, 0.01)
        found = [strung.Value(index + 1) for index in range(strung.NbPoints())]
        if edge.Orientation() == TopAbs_REVERSED:
            found.reverse()
        points += (frame.to_paper((point.X(), point.Y(), point.Z())) for point in found[:-1])
        explorer.Next()
    return tuple(points)
