"""The strip beam put to an order of items, and its answer as layings."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.shop.cutting.classic.values import Item, Laying, Panel
from furniture.shop.cutting.strip_beam import Rectangles, Spot, StripBeam


def beam_of(panel: Panel, items: Sequence[Item], seed: int) -> StripBeam:
    """The beam for an order of items on equal panels."""
    order = Rectangles(
        board=(panel.length, panel.width),
        sizes=tuple((item.length, item.width) for item in items),
        wanted=tuple(item.quantity or 0 for item in items),
    )
    return StripBeam(order, seed)


def layings_of(board: Sequence[Spot]) -> tuple[Laying, ...]:
    """A board's spots as layings."""
    return tuple(Laying(item=spot.index, x=spot.x, y=spot.y) for spot in board)
