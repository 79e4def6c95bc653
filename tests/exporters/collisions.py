"""What runs into what on a sheet, measured on the document as it is written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
import shapely
from ezdxf.path import make_path
from numpy.typing import NDArray

from exporters.sheets.dxf import TEXT_STYLE
from exporters.sheets.geometry import lettering_box
from exporters.sheets.paper import FILING_MARGIN_MM, MARGIN_MM, Box2, box_round
from exporters.sheets.values import Anchor, Lettering
from furniture.parts.vectors import Point2
from tests.exporters.documents import paper_and_scale

LEAST_TEXT_MM = 2.5
"""The lowest lettering on paper [mm]. **Source:** ISO 3098-1 series (from memory)."""
_TOUCH_MM = 0.15
_FLATNESS_MM = 0.2
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Collision:
    """Two things on a sheet that run into each other, and where on paper [mm]."""

    what: str
    with_what: str
    at: Point2


@dataclass(frozen=True, slots=True)
class _Text:
    """A text, the number of the dimension that it belongs to, and whether it is all of that.

    A fraction is set of several texts, and a line that runs between them is read as part of it: so
    the texts of a dimension are held as a whole too.
    """

    words: str
    box: Box2
    height: float
    of: int | None = None
    is_whole: bool = False

    def goes_with(self, other: _Text) -> bool:
        """Whether one of the two is the whole that the other is a piece of."""
        return self.of is not None and self.of == other.of and self.is_whole != other.is_whole


@dataclass(frozen=True, slots=True)
class _Segment:
    layer: str
    start: Point2
    end: Point2
    of: int | None = None

    def is_slash_of(self, text: _Text) -> bool:
        """Whether it is drawn inside the whole of its own dimension's texts."""
        if not text.is_whole or text.of != self.of:
            return False
        box = text.box.grown(0.01)
        return all(
            box.left <= x <= box.right and box.bottom <= y <= box.top
            for x, y in (self.start, self.end)
        )


def collisions_in(document: Any) -> tuple[Collision, ...]:
    """Every text that runs into a text, a line, hatching or the frame, or is too small to read.

    Args:
        document: an ezdxf document of a sheet, as made or read back.
    """
    page = paper_and_scale(document)
    texts = list(_texts(document, page.reduction))
    segments = list(_segments(document, page.reduction))
    frame = Box2(
        left=FILING_MARGIN_MM,
        bottom=MARGIN_MM,
        right=page.width_mm - MARGIN_MM,
        top=page.height_mm - MARGIN_MM,
    )
    found = [*_between_texts(texts), *_with_lines(texts, segments)]
    for text in texts:
        if not frame.holds(text.box):
            found.append(Collision(what=text.words, with_what="frame", at=text.box.centre))
        if text.height < LEAST_TEXT_MM - 0.01:
            found.append(Collision(what=text.words, with_what="least height", at=text.box.centre))
    for segment in segments:
        for x, y in (segment.start, segment.end):
            inside = frame.grown(0.01)
            if not (inside.left <= x <= inside.right and inside.bottom <= y <= inside.top):
                found.append(Collision(what=segment.layer, with_what="frame", at=(x, y)))
    return tuple(found)


def _between_texts(texts: list[_Text]) -> Iterator[Collision]:
    sides = np.array([_sides(each.box) for each in texts]).reshape(-1, 4)
    for index, first in enumerate(texts):
        box = first.box.grown(-_TOUCH_MM)
        for other in index + 1 + _near(box, sides[index + 1 :, :2], sides[index + 1 :, 2:]):
            second = texts[other]
            if not first.goes_with(second):
                yield Collision(
                    what=first.words, with_what=f"text: {second.words}", at=first.box.centre
                )


