"""The strokes of a hatch pattern, the same on every run."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import reduce

import shapely
from ezdxf.entities import Hatch
from ezdxf.math import Vec2
from ezdxf.render import hatching

_NUDGE = Vec2(0.00047, 0.00061)
"""By what share of its spacing a pattern is moved, so that no stroke runs along a side. Own rule.
"""
_FLAT = 0.01
"""How far a curved outline may be off its chords, of the sheet's own units."""


def strokes_of(hatch: Hatch) -> Iterator[tuple[Vec2, Vec2]]:
    """Both ends of every stroke of a hatch that is filled with a pattern of unbroken lines.

    They are cut out of the plane area: to count the sides that a line crosses, as the library does,
    miscounts where it runs nearly along one, and strokes then run on outside the wood.

    Args:
        hatch: in the plane of the sheet.
    """
    if hatch.pattern is None:
        return
    outlines = [
        shapely.Polygon([(point.x, point.y) for point in path.flattening(_FLAT)])
        for path in hatching.hatch_boundary_paths(hatch)
    ]
    region = reduce(shapely.symmetric_difference, outlines, shapely.Polygon())
    if region.is_empty:
        return
    shapely.prepare(region)
    corners = shapely.box(*region.bounds).exterior.coords
    for line in hatch.pattern.lines:
        way, step = Vec2.from_deg_angle(line.angle), line.offset
        across = way.orthogonal()
        spacing = across.dot(step)
        base = Vec2(line.base_point) + _NUDGE * step.magnitude
        lanes = [across.dot(Vec2(corner) - base) / spacing for corner in corners]
        alongs = [way.dot(Vec2(corner) - base) for corner in corners]
        slip = way.dot(step)
        for lane in range(math.ceil(min(lanes)), math.floor(max(lanes)) + 1):
            origin = base + step * lane
            ends = [origin + way * (end - slip * lane) for end in (min(alongs), max(alongs))]
            rest = shapely.intersection(
                region, shapely.LineString([tuple(each)[:2] for each in ends])
            )
            for piece in getattr(rest, "geoms", (rest,)):
                if piece.geom_type == "LineString" and piece.length > 0.0:
                    start, end = piece.coords[0], piece.coords[-1]
                    yield Vec2(start), Vec2(end)
