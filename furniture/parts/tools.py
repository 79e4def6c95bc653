"""What a cut takes away, as plain shapes: prisms and turned shapes, in the part frame.

The solid kernel reads these and nothing else, so it needs to know no joinery.
"""

from __future__ import annotations

from dataclasses import dataclass

from furniture.parts.vectors import Vector

OVERSHOOT_MM = 2.0
"""How far a tool runs past an open face [mm], so that no skin of wood is left. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlinePoint:
    """A corner of an outline [mm] and the bulge of the side that leaves it.

    The bulge is the tangent of a quarter of the side's included angle: 0 is straight, positive
    turns left (the usual polyline convention).
    """

    u: float
    v: float
    bulge: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Prism:
    """A closed outline in the plane of `u_axis` and `v_axis`, swept by `sweep`.

    Args:
        origin: where u = v = 0 lies, part frame [mm].
        u_axis: unit vector.
        v_axis: unit vector at right angles to `u_axis`.
        outline: corners in order, counter-clockwise seen against u x v [mm].
        sweep: the way and length of the sweep [mm].
    """

    origin: Vector
    u_axis: Vector
    v_axis: Vector
    outline: tuple[OutlinePoint, ...]
    sweep: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """A straight-sided turned shape: a bore where both radii are equal, a countersink where not.

    Args:
        origin: centre of the first end, part frame [mm].
        axis: unit vector from the first end to the second.
        length_mm: between the ends [mm].
        first_radius_mm: at the origin [mm].
        second_radius_mm: at the other end [mm].
    """

    origin: Vector
    axis: Vector
    length_mm: float
    first_radius_mm: float
    second_radius_mm: float


Tool = Prism | Turned


def box_tool(low: Vector, high: Vector) -> Prism:
    """The prism that fills the box between two opposite corners [mm]."""
    du, dv, dw = (high[0] - low[0], high[1] - low[1], high[2] - low[2])
    return Prism(
        origin=low,
        u_axis=(1.0, 0.0, 0.0),
        v_axis=(0.0, 1.0, 0.0),
        outline=(
            OutlinePoint(u=0.0, v=0.0),
            OutlinePoint(u=du, v=0.0),
            OutlinePoint(u=du, v=dv),
            OutlinePoint(u=0.0, v=dv),
        ),
        sweep=(0.0, 0.0, dw),
    )
