"""Which faces of each part its places are measured from at the bench: those of the sheets."""

from __future__ import annotations

from collections.abc import Mapping

from furniture.pieces.datums import Datums, datums_of
from furniture.pieces.piece import Piece


def guides_of(piece: Piece) -> Mapping[str, Datums]:
    """For each instance the faces that bores, grooves, dados and notches are measured from.

    Args:
        piece: what is made.
    """
    datums = datums_of(piece)
    return {each.instance: datums[each.part.id] for each in piece.placed}
