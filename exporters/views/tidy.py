"""Drawn edges without doubles: nothing is drawn twice, and the stronger class wins."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import Generic, TypeVar

from exporters.views.spans import Span, difference, rolled, union, unrolled
from exporters.views.values import Arc, DrawnEdge, EdgeClass, EllipseArc, Line, Polyline, Shape
from furniture.parts.vectors import Point2

_SAME_MM = 2e-3
"""Lines and arcs this close are one. Own rule: far under a pen, far over the kernel's error."""
_LEAST_MM = 0.02
"""A shorter remnant is not drawn. Own rule: a tenth of the thinnest pen."""
_PRECEDENCE = (EdgeClass.VISIBLE, EdgeClass.HIDDEN, EdgeClass.SMOOTH)
_TURN = 2.0 * math.pi


_Carried = TypeVar("_Carried", Line, Arc | EllipseArc)


@dataclass(slots=True)
class _Carrier(Generic[_Carried]):
    """An endless line, circle or ellipse, and what of it is drawn in which class."""

    shape: _Carried
    spans: dict[EdgeClass, list[Span]] = field(default_factory=dict)

    def add(self, edge_class: EdgeClass, spans: Iterable[Span]) -> None:
        self.spans.setdefault(edge_class, []).extend(spans)


def tidy(edges: Iterable[DrawnEdge]) -> tuple[DrawnEdge, ...]:
    """The same drawing with every stretch drawn once: visible over hidden over smooth.

    Lines that overlap or touch end to end become one line, and so do arcs of one circle or ellipse.

    Args:
        edges: as projected, in any order.
    """
    lines: list[tuple[Line, EdgeClass]] = []
    rounds: dict[tuple[int, ...], list[_Carrier[Arc | EllipseArc]]] = {}
    chains: dict[tuple[Point2, ...], DrawnEdge] = {}
    for edge in edges:
        shape = edge.shape
        if isinstance(shape, Line):
            lines.append((shape, edge.edge_class))
        elif isinstance(shape, Polyline):
            _keep_stronger(chains, shape, edge)
        else:
            _add_round(rounds, shape, edge.edge_class)
    return (
        *(edge for carrier in _line_carriers(lines) for edge in _drawn_lines(carrier)),
        *(edge for many in rounds.values() for carrier in many for edge in _drawn_rounds(carrier)),
        *chains.values(),
    )


def _keep_stronger(
    chains: dict[tuple[Point2, ...], DrawnEdge], shape: Polyline, edge: DrawnEdge
) -> None:
    rounded = tuple((round(x, 3), round(y, 3)) for x, y in shape.points)
    key = min(rounded, rounded[::-1])
    known = chains.get(key)
    if known is None or _PRECEDENCE.index(edge.edge_class) < _PRECEDENCE.index(known.edge_class):
        chains[key] = edge


def _line_carriers(lines: list[tuple[Line, EdgeClass]]) -> Iterator[_Carrier[Line]]:
    """Lines gathered on common carriers; the longest first, since it sets the direction best."""
    carriers: dict[tuple[int, int], list[_Carrier[Line]]] = {}
    for line, edge_class in sorted(lines, key=lambda pair: -math.dist(pair[0].start, pair[0].end)):
        carrier = _carrier_of(carriers, line)
        low, high = sorted((_along(carrier.shape, line.start), _along(carrier.shape, line.end)))
        carrier.add(edge_class, [(low, high)])
    for many in carriers.values():
        yield from many


def _carrier_of(
    carriers: dict[tuple[int, int], list[_Carrier[Line]]], line: Line
) -> _Carrier[Line]:
    angle = math.atan2(line.end[1] - line.start[1], line.end[0] - line.start[0]) % math.pi
    if angle > math.pi - 1e-7:
        angle = 0.0
    offset = line.start[1] * math.cos(angle) - line.start[0] * math.sin(angle)
    cell = (round(angle * 1e3), round(offset * 20.0))
    for by_angle in (-1, 0, 1):
        for by_offset in (-1, 0, 1):
            for carrier in carriers.get((cell[0] + by_angle, cell[1] + by_offset), ()):
                if all(_off(carrier.shape, point) <= _SAME_MM for point in (line.start, line.end)):
                    return carrier
    carrier = _Carrier(shape=line)
    carriers.setdefault(cell, []).append(carrier)
    return carrier


