"""Whether all pieces come off one clear board: a layout, certainty that there is none, or neither.

The best fillings of every size of board are kept by what their pieces weigh; where all weigh more
together than any board holds, or no filling that could still hold all was lost, there is none.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.columns import Columns
from furniture.shop.cutting.fillings import BoardFillings, Fillings
from furniture.shop.cutting.plan import Placement
from furniture.shop.cutting.side_by_side import side_by_side
from furniture.shop.cutting.values import CuttingRequest

MOST_PIECES = 60
"""More are not looked at: no search of them comes to an end. Own rule."""

FIRST_KEPT, MORE_KEPT = 4, 4
"""Fillings kept for each size at first, and how many times more each time. Own rule."""

AREA_SHARE = 1e-3
"""Of its area a piece weighs so much besides its price, so that none weighs nothing. Own rule."""

_SLACK = 1e-7
"""Of the board: weights so near are the same."""


@dataclass(frozen=True, slots=True)
class OneBoardAnswer:
    """A layout of all pieces, if one was found; whether it is certain that there is none."""

    placements: tuple[Placement, ...] | None
    is_impossible: bool


UNKNOWN = OneBoardAnswer(None, False)


def is_one_clear_board(request: CuttingRequest) -> bool:
    """Whether the request is one clear board, and so few pieces, all of them musts."""
    if len(request.boards) != 1 or request.has_extras or request.boards[0].zones:
        return False
    pieces = sum(part.quantity * len(part.pieces) for part in request.parts)
    return request.boards[0].is_straight and pieces <= MOST_PIECES


def all_on_one(columns: Columns, is_over: Callable[[], bool]) -> OneBoardAnswer:
    """Looks with more and more fillings kept.

    Args:
        columns: of a request that `is_asked`, its board not for nothing.
    """
    (kind,), (cost,) = columns.kinds, columns.costs
    columns.priced(lambda bound: bound > cost * (1.0 + _SLACK), is_over)
    if columns.value > cost * (1.0 + _SLACK):
        return OneBoardAnswer(None, True)
    if not kind.against.is_clear:
        return UNKNOWN
    fillings = Fillings(kind.against)
    if (fillings.limits < columns.wanted).any():
        return OneBoardAnswer(None, kind.is_exact)
    areas = np.array([piece.area_mm2 for piece in columns.pieces])
    areas = areas / float(areas @ columns.wanted)
    ways = (areas, columns.prices / cost + AREA_SHARE * areas)
    keep = FIRST_KEPT
    while not is_over():
        keep = min(keep, fillings.most_kept)
        runs = [partial(_run, fillings, way, columns, keep, is_over) for way in ways]
        for found in side_by_side(runs):
            for spots in found.layouts:
                if len(spots) == columns.wanted.sum():
                    return OneBoardAnswer(columns.placed(0, spots), False)
            if found.is_exact and kind.is_exact:
                return OneBoardAnswer(None, True)
        if keep >= fillings.most_kept:
            break
        keep *= MORE_KEPT
    return UNKNOWN


def _run(
    fillings: Fillings,
    weight: NDArray[np.float64],
    columns: Columns,
    keep: int,
    is_over: Callable[[], bool],
) -> BoardFillings:
    target = float(weight @ columns.wanted) - _SLACK
    return fillings.run(weight, np.zeros(weight.size), target, keep, is_over)
