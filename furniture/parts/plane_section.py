"""Sections: what a plane finds of a part's wood, worked out from its blank and its cuts' tools."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import shapely
from shapely.affinity import affine_transform

from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.placement import Placement
from furniture.parts.tools import Prism, Tool, Turned
from furniture.parts.vectors import Vector, add, cross, dot, scaled, subtract

_CHORDS = 64
"""Sides of the polygon that stands for a circle; it has the circle's area."""
_PARALLEL = 1e-9
_FAR_MM = 1e5


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A rectangle in space to look through [mm]: its middle, two unit sides and their lengths.

    Regions in it are told by their distances from the middle along `u` and along `v`.
    """

    centre: Vector
    u: Vector
    v: Vector
    u_mm: float
    v_mm: float

    @property
    def normal(self) -> Vector:
        """The unit normal, u x v."""
        return cross(self.u, self.v)

    def moved(self, distance: float) -> Window:
        """The same window that far along its normal [mm]."""
        return Window(
            centre=add(self.centre, scaled(self.normal, distance)),
            u=self.u,
            v=self.v,
            u_mm=self.u_mm,
            v_mm=self.v_mm,
        )

    def seen_from(self, placement: Placement) -> Window:
        """The same window of the piece in a part's own frame."""
        return Window(
            centre=placement.to_part(self.centre),
            u=placement.direction_to_part(self.u),
            v=placement.direction_to_part(self.v),
            u_mm=self.u_mm,
            v_mm=self.v_mm,
        )

    def place(self, u: float, v: float) -> Vector:
        """The point at these distances from the middle."""
        return add(self.centre, add(scaled(self.u, u), scaled(self.v, v)))

    def read(self, point: Vector) -> tuple[float, float]:
        """The distances of a point from the middle along both sides."""
        apart = subtract(point, self.centre)
        return (dot(apart, self.u), dot(apart, self.v))

    @property
    def outline(self) -> shapely.Polygon:
        """The whole window as a region."""
        return shapely.box(-self.u_mm / 2, -self.v_mm / 2, self.u_mm / 2, self.v_mm / 2)


def wood_left_in(window: Window, blank: Blank, cuts: Iterable[Cut]) -> shapely.Geometry:
    """What cuts leave of a blank in a window, both in the part frame.

    Args:
        window: where to look.
        blank: that is cut.
        cuts: in it.
    """
    region = _within(window, blank)
    for cut in cuts:
        for tool, ball in _tools_of(cut, blank):
            if region.is_empty:
                return region
            if _may_meet(ball, window):
                region = with_area(region.difference(_tool_in(window, tool)))
    return region


def with_area(region: shapely.Geometry) -> shapely.Geometry:
    """What of a region has an area: edges and corners that merely touch are left out."""
    if region.geom_type in ("Polygon", "MultiPolygon"):
        return region
    return shapely.union_all(
        [each for each in shapely.get_parts(region) if each.geom_type == "Polygon"]
    )


def _within(window: Window, blank: Blank) -> shapely.Geometry:
    """What of a window lies in a blank."""
    region: shapely.Geometry = window.outline
    corners = [
        window.place(u, v)
        for u in (-window.u_mm / 2, window.u_mm / 2)
        for v in (-window.v_mm / 2, window.v_mm / 2)
    ]
    for axis, size in enumerate(blank.size):
        u, v, at = window.u[axis], window.v[axis], window.centre[axis]
        if min(corner[axis] for corner in corners) < 0.0:
            region = _half(region, u, v, at)
        if max(corner[axis] for corner in corners) > size:
            region = _half(region, -u, -v, size - at)
    return region