def _along(line: Line, point: Point2) -> float:
    dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
    return ((point[0] - line.start[0]) * dx + (point[1] - line.start[1]) * dy) / math.hypot(dx, dy)


def _off(line: Line, point: Point2) -> float:
    dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
    across = dx * (point[1] - line.start[1]) - dy * (point[0] - line.start[0])
    return abs(across) / math.hypot(dx, dy)


def _add_round(
    rounds: dict[tuple[int, ...], list[_Carrier[Arc | EllipseArc]]],
    shape: Arc | EllipseArc,
    edge_class: EdgeClass,
) -> None:
    if isinstance(shape, EllipseArc):
        shape = _canonical(shape)
        span, turn = (shape.start, shape.end), _TURN
    else:
        span, turn = (shape.start_deg, shape.end_deg), 360.0
    cell = (round(shape.centre[0] * 20.0), round(shape.centre[1] * 20.0))
    for dx in (-1, 0, 1):
        for dy in (-1, 0, 1):
            for carrier in rounds.get((cell[0] + dx, cell[1] + dy), ()):
                if _is_same_round(carrier.shape, shape):
                    carrier.add(edge_class, unrolled(span, turn))
                    return
    fresh: _Carrier[Arc | EllipseArc] = _Carrier(shape=shape)
    fresh.add(edge_class, unrolled(span, turn))
    rounds.setdefault(cell, []).append(fresh)


def _canonical(ellipse: EllipseArc) -> EllipseArc:
    """The same arc with the half axis in the upper half plane, so that equal arcs compare equal."""
    x, y = ellipse.major
    if y > 1e-9 or (abs(y) <= 1e-9 and x > 0):
        return ellipse
    return EllipseArc(
        centre=ellipse.centre,
        major=(-x, -y),
        ratio=ellipse.ratio,
        start=ellipse.start + math.pi,
        end=ellipse.end + math.pi,
    )


def _is_same_round(known: Shape, shape: Arc | EllipseArc) -> bool:
    if isinstance(known, Arc) and isinstance(shape, Arc):
        is_as_large = abs(known.radius - shape.radius) <= _SAME_MM
        return is_as_large and math.dist(known.centre, shape.centre) <= _SAME_MM
    if isinstance(known, EllipseArc) and isinstance(shape, EllipseArc):
        return (
            math.dist(known.centre, shape.centre) <= _SAME_MM
            and math.dist(known.major, shape.major) <= _SAME_MM
            and abs(known.ratio - shape.ratio) * math.hypot(*known.major) <= _SAME_MM
        )
    return False


def _drawn_lines(carrier: _Carrier[Line]) -> Iterator[DrawnEdge]:
    line = carrier.shape
    run = math.dist(line.start, line.end)
    along = ((line.end[0] - line.start[0]) / run, (line.end[1] - line.start[1]) / run)

    def at(distance: float) -> Point2:
        return (line.start[0] + along[0] * distance, line.start[1] + along[1] * distance)

    for edge_class, spans in _shares(carrier.spans, 1.0):
        for low, high in spans:
            yield DrawnEdge(shape=Line(start=at(low), end=at(high)), edge_class=edge_class)


def _drawn_rounds(carrier: _Carrier[Arc | EllipseArc]) -> Iterator[DrawnEdge]:
    shape = carrier.shape
    if isinstance(shape, Arc):
        scale, turn = math.degrees(1.0 / shape.radius), 360.0
    else:
        scale, turn = 1.0 / math.hypot(*shape.major), _TURN
    for edge_class, spans in _shares(carrier.spans, scale):
        for low, high in rolled(spans, turn, _SAME_MM * scale):
            if isinstance(shape, Arc):
                stretch: Shape = replace(shape, start_deg=low, end_deg=high)
            else:
                stretch = replace(shape, start=low, end=high)
            yield DrawnEdge(shape=stretch, edge_class=edge_class)


def _shares(
    drawn: dict[EdgeClass, list[Span]], scale: float
) -> Iterator[tuple[EdgeClass, list[Span]]]:
    """What each class draws of one carrier once the stronger classes have taken theirs."""
    taken: list[Span] = []
    for edge_class in _PRECEDENCE:
        spans = union(drawn.get(edge_class, ()), _SAME_MM * scale)
        left = difference(spans, taken, _LEAST_MM * scale)
        taken = union([*taken, *left], _SAME_MM * scale)
        yield edge_class, left
