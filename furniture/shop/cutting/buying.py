"""What to buy: quarters, board feet by the hardwood rule, cubic metres."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence

from furniture.shop.cutting.plan import BoardWanted, Purchase
from furniture.shop.cutting.values import FOOT

INCH = 25.4


def quarters_for(thickness: float) -> int:
    """The quarters to ask for so that rough stock holds a thickness [mm]: 4 means 4/4 (1 in).

    Sold are 4/4, 5/4, 6/4, 8/4, 10/4, 12/4, 16/4 and then every four quarters.

    Source: quarter scale = least rough thickness in quarter inches; the ladder of sizes is
    common practice, no source.
    """
    exact = thickness / (INCH / 4)
    for size in (4, 5, 6, 8, 10, 12, 16):
        if exact <= size + 1e-9:
            return size
    return 4 * math.ceil(exact / 4 - 1e-9)


def exact_board_feet(width: float, length: float, quarters: int) -> float:
    """Board feet of one board [board feet], unrounded: 144 cubic inches each.

    A list of short boards is measured by this: the rule's whole feet would count a board of 1 1/2
    as 2, or as 1, each time. Stock under 1 in counts as 1 in.

    Args:
        width: of the board [mm].
        length: of the board [mm].
        quarters: 4 means 1 in.
    """
    return width / INCH * length / FOOT / 12 * max(quarters, 4) / 4


def purchases_for(
    wanted: Sequence[tuple[BoardWanted, int]], waste_share: float = 0.0
) -> tuple[Purchase, ...]:
    """What to buy for the boards wanted, each with how many, by species and quarters.

    Each is rounded up to the next whole foot and whole inch that is sold, so that the fractions
    that a yard drops never buy too little. The measure of a lot is the sum of its boards' own.

    Args:
        wanted: clear boards, each with how many.
        waste_share: of what is bought, lost to faults.
    """
    lots: dict[tuple[str, int], list[BoardWanted]] = defaultdict(list)
    for board, count in wanted:
        lots[(board.species, quarters_for(board.thickness_mm))].extend([board] * count)
    purchases: list[Purchase] = []
    for (species, quarters), boards in sorted(lots.items()):
        feet = 0.0
        for board in boards:
            length = math.ceil(board.length_mm / FOOT - 1e-9) * FOOT
            width = math.ceil(board.width_mm / INCH - 1e-9) * INCH
            feet += exact_board_feet(width, length, quarters)
        purchases.append(
            Purchase(
                species=species,
                thickness_quarters=quarters,
                board_feet=round(feet, 9),
                pieces=tuple(boards),
                waste_share=waste_share,
            )
        )
    return tuple(purchases)
