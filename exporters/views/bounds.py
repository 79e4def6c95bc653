"""How far shapes reach, and shapes as chains of points."""

from __future__ import annotations

import math
from collections.abc import Iterable

from exporters.views.values import Arc, EllipseArc, Line, Shape
from furniture.parts.vectors import Point2

Bounds = tuple[Point2, Point2]


def bounds_of(shapes: Iterable[Shape]) -> Bounds:
    """The least and greatest corner of the upright rectangle round the shapes [mm].

    Args:
        shapes: at least one.

    Raises:
        ValueError: no shapes.
    """
    points = [point for shape in shapes for point in _extreme_points(shape)]
    if not points:
        raise ValueError("nothing to measure: no shapes")
    xs, ys = [point[0] for point in points], [point[1] for point in points]
    return ((min(xs), min(ys)), (max(xs), max(ys)))


def _round_point(shape: Arc | EllipseArc, parameter: float) -> Point2:
    cosine, sine = math.cos(parameter), math.sin(parameter)
    x, y = shape.centre
    if isinstance(shape, Arc):
        return (x + shape.radius * cosine, y + shape.radius * sine)
    u, v = shape.major
    return (
        x + u * cosine - v * shape.ratio * sine,
        y + v * cosine + u * shape.ratio * sine,
    )


def _extreme_points(shape: Shape) -> list[Point2]:
    if isinstance(shape, Line):
        return [shape.start, shape.end]
    if isinstance(shape, Arc):
        start, end = math.radians(shape.start_deg), math.radians(shape.end_deg)
        turning = [0.0, math.pi / 2]
    elif isinstance(shape, EllipseArc):
        start, end = shape.start, shape.end
        u, v = shape.major
        turning = [math.atan2(-v * shape.ratio, u), math.atan2(u * shape.ratio, v)]
    else:
        return list(shape.points)
    parameters = [start, end]
    for base in turning:  # where the tangent lies level or upright, every half turn
        first = math.ceil((start - base) / math.pi)
        last = math.floor((end - base) / math.pi)
        parameters += [base + math.pi * turn for turn in range(first, last + 1)]
    return [_round_point(shape, parameter) for parameter in parameters]
