"""Large orders by columns: a bound by prices of pieces, and plans that dive for whole boards.

The linear program over boards cut up gives every piece a price; boards worth more than they cost
become columns of it. Its prices over the most that a board is worth are a bound at every step. A
dive takes the boards that the program uses most as whole ones, prices what is left anew, and lets
the strip beam try to finish.

Source: A. A. Farley, "A note on bounding a class of linear programming problems, including cutting
stock problems", Operations Research 38 (1990), 922-923: the bound; F. Clautiaux, R. Sadykov,
F. Vanderbeck, Q. Viaud, "Pattern-based diving heuristics for a two-dimensional guillotine
cutting-stock problem with leftovers", EURO Journal on Computational Optimization 7 (2019): dives.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from furniture.shop.cutting.blanks import blanks_of, single_pieces
from furniture.shop.cutting.board_kinds import kinds_in_units
from furniture.shop.cutting.bounds import whole_up
from furniture.shop.cutting.covering import Column, Counts, Covering, Relaxed
from furniture.shop.cutting.fillings import Worth
from furniture.shop.cutting.plan import Placement, by_board
from furniture.shop.cutting.pricing import Pricing, pricing_of, steps_of
from furniture.shop.cutting.settling import settled_boards
from furniture.shop.cutting.unit_boards import Spot
from furniture.shop.cutting.value_tables import counts_of
from furniture.shop.cutting.values import CuttingRequest

FIRST_KEPT, MOST_KEPT = 2, 32
"""Layouts kept for each size of board in the first pricing, and at most. Own rule."""

COMPLEMENTS, COMPLEMENT_WORTH = 4, 0.9
"""Boards filled of what the best one of a pricing leaves, and what they are worth at least of what
they cost. Own rule."""

PULLS = (0.8, 0.6, 0.4, 0.2, 0.0)
"""How far prices stay with those of the best bound while it is sought, tried in turn: filling a
board takes less time than the program. Own rule."""

FIRST_PULL, PULL_KEPT, PULL_DROPPED, LEAST_PULL = 0.7, 0.85, 0.4, 0.01
"""How far prices stay with those of the first bound, what of that is kept after a pricing that
found boards, and after one that did not. Own rule."""

_ENOUGH, _NEARLY = 1e-6, 1e-4
"""Of a board's price: so much more a board must be worth to become a column."""

_TINY = 1e-6
"""Bounds so near are the same [money]."""

Layout = tuple[Placement, ...]
IsOver = Callable[[], bool]


@dataclass(frozen=True, slots=True)
class _Found:
    """Boards by their kind, and for each kind what no board is worth more than, where known."""

    boards: list[tuple[int, Layout]]
    most: list[float | None]


