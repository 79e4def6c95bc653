"""Which wide face of each part is the one that its mates are measured from too."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

from furniture.joints.joint import Joining, Role
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, dot
from furniture.pieces.piece import Piece

_SAME_WAY = 0.999


def guides_of(piece: Piece) -> Mapping[str, Face]:
    """For each instance the wide face that bores and grooves in edges and ends are measured from.

    Parts that dowels or edge joints hold together, wide faces level, are measured from the faces
    that look the same way: what one of them is thicker then shows on the other side only. The first
    of such parts is measured from its face side, and so is every part that has no such mate.

    Args:
        piece: what is made.
    """
    placed = {each.instance: each for each in piece.placed}
    mates: dict[str, list[str]] = defaultdict(list)
    for joining in piece.joinings:
        if _is_measured_alike(joining):
            mates[joining.into].append(joining.incoming)
            mates[joining.incoming].append(joining.into)
    found: dict[str, Face] = {}
    for each in piece.placed:
        if each.instance not in found:
            found[each.instance] = Face.FACE_SIDE
            _spread(each.instance, placed, mates, found)
    return found


def _is_measured_alike(joining: Joining) -> bool:
    """Whether both parts are bored or grooved where they meet, and must agree."""
    has_dowels = any(each.is_glued for each in joining.fasteners)
    return has_dowels or joining.role in (Role.EDGE_GLUE, Role.LOOSE_TONGUE)


def _spread(
    start: str, placed: Mapping[str, Placed], mates: Mapping[str, list[str]], found: dict[str, Face]
) -> None:
    """Carries the way that a guide looks on to all mates whose wide faces look that way too."""
    left = [start]
    while left:
        name = left.pop()
        way = _way(placed[name], found[name])
        for mate in mates[name]:
            face = next(
                (each for each in WIDE_FACES if dot(_way(placed[mate], each), way) > _SAME_WAY),
                None,
            )
            if mate not in found and face is not None:
                found[mate] = face
                left.append(mate)


def _way(placed: Placed, face: Face) -> Vector:
    return placed.placement.direction_to_piece(face.normal)