def _half(region: shapely.Geometry, a: float, b: float, c: float) -> shapely.Geometry:
    """What of a region has a x + b y + c >= 0."""
    if region.is_empty:
        return region
    size = math.hypot(a, b)
    if size < _PARALLEL:
        return region if c >= -_PARALLEL else shapely.Polygon()
    low_x, low_y, high_x, high_y = region.bounds
    values = [a * x + b * y + c for x in (low_x, high_x) for y in (low_y, high_y)]
    if min(values) >= 0.0:
        return region
    if max(values) <= 0.0:
        return shapely.Polygon()
    a, b, c = a / size, b / size, c / size
    foot = (-a * c, -b * c)
    along = (-b * _FAR_MM, a * _FAR_MM)
    inward = (a * _FAR_MM, b * _FAR_MM)
    half = shapely.Polygon(
        [
            (foot[0] - along[0], foot[1] - along[1]),
            (foot[0] + along[0], foot[1] + along[1]),
            (foot[0] + along[0] + inward[0], foot[1] + along[1] + inward[1]),
            (foot[0] - along[0] + inward[0], foot[1] - along[1] + inward[1]),
        ]
    )
    return with_area(region.intersection(half))


@lru_cache(maxsize=4096)
def _tools_of(cut: Cut, blank: Blank) -> tuple[tuple[Tool, tuple[Vector, float]], ...]:
    """A cut's tools, each with the middle and the radius of a ball that holds it."""
    return tuple((tool, _ball(tool)) for tool in cut.tools(blank))


def _ball(tool: Tool) -> tuple[Vector, float]:
    if isinstance(tool, Turned):
        middle = add(tool.origin, scaled(tool.axis, tool.length_mm / 2))
        radius = max(tool.first_radius_mm, tool.second_radius_mm)
        return middle, math.hypot(tool.length_mm / 2, radius)
    outline = flat_outline(tool)
    ends = [
        add(start, add(scaled(tool.u_axis, u), scaled(tool.v_axis, v)))
        for start in (tool.origin, add(tool.origin, tool.sweep))
        for u, v in outline
    ]
    x, y, z = (math.fsum(at) / len(ends) for at in zip(*ends, strict=True))
    return (x, y, z), max(math.dist((x, y, z), end) for end in ends)


def _may_meet(ball: tuple[Vector, float], window: Window) -> bool:
    """Whether a ball comes near a window and its plane."""
    middle, radius = ball
    apart = subtract(middle, window.centre)
    return (
        abs(dot(apart, window.normal)) <= radius
        and abs(dot(apart, window.u)) <= radius + window.u_mm / 2
        and abs(dot(apart, window.v)) <= radius + window.v_mm / 2
    )


def _tool_in(window: Window, tool: Tool) -> shapely.Geometry:
    """What a tool takes of a window."""
    return _turned_in(window, tool) if isinstance(tool, Turned) else _prism_in(window, tool)


def _prism_in(window: Window, tool: Prism) -> shapely.Geometry:
    outline = shapely.Polygon(flat_outline(tool))
    normal = window.normal
    depth = dot(normal, tool.sweep)
    a, b = dot(normal, tool.u_axis), dot(normal, tool.v_axis)
    c = dot(normal, subtract(tool.origin, window.centre))
    if abs(depth) <= _PARALLEL * math.dist((0.0,) * 3, tool.sweep):
        return _swept(window, tool, outline, (a, b, c))
    # On the plane the share of the sweep is t = -(a u + b v + c) / depth, and 0 <= t <= 1.
    shares = (-a / depth, -b / depth, -c / depth)
    region = _half(outline, *shares)
    region = _half(region, -shares[0], -shares[1], 1.0 - shares[2])
    if region.is_empty:
        return region
    ways = [
        add(way, scaled(tool.sweep, share))
        for way, share in ((tool.u_axis, shares[0]), (tool.v_axis, shares[1]))
    ]
    start = window.read(add(tool.origin, scaled(tool.sweep, shares[2])))
    (ux, uy), (vx, vy) = ((dot(way, window.u), dot(way, window.v)) for way in ways)
    return affine_transform(region, [ux, vx, uy, vy, start[0], start[1]])


