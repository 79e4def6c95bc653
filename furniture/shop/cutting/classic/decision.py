"""Whether all items can be cut from one board: a layout, a proof that none exists, or neither."""

from __future__ import annotations

import time
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np

from furniture.shop.cutting.classic.limited import Fillings, exact_price_bound
from furniture.shop.cutting.classic.values import BoundFrom, Item, Laying, Panel


class Verdict(Enum):
    """The three answers."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The verdict, the layout when yes, and what proves it."""

    verdict: Verdict
    layings: tuple[Laying, ...]
    proof: BoundFrom


def fits_one_board(panel: Panel, items: Sequence[Item], *, seconds: float = 10.0) -> Decision:
    """Whether every copy of every item can be cut from the panel by edge-to-edge cuts.

    seconds [s]: gives up as UNKNOWN. A NO always comes from a bound or an exhausted search.
    """
    started = time.monotonic()
    deadline = started + seconds
    total = sum(i.length * i.width * (i.quantity or 0) for i in items)
    too_large = any(i.length > panel.length or i.width > panel.width for i in items)
    if too_large or total > panel.length * panel.width:
        return Decision(verdict=Verdict.NO, layings=(), proof=BoundFrom.AREA)
    search = Fillings(panel, items)
    wanted = np.array([i.quantity or 0 for i in items], np.int64)
    if (search.limits < wanted).any():
        return Decision(verdict=Verdict.NO, layings=(), proof=BoundFrom.AREA)
    areas = np.array([float(i.length * i.width) for i in items])
    bound = exact_price_bound(panel, items, areas, wanted, deadline=started + 0.2 * seconds)
    if bound.value < total - 1e-4:
        return Decision(verdict=Verdict.NO, layings=(), proof=BoundFrom.PRICES)
    keep = 4
    while time.monotonic() < deadline:
        begun = time.monotonic()
        keep = min(keep, search.most_kept)
        for prices in (bound.prices, np.zeros(len(items))):
            value, layings, exact = search.run(areas, prices, float(total), keep)
            if value >= total - 1e-6:
                found = tuple(layings)
                return Decision(verdict=Verdict.YES, layings=found, proof=BoundFrom.SEARCH)
            if exact:
                return Decision(verdict=Verdict.NO, layings=(), proof=BoundFrom.SEARCH)
        spent = time.monotonic() - begun
        if keep == search.most_kept or time.monotonic() + 2.5 * spent > deadline:
            break
        keep *= 4
    return Decision(verdict=Verdict.UNKNOWN, layings=(), proof=BoundFrom.NOTHING)
