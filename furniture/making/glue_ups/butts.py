"""Rails butted in plain glue into a ring that mitres close: nothing but the ring says where."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from furniture.joints.joint import Joining, Role
from furniture.joints.reading import is_face_to_face
from furniture.making.glue_ups.clusters import is_glued, is_mitre
from furniture.pieces.piece import Piece


def mitres_met_by_butts(piece: Piece) -> Mapping[int, frozenset[int]]:
    """By each plain butt the mitres that close one ring with it, rows of the piece's joinings.

    Glue slides before it grabs: a rail that sets a little askew leaves its mitres open. So these
    close first, or with it.

    Args:
        piece: that is glued up.
    """
    placed = {each.instance: each for each in piece.placed}
    glued = [row for row, each in enumerate(piece.joinings) if is_glued(each)]
    mitres = [row for row in glued if is_mitre(each := piece.joinings[row], placed[each.incoming])]
    found: dict[int, frozenset[int]] = {}
    for row in glued:
        each = piece.joinings[row]
        if each.role is Role.CORNER and row not in mitres and is_face_to_face(each):
            rest = [piece.joinings[other] for other in glued if other != row]
            on_it = (
                (mitre, rail, beyond)
                for rail, beyond in ((each.incoming, each.into), (each.into, each.incoming))
                for mitre in mitres
                if rail in (piece.joinings[mitre].into, piece.joinings[mitre].incoming)
            )
            met = frozenset(
                mitre
                for mitre, rail, beyond in on_it
                if beyond in _reached(_other(piece.joinings[mitre], rail), rail, rest)
            )
            if met:
                found[row] = met
    return found


def _other(joining: Joining, name: str) -> str:
    return joining.into if joining.incoming == name else joining.incoming


def _reached(start: str, without: str, joinings: Sequence[Joining]) -> set[str]:
    """All that is glued to a part, be it by way of others, without one of them."""
    found, more = {start}, [start]
    while more:
        name = more.pop()
        for each in joinings:
            ends = {each.into, each.incoming}
            if name in ends and without not in ends and not ends <= found:
                more += ends - found
                found |= ends
    return found