class Columns:
    """Columns of one request whose every piece must have a place, and the bound by their prices.

    Its boards must cost something, or prices of pieces would say nothing.
    """

    def __init__(self, request: CuttingRequest) -> None:
        self.request = request
        self.pieces = single_pieces(blanks_of(request, frozenset()))
        self.kinds = kinds_in_units(request, self.pieces)
        self.wanted = np.array([piece.quantity for piece in self.pieces], np.int64)
        self.costs = tuple(kind.bare.price for kind in self.kinds)
        self.boards = tuple(len(kind.names) for kind in self.kinds)
        self.layouts: dict[Column, Layout] = {}
        self.value = 0.0
        self.is_settled = False
        self.prices: Worth = np.zeros(self.wanted.size)
        self.steps = sum(steps_of(kind) for kind in self.kinds)
        self._pricings: list[Pricing] = [pricing_of(kind) for kind in self.kinds]
        self._index = {
            (member.part.name, member.strip): n
            for n, piece in enumerate(self.pieces)
            for member in piece.members
        }
        self._kind_of = {name: n for n, kind in enumerate(self.kinds) for name in kind.names}
        self._can_be_sawn: dict[Column, bool] = {}
        self._endless, self._whole = (
            Covering(self.wanted, self.costs, self.boards) for _ in range(2)
        )
        self._centre: Worth | None = None

    def load(self) -> None:
        """Compiles what is needed where it was not yet: some seconds at the first use."""
        worth, none = np.zeros(self.wanted.size), np.zeros_like(self.wanted)
        for pricing in self._pricings:
            pricing.filled(worth)
            pricing.boards(worth, none, 1.0, 1, lambda: True)

    def learn(self, placements: Iterable[Placement]) -> None:
        """Boards of a packing that can be sawn, as columns."""
        for name, here in by_board(placements).items():
            column = self._column(self._kind_of[name], here)
            self.layouts.setdefault(column, tuple(here))
            self._can_be_sawn[column] = True

    def priced(self, enough: Callable[[float], bool], is_over: IsOver) -> list[Column]:
        """Raises the bound until it says enough, or prices move no more.

        Returns the columns that the program's optimum takes or nearly would, the best first.

        Args:
            enough: whether a bound needs to be no higher [money].
        """

        def is_done(relaxed: Relaxed) -> bool:
            known = whole_up(self.request, self.value)
            is_best = whole_up(self.request, relaxed.value - _TINY) <= known + _TINY
            return is_best or enough(self.value) or is_over()

        if not all(pricing.heeds_copies for pricing in self._pricings):
            self._by_endless_copies(is_done)
        relaxed = self._grown(is_done, is_over)
        self.is_settled = not is_over() or enough(self.value)
        self.prices = relaxed.prices if self._centre is None else self._centre
        return self._whole.useful(relaxed)

    def master(
        self, wanted: Counts, boards: tuple[int, ...], columns: Iterable[Column]
    ) -> Covering:
        """The program for so many copies and boards, over some columns."""
        master = Covering(wanted, self.costs, boards)
        for column in columns:
            if self._can_be_sawn.get(column, True):
                master.add(column)
        return master

    def _by_endless_copies(self, is_done: Callable[[Relaxed], bool]) -> None:
        """Raises the bound by boards that may cut a piece more often than it is wanted."""
        master = self._endless
        for column in self.layouts:
            master.add(column)
        relaxed = master.solve()
        centre = relaxed.prices if self._centre is None else self._centre
        while not is_done(relaxed):
            is_new = False
            for pull in PULLS:
                prices = pull * centre + (1.0 - pull) * relaxed.prices
                most = []
                for n, pricing in enumerate(self._pricings):
                    filled = pricing.filled(prices)
                    most.append(filled.value)
                    cost = self.costs[n] * (1.0 + _NEARLY) + float(relaxed.scarce[n])
                    counts = counts_of(self.kinds[n].against, filled.spots, self.wanted.size)
                    if float(counts @ relaxed.prices) > cost:
                        is_new |= master.add(Column(n, tuple(int(c) for c in counts)))
                if self._raised(prices, most):
                    centre = prices
            if not is_new:
                break
            relaxed = master.solve()
        self._centre = centre

    def _raised(self, prices: Worth, most: Sequence[float]) -> bool:
        """Whether the bound is higher by these prices, when no board is worth more than `most`."""
        total, before = float(prices @ self.wanted), self.value
        gains = [worth - cost for worth, cost in zip(most, self.costs, strict=True)]
        beyond = sum(max(0.0, gain) * n for gain, n in zip(gains, self.boards, strict=True))
        ratio = max(1.0, *(w / cost for w, cost in zip(most, self.costs, strict=True)))
        self.value = max(self.value, total - beyond, total / ratio)
        return self.value > before

    def _grown(self, is_done: Callable[[Relaxed], bool], is_over: IsOver) -> Relaxed:
        """Adds boards of copies that are wanted until none is worth it, and raises the bound."""
        master, centre = self._whole, self._centre
        for column in self.layouts:
            if self._can_be_sawn.get(column, True):
                master.add(column)
        keep, pull = FIRST_KEPT, FIRST_PULL if centre is not None else 0.0
        relaxed = master.solve()
        while not is_done(relaxed):
            prices = relaxed.prices
            if centre is not None:
                prices = pull * centre + (1.0 - pull) * prices
            found = self._worth_it(prices, relaxed, self.wanted, keep, is_over)
            most = [worth for worth in found.most if worth is not None]
            is_known = len(most) == len(found.most)
            if is_known:
                self._raised(prices, most)
            if self._added(master, found.boards, self.layouts):
                pull *= PULL_KEPT
                relaxed = master.solve()
            elif pull > LEAST_PULL:
                pull *= PULL_DROPPED
            elif is_known:
                break
            else:
                keep *= 4
                if keep > min(MOST_KEPT, *(each.most_kept for each in self._pricings)):
                    break
        return relaxed

    def grow(
        self,
        master: Covering,
        left: Counts,
        enough: float,
        rounds: int,
        layouts: dict[Column, Layout],
        is_over: IsOver,
    ) -> Relaxed:
        """Adds boards worth more than they cost, a few times; the program's optimum then.

        Args:
            left: copies that it wants.
            enough: an optimum below needs no more than one pricing [money].
            rounds: pricings at most.
            layouts: gets those of the columns that come in.
        """
        relaxed = master.solve()
        for number in range(rounds):
            if is_over() or (number and relaxed.value < enough):
                break
            found = self._worth_it(relaxed.prices, relaxed, left, FIRST_KEPT, is_over)
            if not self._added(master, found.boards, layouts):
                break
            relaxed = master.solve()
        return relaxed

    def _added(
        self, master: Covering, boards: Sequence[tuple[int, Layout]], layouts: dict[Column, Layout]
    ) -> int:
        grown = 0
        for kind, placements in boards:
            column = self._column(kind, placements)
            layouts.setdefault(column, placements)
            if self._can_be_sawn.get(column, True):
                grown += master.add(column)
        return grown

    def _worth_it(
        self, prices: Worth, relaxed: Relaxed, left: Counts, keep: int, is_over: IsOver
    ) -> _Found:
        """Boards worth more than they cost by the prices, and of the whole order their fellows."""
        boards: list[tuple[int, Layout]] = []
        most: list[float | None] = []
        for n, pricing in enumerate(self._pricings):
            cost = self.costs[n] * (1.0 + _ENOUGH) + float(relaxed.scarce[n])
            found = pricing.boards(prices, left, cost, keep, is_over)
            most.append(found.most)
            boards += [(n, self.placed(n, layout)) for layout in found.layouts]
            rest, against = left, self.kinds[n].against
            for _ in range(COMPLEMENTS if left is self.wanted and pricing.most_kept > 1 else 0):
                if not found.layouts or is_over():
                    break
                rest = rest - counts_of(against, found.layouts[0], left.size)
                found = pricing.boards(prices, rest, COMPLEMENT_WORTH * cost, 1, is_over)
                boards += [(n, self.placed(n, layout)) for layout in found.layouts[:1]]
        return _Found(boards, most)

    def placed(self, kind: int, spots: Sequence[Spot]) -> Layout:
        """Spots on a board of a kind as placements on the first of its names."""
        return self.kinds[kind].placements(self.request, self.pieces, spots)

    def _column(self, kind: int, placements: Iterable[Placement]) -> Column:
        counts = [0] * self.wanted.size
        for each in placements:
            counts[self._index[each.part, each.strip]] += 1
        return Column(kind, tuple(counts))

    def within(
        self, columns: Sequence[Column], left: Counts, layouts: dict[Column, Layout]
    ) -> list[Column]:
        """The columns without copies more than are left, as far as anything of them is left.

        layouts: of columns met on the way; gets those of what is left of a column.
        """
        found: list[Column] = []
        counts = np.array([each.counts for each in columns]).reshape(len(columns), left.size)
        fewer = np.minimum(counts, left)
        is_whole = np.all(counts <= left, axis=1)
        for n, column in enumerate(columns):
            if not fewer[n].any():
                continue
            if not is_whole[n]:
                whole, column = column, Column(column.kind, tuple(fewer[n].tolist()))
                if column not in layouts and column not in self.layouts:
                    layout = layouts.get(whole) or self.layouts[whole]
                    layouts[column] = self._without_surplus(layout, fewer[n])
            found.append(column)
        return found

    def _without_surplus(self, layout: Layout, counts: Counts) -> Layout:
        spare = counts.tolist()
        kept = []
        for each in layout:
            n = self._index[each.part, each.strip]
            if spare[n]:
                spare[n] -= 1
                kept.append(each)
        return tuple(kept)

    def can_be_sawn(self, column: Column, layout: Layout) -> bool:
        """Whether a saw can free all its pieces safely."""
        if column not in self._can_be_sawn:
            settled = settled_boards(self.request, layout)
            self._can_be_sawn[column] = settled is not None and settled.unsafe is None
        return self._can_be_sawn[column]
