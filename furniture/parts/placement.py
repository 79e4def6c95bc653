"""Where a part stands in the piece: an origin and three axes.

Piece frame: x to the right, y to the back, z up; the origin is the left front floor corner.
"""

from __future__ import annotations

from dataclasses import dataclass

from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector, add, cross, dot, subtract

Box = tuple[Vector, Vector]
"""The least and the greatest corner of an upright box [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """A right-handed frame in the piece: part coordinates are measured along its axes [mm]."""

    origin: Vector
    x_axis: Vector
    y_axis: Vector

    @property
    def z_axis(self) -> Vector:
        """The axis through the part's thickness, towards its face side."""
        return cross(self.x_axis, self.y_axis)

    @property
    def axes(self) -> tuple[Vector, Vector, Vector]:
        """The three axes, unit vectors in the piece frame."""
        return (self.x_axis, self.y_axis, self.z_axis)

    def to_piece(self, point: Vector) -> Vector:
        """A point of the part, in the piece frame [mm]."""
        return add(self.origin, self.direction_to_piece(point))

    def direction_to_piece(self, direction: Vector) -> Vector:
        """A direction of the part, in the piece frame."""
        x, y, z = direction
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.axes
        return (x * ax + y * bx + z * cx, x * ay + y * by + z * cy, x * az + y * bz + z * cz)

    def to_part(self, point: Vector) -> Vector:
        """A point of the piece, in the part frame [mm]."""
        return self.direction_to_part(subtract(point, self.origin))

    def direction_to_part(self, direction: Vector) -> Vector:
        """A direction of the piece, in the part frame."""
        x, y, z = (dot(direction, axis) for axis in self.axes)
        return (x, y, z)

    def face_towards(self, direction: Vector) -> Face:
        """The face of the part that looks most along a direction of the piece."""
        return max(Face, key=lambda face: dot(self.direction_to_piece(face.normal), direction))


def box_of(blank: Blank, placement: Placement) -> Box:
    """The upright box round a placed blank, piece frame [mm]."""
    low, high = list(placement.origin), list(placement.origin)
    for size, axis in zip(blank.size, placement.axes, strict=True):
        for each in range(3):
            reach = size * axis[each]
            low[each] += min(0.0, reach)
            high[each] += max(0.0, reach)
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))
