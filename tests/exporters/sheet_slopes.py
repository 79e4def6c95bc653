"""Mitres, bevels, rounded and chamfered edges: tools made from the words of a part's sheet."""

from __future__ import annotations

import math
import re
from typing import Any

import cadquery as cq

from tests.exporters.sheet_values import ReadCallout, ReadSheet
from tests.exporters.sheet_wood import (
    FACES,
    FIGURE,
    OVER_MM,
    Wood,
    box_between,
    mm_of,
    places_of,
    slab,
)


def slopes(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(r"([\d.]+)°", callout.words)
    assert found, callout.words
    slope = math.tan(math.radians(float(found[1])))
    tools = []
    for place in places_of(callout.words):
        where = re.match(r"([a-z]+ [a-z]+), long point on ([a-z]+ [a-z]+)", place)
        assert where, place
        (run, run_far), (rise, rise_far) = FACES[where[1]], FACES[where[2]]
        third = 3 - run - rise
        extent, depth = wood.size[run], wood.size[rise]
        corners = []
        for out, down in ((0.0, 0.0), (depth * slope, depth), (-OVER_MM, depth), (-OVER_MM, 0.0)):
            point = [0.0, 0.0, 0.0]
            point[run] = extent - out if run_far else out
            point[rise] = depth - down if rise_far else down
            point[third] = -OVER_MM
            corners.append(cq.Vector(*point))
        wire = cq.Wire.makePolygon([*corners, corners[0]])
        way = [0.0, 0.0, 0.0]
        way[third] = wood.size[third] + 2 * OVER_MM
        tools.append(cq.Workplane(cq.Solid.extrudeLinear(wire, [], cq.Vector(*way))))
    return tools


def profiles(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    is_round = callout.words.startswith("round-over")
    found = re.search(rf"R{FIGURE}|chamfer {FIGURE} x 45°", callout.words)
    assert found, callout.words
    size = mm_of(found[1] or found[2], sheet)
    tools = []
    for place in _profile_places(callout.words):
        first, second = (FACES[name] for name in place)
        run = 3 - first[0] - second[0]
        low, high = slab(wood, *first, size)
        other_low, other_high = slab(wood, *second, size)
        low[second[0]], high[second[0]] = other_low[second[0]], other_high[second[0]]
        tool = box_between(low, high)
        start, way = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
        for axis, is_far in (first, second):
            start[axis] = wood.size[axis] - size if is_far else size
        start[run] = -OVER_MM
        way[run] = 1.0
        long = wood.size[run] + 2 * OVER_MM
        if is_round:
            keep = cq.Solid.makeCylinder(size, long, cq.Vector(*start), cq.Vector(*way))
        else:
            keep = _diagonal(wood, first, second, run, size, long)
        tools.append(tool.cut(cq.Workplane(keep)))
    return tools


def _diagonal(
    wood: Wood,
    first: tuple[int, bool],
    second: tuple[int, bool],
    run: int,
    size: float,
    long: float,
) -> Any:
    """The wood that a chamfer leaves of its square: the triangle inside the slope."""
    corners = []
    for a, b in ((size, 0.0), (size, size), (0.0, size)):
        point = [0.0, 0.0, 0.0]
        for (axis, is_far), inset in ((first, a), (second, b)):
            point[axis] = wood.size[axis] - inset if is_far else inset
        point[run] = -OVER_MM
        corners.append(cq.Vector(*point))
    way = [0.0, 0.0, 0.0]
    way[run] = long
    wire = cq.Wire.makePolygon([*corners, corners[0]])
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(*way))


def _profile_places(words: str) -> list[tuple[str, str]]:
    return [(a, b) for a, b in (place.split(" / ") for place in places_of(words))]
