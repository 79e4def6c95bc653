"""What is measured on the true solids: volume, mass, centre of mass, extents, and the floor."""

from __future__ import annotations

import math
from functools import lru_cache

from furniture.parts.blank import Blank
from furniture.parts.cuts import Cut
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Point2, Vector
from furniture.pieces.piece import Piece, distinct_parts
from furniture.pieces.weighed import Mass, Weighed
from furniture.solids.make import solid_from

FLOOR_MM = 1e-4
"""How near the lowest point of the piece wood touches the floor [mm]."""
CHORD_MM = 0.05
"""How far a flattened curve may lie off the true one [mm]."""


def weigh(piece: Piece) -> Weighed:
    """The piece as weighed.

    Raises:
        ValueError: a piece without parts.
    """
    return Weighed(
        whole=mass_of_piece(piece),
        parts={each.part.id: mass_of_part(each.part) for each in distinct_parts(piece)},
        extents=extents_as_cut(piece),
        floor=floor_points(piece),
        area_mm2=math.fsum(_measured(each.part.blank, each.part.cuts)[1] for each in piece.placed),
    )


def mass_of_part(part: Part) -> Mass:
    """The part's mass, its centre in the part frame."""
    volume, _, centre, _ = _measured(part.blank, part.cuts)
    return Mass(
        volume_mm3=volume,
        mass_kg=volume * 1e-9 * part.timber.density_kg_m3,
        centre_mm=centre,
    )


def mass_of_piece(piece: Piece) -> Mass:
    """The piece's mass, its centre in the piece frame: its parts and what is fixed in it.

    The volume is that of the wood alone.

    Raises:
        ValueError: a piece without parts.
    """
    if not piece.placed:
        raise ValueError("a piece without parts has no mass")
    volume = mass = 0.0
    moment = [0.0, 0.0, 0.0]
    for each in piece.placed:
        one = mass_of_part(each.part)
        centre = each.placement.to_piece(one.centre_mm)
        volume += one.volume_mm3
        mass += one.mass_kg
        for axis in range(3):
            moment[axis] += one.mass_kg * centre[axis]
    for body in piece.fixed:
        mass += body.mass_kg
        for axis in range(3):
            moment[axis] += body.mass_kg * body.centre_mm[axis]
    return Mass(
        volume_mm3=volume,
        mass_kg=mass,
        centre_mm=(moment[0] / mass, moment[1] / mass, moment[2] / mass),
    )


def extents_as_cut(piece: Piece) -> Box:
    """The upright box round all solids of the piece [mm], piece frame."""
    lows, highs = [], []
    for each in piece.placed:
        for point in _corner_points(each):
            lows.append(point)
            highs.append(point)
    low = tuple(min(point[axis] for point in lows) for axis in range(3))
    high = tuple(max(point[axis] for point in highs) for axis in range(3))
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def floor_points(piece: Piece) -> tuple[Point2, ...]:
    """Where wood touches the floor, in plan [mm]: corners, and points along curved edges.

    The floor is the lowest level of the piece; the support polygon is the hull of these points.
    """
    points = [point for each in piece.placed for point in _corner_points(each)]
    lowest = min(point[2] for point in points)
    touching = {
        (round(point[0], 6), round(point[1], 6))
        for point in points
        if point[2] <= lowest + FLOOR_MM
    }
    return tuple(sorted(touching))


def _corner_points(placed: Placed) -> list[Vector]:
    part = placed.part
    return [placed.placement.to_piece(point) for point in _measured(part.blank, part.cuts)[3]]


@lru_cache(maxsize=512)
def _measured(
    blank: Blank, cuts: tuple[Cut, ...]
) -> tuple[float, float, Vector, tuple[Vector, ...]]:
    """Volume, area, centre, and the points of all edges (curved ones flattened), part frame."""
    solid = solid_from(blank, cuts)
    centre = solid.Center()
    points: set[Vector] = set()
    for edge in solid.Edges():
        if edge.geomType() == "LINE":
            for vertex in edge.Vertices():
                points.add(_rounded(vertex.X, vertex.Y, vertex.Z))
            continue
        radius = _radius(edge)
        steps = max(8, math.ceil(math.pi / math.acos(max(0.0, 1.0 - CHORD_MM / radius))))
        for place in edge.positions([step / steps for step in range(steps + 1)]):
            points.add(_rounded(place.x, place.y, place.z))
    middle = (centre.x, centre.y, centre.z)
    return float(solid.Volume()), float(solid.Area()), middle, tuple(sorted(points))


def _rounded(x: float, y: float, z: float) -> Vector:
    return (round(x, 9) + 0.0, round(y, 9) + 0.0, round(z, 9) + 0.0)


def _radius(edge: object) -> float:
    try:
        return max(1.0, float(edge.radius()))  # type: ignore[attr-defined]
    except ValueError:
        return 100.0
