"""Reads a part sheet as a stranger would: dimensions, words, leaders and where views stand.

Works on the DXF file alone, with ezdxf and shapely and none of the project's modules. Nothing
hidden is used: layers and line work to tell views apart, texts as printed, DIMENSION entities with
their measured points and their text.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
from ezdxf.path import make_path
from shapely.geometry import LineString, Point
from shapely.ops import polygonize, unary_union

from tests.exporters.sheet_callouts import callouts_of, made_flush_of
from tests.exporters.sheet_names import FACE_NAME, in_our_terms, names_of
from tests.exporters.sheet_values import (
    ReadFigure,
    ReadSheet,
    ReadText,
    ReadView,
    figure_mm,
    leaders_of,
    text_of,
)

_SAME = ": the same "


class _InCell:
    """What of a sheet is drawn in one of its ruled cells."""

    def __init__(self, space: Any, cell: Any) -> None:
        self._entities = [each for each in space if cell.contains(Point(_somewhere(each)))]

    def __iter__(self) -> Iterator[Any]:
        return iter(self._entities)

    def query(self, kinds: str) -> list[Any]:
        return [each for each in self._entities if each.dxftype() in kinds.split()]


def _somewhere(entity: Any) -> tuple[float, float]:
    """A point of what is drawn."""
    kind = entity.dxftype()
    if kind == "TEXT":
        text = text_of(entity)
        return text.x, text.y
    if kind == "DIMENSION":
        point = entity.dxf.defpoint2
    elif kind == "HATCH":
        return tuple(entity.paths[0].vertices[0][:2])
    elif kind == "SOLID":
        point = entity.dxf.vtx0
    else:
        point = next(iter(make_path(entity).flattening(1.0)))
    return point.x, point.y


def read_parts(paths: Iterable[Path]) -> dict[int, list[ReadSheet]]:
    """What sheets say of each part, by its number in the parts list, which heads its cell."""
    found: dict[int, list[ReadSheet]] = {}
    for path in paths:
        space = ezdxf.readfile(path).modelspace()
        rules = [
            LineString([line.dxf.start.vec2, line.dxf.end.vec2])
            for line in space.query("LINE")
            if line.dxf.layer == "panel"
        ]
        texts = [text_of(entity) for entity in space.query("TEXT")]
        least = min(text.height for text in texts)
        unit = next((t.words for t in texts if t.words in ("mm", "in")), "")
        for cell in polygonize(unary_union(rules)):
            head = max(
                (t for t in texts if t.height > 1.2 * least and cell.contains(Point(t.x, t.y))),
                key=lambda text: text.y,
            )
            item = int(re.match(r"\d+", head.words)[0])  # type: ignore[index]
            inside = _InCell(space, cell)
            own_texts = [t for t in texts if cell.contains(Point(t.x, t.y))]
            corner = next((t for t in own_texts if t.words == "no."), None)
            is_third = any(t.words == "third angle" for t in texts)
            table = _table(own_texts, corner)
            if table:
                for row in table:
                    own = _with_figures(inside, row, least, unit)
                    own.is_third_angle = is_third
                    found.setdefault(int(row["no."]), []).append(own)
                continue
            read = _read(inside, least, unit)
            read.is_third_angle = is_third
            found.setdefault(item, []).append(read)
            words = " ".join(
                t.words for t in texts if t.height > 1.2 * least and t.halign == 0
                and cell.contains(Point(t.x, t.y))
            )  # fmt: skip
            if other := re.search(r"as drawn, (\d+) .* opposite hand", words):
                found.setdefault(int(other[1]), []).append(replace(read, is_mirrored=True))
    return found


def _table(texts: list[ReadText], corner: ReadText | None) -> list[dict[str, str]]:
    """The rows by their headings of the table of like parts that begins so; none without."""
    if corner is None:
        return []
    heads = [t for t in texts if abs(t.y - corner.y) < 1e-6 and t.x >= corner.x]
    rows: dict[float, dict[str, str]] = {}
    for text in texts:
        for head in heads:
            if abs(text.x - head.x) < 1e-6 and text.y < head.y - 1e-6:
                rows.setdefault(round(text.y, 3), {})[head.words] = text.words
    return [row for row in rows.values() if "no." in row and len(row) == len(heads)]


def figures_said(text: str, document: Any, unit: str) -> list[float]:
    """What a dimension says [mm]: its figure, or for a letter those that tables give for it."""
    plain = text[1:-1] if text.startswith("(") else text
    if not re.fullmatch("[A-Z]", plain):
        return [figure_mm(plain, unit)]
    texts = [text_of(entity) for entity in document.modelspace().query("TEXT")]
    rows = [row for corner in texts if corner.words == "no." for row in _table(texts, corner)]
    return [figure_mm(row[plain], unit) for row in rows if plain in row]


def _with_figures(cell: _InCell, row: dict[str, str], least: float, unit: str) -> ReadSheet:
    """The cell read with the figures of one row in the places of their letters."""
    letters = {name: text for name, text in row.items() if len(name) == 1}
    put = re.compile(rf"\b({'|'.join(letters)})\b")
    told = [(entity, entity.dxf.text) for entity in cell.query("TEXT DIMENSION")]
    for entity, text in told:
        entity.dxf.text = put.sub(lambda found: letters[found[1]], text)
    read = _read(cell, least, unit)
    for entity, text in told:
        entity.dxf.text = text
    return read


def read_sheet(path: Path) -> ReadSheet:
    """The sheet in a DXF file, which shows one part."""
    ((sheet,),) = read_parts([path]).values()
    return sheet


def _read(space: Any, least: float, unit: str) -> ReadSheet:
    texts = [text_of(entity) for entity in space.query("TEXT")]
    names = names_of(texts, leaders_of(space), least)
    views = _views(space, texts, least, unit, names)
    callouts = callouts_of(space, texts, least, names)
    return ReadSheet(
        unit=unit,
        texts=[text.words for text in texts],
        views=views,
        callouts=callouts,
        later=made_flush_of(texts, names),
    )


def _views(
    space: Any, texts: list[ReadText], least: float, unit: str, names: dict[str, str]
) -> dict[str, ReadView]:
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
    headings = [t for t in texts if t.halign == 1 and not t.is_turned
                and t.layer == "text" and _is_heading(t.words.split(_SAME)[0])]  # fmt: skip
    headings.sort(key=lambda each: _SAME in each.words)
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
        if _SAME in text.words:  # under the heading of the view that it is about
            above = [each for each in views.values() if each.box == box]
            above[0].alike = in_our_terms(text.words.split(_SAME)[0], names)
            continue
        name = in_our_terms(text.words.removeprefix("seen on the "), names).split(" A-A")[0]
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
    """Of a view: a face's name, or that of the edge or the end that it shows."""
    if re.fullmatch(FACE_NAME, words) or words.startswith(("seen on the ", "section ")):
        return True
    return bool(re.fullmatch(r"(?:[a-z0-9]+ )+(?:edge|end)", words))


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
