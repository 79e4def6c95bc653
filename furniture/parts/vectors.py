"""Plain vectors: three floats, and the few verbs that placements and tools need."""

from __future__ import annotations

import math

Vector = tuple[float, float, float]
Point2 = tuple[float, float]

RIGHT: Vector = (1.0, 0.0, 0.0)
LEFT: Vector = (-1.0, 0.0, 0.0)
BACK: Vector = (0.0, 1.0, 0.0)
FRONT: Vector = (0.0, -1.0, 0.0)
UP: Vector = (0.0, 0.0, 1.0)
DOWN: Vector = (0.0, 0.0, -1.0)


def add(a: Vector, b: Vector) -> Vector:
    """The sum of two vectors."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def subtract(a: Vector, b: Vector) -> Vector:
    """The vector from b to a."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scaled(a: Vector, factor: float) -> Vector:
    """The vector a, `factor` times as long."""
    return (a[0] * factor, a[1] * factor, a[2] * factor)


def dot(a: Vector, b: Vector) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vector, b: Vector) -> Vector:
    """The vector product, right-handed."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )


def length(a: Vector) -> float:
    """The length of a."""
    return math.sqrt(dot(a, a))


def unit(a: Vector) -> Vector:
    """The direction of a, with length 1.

    Raises:
        ZeroDivisionError: a has no length.
    """
    return scaled(a, 1.0 / length(a))


def turned_about(point: Vector, pin: Vector, axis: Vector, by_deg: float) -> Vector:
    """A point turned about a line, right-handed.

    Args:
        point: to be turned.
        pin: a point of the line.
        axis: the unit vector along it.
        by_deg: how far.

    **Source:** the rotation formula of Rodrigues.
    """
    angle = math.radians(by_deg)
    arm = subtract(point, pin)
    along = scaled(axis, dot(axis, arm) * (1.0 - math.cos(angle)))
    swung = add(scaled(arm, math.cos(angle)), scaled(cross(axis, arm), math.sin(angle)))
    return add(pin, add(swung, along))
