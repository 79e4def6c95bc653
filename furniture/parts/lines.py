"""A straight line through a tool: from where to where it takes the wood on it."""

from __future__ import annotations

import math
from functools import lru_cache

from furniture.parts.placement import Box
from furniture.parts.tools import OutlinePoint, Prism, Tool, Turned
from furniture.parts.vectors import Point2, Vector, add, dot, length, scaled, subtract

_ARC_STEPS = 16
"""Chords that stand for one arc of an outline; even, so that its crown is one of their ends."""
_FLAT = 1e-12

Reach = tuple[float, float]
"""From where to where on an axis [mm]."""


def reaches(tool: Tool, axis: int, at: Vector) -> tuple[Reach, ...]:
    """Where a line along a part axis lies inside a tool, as coordinates on that axis [mm].

    Prisms may stand at any angle; a turned shape lies along a part axis, as all bores do.

    Args:
        tool: part frame.
        axis: 0, 1 or 2, the way of the line.
        at: a point of the line; its coordinate on `axis` does not matter.
    """
    if isinstance(tool, Prism):
        return _through_prism(tool, axis, at)
    return _through_turned(tool, axis, at)


@lru_cache(maxsize=4096)
def bounds_of(tool: Tool) -> Box:
    """The box round a tool, part frame [mm]."""
    if isinstance(tool, Prism):
        flat = [
            add(tool.origin, add(scaled(tool.u_axis, u), scaled(tool.v_axis, v)))
            for u, v in _polygon(tool.outline)
        ]
        points = [*flat, *(add(point, tool.sweep) for point in flat)]
    else:
        points = []
        for along, radius in ((0.0, tool.first_radius_mm), (tool.length_mm, tool.second_radius_mm)):
            centre = add(tool.origin, scaled(tool.axis, along))
            for sign in (radius, -radius):
                aside = [sign * math.sqrt(max(0.0, 1.0 - each * each)) for each in tool.axis]
                points.append(add(centre, (aside[0], aside[1], aside[2])))
    low, high = (
        [pick(point[axis] for point in points) for axis in range(3)] for pick in (min, max)
    )
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def _through_prism(tool: Prism, axis: int, at: Vector) -> tuple[Reach, ...]:
    tall = length(tool.sweep)
    away = subtract(_start_of(at, axis), tool.origin)
    up = scaled(tool.sweep, 1.0 / tall)
    within = _span_inside(dot(away, up), up[axis], tall)
    if within is None:
        return ()
    start = (dot(away, tool.u_axis), dot(away, tool.v_axis))
    step = (tool.u_axis[axis], tool.v_axis[axis])
    polygon = _polygon(tool.outline)
    if abs(step[0]) < _FLAT and abs(step[1]) < _FLAT:
        return (within,) if _is_inside(polygon, start) else ()
    low, high = within
    clipped = [(max(low, a), min(high, b)) for a, b in _across_polygon(polygon, start, step)]
    return tuple((a, b) for a, b in clipped if b > a)


def _through_turned(tool: Turned, axis: int, at: Vector) -> tuple[Reach, ...]:
    away = subtract(_start_of(at, axis), tool.origin)
    own = max(range(3), key=lambda each: abs(tool.axis[each]))
    sign = 1.0 if tool.axis[own] > 0.0 else -1.0
    first, rise = tool.first_radius_mm, tool.second_radius_mm - tool.first_radius_mm
    if axis == own:
        off = math.hypot(*(away[each] for each in range(3) if each != own))
        low, high = 0.0, tool.length_mm
        if abs(rise) < _FLAT:
            if off >= first:
                return ()
        else:  # a cone is wider than `off` on one side of one place
            place = (off - first) / rise * tool.length_mm
            low, high = (max(low, place), high) if rise > 0.0 else (low, min(high, place))
        if high <= low:
            return ()
        ends = sorted((tool.origin[own] + sign * low, tool.origin[own] + sign * high))
        return ((ends[0], ends[1]),)
    along = sign * away[own]
    if not 0.0 <= along <= tool.length_mm:
        return ()
    radius = first + rise * along / tool.length_mm
    aside = away[3 - axis - own]
    if abs(aside) >= radius:
        return ()
    half = math.sqrt(radius**2 - aside**2)
    return ((tool.origin[axis] - half, tool.origin[axis] + half),)


def _start_of(at: Vector, axis: int) -> Vector:
    moved = list(at)
    moved[axis] = 0.0
    return (moved[0], moved[1], moved[2])


def _span_inside(start: float, step: float, extent: float) -> Reach | None:
    """Where start + t * step lies between 0 and an extent."""
    if abs(step) < _FLAT:
        return (-math.inf, math.inf) if 0.0 <= start <= extent else None
    ends = sorted((-start / step, (extent - start) / step))
    return (ends[0], ends[1])


def _across_polygon(polygon: tuple[Point2, ...], start: Point2, step: Point2) -> list[Reach]:
    """Where a line of a plane lies inside a closed polygon."""
    crossings = []
    for a, b in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        side_a, side_b = (_side(point, start, step) for point in (a, b))
        if (side_a > 0.0) != (side_b > 0.0):
            share = side_a / (side_a - side_b)
            point = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            norm = step[0] ** 2 + step[1] ** 2
            crossings.append(
                ((point[0] - start[0]) * step[0] + (point[1] - start[1]) * step[1]) / norm
            )
    crossings.sort()
    return list(zip(crossings[::2], crossings[1::2], strict=True))


def _side(point: Point2, start: Point2, step: Point2) -> float:
    return step[0] * (point[1] - start[1]) - step[1] * (point[0] - start[0])


def _is_inside(polygon: tuple[Point2, ...], place: Point2) -> bool:
    return any(a < 0.0 < b for a, b in _across_polygon(polygon, place, (1.0, 0.0)))


@lru_cache(maxsize=4096)
def _polygon(outline: tuple[OutlinePoint, ...]) -> tuple[Point2, ...]:
    """An outline with its arcs as chords [mm]."""
    points: list[Point2] = []
    for point, after in zip(outline, (*outline[1:], outline[0]), strict=True):
        points.append((point.u, point.v))
        if point.bulge:
            points += _arc(point, after)
    return tuple(points)


def _arc(start: OutlinePoint, end: OutlinePoint) -> list[Point2]:
    """Points of an arc between its ends: its centre lies off the chord's middle."""
    du, dv = end.u - start.u, end.v - start.v
    turn = 4.0 * math.atan(start.bulge)
    off = (1.0 - start.bulge**2) / (4.0 * start.bulge)
    centre = ((start.u + end.u) / 2 - off * dv, (start.v + end.v) / 2 + off * du)
    out = (start.u - centre[0], start.v - centre[1])
    found = []
    for step in range(1, _ARC_STEPS):
        angle = turn * step / _ARC_STEPS
        c, s = math.cos(angle), math.sin(angle)
        found.append((centre[0] + c * out[0] - s * out[1], centre[1] + s * out[0] + c * out[1]))
    return found
