"""The support polygon: what the piece stands on, edge by edge."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import shapely

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """One edge of the support polygon, with the outward normal (right x, back y).

    A point p lies `inside_mm(p)` inside the line through the edge.
    """

    start_mm: Point
    end_mm: Point
    outward: Point

    def inside_mm(self, point: Point) -> float:
        """How far the point lies inside the edge's line [mm]; negative outside.

        Args:
            point: (x, y) [mm]
        """
        return (self.start_mm[0] - point[0]) * self.outward[0] + (
            self.start_mm[1] - point[1]
        ) * self.outward[1]

    def moved(self, by_mm: float) -> Edge:
        """The same edge moved outward.

        Args:
            by_mm: how far [mm]
        """
        x, y = (each * by_mm for each in self.outward)
        return Edge(
            start_mm=(self.start_mm[0] + x, self.start_mm[1] + y),
            end_mm=(self.end_mm[0] + x, self.end_mm[1] + y),
            outward=self.outward,
        )

    @property
    def name(self) -> str:
        """The side that it faces: front, back, left, right, or two of them."""
        return " ".join(self.sides)

    @property
    def sides(self) -> tuple[str, ...]:
        """The sides that it faces, one or two: back or front, then right or left."""
        x, y = self.outward
        depth = ("back",) if y > _SIDEWAYS else ("front",) if y < -_SIDEWAYS else ()
        width = ("right",) if x > _SIDEWAYS else ("left",) if x < -_SIDEWAYS else ()
        return (*depth, *width)


_SIDEWAYS = math.sin(math.radians(22.5))


def support_edges(points: Iterable[Point]) -> tuple[Edge, ...]:
    """The edges of the convex hull of what touches the floor, anticlockwise.

    Args:
        points: (x, y) of pads, or the corners of the feet and rails that stand on the floor [mm]

    Raises:
        ValueError: when the points enclose no area: such a piece does not stand.

    **Source:** statics; a rigid body stands on the convex hull of its contacts.
    """
    hull = shapely.MultiPoint(list(points)).convex_hull
    if not isinstance(hull, shapely.Polygon) or hull.area <= 0.0:
        raise ValueError("the contacts with the floor lie on one line: nothing to stand on")
    ring = list(shapely.geometry.polygon.orient(hull).exterior.coords)
    return tuple(_edge(start, end) for start, end in pairwise(ring))


def support_corners(points: Iterable[Point]) -> tuple[Point, ...]:
    """The corners of the support polygon (x, y) [mm], anticlockwise.

    Args:
        points: (x, y) of everything that touches the floor [mm]

    Raises:
        ValueError: when the points enclose no area.
    """
    return tuple(edge.start_mm for edge in support_edges(points))


def _edge(start: tuple[float, ...], end: tuple[float, ...]) -> Edge:
    along = (end[0] - start[0], end[1] - start[1])
    length = math.hypot(*along)
    return Edge(
        start_mm=(start[0], start[1]),
        end_mm=(end[0], end[1]),
        outward=(along[1] / length, -along[0] / length),
    )
