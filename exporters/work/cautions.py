"""The cautions of machines in the words of a piece."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from furniture.making.bench.cautions import Hazard, caution, rig_hazards
from furniture.making.settings import Rig
from furniture.pieces.piece import Piece
from furniture.units import figure_with_unit


def cautions_for(
    rigs: Iterable[Rig | None], piece: Piece, told: Collection[Hazard] = ()
) -> tuple[str, ...]:
    """The cautions of machines made ready, each once, as sentences without their full stops.

    Args:
        rigs: one or more; at the bench there may be none.
        piece: that is made on them: its unit, and how far hands stay from a cutter.
        told: what has been said already.
    """

    def show(mm: float) -> str:
        return figure_with_unit(mm, piece.shown)

    hazards = dict.fromkeys(each for rig in rigs if rig is not None for each in rig_hazards(rig))
    return tuple(caution(each, show, piece.rules) for each in hazards if each not in told)
