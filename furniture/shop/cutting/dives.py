"""Plans from columns: whole boards fixed one after the other, what is left priced anew.

Two dives run side by side, each on a core of its own where there are two; what they find is taken
in their order, so a plan is the same on any machine.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from dataclasses import replace
from functools import partial

import numpy as np

from furniture.shop.cutting.bounds import whole_up
from furniture.shop.cutting.columns import Columns, IsOver, Layout
from furniture.shop.cutting.covering import Column, Counts
from furniture.shop.cutting.finishing import Finishing
from furniture.shop.cutting.plan import Placement
from furniture.shop.cutting.side_by_side import AT_ONCE, side_by_side

FINISHING = 6
"""Boards left from which the strip beam tries to finish a dive. Own rule."""

PRICINGS, SPREAD = 3, 0.3
"""Of each step of a dive, and how far chance moves what it takes first. Own rule."""

_WHOLE = 0.999
"""Of a board: a share that counts as a whole one."""

Fixed = list[tuple[int, Layout]]


class Dives:
    """Dives from the columns of one request, each by a chance of its own."""

    def __init__(self, columns: Columns) -> None:
        self._columns = columns
        limits = columns.request.limits
        self._seed = limits.seed
        self._finishing = Finishing.of(columns.kinds, columns.wanted, limits)
        self._number = 0

    def plans(
        self, useful: list[Column], price: float, pairs: int, is_over: IsOver
    ) -> Iterator[tuple[Placement, ...]]:
        """Plans whose boards cost less than the best so far.

        Args:
            useful: columns to begin with.
            price: of the best plan so far [money].
            pairs: so many times two dives.
        """
        for _ in range(pairs):
            if is_over():
                return
            numbers = range(self._number, self._number + AT_ONCE)
            self._number += AT_ONCE
            dives = [partial(self._dive, useful, price, n, is_over) for n in numbers]
            for fixed, layouts in side_by_side(dives):
                for column, layout in layouts.items():
                    self._columns.layouts.setdefault(column, layout)
                if fixed:
                    price = min(price, self._price(fixed))
                    yield self._placements(fixed)

    def _dive(
        self, useful: list[Column], to_beat: float, number: int, is_over: IsOver
    ) -> tuple[Fixed, dict[Column, Layout]]:
        columns, dice = self._columns, random.Random(f"{self._seed}/dive {number}")
        left, boards = columns.wanted.copy(), columns.boards
        fixed: Fixed = []
        layouts: dict[Column, Layout] = {}
        cost = 0.0
        while left.any() and not is_over():
            local = columns.master(left, boards, columns.within(useful, left, layouts))
            relaxed = columns.grow(
                local, left, to_beat - cost - min(columns.costs), PRICINGS if fixed else 1,
                layouts, is_over,
            )  # fmt: skip
            hope = cost + relaxed.value - (min(columns.costs) if number % 3 == 2 else 0.0)
            if whole_up(columns.request, hope - 1e-6) >= to_beat - 1e-6:
                return [], layouts
            useful = local.useful(relaxed)
            weights = relaxed.shares.copy()
            if number:
                chance = [dice.uniform(1 - SPREAD, 1 + SPREAD) for _ in weights]
                weights *= np.array(chance)
            taken = self._taken(local.columns, relaxed.shares, weights, left, boards, layouts)
            if not taken:
                return [], layouts
            for column, layout in taken:
                fixed.append((column.kind, layout))
                left = left - np.array(column.counts)
                cost += columns.costs[column.kind]
                boards = tuple(n - (k == column.kind) for k, n in enumerate(boards))
            if cost >= to_beat - 1e-6:
                return [], layouts
            rest = self._finished(left, to_beat - cost, boards)
            if rest is not None:
                return [*fixed, *rest], layouts
        return ([], layouts) if left.any() else (fixed, layouts)

    def _taken(
        self,
        found: list[Column],
        shares: np.ndarray,
        weights: np.ndarray,
        left: Counts,
        boards: tuple[int, ...],
        layouts: dict[Column, Layout],
    ) -> list[tuple[Column, Layout]]:
        """The columns of most weight, and all whole ones, as long as there is use for them."""
        columns = self._columns
        taken: list[tuple[Column, Layout]] = []
        rest, free = left.copy(), list(boards)
        for n in np.argsort(-weights, kind="stable"):
            if (taken and shares[n] < _WHOLE) or shares[n] <= 0:
                break
            column = found[n]
            counts = np.array(column.counts)
            layout = layouts.get(column) or columns.layouts[column]
            for _ in range(max(1, int(shares[n] + 1e-6))):
                if (counts > rest).any() or not free[column.kind]:
                    break
                if not columns.can_be_sawn(column, layout):
                    break
                taken.append((column, layout))
                rest -= counts
                free[column.kind] -= 1
        return taken

    def _finished(self, left: Counts, budget: float, boards: tuple[int, ...]) -> Fixed | None:
        if not left.any():
            return []
        if self._finishing is None:
            return None
        (cost,) = self._columns.costs
        room = min(boards[0], math.ceil((budget - 1e-6) / cost) - 1)
        if not 0 < room <= FINISHING:
            return None
        found = self._finishing.boards(left, room)
        if found is None:
            return None
        return [(0, self._columns.placed(0, spots)) for spots in found]

    def _price(self, fixed: Fixed) -> float:
        return sum(self._columns.costs[kind] for kind, _ in fixed)

    def _placements(self, fixed: Fixed) -> tuple[Placement, ...]:
        names = [iter(kind.names) for kind in self._columns.kinds]
        return tuple(
            replace(each, board=name)
            for kind, layout in fixed
            for name in [next(names[kind])]
            for each in layout
        )
