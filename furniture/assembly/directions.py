"""The straight ways along which parts are tried: from the joints, and the six ways of the piece."""

from __future__ import annotations

from collections.abc import Iterable

from furniture.joints.joint import Joining
from furniture.parts.vectors import BACK, RIGHT, UP, Vector, dot, scaled
from furniture.parts.ways import PIECE_WAYS

_SAME = 1e-6


def lines_of(joinings: Iterable[Joining]) -> tuple[Vector, ...]:
    """The lines along which to try parts, one unit vector each; both ways along it are meant.

    They are the piece's three axes, every joint's ways in (a mitre's bisector is one), and the
    ways in which its faces close.
    """
    found: list[Vector] = [RIGHT, BACK, UP]
    for joining in joinings:
        closing = (face.normal for face in joining.faces)
        for way in (*joining.ways_in, *closing):
            if all(1.0 - abs(dot(way, known)) > _SAME for known in found):
                found.append(way)
    return tuple(found)


def rank_of(direction: Vector) -> int:
    """How gladly a maker pushes a part home that way: 0 best, 6 for a slanting way."""
    for rank, (way, _) in enumerate(PIECE_WAYS):
        if dot(direction, way) > 1.0 - _SAME:
            return rank
    return len(PIECE_WAYS)


def opposite(direction: Vector) -> Vector:
    """The other way along the same line, without negative zeros."""
    x, y, z = scaled(direction, -1.0)
    return (x + 0.0, y + 0.0, z + 0.0)
