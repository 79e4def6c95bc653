"""A dowelled joint cut along its dowel: both bores, and how far they lie from the mates' datums."""

from __future__ import annotations

from exporters.sheets.joint_values import BEYOND_MM, Inside, JointProfile, Span, SpanKind
from furniture.joints.joint import Fastener, Joining
from furniture.parts.cuts.shapes import level_of
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, dot, scaled
from furniture.pieces.datums import Datums

_SQUARE = 1.0 - 1e-6
_NEAR_MM = 1.1
"""How far off the middle of the dowel the plane may lie and still show it whole. Own rule."""


def dowelled(
    joining: Joining, into: Placed, incoming: Placed, datums: tuple[Datums, Datums]
) -> JointProfile | None:
    """The joint cut through its first dowel, square to the incoming part's wide faces.

    Args:
        joining: the joint.
        into: the part that the dowels go into.
        incoming: the other one.
        datums: of both.
    """
    dowel = next((each for each in joining.fasteners if each.is_glued), None)
    if dowel is None:
        return None
    thick = incoming.placement.z_axis
    across = next(
        (
            axis
            for axis in range(3)
            if abs(dowel.axis[axis]) < 1.0 - _SQUARE and abs(thick[axis]) < 1.0 - _SQUARE
        ),
        None,
    )
    if across is None or abs(dot(dowel.axis, thick)) > 1.0 - _SQUARE:
        return None
    deep = (dowel.into_mm + dowel.end_gap_mm, -dowel.incoming_mm - dowel.end_gap_mm)
    spans = [
        Span(kind=SpanKind.BORED, start=dowel.at, end=_along(dowel, each), value_mm=abs(each))
        for each in deep
    ]
    for placed, own, end in ((into, datums[0], deep[0]), (incoming, datums[1], deep[1])):
        spans += _from_datum(placed, own, _along(dowel, 0.7 * end), thick)
    half = incoming.part.blank.thickness_mm / 2 + 2.0
    corners = [
        add(_along(dowel, each + (BEYOND_MM if each > 0 else -BEYOND_MM)), scaled(thick, side))
        for each in deep
        for side in (half, -half)
    ]
    at = dowel.at[across]
    inside = Inside(
        at=_along(dowel, 0.5 * dowel.into_mm),
        name=dowel.name,
        size_mm=(dowel.diameter_mm, dowel.length_mm),
    )
    return JointProfile(
        into=joining.into,
        incoming=joining.incoming,
        axis=across,
        run=(at - _NEAR_MM, at + _NEAR_MM),
        spans=tuple(spans),
        inside=(inside,),
        corners=tuple(corners),
    )


def _along(dowel: Fastener, by: float) -> Vector:
    """A point of the dowel's axis: so far into the part that it goes into [mm]."""
    return add(dowel.at, scaled(dowel.axis, by))


def _from_datum(placed: Placed, datums: Datums, at: Vector, way: Vector) -> list[Span]:
    """From a part's datum to a bore, across the plane's dowel; none where that lies elsewhere."""
    blank = placed.part.blank
    axis = next(
        (axis for axis in range(3) if abs(dot(placed.placement.axes[axis], way)) > _SQUARE), None
    )
    if axis is None:
        return []
    here = placed.placement.to_part(at)
    off = here[axis] - level_of(datums.on(axis), blank)
    start = add(at, scaled(placed.placement.axes[axis], -off))
    return [Span(kind=SpanKind.BORED_AT, start=start, end=at, value_mm=abs(off))]
