"""Straight lines, circles and ellipses through points that a kernel sampled from one curve."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from exporters.views.values import Arc, EllipseArc
from furniture.parts.vectors import Point2


def is_straight(points: Sequence[Point2], slack: float) -> bool:
    """Whether all points lie on one straight line.

    Args:
        points: at least two [mm].
        slack: the greatest distance from the line that counts as on it [mm].
    """
    start, end = spread_line(points)
    run = math.dist(start, end)
    if run < slack:
        return True
    return all(
        abs((end[0] - start[0]) * (y - start[1]) - (end[1] - start[1]) * (x - start[0]))
        <= slack * run
        for x, y in points
    )


def spread_line(points: Sequence[Point2]) -> tuple[Point2, Point2]:
    """The two ends of points strewn along a line, which may run there and back [mm]."""
    far = max(points, key=lambda point: math.dist(point, points[0]))
    other = max(points, key=lambda point: math.dist(point, far))
    return (other, far)


def circle_through(points: Sequence[Point2], slack: float) -> Arc | None:
    """The arc that passes through all points in order, or nothing when none is so close.

    Args:
        points: at least three, in order along the arc [mm].
        slack: the greatest distance from the arc that counts as on it [mm].
    """
    if len(points) < 4:
        return None
    array = np.asarray(points, dtype=float)
    middle = array.mean(axis=0)
    x, y = (array - middle).T
    solved, *_ = np.linalg.lstsq(
        np.column_stack([2 * x, 2 * y, np.ones_like(x)]), x**2 + y**2, rcond=None
    )
    square = float(solved[2] + solved[0] ** 2 + solved[1] ** 2)
    if not square > 0:
        return None
    radius = math.sqrt(square)
    if np.abs(np.hypot(x - solved[0], y - solved[1]) - radius).max() > slack:
        return None
    angles = np.unwrap(np.arctan2(y - solved[1], x - solved[0]))
    low, high = math.degrees(min(angles[0], angles[-1])), math.degrees(max(angles[0], angles[-1]))
    start = low % 360.0
    return Arc(
        centre=(float(solved[0] + middle[0]), float(solved[1] + middle[1])),
        radius=radius,
        start_deg=start,
        end_deg=start + min(high - low, 360.0),
    )


def ellipse_through(points: Sequence[Point2], slack: float) -> EllipseArc | None:
    """The elliptic arc through all points in order, or nothing when none is so close.

    Args:
        points: at least six, in order along the arc [mm].
        slack: the greatest distance from the arc that counts as on it [mm].
    """
    if len(points) < 6:
        return None
    array = np.asarray(points, dtype=float)
    middle = array.mean(axis=0)
    size = float(np.abs(array - middle).max())
    x, y = ((array - middle) / size).T
    _, values, rows = np.linalg.svd(
        np.column_stack([x * x, x * y, y * y, x, y, np.ones_like(x)]), full_matrices=False
    )
    if values[4] < 1e-12 * values[0]:
        return None
    a, b, c, d, e, f = (float(value) for value in rows[-1])
    if 4 * a * c - b * b <= 1e-12:
        return None
    centre = np.linalg.solve(np.array([[2 * a, b], [b, 2 * c]]), np.array([-d, -e]))
    level = -(f + (d * centre[0] + e * centre[1]) / 2)
    weights, directions = np.linalg.eigh(np.array([[a, b / 2], [b / 2, c]]) / level)
    if weights.min() <= 0:
        return None
    major, minor = 1 / math.sqrt(weights[0]), 1 / math.sqrt(weights[1])
    along = directions[:, 0]
    u = (x - centre[0]) * along[0] + (y - centre[1]) * along[1]
    v = -(x - centre[0]) * along[1] + (y - centre[1]) * along[0]
    angles = np.unwrap(np.arctan2(v / minor, u / major))
    off = np.hypot(u - major * np.cos(angles), v - minor * np.sin(angles)) * size
    if off.max() > slack:
        return None
    low, high = float(min(angles[0], angles[-1])), float(max(angles[0], angles[-1]))
    return EllipseArc(
        centre=(float(centre[0] * size + middle[0]), float(centre[1] * size + middle[1])),
        major=(float(along[0] * major * size), float(along[1] * major * size)),
        ratio=minor / major,
        start=low,
        end=min(high, low + 2 * math.pi),
    )
