"""What the wood of each piece costs, where several come from one pile of boards."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from furniture.pieces import Piece
from furniture.shop.boards.lots import pieces_of
from furniture.shop.boards.outcome import CuttingOutcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What the wood of all copies of a piece costs together [money]."""

    piece: Piece
    copies: int
    price: float


def shares_of(outcome: CuttingOutcome) -> tuple[Share, ...]:
    """The share of every piece; together they are the price of the boards begun.

    A board's whole price, waste and offcuts too, is shared by the area of the rough parts on it.
    """
    job, owner = outcome.job, outcome.job.lot_of
    whole = {board.name: board.price for board in job.boards}
    price: dict[int, float] = defaultdict(float)
    for board in outcome.used:
        area = sum(each.place.length_mm * each.place.width_mm for each in board.placements)
        for each in board.placements:
            lot = owner[outcome.laid(each).instances[0]]  # a common blank is all of one copy
            own = each.place.length_mm * each.place.width_mm
            price[id(lot.piece)] += whole[board.board] * own / area
    return tuple(
        Share(
            piece=piece,
            copies=sum(lot.piece is piece for lot in job.lots),
            price=price[id(piece)],
        )
        for piece in pieces_of(job.lots)
    )
