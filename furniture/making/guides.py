"""Which faces of each part its places are measured from at the bench: those of the sheets."""

from __future__ import annotations

from collections.abc import Mapping

from furniture.making.units import Unit
from furniture.parts.faces import Face
from furniture.pieces.datums import Datums, datums_of
from furniture.pieces.piece import Piece


def guides_of(piece: Piece) -> Mapping[str, Datums]:
    """For each instance the faces that bores, grooves, dados and notches are measured from.

    Args:
        piece: what is made.
    """
    datums = datums_of(piece)
    return {each.instance: datums[each.part.id] for each in piece.placed}


def edge_of(unit: Unit, guides: Mapping[str, Datums]) -> Face:
    """The edge that is trued first: that of the sheet, where all parts of the unit have one.

    Args:
        unit: that is worked.
        guides: the faces that each instance is measured from.
    """
    edges = {guides[name].edge for name in unit.instances}
    return edges.pop() if len(edges) == 1 else Face.FACE_EDGE
