"""Clamps of a stage: lines of force through what stands there, their pads, and bands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from furniture.assembly.seen import Floats, Sheet, turn_of
from furniture.joints.joint import Joining, JointFace
from furniture.joints.reading import is_face_to_face
from furniture.making.glue_ups.cycles import Edge, on_cycles
from furniture.making.glue_ups.looked import Bodies, Looked, Rigid
from furniture.making.glue_ups.values import Band, Caul, ClampLine, Pad, Pair
from furniture.parts.vectors import Vector, add, cross, dot, length, scaled, subtract, unit
from furniture.rules.bench import GLUE_LINE

_CLOSING = 0.1
"""A clamp presses a face whose normal has this share along the way in; less is a wall. Own rule."""
_LEVEL_MM = 0.1
"""Wood that lies so little below the highest bears too: the head and the wood give. Own rule."""
_SQUARE = 1e-3
_SLANTS = math.tan(math.radians(15.0))
"""A flat face that leans by more lets a head slip. Own rule."""
_FINE = 4
_WHOLE = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """Of a clamp: how wide and how deep [mm], and what goes below it.

    bears: what share of it must bear square without a caul; least_block_mm: the narrowest block
    that lifts it; slender: how many times as high as wide that is at most; bar_mm: thickness of the
    clamp's bar.
    """

    wide_mm: float
    deep_mm: float
    bears: float
    least_block_mm: float
    slender: float
    bar_mm: float


def bands_of(looked: Looked, lot: Bodies, mitres: Sequence[Joining]) -> tuple[Band, ...]:
    """A band round every closed ring of mitres that a stage closes.

    Args:
        looked: the piece.
        lot: the bodies that become one.
        mitres: those that close between them.
    """
    number = {row: index for index, body in enumerate(lot) for row in body}
    edges = [
        Edge(number[a], number[b], index)
        for index, (a, b) in enumerate(looked.ends_of(each) for each in mitres)
    ]
    return tuple(_band([mitres[edge.payload] for edge in ring]) for ring in on_cycles(edges))


def _band(ring: Sequence[Joining]) -> Band:
    normals = [each.glued_faces[0].normal for each in ring]
    axis = next(
        (cross(normals[0], each) for each in normals if length(cross(normals[0], each)) > _CLOSING),
        ring[0].glued_faces[0].along,
    )
    if max(axis, key=abs) < 0.0:
        axis = scaled(axis, -1.0)
    x, y, z = unit(axis)
    return Band(
        round=tuple(dict.fromkeys(name for each in ring for name in (each.into, each.incoming))),
        axis=(x + 0.0, y + 0.0, z + 0.0),
        pressed=tuple((each.into, each.incoming) for each in ring),
    )


def clamp_lines_of(
    looked: Looked, whole: Rigid, joinings: Sequence[Joining], head: Head
) -> tuple[ClampLine, ...]:
    """The lines of force that press the glued faces of some joints, those on one line together.

    Args:
        looked: the piece.
        whole: all that stands in the stage, rows.
        joinings: what a clamp presses; bands press the others.
        head: of a clamp.
    """
    lines: dict[tuple[float, ...], list[_Lot]] = {}
    for lot in _lots(joinings):
        u, v, _ = (turn_of(lot.way) @ np.array(lot.middle)).tolist()
        key = (*(round(value, 3) + 0.0 for value in lot.way), round(u, 1), round(v, 1))
        lines.setdefault(key, []).append(lot)
    return tuple(
        line for lots in lines.values() for line in _lines_through(looked, whole, lots, head)
    )


def _lines_through(
    looked: Looked, whole: Rigid, lots: Sequence[_Lot], head: Head
) -> Iterable[ClampLine]:
    """One line for all that lies on it, or several where the wood between them breaks off."""
    waiting = list(lots)
    while waiting:
        first = waiting.pop(0)
        way = first.way
        for pads in _best_pads(looked, whole, first, head):
            near, far = sorted(dot(way, pad.at) for pad in pads)
            between = [each for each in waiting if near < dot(way, each.middle) < far]
            waiting = [each for each in waiting if each not in between]
            yield ClampLine(
                direction=way,
                pads=pads,
                pressed=tuple(
                    (pair, face) for each in (first, *between) for pair, face in each.pressed
                ),
                throat_mm=_throat_mm(looked, whole, way, pads, head.bar_mm),
            )


def _throat_mm(
    looked: Looked, whole: Rigid, way: Vector, pads: tuple[Pad, Pad], bar_mm: float
) -> float:
    """How far in a line lies from where a bar passes all wood between its heads [mm].

    A bar passes outside, or through a gap that is wide enough for it.
    """
    turn, rows = turn_of(way), sorted(whole)
    ends = sorted(
        (float((turn @ np.array(pad.at))[2]) + sign * pad.rise_mm)
        for pad, sign in zip(pads, (-1.0, 1.0), strict=True)
    )
    outlines, before = [], []
    for sheet in looked.scene.seen(way):
        own = sheet.only(np.isin(sheet.owner, rows))
        is_between = (own.farthest >= ends[0] - _LEVEL_MM) & (own.nearest <= ends[1] + _LEVEL_MM)
        outlines.append(own.outline[is_between])
        before.append(own.only(own.farthest < ends[0] - _LEVEL_MM))
    shadow = shapely.union_all([*np.concatenate(outlines), *_going_on(before)])
    shadow = shadow.buffer(bar_mm / 2, quad_segs=_FINE).buffer(-bar_mm / 2, quad_segs=_FINE)
    u, v, _ = (turn @ np.array(pads[0].at)).tolist()
    point = shapely.Point(u, v)
    return float(point.distance(shadow.boundary)) if shadow.contains(point) else 0.0


def _going_on(before: Sequence[Sheet]) -> Iterable[shapely.Geometry]:
    """What of each part a line is still in that has passed those of its facets.

    A line goes in by one facet and out by the next, so it is in wood where it has passed an odd
    number of them.
    """
    owners = np.concatenate([sheet.owner for sheet in before])
    outlines = np.concatenate([sheet.outline for sheet in before])
    for owner in np.unique(owners):
        yield shapely.symmetric_difference_all(outlines[owners == owner])


def has_room(line: ClampLine) -> bool:
    """Whether both heads of a line have room, be it on a block.

    Args:
        line: of force.
    """
    return all(pad.caul is not Caul.NO_ROOM for pad in line.pads)


def without_room(lines: Iterable[ClampLine], joinings: Iterable[Joining]) -> tuple[Pair, ...]:
    """The joints that no clamp presses: no line goes through them, or a head has no room.

    Args:
        lines: of a stage.
        joinings: what a clamp should press.
    """
    pressed = {pair for line in lines if has_room(line) for pair, _ in line.pressed}
    wanted = dict.fromkeys((each.into, each.incoming) for each in joinings)
    return tuple(pair for pair in wanted if pair not in pressed)


@dataclass(frozen=True, slots=True)
class _Lot:
    """Faces of joints that are pressed together along a way, and in which middle."""

    way: Vector
    pressed: tuple[tuple[Pair, JointFace], ...]

    @property
    def faces(self) -> list[JointFace]:
        return [face for _, face in self.pressed]

    @property
    def middle(self) -> Vector:
        return _point_of(self.faces)


def _lots(joinings: Sequence[Joining]) -> Iterable[_Lot]:
    """What one line of force presses: the faces of a joint that look one way.

    A part that is only stuck on by a face, on two rails at their corner, is pressed in its middle.
    """
    lots: dict[object, tuple[Vector, list[tuple[Pair, JointFace]]]] = {}
    for each in joinings:
        pair = (each.into, each.incoming)
        for way, faces in _pressed(each):
            stuck = (each.incoming, way) if is_face_to_face(each) else (pair, way)
            lots.setdefault(stuck, (way, []))[1].extend((pair, face) for face in faces)
    return [_Lot(way, tuple(pressed)) for way, pressed in lots.values()]


def _pressed(joining: Joining) -> Iterable[tuple[Vector, list[JointFace]]]:
    """The glued faces that close along the way in, by the line of force; walls are not pressed."""
    way = joining.ways_in[0] if joining.ways_in else joining.faces[0].normal
    lots: dict[Vector, list[JointFace]] = {}
    for face in joining.glued_faces:
        if face.play_mm <= GLUE_LINE.value and abs(dot(face.normal, way)) > _CLOSING:
            lots.setdefault(_line(face.normal), []).append(face)
    if not lots:  # only walls take glue: the part is still pressed home
        lots[_line(way)] = list(joining.glued_faces or joining.faces)
    return lots.items()


def _line(way: Vector) -> Vector:
    x, y, z = (value + 0.0 for value in way)
    sign = 1.0 if max((x, y, z), key=abs) > 0.0 else -1.0
    return (sign * x + 0.0, sign * y + 0.0, sign * z + 0.0)


def _point_of(faces: Sequence[JointFace]) -> Vector:
    """Where to press: the middle of all, or of the largest where that lies on none of them."""
    middle = _middle(faces)
    is_on_one = any(
        abs(dot(subtract(middle, face.centre), face.along)) <= face.run_mm / 2
        and abs(dot(subtract(middle, face.centre), cross(face.normal, face.along)))
        <= face.deep_mm / 2
        for face in faces
    )
    return middle if is_on_one else max(faces, key=lambda face: face.area_mm2).centre


def _middle(faces: Sequence[JointFace]) -> Vector:
    total = sum(face.area_mm2 for face in faces)
    at: Vector = (0.0, 0.0, 0.0)
    for face in faces:
        share = face.area_mm2 / total if total else 1.0 / len(faces)
        at = add(at, scaled(face.centre, share))
    return at


_RANKS = {Caul.BLOCK: 1, Caul.NO_ROOM: 2}


def _best_pads(looked: Looked, whole: Rigid, lot: _Lot, head: Head) -> Iterable[tuple[Pad, Pad]]:
    """The pads in the middle of what is pressed; where a head has no room, beside it."""
    way = lot.way
    best: tuple[int, tuple[Pad, Pad]] | None = None
    bearing = _bearing_pairs(looked, way)
    for point in (lot.middle, *_beside(lot.faces)):
        for pads in _pads(looked, whole, (way, point), bearing, head):
            rank = sum(_RANKS.get(pad.caul, 0) for pad in pads)
            if best is None or rank < best[0]:
                best = (rank, pads)
        if best is not None and best[0] == 0:
            break
    if best is not None:
        yield best[1]


def _beside(faces: Sequence[JointFace]) -> Iterable[Vector]:
    """Other places on the largest face, the nearest to its middle first."""
    face = max(faces, key=lambda each: each.area_mm2)
    across = cross(face.normal, face.along)
    for share in _SHARES:
        for way, size in ((face.along, face.run_mm), (across, face.deep_mm)):
            for sign in (1.0, -1.0):
                yield add(face.centre, scaled(way, sign * share * size))


_SHARES = (0.2, 0.35)
"""How far from the middle of a face, as a share of its side, a place is tried. Search effort."""


def _bearing_pairs(looked: Looked, way: Vector) -> frozenset[tuple[int, int]]:
    """Rows of parts that bear on each other along a way, wherever they meet."""
    return frozenset(
        pair
        for each in looked.joinings
        if any(abs(dot(face.normal, way)) > _CLOSING for face in each.faces)
        for first, second in [looked.ends_of(each)]
        for pair in ((first, second), (second, first))
    )


def _pads(
    looked: Looked, whole: Rigid, line: tuple[Vector, Vector],
    bearing: frozenset[tuple[int, int]], head: Head,
) -> Iterable[tuple[Pad, Pad]]:  # fmt: skip
    """Where the line through a point comes out of the wood on either side."""
    backs, fronts = looked.scene.seen(line[0])
    rows = sorted(whole)
    both = (
        backs.only(np.isin(backs.owner, rows)),
        fronts.only(np.isin(fronts.owner, rows)),
    )
    near = _pad(looked, both, line, -1.0, bearing, head)
    far = _pad(looked, both[::-1], line, 1.0, bearing, head)
    if near is not None and far is not None:
        yield near, far


def _pad(
    looked: Looked, sheets: tuple[Sheet, Sheet], line: tuple[Vector, Vector], sign: float,
    bearing: frozenset[tuple[int, int]], head: Head,
) -> Pad | None:  # fmt: skip
    """The pad on the side that `sign` names: 1 along the way, -1 against it.

    `sheets` are what looks out on that side, and what looks the other way.
    """
    sheet, under = sheets
    way, middle = line
    turn = turn_of(way)
    u, v, depth = (turn @ np.array(middle)).tolist()
    point = shapely.Point(u, v)
    area = point.buffer(head.wide_mm / 2, quad_segs=_FINE)
    sheet = sheet.only(_boxes_meet(sheet, area.bounds))
    outs = _passed(sheet, point, sign)
    first = _wood_ends(outs, _passed(under, point, sign), sign * depth, bearing)
    if first is None:
        return None
    level, facet, _ = outs[first]
    out = sign * level
    outer = sheet.farthest if sign > 0.0 else -sheet.nearest
    inner = sheet.nearest if sign > 0.0 else -sheet.farthest
    below = sheet.only((outer > level - head.wide_mm) & (inner < level + _LEVEL_MM))
    pad = Pad(
        instance=looked.parts[int(sheet.owner[facet])].name,
        at=add(middle, scaled(way, out - depth)),
        push=scaled(way, -sign),
        share=1.0,
        caul=Caul.NONE,
    )
    others = sheet.only(np.arange(len(sheet.owner)) != facet)
    rise, free = _rising((others, under), (area, head.deep_mm), sign, level)
    if rise > _LEVEL_MM:
        is_held = free >= head.least_block_mm and rise <= head.slender * free
        share = min(1.0, free / head.wide_mm) ** 2
        caul = Caul.BLOCK if is_held else Caul.NO_ROOM
        return replace(pad, share=share, caul=caul, rise_mm=rise, free_mm=free)
    share, slants = _bearing(below, area, sign)
    square = Caul.NONE if share >= head.bears else Caul.SQUARE
    return replace(pad, share=share, caul=Caul.MITRE_CUT if slants > share else square)


def _passed(sheet: Sheet, point: shapely.Point, sign: float) -> list[tuple[float, int, int]]:
    """The facets that a line passes, as height outwards [mm], facet and owner, lowest first."""
    hit = np.flatnonzero(shapely.intersects(sheet.outline, point))
    heights = sign * (sheet.plane[hit] @ np.array([point.x, point.y, 1.0]))
    owners = sheet.owner[hit]
    return sorted(zip(heights.tolist(), hit.tolist(), owners.tolist(), strict=True))


def _wood_ends(
    outs: Sequence[tuple[float, int, int]],
    ins: Sequence[tuple[float, int, int]],
    start: float,
    bearing: frozenset[tuple[int, int]],
) -> int | None:
    """The facet by which a line leaves the wood that passes the force on, as an index of `outs`.

    What stands beyond a gap presses nothing, but a part that bears on the one before it elsewhere.
    """
    last: int | None = None
    for index, (height, _, owner) in enumerate(outs):
        if height < start - GLUE_LINE.value - _SAME_MM:
            continue
        last = index
        later = [each for each in ins if each[0] > height - GLUE_LINE.value - _SAME_MM]
        goes_on = any(
            each[0] < height + GLUE_LINE.value + _SAME_MM
            or each[2] == owner
            or (owner, each[2]) in bearing
            for each in later
        )
        if not goes_on:
            break
    return last


def _rising(
    sheets: tuple[Sheet, Sheet], head: tuple[shapely.Polygon, float], sign: float, level: float
) -> tuple[float, float]:
    """How far wood stands up into a head above a level, and how wide the space beside it is.

    What begins above the head is not in its way.
    """
    (sheet, below), (area, deep) = sheets, head
    under = np.flatnonzero(shapely.intersects(sheet.outline, area))
    regions = shapely.intersection(sheet.outline[under], area)
    rising: dict[int, list[tuple[float, shapely.Geometry]]] = {}
    for owner, region, plane in zip(
        sheet.owner[under].tolist(), regions, sheet.plane[under], strict=True
    ):
        if region.is_empty:
            continue
        rise = _highest(region, plane, sign) - level
        begins = _begins(below, region.representative_point(), sign, level + rise)
        if rise > _LEVEL_MM and begins < level + deep:
            rising.setdefault(owner, []).append((rise, region))
    found = [  # a round wall is many facets, each of them but a speck
        each
        for several in rising.values()
        if shapely.union_all([region for _, region in several]).area > _SPECK_MM2
        for each in several
    ]
    if not found:
        return 0.0, 0.0
    free = min(region.distance(area.centroid) for _, region in found)
    return max(rise for rise, _ in found), 2.0 * free


def _begins(below: Sheet, point: shapely.Point, sign: float, top: float) -> float:
    """How high the wood begins that ends at a height above a point."""
    hit = np.flatnonzero(shapely.intersects(below.outline, point))
    depths = sign * (below.plane[hit] @ np.array([point.x, point.y, 1.0]))
    lower = depths[depths < top - _SAME_MM]
    return float(lower.max()) if lower.size else -math.inf


_SAME_MM = 1e-3
_SPECK_MM2 = 0.5
"""A head gives way to so little. Own rule."""


def _boxes_meet(sheet: Sheet, bounds: tuple[float, float, float, float]) -> NDArray[np.bool_]:
    """Quickly, which facets may lie below a head at all."""
    low_u, low_v, high_u, high_v = bounds
    box = shapely.bounds(sheet.outline)
    found: NDArray[np.bool_] = (
        (box[:, 0] <= high_u) & (box[:, 2] >= low_u) & (box[:, 1] <= high_v) & (box[:, 3] >= low_v)
    )
    return found


def _bearing(sheet: Sheet, head: shapely.Polygon, sign: float) -> tuple[float, float]:
    """What shares of a head lie square on the highest wood below it, and over a slope."""
    under = np.flatnonzero(shapely.intersects(sheet.outline, head))
    regions = shapely.intersection(sheet.outline[under], head)
    tops = np.array([
        _highest(region, plane, sign)
        for region, plane in zip(regions, sheet.plane[under], strict=True)
    ])  # fmt: skip
    order = np.argsort(-tops)
    level, covered, square, slanting = float(tops.max()), shapely.Polygon(), 0.0, 0.0
    for index in order:
        if covered.area > _WHOLE * head.area:
            break
        seen = shapely.difference(regions[index], covered).area
        covered = shapely.union(covered, regions[index])
        slope = float(np.hypot(*sheet.plane[under[index], :2]))
        is_curved = sheet.face_slack[under[index]] > 0.0
        if slope < _SQUARE and tops[index] > level - _LEVEL_MM:
            square += seen
        elif slope > _SLANTS and not is_curved:
            slanting += seen
    return square / head.area, slanting / head.area


def _highest(region: shapely.Geometry, plane: Floats, sign: float) -> float:
    points = shapely.get_coordinates(region)
    return float((sign * (points @ plane[:2] + plane[2])).max())
