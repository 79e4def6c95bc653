"""Reads a part sheet as a stranger would: dimensions, words, leaders and where views stand.

Works on the DXF file alone, with ezdxf and shapely and none of the project's modules. Nothing
hidden is used: layers and line work to tell views apart, texts as printed, DIMENSION entities with
their measured points and their text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Any

import ezdxf
from ezdxf.path import make_path
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

MM_PER_INCH = 25.4
_FIGURE = r"~?\d+(?:\.\d+)?(?: \d+/\d+|/\d+)?(?: \(\d*\.\d+\))?"


@dataclass
class ReadFigure:
    """A dimension as printed: which way, what it says and what it measures [mm], where it ends."""

    is_level: bool
    is_running: bool
    text: str
    said_mm: float
    measured_mm: float
    start: tuple[float, float]
    end: tuple[float, float]


@dataclass
class ReadCallout:
    """Words, the letter they stand for, and where their leader or their letters point."""

    words: str
    targets: list[tuple[float, float]]


@dataclass
class ReadView:
    """A view: its heading, its outline's box (model mm), the figures, circles and arcs in it."""

    heading: str
    box: tuple[float, float, float, float]
    figures: list[ReadFigure] = field(default_factory=list)
    circles: list[tuple[float, float, float]] = field(default_factory=list)
    arcs: list[tuple[float, float, float]] = field(default_factory=list)

    def running(self, is_level: bool) -> list[ReadFigure]:
        """Its running figures one way, without the datum's nought."""
        return [
            f for f in self.figures if f.is_running and f.is_level == is_level and f.text != "0"
        ]

    def span(self, is_level: bool) -> float | None:
        """What its plain dimension one way says [mm]."""
        for figure in self.figures:
            if not figure.is_running and figure.is_level == is_level:
                return figure.said_mm
        return None


@dataclass
class ReadSheet:
    """Everything a part sheet says."""

    unit: str
    texts: list[str]
    views: dict[str, ReadView]
    callouts: list[ReadCallout]


@dataclass
class _Text:
    words: str
    x: float
    y: float
    height: float
    layer: str
    is_turned: bool
    halign: int


def figure_mm(text: str, unit: str) -> float:
    """The length that a printed figure stands for [mm]; a decimal in brackets is the sharper."""
    plain = text.strip().lstrip("~")
    bracket = re.search(r"\(([\d.]+)\)", plain)
    factor = MM_PER_INCH if unit == "in" else 1.0
    if bracket:
        return float(bracket[1]) * factor
    return float(sum((Fraction(word) for word in plain.split()), Fraction(0))) * factor


def read_sheet(path: Path) -> ReadSheet:
    """The sheet in a DXF file."""
    document = ezdxf.readfile(path)
    space = document.modelspace()
    texts = [_text(entity) for entity in space.query("TEXT")]
    least = min(text.height for text in texts)
    unit = next(t.words for t in texts if t.words in ("mm", "in"))
    views = _views(space, texts, least, unit)
    callouts = _callouts(space, texts, least)
    return ReadSheet(
        unit=unit, texts=[text.words for text in texts], views=views, callouts=callouts
    )


def _text(entity: Any) -> _Text:
    at = entity.dxf.insert if entity.dxf.halign == 0 else entity.dxf.align_point
    return _Text(
        words=entity.dxf.text,
        x=at.x,
        y=at.y,
        height=entity.dxf.height,
        layer=entity.dxf.layer,
        is_turned=abs(entity.dxf.rotation - 90) < 1,
        halign=entity.dxf.halign,
    )


def _views(space: Any, texts: list[_Text], least: float, unit: str) -> dict[str, ReadView]:
    lines = []
    for entity in space:
        if entity.dxf.layer in ("visible", "break") and entity.dxftype() in (
            "LINE", "ARC", "CIRCLE", "ELLIPSE", "LWPOLYLINE",
        ):  # fmt: skip
            points = [(p.x, p.y) for p in make_path(entity).flattening(least / 20)]
            lines.append(LineString(points).buffer(least * 0.12))
    clusters = unary_union(lines)
    outlines = [shape.convex_hull for shape in getattr(clusters, "geoms", [clusters])]
    outlines = _joined_over_breaks(outlines, 1.7 * least)
    outer = [
        inner
        for inner in outlines
        if not any(o is not inner and o.buffer(least * 0.1).contains(inner) for o in outlines)
    ]
    headings = [t for t in texts if t.halign == 1 and not t.is_turned and _is_heading(t.words)]
    views: dict[str, ReadView] = {}
    slack = least * 0.12
    for text in headings:
        above = [
            shape
            for shape in outer
            if shape.bounds[1] > text.y and shape.bounds[0] < text.x < shape.bounds[2]
        ]
        nearest = min(above, key=lambda shape: shape.bounds[1] - text.y)
        left, low, right, high = nearest.bounds
        box = (left + slack, low + slack, right - slack, high - slack)
        name = text.words.removeprefix("seen on the ").split(" A-A")[0]
        views[name] = ReadView(heading=text.words, box=box)
    for entity in space.query("CIRCLE"):
        if entity.dxf.layer == "visible":
            centre = entity.dxf.center
            view = _nearest(views, (centre.x, centre.y))
            view.circles.append((centre.x, centre.y, entity.dxf.radius))
    for entity in space.query("ARC"):
        if entity.dxf.layer == "visible":
            centre = entity.dxf.center
            view = _nearest(views, (centre.x, centre.y))
            view.arcs.append((centre.x, centre.y, entity.dxf.radius))
    for entity in space.query("DIMENSION"):
        figure = _figure(entity, unit)
        _nearest(views, figure.end).figures.append(figure)
    return views


