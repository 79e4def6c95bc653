"""Where items of a sheet lie: their boxes, and the same items somewhere else."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from shapely.geometry import LineString, Polygon

from exporters.sheets.lettering import descent, text_width
from exporters.sheets.paper import Box2, box_round
from exporters.sheets.values import Anchor, Figure, Filled, Hatched, Item, Lettering, Stroke
from exporters.views.values import Arc, EllipseArc, Line, Polyline, Shape
from furniture.parts.vectors import Point2

_CHORD_DEG = 10.0


def shape_points(shape: Shape) -> tuple[Point2, ...]:
    """Points along a shape, close enough together to stand for it on paper."""
    if isinstance(shape, Line):
        return (shape.start, shape.end)
    if isinstance(shape, Polyline):
        return shape.points
    if isinstance(shape, Arc):
        start, end = shape.start_deg, shape.end_deg
        while end <= start + 1e-9:
            end += 360.0
        count = max(2, math.ceil((end - start) / _CHORD_DEG))
        angles = [math.radians(start + (end - start) * step / count) for step in range(count + 1)]
        cx, cy = shape.centre
        return tuple(
            (cx + shape.radius * math.cos(a), cy + shape.radius * math.sin(a)) for a in angles
        )
    return _ellipse_points(shape)


def _ellipse_points(shape: EllipseArc) -> tuple[Point2, ...]:
    end = shape.end
    while end <= shape.start + 1e-9:
        end += 2 * math.pi
    count = max(2, math.ceil(math.degrees(end - shape.start) / _CHORD_DEG))
    (mx, my), (cx, cy) = shape.major, shape.centre
    points = []
    for step in range(count + 1):
        t = shape.start + (end - shape.start) * step / count
        c, s = math.cos(t), math.sin(t) * shape.ratio
        points.append((cx + mx * c - my * s, cy + my * c + mx * s))
    return tuple(points)


def points_box(points: Iterable[Point2]) -> Box2:
    """The rectangle round points [mm]."""
    listed = list(points)
    return Box2(
        left=min(x for x, _ in listed),
        bottom=min(y for _, y in listed),
        right=max(x for x, _ in listed),
        top=max(y for _, y in listed),
    )


def lettering_box(text: Lettering) -> Box2:
    """The rectangle that a line of text takes, from its lowest letters to its capitals [mm]."""
    long = text_width(text.text, text.height)
    start = {Anchor.LEFT: 0.0, Anchor.CENTRE: -long / 2, Anchor.RIGHT: -long}[text.anchor]
    low, high = -descent(text.text, text.height), text.height
    x, y = text.at
    if text.is_turned:
        return Box2(left=x - high, right=x - low, bottom=y + start, top=y + start + long)
    return Box2(left=x + start, right=x + start + long, bottom=y + low, top=y + high)


def item_box(item: Item) -> Box2:
    """The rectangle that an item takes on paper [mm]."""
    if isinstance(item, Stroke):
        return points_box(shape_points(item.shape))
    if isinstance(item, Lettering):
        return lettering_box(item)
    if isinstance(item, Filled):
        return points_box(item.corners)
    if isinstance(item, Hatched):
        return points_box(item.outline)
    return box_round([item_box(part) for part in item.drawn])


def items_box(items: Iterable[Item]) -> Box2:
    """The rectangle round items on paper [mm]."""
    return box_round([item_box(item) for item in items])


def scaled_shape(shape: Shape, factor: float, dx: float = 0.0, dy: float = 0.0) -> Shape:
    """The shape made larger about the origin, then shifted [mm]."""

    def put(point: Point2) -> Point2:
        return (point[0] * factor + dx, point[1] * factor + dy)

    if isinstance(shape, Line):
        return Line(start=put(shape.start), end=put(shape.end))
    if isinstance(shape, Polyline):
        return Polyline(points=tuple(put(point) for point in shape.points))
    if isinstance(shape, Arc):
        return replace(shape, centre=put(shape.centre), radius=shape.radius * factor)
    major = (shape.major[0] * factor, shape.major[1] * factor)
    return replace(shape, centre=put(shape.centre), major=major)


def moved_item(item: Item, dx: float, dy: float) -> Item:
    """The item shifted on paper [mm]."""

    def put(point: Point2) -> Point2:
        return (point[0] + dx, point[1] + dy)

    if isinstance(item, Stroke):
        return replace(item, shape=scaled_shape(item.shape, 1.0, dx, dy))
    if isinstance(item, Lettering):
        return replace(item, at=put(item.at))
    if isinstance(item, Filled):
        return replace(item, corners=tuple(put(corner) for corner in item.corners))
    if isinstance(item, Hatched):
        return replace(
            item,
            outline=tuple(put(point) for point in item.outline),
            holes=tuple(tuple(put(point) for point in hole) for hole in item.holes),
        )
    return _moved_figure(item, dx, dy)


def _moved_figure(item: Figure, dx: float, dy: float) -> Figure:
    drawn: list[Stroke | Lettering | Filled] = []
    for each in item.drawn:
        moved = moved_item(each, dx, dy)
        assert isinstance(moved, (Stroke, Lettering, Filled))
        drawn.append(moved)

    def put(point: Point2) -> Point2:
        return (point[0] + dx, point[1] + dy)

    return replace(
        item,
        start=put(item.start),
        end=put(item.end),
        line_at=put(item.line_at),
        text_at=put(item.text_at),
        drawn=tuple(drawn),
    )


def hatch_lines(area: Hatched) -> list[tuple[Point2, Point2]]:
    """The lines of a hatched area one by one, for formats that know no hatching [mm].

    Args:
        area: outline, holes, angle and spacing.
    """
    turn = math.radians(area.angle_deg)
    along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    heights = [x * across[0] + y * across[1] for x, y in area.outline]
    reach = 2.0 * max(math.hypot(x, y) for x, y in area.outline)
    region = Polygon(area.outline, area.holes)
    first, last = math.ceil(min(heights) / area.spacing_mm), max(heights) / area.spacing_mm
    found: list[tuple[Point2, Point2]] = []
    for step in range(first, math.floor(last) + 1):
        x, y = (step * area.spacing_mm * axis for axis in across)
        ends = [(x + sign * reach * along[0], y + sign * reach * along[1]) for sign in (-1, 1)]
        rest = region.intersection(LineString(ends))
        for piece in getattr(rest, "geoms", (rest,)):
            if piece.geom_type == "LineString" and piece.length > 0.0:
                (ax, ay), (bx, by) = piece.coords
                found.append(((ax, ay), (bx, by)))
    return found
