"""Boards filled by what their pieces are worth: packings for a request where some may be left out.

Prices come from the bound. A lone board is filled by what leaving a copy out costs, a must being
dearer than all that may be left out together; where nothing better can have been lost, the best
filling is a bound by itself. One of several boards is filled by the prices.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.fillings import Fillings
from furniture.shop.cutting.plan import Bound, BoundKind, Placement
from furniture.shop.cutting.price_bound import PriceBound
from furniture.shop.cutting.unit_boards import LEAST_BOARD
from furniture.shop.cutting.values import CuttingRequest

LAYOUTS = 8
"""Of a board's best fillings so many are sawn on paper. Own rule."""

_LEAST = 1e-6
"""What counts as better [money]."""


class WorthSearch:
    """Prices, bound and fillings of one request."""

    def __init__(self, request: CuttingRequest) -> None:
        self._request = request
        self._prices = PriceBound(request, blanks_of(request, frozenset()))
        self._extras = sum(part.worth_of_all for part in request.parts)
        self._best = Bound(0.0, BoundKind.PRICES)
        self._fillings = {
            n: Fillings(kind.against)
            for n, kind in enumerate(self._prices.kinds)
            if kind.against.is_clear
        }
        self._told: set[tuple[Placement, ...]] = set()
        self._keep = 2

    def load(self) -> None:
        """Compiles what is needed where it was not yet: some seconds at the first use."""
        one = np.ones(1)
        for table in {type(kind.table) for kind in self._prices.kinds}:
            table(LEAST_BOARD).filled(one)
        if self._fillings:
            Fillings(LEAST_BOARD).run(one, one, 1.0, 1, lambda: False)

    @property
    def bound(self) -> Bound:
        """The best bound so far."""
        if self._prices.value > self._best.price:
            return Bound(self._prices.value, BoundKind.PRICES)
        return self._best

    def packings(
        self,
        price: Callable[[], float],
        unit: float,
        is_over: Callable[[], bool],
        is_bound_over: Callable[[], bool],
    ) -> Iterator[tuple[Placement, ...]]:
        """Boards filled; each call goes on from the last.

        Args:
            price: of the best plan so far [money].
            unit: all prices are whole multiples of [money]; 0 where they are not.
            is_bound_over: whether to move prices no more.
        """
        for placements in self._prices.moved(price(), is_bound_over):
            yield from self._new(placements)
        while not is_over() and self.bound.price < price() - _LEAST and self._fillings:
            for n, fillings in self._fillings.items():
                yield from self._filled(n, fillings, price(), max(unit, _LEAST), is_over)
            if self._keep >= max(each.most_kept for each in self._fillings.values()):
                return
            self._keep *= 2

    def _filled(
        self, n: int, fillings: Fillings, price: float, step: float, is_over: Callable[[], bool]
    ) -> Iterator[tuple[Placement, ...]]:
        kind, bound = self._prices.kinds[n], self._prices
        keep = min(self._keep, fillings.most_kept)
        if len(self._request.boards) > 1:
            worth = np.maximum(bound.prices, 0.0)
            found = fillings.run(worth, np.zeros(worth.size), _LEAST, keep, is_over)
        else:
            must = self._extras + kind.bare.price + 1.0
            worth = np.array([must if p.is_must else p.worth for p in bound.pieces])
            musts = sum(must * p.quantity for p in bound.pieces if p.is_must)
            target = musts + self._extras + kind.bare.price - price + step
            found = fillings.run(worth, worth - bound.prices, target, keep, is_over)
            if found.is_exact and kind.is_exact:
                least = musts + self._extras + kind.bare.price - max(found.value, target - step)
                self._learn(min(least, np.inf if musts else self._extras))
        for spots in found.layouts[:LAYOUTS]:
            yield from self._new(kind.placements(self._request, bound.pieces, spots))

    def _new(self, placements: tuple[Placement, ...]) -> Iterator[tuple[Placement, ...]]:
        """The layout, unless it was told before."""
        if placements not in self._told:
            self._told.add(placements)
            yield placements

    def _learn(self, price: float) -> None:
        if price > self.bound.price:
            self._best = Bound(float(price), BoundKind.EXHAUSTED)
