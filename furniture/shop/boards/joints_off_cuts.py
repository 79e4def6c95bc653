"""Where across a part no glued joint may run, since a cut is made there."""

from __future__ import annotations

import math

from furniture.parts.part import Part
from furniture.parts.tools import Prism, Tool
from furniture.parts.vectors import Vector, add, scaled

ACROSS = 0.8
"""A cut over more of the width than this meets every joint and is no reason to move one.

Own rule."""


def bands_of_cuts(part: Part, margin: float) -> tuple[tuple[float, float], ...]:
    """Bands (from, to) across the finished width that joints keep clear of, merged [mm].

    Args:
        part: with its cuts.
        margin: how far a joint stays from a cut beside it [mm].
    """
    width = part.blank.width_mm
    bands: list[tuple[float, float]] = []
    for cut in part.cuts:
        for tool in cut.tools(part.blank):
            low, high = _extent_across(tool)
            low, high = max(low, 0.0), min(high, width)
            if high <= low or high - low > ACROSS * width:
                continue
            bands.append((max(low - margin, 0.0), min(high + margin, width)))
    merged: list[tuple[float, float]] = []
    for low, high in sorted(bands):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return tuple(merged)


def _extent_across(tool: Tool) -> tuple[float, float]:
    if isinstance(tool, Prism):
        points = _corners(tool)
        reach = _bulging(tool)
        return min(p[1] for p in points) - reach, max(p[1] for p in points) + reach
    start, end = tool.origin[1], tool.origin[1] + tool.axis[1] * tool.length_mm
    square = math.sqrt(max(0.0, 1.0 - tool.axis[1] ** 2))
    first, second = tool.first_radius_mm * square, tool.second_radius_mm * square
    return min(start - first, end - second), max(start + first, end + second)


def _corners(prism: Prism) -> list[Vector]:
    flat = [
        add(add(prism.origin, scaled(prism.u_axis, point.u)), scaled(prism.v_axis, point.v))
        for point in prism.outline
    ]
    return [*flat, *(add(point, prism.sweep) for point in flat)]


def _bulging(prism: Prism) -> float:
    """How far an arc may stand out past its ends across the part [mm]: its greatest rise."""
    if abs(prism.u_axis[1]) + abs(prism.v_axis[1]) < 1e-9:
        return 0.0
    rises = [0.0]
    for point, after in zip(prism.outline, (*prism.outline[1:], prism.outline[0]), strict=True):
        if point.bulge > 0:
            rises.append(point.bulge * math.dist((point.u, point.v), (after.u, after.v)) / 2)
    return max(rises)
