"""The making of a piece in a usual shop, with the saw of its cutting plan where there is one."""

from __future__ import annotations

from dataclasses import replace

from furniture.blanks import common_blanks, runs_round_corners
from furniture.making.making import Making, making_of
from furniture.pieces.piece import Piece
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.tools import Shop
from furniture.shop.tools.reading import read_shop
from furniture.units import Reader


def making_for(piece: Piece, cutting: CuttingOutcome | None = None) -> Making:
    """By the saw and the blanks of the cutting plan, or by a usual saw and as corners ask.

    Args:
        piece: that is made.
        cutting: its cutting plan, when there is one.
    """
    shop = read_shop(Reader(piece.shown), Shop())
    if cutting is None:
        blanks = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf)
        return making_of(piece, blanks, shop)
    shop = replace(shop, saw=cutting.job.request.saw)
    return making_of(piece, cutting.job.common_blanks, shop)