def _joined_over_breaks(shapes: list[Any], gap: float) -> list[Any]:
    """The pieces of a broken view as one: equally high, side by side, closer than two views are."""
    joined: list[Any] = []
    for shape in sorted(shapes, key=lambda each: each.bounds[0]):
        left, low, _, high = shape.bounds
        for index, other in enumerate(joined):
            _, other_low, other_right, other_high = other.bounds
            is_level = abs(low - other_low) < 0.05 * gap and abs(high - other_high) < 0.05 * gap
            if is_level and 0.0 < left - other_right < gap:
                joined[index] = unary_union([other, shape]).convex_hull
                break
        else:
            joined.append(shape)
    return joined


def _is_heading(words: str) -> bool:
    return words == "face side" or words.startswith(("seen on the ", "section "))


def _nearest(views: dict[str, ReadView], point: tuple[float, float]) -> ReadView:
    def away(view: ReadView) -> float:
        left, low, right, high = view.box
        dx = max(left - point[0], 0.0, point[0] - right)
        dy = max(low - point[1], 0.0, point[1] - high)
        return dx + dy

    return min(views.values(), key=away)


def _figure(entity: Any, unit: str) -> ReadFigure:
    kind = entity.dxf.dimtype & 7
    factor = float(entity.override().get("dimlfac", 1.0))
    if kind == 0:
        is_level = abs(entity.dxf.angle) < 1
        start, end = entity.dxf.defpoint2, entity.dxf.defpoint3
        raw = abs(end.x - start.x) if is_level else abs(end.y - start.y)
    else:
        is_level = bool(entity.dxf.dimtype & 64)
        start, end = entity.dxf.defpoint, entity.dxf.defpoint2
        raw = abs(end.x - start.x) if is_level else abs(end.y - start.y)
    return ReadFigure(
        is_level=is_level,
        is_running=kind == 6,
        text=entity.dxf.text,
        said_mm=figure_mm(entity.dxf.text, unit),
        measured_mm=raw * factor,
        start=(start.x, start.y),
        end=(end.x, end.y),
    )


def _callouts(space: Any, texts: list[_Text], least: float) -> list[ReadCallout]:
    """Blocks of words that name a cut, with the tips of their leaders or their letters."""
    plain = [t for t in texts if t.layer == "text" and t.halign == 0 and not t.is_turned]
    leaders = [
        ((line.dxf.start.x, line.dxf.start.y), (line.dxf.end.x, line.dxf.end.y))
        for line in space.query("LINE")
        if line.dxf.layer == "leader"
    ]
    letters = [t for t in texts if len(t.words) == 1 and t.words.islower() and t.halign == 1]
    found = []
    for first in plain:
        words = " ".join(text.words for text in _block(first, plain))
        # a part's title may begin so too, as `mitred box` and `rabbet filler` do
        if not re.match(r"([a-z]: )?(\d+ )?(dado|groove|rabbet|mitre|flat mitre|bevel|bore|slot|"
                        r"notch|finger notch|round-over|chamfer|mortise|tenon)(e?s)?"
                        r"(,| dia| [R~≈(]*\d)",
                        words):  # fmt: skip
            continue
        tag = re.match(r"([a-z]): (.*)", words)
        if tag:
            targets = [(t.x, t.y) for t in letters if t.words == tag[1]]
            found.append(ReadCallout(words=tag[2], targets=targets))
        else:
            found.append(ReadCallout(words=words, targets=[_tip(first, leaders, least)]))
    return found


def _block(first: _Text, plain: list[_Text]) -> list[_Text]:
    block = [first]
    while True:
        last = block[-1]
        under = [
            t for t in plain if abs(t.x - last.x) < 1e-6 and 0 < last.y - t.y < 1.7 * last.height
        ]
        if not under:
            return block
        block.append(under[0])


def _tip(
    first: _Text, leaders: list[tuple[tuple[float, float], tuple[float, float]]], least: float
) -> tuple[float, float]:
    """The far end of the leader whose landing starts beside the first line of the words."""
    level = first.y + first.height / 2
    landings = [
        (start, end)
        for start, end in leaders
        if abs(start[1] - level) < 0.02 * least and abs(end[1] - level) < 0.02 * least
    ]
    landing = min(landings, key=lambda line: Point(line[0]).distance(LineString(
        [(first.x, level), (first.x + 0.75 * least * len(first.words), level)]
    )))  # fmt: skip
    return next(end for start, end in leaders if start == landing[1] and end != landing[0])
