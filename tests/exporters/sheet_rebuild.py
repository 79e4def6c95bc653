"""Rebuilds a part from what `sheet_reader` read, with plain boxes, cylinders and wedges.

Independent of the project's cuts: the words are parsed here and the shapes are made here.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any

import cadquery as cq

from tests.exporters.sheet_reader import (
    ReadCallout,
    ReadFigure,
    ReadSheet,
    ReadView,
    figure_mm,
)

_F = r"(~?\d[\d./]*(?: \d+/\d+)?(?: \([\d.]+\))?)"
_OVER = 5.0


@dataclass
class Wood:
    """The blank as read [mm]."""

    length: float
    width: float
    thickness: float

    @property
    def size(self) -> tuple[float, float, float]:
        """Length, width, thickness [mm]."""
        return (self.length, self.width, self.thickness)


def rebuilt(first: ReadSheet, *others: ReadSheet) -> Any:
    """The solid that a part's sheet describes, or the sheets that it is shared out over."""
    sheet = first
    face = sheet.views["face side"]
    length, width = face.span(True), face.span(False)
    thickness = None
    for name, view in sheet.views.items():
        if name != "face side":
            thickness = thickness or view.span(name in ("section", "named end", "far end"))
    assert length, "the length is missing"
    assert width, "the width is missing"
    assert thickness, "the thickness is missing"
    wood = Wood(length, width, thickness)
    solid = cq.Workplane().box(*wood.size, centered=False)
    for each in (first, *others):
        for callout in each.callouts:
            for tool in _tools(callout, each, wood):
                solid = solid.cut(tool)
    return solid.val()


def _upright_scale(view: ReadView, size: float) -> float:
    """Drawn length of one mm, taken across the part: a view may be broken along it."""
    return (view.box[3] - view.box[1]) / size


def _said_near(figures: list[ReadFigure], axis: int, at: float) -> float:
    """What the running figure says whose extension line ends nearest to a drawn place [mm]."""
    return min(figures, key=lambda figure: abs(figure.end[axis] - at)).said_mm