def _swept(
    window: Window, tool: Prism, outline: shapely.Polygon, line: tuple[float, float, float]
) -> shapely.Geometry:
    """The plane lies along the sweep: it cuts the outline in lines, each swept to a strip."""
    a, b, c = line
    size = math.hypot(a, b)
    foot, along = (-a * c / size**2, -b * c / size**2), (-b / size * _FAR_MM, a / size * _FAR_MM)
    across = shapely.LineString(
        [(foot[0] - along[0], foot[1] - along[1]), (foot[0] + along[0], foot[1] + along[1])]
    )
    strips = []
    for part in shapely.get_parts(outline.intersection(across)):
        if part.geom_type != "LineString" or part.is_empty:
            continue
        ends = [
            add(tool.origin, add(scaled(tool.u_axis, u), scaled(tool.v_axis, v)))
            for u, v in (part.coords[0], part.coords[-1])
        ]
        corners = [ends[0], ends[1], add(ends[1], tool.sweep), add(ends[0], tool.sweep)]
        strips.append(shapely.Polygon([window.read(corner) for corner in corners]))
    return shapely.union_all(strips)


def _turned_in(window: Window, tool: Turned) -> shapely.Geometry:
    """A cone or a cylinder is convex, so its section is the hull of what the plane finds."""
    normal = window.normal
    side = cross(tool.axis, (1.0, 0.0, 0.0))
    if dot(side, side) < 0.1:
        side = cross(tool.axis, (0.0, 1.0, 0.0))
    side = scaled(side, 1.0 / math.sqrt(dot(side, side)))
    other = cross(tool.axis, side)
    step = 2 * math.pi / _CHORDS
    same_area = math.sqrt(step / math.sin(step))
    ends = (tool.origin, add(tool.origin, scaled(tool.axis, tool.length_mm)))
    rings = [
        [
            add(
                end,
                add(
                    scaled(side, same_area * radius * math.cos(step * index)),
                    scaled(other, same_area * radius * math.sin(step * index)),
                ),
            )
            for index in range(_CHORDS)
        ]
        for end, radius in zip(ends, (tool.first_radius_mm, tool.second_radius_mm), strict=True)
    ]
    lines = list(zip(*rings, strict=True))
    for ring in rings:
        lines += [(first, second) for first, second in pairwise([*ring, ring[0]])]
    found = []
    for first, second in lines:
        heights = [dot(normal, subtract(point, window.centre)) for point in (first, second)]
        if heights[0] * heights[1] <= 0.0 and heights[0] != heights[1]:
            share = heights[0] / (heights[0] - heights[1])
            found.append(window.read(add(first, scaled(subtract(second, first), share))))
    hull = shapely.MultiPoint(found).convex_hull if len(found) > 2 else shapely.Polygon()
    return hull if hull.geom_type == "Polygon" else shapely.Polygon()


def flat_outline(tool: Prism) -> list[tuple[float, float]]:
    """A prism's outline (u, v) with its arcs in short chords [mm]."""
    points: list[tuple[float, float]] = []
    for index, point in enumerate(tool.outline):
        after = tool.outline[(index + 1) % len(tool.outline)]
        points.append((point.u, point.v))
        if point.bulge == 0.0:
            continue
        turn = 4.0 * math.atan(point.bulge)
        du, dv = after.u - point.u, after.v - point.v
        # The centre lies on the chord's perpendicular, left of it for a turn to the left.
        away = 0.5 / math.tan(turn / 2)
        centre = ((point.u + after.u) / 2 - dv * away, (point.v + after.v) / 2 + du * away)
        count = max(2, math.ceil(abs(turn) / (2 * math.pi / _CHORDS)))
        for number in range(1, count):
            angle = turn * number / count
            x, y = point.u - centre[0], point.v - centre[1]
            points.append(
                (
                    centre[0] + x * math.cos(angle) - y * math.sin(angle),
                    centre[1] + x * math.sin(angle) + y * math.cos(angle),
                )
            )
    return points
