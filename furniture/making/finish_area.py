"""How much wood takes a finish: every face of every part, less what glue joins."""

from __future__ import annotations

import math

from furniture.pieces.piece import Piece
from furniture.pieces.weighed import Weighed


def finished_area_mm2(piece: Piece, weighed: Weighed) -> float:
    """The faces that take a finish [mm2]: of the solids, less both faces of every glued one.

    Args:
        piece: what is finished.
        weighed: its solids as measured.
    """
    glued = math.fsum(joining.glue_area_mm2 for joining in piece.joinings)
    return weighed.area_mm2 - 2.0 * glued
