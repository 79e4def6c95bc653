"""What would lead a reader of the sheets astray, counted on the written documents.

Mates are compared by the side that their printed figures run from, in the piece; nothing of how
the sheets choose a datum is read.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from furniture.joints.joint import Joining
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, dot, scaled
from furniture.pieces.piece import Piece, distinct_parts, placed_named
from furniture.pieces.twins import Flips, twins_of
from tests.exporters.documents import NamedSheet, paper_and_scale
from tests.exporters.sheet_values import ReadSheet
from tests.exporters.sheet_wood import VIEW_AXES

_LEVEL = 0.999
_SAME_MM = 0.0005
_MARK = re.compile(r"[A-Z]{1,2}")


@dataclass(frozen=True, slots=True)
class Astray:
    """What is amiss, and where."""

    what: str
    where: str


def mates_apart(piece: Piece, sheets: Mapping[int, Sequence[ReadSheet]]) -> Iterator[Astray]:
    """Dowelled parts whose figures run from faces that look different ways.

    Args:
        piece: its parts in their places.
        sheets: what was read of each part, by its number in the parts list.
    """
    hands = {twins.second: twins.flips for twins in twins_of(piece)}
    numbers = {
        name: number
        for number, each in enumerate(distinct_parts(piece), start=1)
        for name in each.instances
    }
    for joining in piece.joinings:
        dowel = next((each for each in joining.fasteners if each.is_glued), None)
        if dowel is None:
            continue
        sides = (
            (placed_named(piece, joining.into), scaled(dowel.axis, -1.0)),
            (placed_named(piece, joining.incoming), dowel.axis),
        )
        first, second = (
            list(
                _ways(
                    placed,
                    _face_towards(placed, way),
                    sheets[numbers[placed.instance]],
                    hands.get(placed.part.id, (False, False, False)),
                )
            )
            for placed, way in sides
        )
        for one in first:
            for other in second:
                if dot(one, other) < -_LEVEL:
                    yield Astray("mates from different faces", _named(joining))


def _named(joining: Joining) -> str:
    return f"{joining.incoming} in {joining.into}"


def _face_towards(placed: Placed, way: Vector) -> Face | None:
    """The face of a part that looks one way in the piece."""
    return next(
        (
            face
            for face in Face
            if dot(placed.placement.direction_to_piece(face.normal), way) > _LEVEL
        ),
        None,
    )


def _ways(
    placed: Placed, face: Face | None, sheets: Sequence[ReadSheet], hand: Flips
) -> Iterator[Vector]:
    """The ways that the datums look from which places in a face are printed, in the piece.

    A sheet that shows the other hand is read as in a mirror.
    """
    for sheet in sheets:
        if face is None:
            continue
        flips = hand if sheet.is_mirrored else (False, False, False)
        drawn = face.opposite if flips[face.axis] else face
        seen = sheet.drawn_for(drawn.value)
        view = sheet.views.get(seen)
        if view is None:
            continue
        for is_level, (axis, is_back) in zip((True, False), VIEW_AXES[seen], strict=True):
            for figure in view.running(is_level)[:1]:
                at = 0 if is_level else 1
                runs_up = ((figure.end[at] > figure.start[at]) != is_back) != flips[axis]
                yield scaled(placed.placement.axes[axis], -1.0 if runs_up else 1.0)


def figures_unlike(documents: Iterable[NamedSheet]) -> Iterator[Astray]:
    """One length of one sheet with two texts, such as 13.5 and 13.53.

    Args:
        documents: sheets of the whole piece.
    """
    for named in documents:
        figures = named.document.modelspace().query("DIMENSION")
        yield from _unlike(((_measured(each), each.dxf.text) for each in figures), named.name)


def figures_unlike_of(parts: Mapping[int, Sequence[ReadSheet]]) -> Iterator[Astray]:
    """One length of one part with two texts.

    Args:
        parts: what was read of each part, by its number in the parts list.
    """
    for number, sheets in parts.items():
        views = [view for sheet in sheets for view in sheet.views.values()]
        figures = ((each.measured_mm, each.text) for view in views for each in view.figures)
        yield from _unlike(figures, f"part {number}")


def noughts_alone(parts: Mapping[int, Sequence[ReadSheet]]) -> Iterator[Astray]:
    """Rows of running figures of which none but the datum's nought is there.

    Args:
        parts: what was read of each part, by its number in the parts list.
    """
    for number, sheets in parts.items():
        for view in (view for sheet in sheets for view in sheet.views.values()):
            for is_level in (True, False):
                row = [f for f in view.figures if f.is_running and f.is_level == is_level]
                if row and not view.running(is_level):
                    yield Astray(f"a nought alone in {view.heading}", f"part {number}")


def _unlike(figures: Iterable[tuple[float, str]], where: str) -> Iterator[Astray]:
    said: dict[int, set[str]] = defaultdict(set)
    for mm, text in figures:
        said[round(mm / _SAME_MM)].add(re.sub(r"[(),]", "", text))
    for texts in said.values():
        if len(texts) > 1:
            yield Astray(f"one length told as {' and '.join(sorted(texts))}", where)


def _measured(entity: Any) -> float:
    first, second = (
        (entity.dxf.defpoint2, entity.dxf.defpoint3)
        if entity.dxf.dimtype & 7 == 0
        else (entity.dxf.defpoint, entity.dxf.defpoint2)
    )
    is_level = (
        abs(entity.dxf.angle) < 1 if entity.dxf.dimtype & 7 == 0 else bool(entity.dxf.dimtype & 64)
    )
    raw = abs(second.x - first.x) if is_level else abs(second.y - first.y)
    return float(raw) * float(entity.override().get("dimlfac", 1.0))


_PROJECTED = {"named end": (0, -1), "far end": (0, 1), "face edge": (1, -1), "back edge": (1, 1),
              "back side": (1, -1)}  # fmt: skip
"""Where third angle sets each view: the axis of the paper it is moved along, and which way.