def _tools(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    for pattern, make in (
        (r"(?:\d+ )?dado", _dados),
        (r"(?:\d+ )?groove", _grooves),
        (r"rabbet", _rabbets),
        (r"(?:flat )?mitre|bevel", _slopes),
        (r"(?:\d+ )?bore", _bores),
        (r"(?:\d+ )?slot", _slots),
        (r"(?:\d+ )?notch", _notches),
        (r"(?:\d+ )?finger notch", _finger_notches),
        (r"round-over|chamfer", _profiles),
    ):
        if re.match(pattern, words):
            return make(callout, sheet, wood)
    raise AssertionError(f"not understood: {words}")


def _mm(text: str, sheet: ReadSheet) -> float:
    return figure_mm(text, sheet.unit)


def _box(low: list[float], high: list[float]) -> Any:
    size = [b - a for a, b in zip(low, high, strict=True)]
    return cq.Workplane().box(*size, centered=False).translate(tuple(low))


def _slab(wood: Wood, axis: int, is_far: bool, deep: float) -> tuple[list[float], list[float]]:
    """A layer of the blank under one of its faces, reaching past everything else."""
    low, high = [-_OVER] * 3, [size + _OVER for size in wood.size]
    if is_far:
        low[axis] = wood.size[axis] - deep
    else:
        high[axis] = deep
    return low, high


FACES = {
    "named end": (0, False), "far end": (0, True), "face edge": (1, False),
    "back edge": (1, True), "back side": (2, False), "face side": (2, True),
}  # fmt: skip


BOTH = {"both ends": ("named end", "far end"), "both edges": ("face edge", "back edge")}


def _count(words: str) -> int:
    found = re.match(r"(\d+) ", words)
    return int(found[1]) if found else 1


def _stop(words: str, where: str, sheet: ReadSheet) -> float:
    found = re.search(rf"stopped {_F} from {where}", words)
    return _mm(found[1], sheet) if found else 0.0


def _radius(words: str, sheet: ReadSheet) -> float:
    found = re.search(rf"corners R{_F}", words)
    return _mm(found[1], sheet) if found else 0.0


def _dados(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(rf"{_F} wide x {_F} deep, (.*), in (face side|back side)", words)
    assert found, words
    wide, deep = _mm(found[1], sheet), _mm(found[2], sheet)
    face = found[4]
    view = sheet.views[face]
    figures = view.running(True)
    shoulders = [f.said_mm for f in figures]
    everyone = [c for c in sheet.callouts if re.match(r"(\d+ )?dado", c.words) and face in c.words]
    if len(everyone) > 1 or len(shoulders) != _count(words):
        half = wide / 2 * _upright_scale(view, wood.width)
        shoulders = [_said_near(figures, 0, target[0] - half) for target in callout.targets]
    low_stop = _stop(words, "face edge", sheet)
    high_stop = _stop(words, "back edge", sheet)
    radius = _radius(words, sheet)
    tools = []
    for shoulder in shoulders:
        low, high = _slab(wood, *FACES[face], deep)
        low[0], high[0] = shoulder, shoulder + wide
        low[1] = low_stop if low_stop else -_OVER
        high[1] = wood.width - high_stop if high_stop else wood.width + _OVER
        tool = _box(low, high)
        if radius and low_stop:
            tool = tool.faces("<Y").edges("|Z").fillet(radius - 1e-6)
        if radius and high_stop:
            tool = tool.faces(">Y").edges("|Z").fillet(radius - 1e-6)
        tools.append(tool)
    return tools


def _grooves(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(rf"{_F} wide x {_F} deep, along the grain, (.*), in ([a-z]+ [a-z]+)", words)
    assert found, words
    wide, deep = _mm(found[1], sheet), _mm(found[2], sheet)
    face = found[4]
    axis, is_far = FACES[face]
    view = sheet.views["section"]
    figures = view.running(axis == 1)
    target = callout.targets[0][0 if axis == 1 else 1]
    left, low_y, right, _ = view.box
    scale = (right - left) / wood.thickness
    # Level figures run from the face side, which stands to the left in the section.
    at = (target - (left if axis == 1 else low_y)) / scale
    offset = min((f.said_mm for f in figures), key=lambda v: abs(v + wide / 2 - at))
    low, high = _slab(wood, axis, is_far, deep)
    if axis == 2:
        low[1], high[1] = offset, offset + wide
    else:
        low[2], high[2] = wood.thickness - offset - wide, wood.thickness - offset
    near, far = _stop(words, "named end", sheet), _stop(words, "far end", sheet)
    low[0] = near if near else -_OVER
    high[0] = wood.length - far if far else wood.length + _OVER
    tool = _box(low, high)
    radius = _radius(words, sheet)
    along = "|Z" if axis == 2 else "|Y"
    if radius and near:
        tool = tool.faces("<X").edges(along).fillet(radius - 1e-6)
    if radius and far:
        tool = tool.faces(">X").edges(along).fillet(radius - 1e-6)
    return [tool]


def _places(words: str) -> list[str]:
    """The places of a shared callout, one by one."""
    places = []
    for place in words.split(": ", 1)[1].split("; "):
        if "both ends" in place:
            places += [place.replace("both ends", end) for end in ("named end", "far end")]
        elif "both edges" in place:
            places += [place.replace("both edges", edge) for edge in ("face edge", "back edge")]
        else:
            places.append(place)
    return places


def _rabbets(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(rf"{_F} down x {_F} into the thickness", callout.words)
    assert found, callout.words
    down, into = _mm(found[1], sheet), _mm(found[2], sheet)
    tools = []
    for place in _places(callout.words):
        where = re.match(r"along ([a-z]+ [a-z]+), on ([a-z]+ [a-z]+)", place)
        assert where, place
        edge, face = FACES[where[1]], FACES[where[2]]
        low, high = _slab(wood, *edge, down)
        other_low, other_high = _slab(wood, *face, into)
        low[2], high[2] = other_low[2], other_high[2]
        run = 1 - edge[0]
        names = ("named end", "far end") if run == 0 else ("face edge", "back edge")
        first, last = (_stop(callout.words, name, sheet) for name in names)
        low[run] = first if first else low[run]
        high[run] = wood.size[run] - last if last else high[run]
        tools.append(_box(low, high))
    return tools


def _slopes(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(r"([\d.]+)°", callout.words)
    assert found, callout.words
    slope = math.tan(math.radians(float(found[1])))
    tools = []
    for place in _places(callout.words):
        where = re.match(r"([a-z]+ [a-z]+), long point on ([a-z]+ [a-z]+)", place)
        assert where, place
        (run, run_far), (rise, rise_far) = FACES[where[1]], FACES[where[2]]
        third = 3 - run - rise
        extent, depth = wood.size[run], wood.size[rise]
        corners = []
        for out, down in ((0.0, 0.0), (depth * slope, depth), (-_OVER, depth), (-_OVER, 0.0)):
            point = [0.0, 0.0, 0.0]
            point[run] = extent - out if run_far else out
            point[rise] = depth - down if rise_far else down
            point[third] = -_OVER
            corners.append(cq.Vector(*point))
        wire = cq.Wire.makePolygon([*corners, corners[0]])
        way = [0.0, 0.0, 0.0]
        way[third] = wood.size[third] + 2 * _OVER
        tools.append(cq.Workplane(cq.Solid.extrudeLinear(wire, [], cq.Vector(*way))))
    return tools


VIEW_AXES = {  # the part axis and its sense that lies level and upright in each view
    "face side": ((0, False), (1, False)), "back side": ((0, False), (1, True)),
    "face edge": ((0, False), (2, False)), "back edge": ((0, False), (2, True)),
    "named end": ((2, False), (1, False)), "far end": ((2, True), (1, False)),
}  # fmt: skip


def _centres(
    callout: ReadCallout, sheet: ReadSheet, wood: Wood, face: str
) -> list[dict[int, float]]:
    """For every target of a callout, the two running figures that place it, by part axis [mm]."""
    view = sheet.views[face]
    (level_axis, _), (upright_axis, _) = VIEW_AXES[face]
    targets = callout.targets
    if len(targets) < _count(callout.words):
        radius = float("nan")
        size = re.search(rf"countersunk dia {_F}|dia {_F}", callout.words)
        if size:
            radius = _mm(size[1] or size[2], sheet) / 2
        scale = _upright_scale(view, wood.size[upright_axis])
        targets = [(x, y) for x, y, r in view.circles if abs(r / scale - radius) < 0.02]
    found = []
    for target in targets:
        place = {}
        for is_level, axis in ((True, level_axis), (False, upright_axis)):
            figures = [f for f in view.figures if f.is_running and f.is_level == is_level]
            best = min(figures, key=lambda f: abs(f.end[not is_level] - target[not is_level]))
            value = best.said_mm
            place[axis] = wood.thickness - value if axis == 2 else value
        found.append(place)
    return found


def _bores(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(rf"dia {_F}, (through|{_F} deep)(.*), from ([a-z ;]+)$", words)
    assert found, words
    radius = _mm(found[1], sheet) / 2
    sink = re.search(rf"countersunk dia {_F}", words)
    tools = []
    faces = [name for place in found[5].split("; ") for name in BOTH.get(place, (place,))]
    placed = [(face, at) for face in faces for at in _centres(callout, sheet, wood, face)]
    for face, place in placed:
        axis, is_far = FACES[face]
        deep = wood.size[axis] + _OVER if found[2] == "through" else _mm(found[3], sheet)
        start = [place.get(other, 0.0) for other in range(3)]
        start[axis] = wood.size[axis] if is_far else 0.0
        way = [0.0, 0.0, 0.0]
        way[axis] = -1.0 if is_far else 1.0
        tools.append(
            cq.Workplane(cq.Solid.makeCylinder(radius, deep, cq.Vector(*start), cq.Vector(*way)))
        )
        if sink:
            mouth = _mm(sink[1], sheet) / 2
            tools.append(
                cq.Workplane(
                    cq.Solid.makeCone(
                        mouth, radius, mouth - radius, cq.Vector(*start), cq.Vector(*way)
                    )
                )
            )
    return tools


def _slots(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(
        rf"{_F} long x {_F} wide, round ends, (along|across) the grain, (through|{_F} deep), "
        r"from ([a-z]+ [a-z]+)", words,
    )  # fmt: skip
    assert found, words
    long, wide = _mm(found[1], sheet), _mm(found[2], sheet)
    face = found[6]
    deep = wood.thickness + _OVER if found[4] == "through" else _mm(found[5], sheet)
    tools = []
    for place in _centres(callout, sheet, wood, face):
        half = (long / 2, wide / 2) if found[3] == "along" else (wide / 2, long / 2)
        low, high = _slab(wood, *FACES[face], deep)
        for axis in (0, 1):
            low[axis], high[axis] = place[axis] - half[axis], place[axis] + half[axis]
        tools.append(_box(low, high).edges("|Z").fillet(wide / 2 - 1e-6))
    return tools


def _along_edge(sheet: ReadSheet, wood: Wood, edge: str) -> list[ReadFigure]:
    """Running figures along an edge or an end."""
    axis, _ = FACES[edge]
    is_level = axis == 1
    view = sheet.views["face side"]
    figures = [f for f in view.figures if f.is_running and f.is_level == is_level]
    edge_at = {
        "named end": view.box[0], "far end": view.box[2],
        "face edge": view.box[1], "back edge": view.box[3],
    }[edge]  # fmt: skip
    others = [f for f in figures if abs(f.end[is_level] - edge_at) < 0.02 * wood.length]
    return others or figures


def _notches(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(rf"{_F} long x {_F} deep(.*), from ([a-z]+ [a-z]+)", callout.words)
    assert found, callout.words
    long, deep = _mm(found[1], sheet), _mm(found[2], sheet)
    edges = BOTH.get(found[4], (found[4],))
    run = 1 - FACES[edges[0]][0]
    view = sheet.views["face side"]
    half = long / 2 * _upright_scale(view, wood.width)
    figures = [figure for edge in edges for figure in _along_edge(sheet, wood, edge)]
    values = [figure.said_mm for figure in figures]
    starts = [_said_near(figures, run, target[run] - half) for target in callout.targets]
    if len(starts) * len(edges) < _count(callout.words):  # alone in its view: all are its own
        starts = [v for v in dict.fromkeys(values) if v > 0]
        starts += [0.0] * (_count(callout.words) // len(edges) - len(starts))
    radius = _radius(callout.words, sheet)
    return [_bite(wood, edge, (start, long, deep), radius) for edge in edges for start in starts]


def _bite(wood: Wood, edge: str, cut: tuple[float, float, float], radius: float) -> Any:
    """A notch of this start, length and depth [mm] out of one edge or end."""
    start, long, deep = cut
    axis, is_far = FACES[edge]
    run = 1 - axis
    low, high = _slab(wood, axis, is_far, deep)
    low[run] = start if start > 1e-9 else -_OVER
    ends_inside = start + long < wood.size[run] - 0.2
    high[run] = start + long if ends_inside else wood.size[run] + _OVER
    tool = _box(low, high)
    if radius:
        tool = tool.faces(f"{'<' if is_far else '>'}{'XY'[axis]}").edges("|Z").fillet(radius)
    return tool


def _finger_notches(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(rf"R{_F}, half round, centred on ([a-z]+ [a-z]+)", callout.words)
    assert found, callout.words
    radius, edge = _mm(found[1], sheet), found[2]
    axis, is_far = FACES[edge]
    run = 1 - axis
    figures = _along_edge(sheet, wood, edge)
    tools = []
    for target in callout.targets:
        centre = [0.0, 0.0, -_OVER]
        centre[run] = _said_near(figures, run, target[run])
        centre[axis] = wood.size[axis] if is_far else 0.0
        tools.append(
            cq.Workplane(
                cq.Solid.makeCylinder(
                    radius, wood.thickness + 2 * _OVER, cq.Vector(*centre), cq.Vector(0, 0, 1)
                )
            )
        )
    return tools


def _profiles(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    is_round = callout.words.startswith("round-over")
    found = re.search(rf"R{_F}|chamfer {_F} x 45°", callout.words)
    assert found, callout.words
    size = _mm(found[1] or found[2], sheet)
    tools = []
    for place in _profile_places(callout.words):
        first, second = (FACES[name] for name in place)
        run = 3 - first[0] - second[0]
        low, high = _slab(wood, *first, size)
        other_low, other_high = _slab(wood, *second, size)
        low[second[0]], high[second[0]] = other_low[second[0]], other_high[second[0]]
        tool = _box(low, high)
        start, way = [0.0, 0.0, 0.0], [0.0, 0.0, 0.0]
        for axis, is_far in (first, second):
            start[axis] = wood.size[axis] - size if is_far else size
        start[run] = -_OVER
        way[run] = 1.0
        long = wood.size[run] + 2 * _OVER
        if is_round:
            keep = cq.Solid.makeCylinder(size, long, cq.Vector(*start), cq.Vector(*way))
        else:
            keep = _diagonal(wood, first, second, run, size, long)
        tools.append(tool.cut(cq.Workplane(keep)))
    return tools


def _diagonal(
    wood: Wood,
    first: tuple[int, bool],
    second: tuple[int, bool],
    run: int,
    size: float,
    long: float,
) -> Any:
    """The wood that a chamfer leaves of its square: the triangle inside the slope."""
    corners = []
    for a, b in ((size, 0.0), (size, size), (0.0, size)):
        point = [0.0, 0.0, 0.0]
        for (axis, is_far), inset in ((first, a), (second, b)):
            point[axis] = wood.size[axis] - inset if is_far else inset
        point[run] = -_OVER
        corners.append(cq.Vector(*point))
    way = [0.0, 0.0, 0.0]
    way[run] = long
    wire = cq.Wire.makePolygon([*corners, corners[0]])
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(*way))


def _profile_places(words: str) -> list[tuple[str, str]]:
    return [(a, b) for a, b in (place.split(" / ") for place in _places(words))]
