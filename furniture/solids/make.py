"""Solids from parts. Equal parts are built once; what the kernel did is checked, not trusted."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

from furniture.errors import SolidError
from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.part import Part
from furniture.parts.placement import Placement
from furniture.parts.tools import OutlinePoint, Prism, Tool, Turned
from furniture.parts.vectors import Vector, add, scaled

_VOLUME_SLACK = 1e-6


def solid_of(part: Part) -> Any:
    """The part's solid in its own frame (a kernel solid, mm).

    Args:
        part: the part; equal blanks with equal cuts give the same solid object.

    Raises:
        SolidError: a cut misses the wood, the result is not one valid solid, or its volume is not
            one that these cuts can leave.
    """
    return solid_from(part.blank, part.cuts)


def solid_from(blank: Blank, cuts: tuple[Cut, ...]) -> Any:
    """The solid of a blank with cuts, as `solid_of` makes it.

    Raises:
        SolidError: as `solid_of`.
    """
    return _cut_solid(blank, cuts)


def placed_solid(part: Part, placement: Placement) -> Any:
    """The part's solid where it stands in the piece (a kernel solid, mm)."""
    from cadquery import Location

    return solid_of(part).moved(Location(location_of(placement)))


def location_of(placement: Placement) -> Any:
    """The placement as the kernel's own location."""
    from OCP.gp import gp_Trsf
    from OCP.TopLoc import TopLoc_Location

    x, y, z = placement.axes
    origin = placement.origin
    transform = gp_Trsf()
    transform.SetValues(
        x[0], y[0], z[0], origin[0],
        x[1], y[1], z[1], origin[1],
        x[2], y[2], z[2], origin[2],
    )  # fmt: skip
    return TopLoc_Location(transform)


@lru_cache(maxsize=512)
def _cut_solid(blank: Blank, cuts: tuple[Cut, ...]) -> Any:
    import cadquery as cq

    solid = cq.Solid.makeBox(*blank.size)
    if not cuts:
        return solid
    tools = [tool_solid(tool) for cut in cuts for tool in cut.tools(blank)]
    alone = [cut.removed_alone_mm3(blank) for cut in cuts]
    slack = _VOLUME_SLACK * blank.volume_mm3
    result = _one_solid(solid.cut(*tools), blank, cuts)
    if abs(blank.volume_mm3 - result.Volume() - sum(alone)) > slack:
        # The cuts share wood, so the closed forms do not tell the volume, and the kernel is known
        # to drop a tool whose planes nearly meet another's: one after the other it does not.
        for tool in tools:
            solid = solid.cut(tool)
        result = _one_solid(solid, blank, cuts)
    removed = blank.volume_mm3 - result.Volume()
    if not max(alone) - slack <= removed <= sum(alone) + slack:
        raise SolidError(
            f"the cuts took {removed:.3f} mm3; between {max(alone):.3f} and {sum(alone):.3f} "
            f"was possible"
        )
    return result


def _one_solid(shape: Any, blank: Blank, cuts: tuple[Cut, ...]) -> Any:
    """The one valid solid that a cut must leave."""
    pieces = shape.Solids()
    if len(pieces) != 1 or not pieces[0].isValid():
        raise SolidError(
            f"cutting a blank of {blank.size} left {len(pieces)} solids; "
            f"cuts: {', '.join(cut.kind for cut in cuts)}"
        )
    return pieces[0]


def forget_solids() -> None:
    """Forget every solid that was built, so that the next is built anew: for measuring."""
    _cut_solid.cache_clear()


def tool_solid(tool: Tool) -> Any:
    """The kernel solid of a cut's tool, part frame."""
    return _prism_solid(tool) if isinstance(tool, Prism) else _turned_solid(tool)


def _turned_solid(tool: Turned) -> Any:
    import cadquery as cq

    where, along = cq.Vector(*tool.origin), cq.Vector(*tool.axis)
    if math.isclose(tool.first_radius_mm, tool.second_radius_mm):
        return cq.Solid.makeCylinder(tool.first_radius_mm, tool.length_mm, where, along)
    return cq.Solid.makeCone(
        tool.first_radius_mm, tool.second_radius_mm, tool.length_mm, where, along
    )


def _prism_solid(tool: Prism) -> Any:
    import cadquery as cq

    edges = []
    count = len(tool.outline)
    for index, point in enumerate(tool.outline):
        after = tool.outline[(index + 1) % count]
        start, end = _in_space(tool, point.u, point.v), _in_space(tool, after.u, after.v)
        if point.bulge == 0.0:
            edges.append(cq.Edge.makeLine(cq.Vector(*start), cq.Vector(*end)))
        else:
            middle = _in_space(tool, *_arc_middle(point, after))
            edges.append(
                cq.Edge.makeThreePointArc(cq.Vector(*start), cq.Vector(*middle), cq.Vector(*end))
            )
    wire = cq.Wire.assembleEdges(edges)
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(*tool.sweep))


def _in_space(tool: Prism, u: float, v: float) -> Vector:
    return add(tool.origin, add(scaled(tool.u_axis, u), scaled(tool.v_axis, v)))


def _arc_middle(start: OutlinePoint, end: OutlinePoint) -> tuple[float, float]:
    """The point half way round the bulged side: bulge times half the chord off its middle."""
    du, dv = end.u - start.u, end.v - start.v
    middle_u, middle_v = (start.u + end.u) / 2, (start.v + end.v) / 2
    return (middle_u + start.bulge * dv / 2, middle_v - start.bulge * du / 2)


def volume_of(part: Part) -> float:
    """The part's volume [mm3]."""
    return float(solid_of(part).Volume())


def centre_of(part: Part) -> Vector:
    """The part's centre of volume in its own frame [mm]."""
    centre = solid_of(part).Center()
    return (centre.x, centre.y, centre.z)
