"""Kernel solids cut by a plane: the half beyond it, and the wood it cuts as plain areas."""

from __future__ import annotations

from typing import Any

from exporters.views.values import CutArea, ViewFrame
from furniture.parts.vectors import Point2, Vector, scaled

_CLOSE_MM = 1e-3
_REACH_MM = 1e4
"""A cutting plane is drawn this large [mm]: over any piece that stands in a room. Own rule."""


def far_side(solid: Any, frame: ViewFrame, through: Vector) -> Any | None:
    """What of a kernel solid lies beyond the plane square to the eye; None when nothing does.

    Args:
        solid: a kernel shape.
        frame: how it is looked at.
        through: a point of the plane [mm].
    """
    depths = _depths(solid, frame, through)
    if depths[0] >= -_CLOSE_MM:
        return None
    if depths[1] <= _CLOSE_MM:
        return solid
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Vec

    away = gp_Vec(*scaled(frame.towards_eye, -2.0 * _REACH_MM))
    half_space = BRepPrimAPI_MakePrism(_plane_face(frame, through), away).Shape()
    return BRepAlgoAPI_Common(solid, half_space).Shape()


def cut_areas(solid: Any, frame: ViewFrame, through: Vector) -> list[CutArea]:
    """The closed areas in which a plane square to the eye cuts a kernel solid, on paper [mm].

    Args:
        solid: a kernel shape.
        frame: how it is looked at.
        through: a point of the plane [mm].
    """
    depths = _depths(solid, frame, through)
    if depths[0] >= -_CLOSE_MM or depths[1] <= _CLOSE_MM:
        return []
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
    from OCP.BRepTools import BRepTools
    from OCP.TopAbs import TopAbs_FACE, TopAbs_WIRE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    areas = []
    faces = TopExp_Explorer(
        BRepAlgoAPI_Common(solid, _plane_face(frame, through)).Shape(), TopAbs_FACE
    )
    while faces.More():
        face = TopoDS.Face_s(faces.Current())
        outer = BRepTools.OuterWire_s(face)
        holes = []
        wires = TopExp_Explorer(face, TopAbs_WIRE)
        while wires.More():
            wire = TopoDS.Wire_s(wires.Current())
            if not wire.IsSame(outer):
                holes.append(_ring(wire, face, frame))
            wires.Next()
        areas.append(CutArea(outline=_ring(outer, face, frame), holes=tuple(holes)))
        faces.Next()
    return areas


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
    BRepBndLib.AddOptimal_s(solid.Moved(TopLoc_Location(into_frame)), box, False, False)
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
