"""How much of each solid the kernel's own hidden-line removal shows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.GCPnts import GCPnts_AbscissaPoint
from OCP.GeomAbs import GeomAbs_Line
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

from exporters.views.values import ViewFrame


def seen_shares(solids: list[Any], frame: ViewFrame) -> list[float]:
    """What share of each solid's straight edges is seen, by length on paper.

    Args:
        solids: kernel shapes that do not run into each other.
        frame: how they are looked at.
    """
    algorithm = HLRBRep_Algo()
    for solid in solids:
        BRepLib.EncodeRegularity_s(solid)
        algorithm.Add(solid)
    axes = gp_Ax2(gp_Pnt(*frame.origin), gp_Dir(*frame.towards_eye), gp_Dir(*frame.right))
    algorithm.Projector(HLRAlgo_Projector(axes))
    algorithm.Update()
    algorithm.Hide()
    drawn = HLRBRep_HLRToShape(algorithm)
    shares = []
    for solid in solids:
        seen, hidden = (
            sum(_straight(compound))
            for compound in (drawn.VCompound(solid), drawn.HCompound(solid))
        )
        shares.append(seen / (seen + hidden) if seen > 0.0 else 0.0)
    return shares


def _straight(compound: Any) -> Iterator[float]:
    """The lengths of the straight edges of a drawing [mm]."""
    if compound is None or compound.IsNull():
        return
    BRepLib.BuildCurves3d_s(compound)
    explorer = TopExp_Explorer(compound, TopAbs_EDGE)
    while explorer.More():
        curve = BRepAdaptor_Curve(TopoDS.Edge_s(explorer.Current()))
        if curve.GetType() == GeomAbs_Line:
            yield GCPnts_AbscissaPoint.Length_s(curve)
        explorer.Next()
