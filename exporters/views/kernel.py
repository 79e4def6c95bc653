"""What the kernel draws, read as plain shapes; its own objects go no further than this."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from exporters.views.conics import circle_through, ellipse_through, is_straight, spread_line
from exporters.views.values import (
    Arc,
    DrawnEdge,
    EdgeClass,
    EllipseArc,
    Line,
    Polyline,
    Shape,
)
from furniture.parts.vectors import Point2, Vector

_CLOSE_MM = 1e-3


def hidden_lines(
    solids: list[Any], right: Vector, towards_eye: Vector, origin: Vector
) -> list[DrawnEdge]:
    """All edges of the solids as the kernel's exact hidden-line removal classes them, untidied.

    Args:
        solids: kernel shapes that do not run into each other.
        right: unit vector to the paper's right.
        towards_eye: unit vector from the solids to the eye.
        origin: the point that is 0, 0 on paper [mm].
    """
    shapes = _hidden_line_shapes(solids, right, towards_eye, origin)
    found: list[DrawnEdge] = []
    for compound, edge_class in (
        (shapes.VCompound(), EdgeClass.VISIBLE),
        (shapes.OutLineVCompound(), EdgeClass.VISIBLE),
        (shapes.HCompound(), EdgeClass.HIDDEN),
        (shapes.OutLineHCompound(), EdgeClass.HIDDEN),
        (shapes.Rg1LineVCompound(), EdgeClass.SMOOTH),
    ):
        found += (DrawnEdge(shape=shape, edge_class=edge_class) for shape in _flat(compound))
    return found


def seen_stretches(
    solids: list[Any],
    legs: list[tuple[Vector, Vector]],
    right: Vector,
    towards_eye: Vector,
    origin: Vector,
) -> list[Line]:
    """What can be seen of straight lines in space among solids, on paper [mm].

    Args:
        solids: kernel shapes that do not run into each other.
        legs: both ends of each line [mm].
        right: unit vector to the paper's right.
        towards_eye: unit vector from the solids to the eye.
        origin: the point that is 0, 0 on paper [mm].
    """
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.gp import gp_Pnt

    strung = [BRepBuilderAPI_MakeEdge(gp_Pnt(*start), gp_Pnt(*end)).Edge() for start, end in legs]
    shapes = _hidden_line_shapes([*solids, *strung], right, towards_eye, origin)
    seen = [shape for edge in strung for shape in _flat(shapes.VCompound(edge))]
    return [shape for shape in seen if isinstance(shape, Line)]


def _hidden_line_shapes(
    solids: list[Any], right: Vector, towards_eye: Vector, origin: Vector
) -> Any:
    from OCP.BRepLib import BRepLib
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

    algorithm = HLRBRep_Algo()
    for solid in solids:
        BRepLib.EncodeRegularity_s(solid)  # or tangent edges pass for sharp ones
        algorithm.Add(solid)
    axes = gp_Ax2(gp_Pnt(*origin), gp_Dir(*towards_eye), gp_Dir(*right))
    algorithm.Projector(HLRAlgo_Projector(axes))
    algorithm.Update()
    algorithm.Hide()
    return HLRBRep_HLRToShape(algorithm)


def _flat(compound: Any) -> Iterator[Shape]:
    """The shapes of a compound of projected edges, which may be empty."""
    if compound is None or compound.IsNull():
        return
    from OCP.BRepLib import BRepLib

    BRepLib.BuildCurves3d_s(compound)
    for edge in edges_of(compound):
        yield from plane_shapes(edge)


def edges_of(shape: Any) -> Iterator[Any]:
    """The kernel edges of a kernel shape."""
    from OCP.TopAbs import TopAbs_EDGE
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopoDS import TopoDS

    explorer = TopExp_Explorer(shape, TopAbs_EDGE)
    while explorer.More():
        yield TopoDS.Edge_s(explorer.Current())
        explorer.Next()


def plane_shapes(edge: Any) -> list[Shape]:
    """A kernel edge in the plane z = 0 as plain shapes; nothing when it has no length."""
    from OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.GeomAbs import GeomAbs_Circle, GeomAbs_Ellipse, GeomAbs_Line

    curve = BRepAdaptor_Curve(edge)
    kind = curve.GetType()
    first, last = curve.FirstParameter(), curve.LastParameter()
    if kind == GeomAbs_Line:
        return _straight(_at(curve, first), _at(curve, last))
    if kind == GeomAbs_Circle:
        circle = curve.Circle()
        centre, axis_z = circle.Location(), circle.Axis().Direction().Z()
        return _round((centre.X(), centre.Y()), circle.Radius(), curve, first, last, axis_z)
    if kind == GeomAbs_Ellipse:
        ellipse = curve.Ellipse()
        centre, along = ellipse.Location(), ellipse.XAxis().Direction()
        radius = ellipse.MajorRadius()
        if ellipse.Axis().Direction().Z() < 0:
            first, last = -last, -first
        return [
            EllipseArc(
                centre=(centre.X(), centre.Y()),
                major=(along.X() * radius, along.Y() * radius),
                ratio=ellipse.MinorRadius() / radius,
                start=first,
                end=last,
            )
        ]
    return fitted(_sampled(curve, first, last))


def fitted(points: list[Point2]) -> list[Shape]:
    """The simplest shape that runs through all points within a thousandth of a millimetre [mm].

    Args:
        points: in order along the curve.
    """
    if is_straight(points, _CLOSE_MM):  # a curve seen edge on, perhaps there and back
        return _straight(*spread_line(points))
    circle = circle_through(points, _CLOSE_MM)
    if circle is not None:
        return [circle]
    ellipse = ellipse_through(points, _CLOSE_MM)
    if ellipse is not None:
        return [ellipse]
    return [Polyline(points=tuple(points))]


def _at(curve: Any, parameter: float) -> Point2:
    point = curve.Value(parameter)
    return (point.X(), point.Y())


def _straight(start: Point2, end: Point2) -> list[Shape]:
    if math.dist(start, end) < _CLOSE_MM:
        return []
    return [Line(start=start, end=end)]


def _round(
    centre: Point2, radius: float, curve: Any, first: float, last: float, axis_z: float
) -> list[Shape]:
    sweep = math.degrees(last - first)
    if radius * (last - first) < _CLOSE_MM:
        return []
    if sweep > 360.0 - 1e-6:
        return [Arc(centre=centre, radius=radius, start_deg=0.0, end_deg=360.0)]
    at = _at(curve, first if axis_z > 0 else last)
    start = math.degrees(math.atan2(at[1] - centre[1], at[0] - centre[0])) % 360.0
    return [Arc(centre=centre, radius=radius, start_deg=start, end_deg=start + sweep)]


def _sampled(curve: Any, first: float, last: float) -> list[Point2]:
    """Points that lie on the true curve: the kernel strings its own lines between just these."""
    from OCP.GeomAbs import GeomAbs_BSplineCurve

    if curve.GetType() == GeomAbs_BSplineCurve and curve.Degree() == 1:
        spline = curve.BSpline()
        knots = [spline.Knot(index + 1) for index in range(spline.NbKnots())]
        slack = 1e-9 * max(1.0, abs(last - first))
        inner = [knot for knot in knots if first + slack < knot < last - slack]
        return [_at(curve, parameter) for parameter in (first, *inner, last)]
    steps = 32
    return [_at(curve, first + (last - first) * step / steps) for step in range(steps + 1)]
