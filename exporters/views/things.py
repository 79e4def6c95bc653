"""What is no part as a solid of the kernel, so that lines are hidden behind it too."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import Any

from exporters.hardware import Form, Square
from furniture.parts.vectors import Vector

Axes = tuple[Vector, Vector, Vector]
Seen = tuple[Form, Axes, Vector]
"""A form, the axes of its frame and its origin in the piece [mm]."""


@lru_cache(maxsize=512)
def solid_of_thing(form: Form, axes: Axes, origin: Vector) -> Any:
    """The kernel's shape of a thing where it stands.

    Args:
        form: in its own frame.
        axes: of that frame, piece frame.
        origin: of that frame, piece frame [mm].
    """
    from cadquery import Plane

    plane = Plane(origin=origin, xDir=axes[0], normal=axes[2])
    return _bare(form).moved(plane.location).wrapped


@lru_cache(maxsize=128)
def _bare(form: Form) -> Any:
    from cadquery import Edge, Face, Solid, Vector, Wire

    if isinstance(form, Square):
        wide, deep, high = form.size
        return Solid.makeBox(wide, deep, high, Vector(-wide / 2, -deep / 2, 0.0))
    points = [Vector(radius, 0.0, at) for radius, at in (*form.rows, form.rows[0])]
    edges = [Edge.makeLine(a, b) for a, b in pairwise(points) if (a - b).Length > 1e-9]
    face = Face.makeFromWires(Wire.assembleEdges(edges))
    return Solid.revolve(face, 360.0, Vector(0.0, 0.0, 0.0), Vector(0.0, 0.0, 1.0))
