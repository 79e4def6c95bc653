"""A part of a view: what lies inside a rectangle or a circle, the rest broken away."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from shapely.geometry import LineString, Point, Polygon, box

from exporters.sheets.geometry import shape_points
from exporters.sheets.paper import Box2
from exporters.views.values import CutArea, DrawnEdge, Line, Polyline, Shape, View
from furniture.parts.vectors import Point2

_LEAST_MM = 1e-6


def inside_box(window: Box2) -> Any:
    """The region of a rectangle, in the view's plane [mm]."""
    return box(window.left, window.bottom, window.right, window.top)


def inside_circle(centre: Point2, radius: float) -> Any:
    """The region of a circle, in the view's plane [mm]."""
    return Point(centre).buffer(radius, quad_segs=32)


def clipped_view(view: View, region: Any) -> View:
    """The view inside the region; curves that cross its border become chains of points.

    Args:
        view: at 1:1.
        region: made by `inside_box` or `inside_circle`.
    """
    edges = tuple(piece for edge in view.edges for piece in _clipped_edge(edge, region))
    left, low, right, high = region.bounds
    return replace(
        view,
        edges=edges,
        low=(max(left, view.low[0]), max(low, view.low[1])),
        high=(min(right, view.high[0]), min(high, view.high[1])),
    )


def _clipped_edge(edge: DrawnEdge, region: Any) -> Iterator[DrawnEdge]:
    for shape in clipped_shape(edge.shape, region):
        yield replace(edge, shape=shape)


def clipped_shape(shape: Shape, region: Any) -> Iterator[Shape]:
    """What of a shape lies inside the region; a curve that crosses its border becomes points.

    Args:
        shape: a line or a curve.
        region: made by `inside_box` or `inside_circle`.
    """
    path = LineString(shape_points(shape))
    if region.covers(path):
        yield shape
        return
    rest = path.intersection(region)
    for piece in getattr(rest, "geoms", (rest,)):
        if piece.geom_type != "LineString" or piece.length < _LEAST_MM:
            continue
        left = tuple((x, y) for x, y in piece.coords)
        yield Line(start=left[0], end=left[1]) if len(left) == 2 else Polyline(points=left)


def clipped_areas(areas: tuple[CutArea, ...], region: Any) -> tuple[CutArea, ...]:
    """The cut wood inside the region."""
    found: list[CutArea] = []
    for area in areas:
        rest = Polygon(area.outline, area.holes).intersection(region)
        for piece in getattr(rest, "geoms", (rest,)):
            if piece.geom_type == "Polygon" and piece.area > _LEAST_MM:
                holes = tuple(_ring(ring) for ring in piece.interiors)
                found.append(replace(area, outline=_ring(piece.exterior), holes=holes))
    return tuple(found)


def _ring(ring: Any) -> tuple[Point2, ...]:
    return tuple((x, y) for x, y in ring.coords[:-1])