Third angle sets a view on the side that it is seen from, first angle on the other (ISO 5456-2).
The main view shows the face side with the named end to the left.
"""


def views_out_of_place(parts: Mapping[int, Sequence[ReadSheet]]) -> Iterator[Astray]:
    """Views that do not stand where the stated angle of projection has them, or not in line.

    Args:
        parts: what was read of each part, by its number in the parts list.
    """
    for number, sheets in parts.items():
        for sheet in sheets:
            main = sheet.views["face side"].box
            for name, view in sheet.views.items():
                if name not in _PROJECTED:
                    continue
                axis, way = _PROJECTED[name]
                way *= 1 if sheet.is_third_angle else -1
                is_beside = (
                    view.box[axis] > main[axis + 2] if way > 0 else view.box[axis + 2] < main[axis]
                )
                off = max(abs(view.box[at] - main[at]) for at in (1 - axis, 3 - axis))
                if not is_beside or off > 0.01 * (main[2] - main[0]):
                    yield Astray(f"{name} is not where the projection has it", f"part {number}")


def letters_astray(documents: Iterable[NamedSheet]) -> Iterator[Astray]:
    """Planes that are marked and not drawn, sections and details that are marked nowhere.

    Letters of a part hold on its own sheets, those of the whole piece on all of its sheets.

    Args:
        documents: the sheets of one part, or those of the whole piece.
    """
    marked: set[str] = set()
    headed: set[str] = set()
    for named in documents:
        for text in named.document.modelspace().query("TEXT"):
            if _MARK.fullmatch(text.dxf.text) and text.dxf.halign in (0, 1):
                marked.add(text.dxf.text)
            found = re.match(r"(?:section ([A-Z]+)-\1|detail ([A-Z]+))\b", text.dxf.text)
            if found:
                headed.add(found[1] or found[2])
    for letter in sorted(marked - headed):
        yield Astray(f"{letter} is marked and not drawn", "sections")
    for letter in sorted(headed - marked):
        yield Astray(f"{letter} is drawn and marked nowhere", "sections")


def leaders_crossed(named: NamedSheet) -> Iterator[Astray]:
    """Leaders of different words that cross each other.

    Args:
        named: a sheet.
    """
    scale = paper_and_scale(named.document).reduction
    lines = [
        ((line.dxf.start.x / scale, line.dxf.start.y / scale),
         (line.dxf.end.x / scale, line.dxf.end.y / scale))
        for line in named.document.modelspace().query("LINE")
        if line.dxf.layer == "leader"
    ]  # fmt: skip
    for one, other in combinations(lines, 2):
        if _cross(one, other):
            x, y = one[1]
            yield Astray(f"leaders cross near {x:.0f}, {y:.0f}", named.name)


_Point = tuple[float, float]


def _cross(one: tuple[_Point, _Point], other: tuple[_Point, _Point]) -> bool:
    """Whether two lines cross inside both; those that share an end do not."""

    def turn(a: _Point, b: _Point, c: _Point) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    (a, b), (c, d) = one, other
    slack = -1e-6
    return turn(a, b, c) * turn(a, b, d) < slack and turn(c, d, a) * turn(c, d, b) < slack