def _with_lines(texts: list[_Text], segments: list[_Segment]) -> Iterator[Collision]:
    starts = np.array([each.start for each in segments]).reshape(-1, 2)
    ends = np.array([each.end for each in segments]).reshape(-1, 2)
    low, high = np.minimum(starts, ends), np.maximum(starts, ends)
    for text in texts:
        box = text.box.grown(-_TOUCH_MM)
        room = shapely.box(*_sides(box))
        for index in _near(box, low, high):
            segment = segments[index]
            if not segment.is_slash_of(text) and _enters(segment, room):
                yield Collision(
                    what=text.words, with_what=f"line: {segment.layer}", at=text.box.centre
                )
                break


def _sides(box: Box2) -> tuple[float, float, float, float]:
    return (box.left, box.bottom, box.right, box.top)


def _near(box: Box2, low: Floats, high: Floats) -> NDArray[np.intp]:
    """Which of the upright boxes between corners low and high share a point with the inside."""
    left, bottom, right, top = _sides(box)
    return np.flatnonzero(
        (low[:, 0] < right) & (high[:, 0] > left) & (low[:, 1] < top) & (high[:, 1] > bottom)
    )


def _enters(segment: _Segment, room: shapely.Polygon) -> bool:
    """Whether a line has a point inside the room, given that the box round it has."""
    if segment.start == segment.end:
        return True
    line = shapely.LineString([segment.start, segment.end])
    return bool(line.intersects(room) and not line.touches(room))


def _entities(document: Any) -> Iterator[tuple[int | None, Any]]:
    """Everything that is drawn, with the number of the dimension that it belongs to."""
    for number, entity in enumerate(document.modelspace()):
        if entity.dxftype() == "DIMENSION":
            for drawn in entity.virtual_entities():
                yield number, drawn
        else:
            yield None, entity


def _texts(document: Any, reduction: float) -> Iterator[_Text]:
    pieces = list(_pieces(document, reduction))
    yield from pieces
    for number in dict.fromkeys(each.of for each in pieces if each.of is not None):
        own = [each for each in pieces if each.of == number]
        if len(own) > 1:
            yield _Text(
                words=" ".join(each.words for each in own),
                box=box_round([each.box for each in own]),
                height=min(each.height for each in own),
                of=number,
                is_whole=True,
            )


def _pieces(document: Any, reduction: float) -> Iterator[_Text]:
    for number, entity in _entities(document):
        if entity.dxftype() != "TEXT":
            continue
        anchors = {0: Anchor.LEFT, 1: Anchor.CENTRE, 2: Anchor.RIGHT}
        at = entity.dxf.insert if entity.dxf.halign == 0 else entity.dxf.align_point
        height = float(entity.dxf.height) / reduction
        lettering = Lettering(
            text=entity.dxf.text,
            at=(at.x / reduction, at.y / reduction),
            height=height,
            anchor=anchors[entity.dxf.halign],
            is_turned=abs(entity.dxf.rotation - 90.0) < 1e-6,
        )
        assert entity.dxf.style == TEXT_STYLE
        box = lettering_box(lettering)
        yield _Text(words=entity.dxf.text, box=box, height=height, of=number)


def _segments(document: Any, reduction: float) -> Iterator[_Segment]:
    for number, entity in _entities(document):
        kind, layer = entity.dxftype(), entity.dxf.layer
        if kind in ("LINE", "ARC", "CIRCLE", "ELLIPSE", "LWPOLYLINE", "SOLID"):
            points = make_path(entity).flattening(_FLATNESS_MM * reduction)
            yield from _chain(layer, points, reduction, number)
        elif kind == "HATCH":
            for boundary in entity.paths:
                vertices = list(boundary.vertices)
                yield from _chain(layer, [*vertices, vertices[0]], reduction)


def _chain(
    layer: str, points: Iterable[Any], reduction: float, of: int | None = None
) -> Iterator[_Segment]:
    plain = [(point[0] / reduction, point[1] / reduction) for point in points]
    for start, end in pairwise(plain):
        yield _Segment(layer=layer, start=start, end=end, of=of)
