"""A bound by prices: what boards cost at least, less the most that each is worth by the pieces.

Every piece gets a price; a board is worth cutting up as far as the pieces that fill it are dearer
than it is. Prices go up where pieces are asked for more often than they are there to be cut, down
where less often. Whatever the prices, no plan costs less than all pieces at their prices, less what
every board gains at most; the best of many prices is the bound, and what filled the boards on the
way are patterns to choose from.

It is for requests that may leave pieces out, `columns.py` for those that may not, and no request is
put to both: its tables keep off faults, which the fillings that columns are made of cannot.

Source: the relaxation of how often each is cut: N. Christofides, E. Hadjiconstantinou, "An exact
algorithm for orthogonal 2-D cutting problems using guillotine cuts", European Journal of
Operational Research 83 (1995), 21-38; over several boards: from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.blanks import Blank, single_pieces
from furniture.shop.cutting.board_kinds import kinds_in_units
from furniture.shop.cutting.plan import Placement
from furniture.shop.cutting.value_tables import counts_of
from furniture.shop.cutting.values import CuttingRequest

MOST_STEPS, LEAST_PACE, IDLE = 200, 0.01, 5
"""Prices are moved so often at most; the pace shrinks after so many idle steps. Own rule."""

Prices = NDArray[np.float64]


class PriceBound:
    """Moves prices for one request; keeps the best bound and its prices."""

    def __init__(self, request: CuttingRequest, blanks: Sequence[Blank]) -> None:
        self.request = request
        self.pieces = single_pieces(blanks)
        self.kinds = kinds_in_units(request, self.pieces)
        self._wanted = np.array([piece.quantity for piece in self.pieces], float)
        self._worth = np.array([np.inf if piece.is_must else piece.worth for piece in self.pieces])
        self.prices = self._first()
        self.value = 0.0
        self._pace = 1.0
        self._steps = 0

    def _first(self) -> Prices:
        """Worth where there is one, else the dearest wood by area."""
        areas = np.array([piece.area_mm2 for piece in self.pieces])
        dearest = max(
            (kind.bare.price / (kind.bare.length_mm * kind.bare.greatest_width_mm))
            for kind in self.kinds
        )
        if dearest <= 0:
            return np.where(np.isinf(self._worth), 0.0, self._worth)
        return np.minimum(self._worth, areas * dearest)

    @property
    def is_done(self) -> bool:
        """Whether moving prices on is not worth the time."""
        return self._pace < LEAST_PACE or self._steps >= MOST_STEPS

    def moved(self, target: float, is_over: Callable[[], bool]) -> Iterator[tuple[Placement, ...]]:
        """Moves the prices until the bound reaches the target [money]; yields layouts on the way.

        Args:
            target: the price of the best plan.
        """
        prices, idle = self.prices, 0
        while not self.is_done and self.value < target - 1e-6 and not is_over():
            self._steps += 1
            bound = float(prices @ self._wanted)
            cut = np.zeros(len(self.pieces))
            for kind in self.kinds:
                filled = kind.table.filled(prices)
                gain = filled.value - kind.bare.price
                if kind.is_exact and filled.spots:
                    yield kind.placements(self.request, self.pieces, filled.spots)
                if gain > 1e-9:
                    bound -= len(kind.names) * gain
                    counts = counts_of(kind.table.board, filled.spots, len(self.pieces))
                    cut += len(kind.names) * counts
            if bound > self.value + 1e-9:
                self.value, self.prices, idle = bound, prices, 0
            else:
                idle += 1
                if idle >= IDLE:
                    self._pace, idle, prices = 0.6 * self._pace, 0, self.prices
                    continue
            slope = self._wanted - cut
            stuck = ((prices <= 0) & (slope < 0)) | ((prices >= self._worth) & (slope > 0))
            slope = np.where(stuck, 0.0, slope)
            length = float(slope @ slope)
            if length == 0:
                self._steps = MOST_STEPS
                break
            step = self._pace * max(target - bound, 1e-3 * abs(target), 1e-6) / length
            prices = np.clip(prices + step * slope, 0.0, self._worth)
