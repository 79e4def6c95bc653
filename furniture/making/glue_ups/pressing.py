"""Clamps of a stage: lines of force through what stands there, their pads, and bands."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from furniture.assembly.seen import Sheet, turn_of
from furniture.joints.joint import Joining, JointFace
from furniture.joints.reading import is_face_to_face
from furniture.making.glue_ups.cycles import Edge, on_cycles
from furniture.making.glue_ups.looked import Bodies, Looked, Rigid
from furniture.making.glue_ups.pads import CLOSING, FINE, LEVEL_MM, Head, best_pads
from furniture.making.glue_ups.values import Band, Caul, ClampLine, Pad, Pair
from furniture.parts.vectors import Vector, add, cross, dot, length, scaled, subtract, unit
from furniture.rules.bench import GLUE_LINE

_WAYS_ACROSS = 12
"""Ways that are tried for the shortest one across: a caul need not lie truer. Own rule."""


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
        (cross(normals[0], each) for each in normals if length(cross(normals[0], each)) > CLOSING),
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
        for pads in best_pads(looked, whole, way, first.points, head):
            near, far = sorted(dot(way, pad.at) for pad in pads)
            between = [each for each in waiting if near < dot(way, each.middle) < far]
            waiting = [each for each in waiting if each not in between]
            throat, across = _way_in(looked, whole, way, pads, head.bar_mm)
            yield ClampLine(
                direction=way,
                pads=pads,
                pressed=tuple(
                    (pair, face) for each in (first, *between) for pair, face in each.pressed
                ),
                throat_mm=throat,
                across_mm=across,
            )


def _way_in(
    looked: Looked, whole: Rigid, way: Vector, pads: tuple[Pad, Pad], bar_mm: float
) -> tuple[float, float]:
    """How far in a line lies from where a bar passes all wood between its heads, and how far it is
    right across that wood there [mm].

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
        is_between = (own.farthest >= ends[0] - LEVEL_MM) & (own.nearest <= ends[1] + LEVEL_MM)
        outlines.append(own.outline[is_between])
        before.append(own.only(own.farthest < ends[0] - LEVEL_MM))
    shadow = shapely.union_all([*np.concatenate(outlines), *_going_on(before)])
    shadow = shadow.buffer(bar_mm / 2, quad_segs=FINE).buffer(-bar_mm / 2, quad_segs=FINE)
    u, v, _ = (turn @ np.array(pads[0].at)).tolist()
    point = shapely.Point(u, v)
    if not shadow.contains(point):
        return 0.0, 0.0
    return float(point.distance(shadow.boundary)), _across_mm(shadow.boundary, u, v)


def _across_mm(edge: shapely.Geometry, u: float, v: float) -> float:
    """The shortest way through a point from one side of an outline to the other [mm]."""
    point, far = shapely.Point(u, v), edge.length
    turns = np.arange(2 * _WAYS_ACROSS) * math.pi / _WAYS_ACROSS
    rays = [
        shapely.LineString([(u, v), (u + far * math.cos(turn), v + far * math.sin(turn))])
        for turn in turns
    ]
    out = shapely.distance(shapely.intersection(rays, edge), point)
    return float((out[:_WAYS_ACROSS] + out[_WAYS_ACROSS:]).min())


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

    @property
    def points(self) -> tuple[Vector, ...]:
        """Where a line may run that presses them, the best first."""
        return (self.middle, *_beside(self.faces))


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
        if face.play_mm <= GLUE_LINE.value and abs(dot(face.normal, way)) > CLOSING:
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
