"""Between which two faces a gap is measured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from furniture.job.figures import Of, Wall, play_of_gaps, walls_of
from furniture.parts.faces import Face
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, dot, scaled
from furniture.pieces.piece import Piece, placed_named

_SAME_MM = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class GapEnd:
    """What a gap ends at: a face of a part, or the floor of a joint that is sunk into it.

    Args:
        instance: whose face it is.
        face: of it.
        sunk_in: the joint by its name, where the floor is meant; None on the face itself.
    """

    instance: str
    face: Face
    sunk_in: str | None


def gap_ends(piece: Piece) -> Mapping[tuple[str, int], tuple[GapEnd, GapEnd]]:
    """The two ends of every gap, by the instance that goes between and the axis of it.

    Args:
        piece: with its joints.
    """
    walls: dict[tuple[str, int], dict[int, Wall]] = {at: {} for at in play_of_gaps(piece)}
    for each in walls_of(piece):
        sides = walls.get((each.instance, each.axis)) if each.of is Of.GAP else None
        if sides is None:
            continue
        known, way = sides.get(each.sign), _way(piece, each)
        if known is None or dot(each.face.centre, way) > dot(known.face.centre, way):
            sides[each.sign] = each  # the shoulder of a stopped joint lies before its floor
    return {at: (_end(piece, sides[-1]), _end(piece, sides[1])) for at, sides in walls.items()}


def _way(piece: Piece, wall: Wall) -> Vector:
    """From the part towards the wall."""
    frame = placed_named(piece, wall.instance).placement
    return scaled((frame.x_axis, frame.y_axis)[wall.axis], wall.sign)


def _end(piece: Piece, wall: Wall) -> GapEnd:
    way, other = _way(piece, wall), placed_named(piece, wall.other)
    low, high = box_of(other.part.blank, other.placement)
    nearest = sum(min(a * w, b * w) for a, b, w in zip(low, high, way, strict=True))
    is_sunk = dot(wall.face.centre, way) > nearest + _SAME_MM
    return GapEnd(
        instance=wall.other,
        face=other.placement.face_towards(scaled(way, -1.0)),
        sunk_in=wall.joint if is_sunk else None,
    )
