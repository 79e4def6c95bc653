"""Best value of one board with limited copies: prices for a bound, then good fillings kept.

For every size the best few fillings are kept, scored by the prices of the bound; fillings that
cannot reach a better board even with the most that can be had beside them are dropped. When no
size was full nothing was lost, and the best is proven.

Source: the bound relaxes the copies' limits with prices (state-space relaxation: N. Christofides,
E. Hadjiconstantinou, "An exact algorithm for orthogonal 2-D cutting problems using guillotine
cuts", European Journal of Operational Research 83 (1995), 21-38).
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.unlimited import (
    ValueTable,
    floors,
    layings_from_table,
    reachable_limited,
    value_table,
)
from furniture.shop.cutting.classic.values import (
    Answer,
    BoundFrom,
    Item,
    Laying,
    Panel,
    Report,
)

LOOK = 0.1
"""Time between two looks at the clock [s], nearly."""
MEMORY = 60_000_000
"""Kept fillings are limited so that the tables stay below about this many entries."""

IsOver = Callable[[], bool]
"""Asked about every LOOK seconds: whether to stop here."""


def past(deadline: float) -> IsOver:
    """Over when the clock has passed the deadline [s of time.monotonic]."""
    return lambda: time.monotonic() > deadline


@dataclass(frozen=True, slots=True)
class PriceBound:
    """Prices on copies and the bound they give: no board is worth more than `value`."""

    value: float
    prices: NDArray[np.float64]


def copies_allowed(panel: Panel, items: Sequence[Item]) -> list[int]:
    """How many copies of each item one board can hold at most, by its area and its limit."""
    allowed = []
    for item in items:
        fit = (panel.length // item.length) * (panel.width // item.width)
        allowed.append(fit if item.quantity is None else min(item.quantity, fit))
    return allowed


def price_bound(
    panel: Panel,
    items: Sequence[Item],
    values: NDArray[np.float64],
    limits: NDArray[np.int64],
    at_least: float,
    *,
    rounds: int = 120,
    deadline: float = float("inf"),
) -> PriceBound:
    """The best bound found by moving prices against the copies used too often."""
    return _priced(panel, items, values, limits, at_least, rounds, deadline, np.zeros(len(items)))


def exact_price_bound(
    panel: Panel,
    items: Sequence[Item],
    values: NDArray[np.float64],
    wanted: NDArray[np.int64],
    *,
    rounds: int = 200,
    deadline: float = float("inf"),
) -> PriceBound:
    """As price_bound when every copy must be used: prices may also be rewards.

    A bound below values @ wanted proves that they cannot all be cut.
    """
    total = float(values @ wanted)
    free = np.full(len(items), -np.inf)
    return _priced(panel, items, values, wanted, total, rounds, deadline, free)


def _priced(
    panel: Panel,
    items: Sequence[Item],
    values: NDArray[np.float64],
    limits: NDArray[np.int64],
    at_least: float,
    rounds: int,
    deadline: float,
    lowest: NDArray[np.float64],
) -> PriceBound:
    prices = np.zeros(len(items))
    best = PriceBound(float("inf"), prices)
    pace = 1.0
    idle = 0
    for _ in range(rounds):
        table = value_table(panel, items, values - prices)
        value = float(table.best[-1, -1]) + float(prices @ limits)
        if value < best.value - 1e-9:
            best = PriceBound(value, prices)
            idle = 0
        else:
            idle += 1
            if idle >= 5:
                pace *= 0.6
                idle = 0
                prices = best.prices
        counts = counts_of(table, panel, items, values - prices)
        slope = counts - limits
        slope = np.where((prices <= lowest) & (slope < 0), 0, slope)
        length = float(slope @ slope)
        if length == 0 or pace < 0.01 or best.value < at_least - 1e-3:
            break
        step = pace * max(value - at_least, 1e-3 * at_least, 1e-6) / length
        prices = np.maximum(lowest, prices + step * slope)
        if time.monotonic() > deadline:
            break
    return best


def counts_of(
    table: ValueTable, panel: Panel, items: Sequence[Item], values: NDArray[np.float64]
) -> NDArray[np.int64]:
    """Copies of each item in the table's best board."""
    counts = np.zeros(len(items), np.int64)
    for laying in layings_from_table(table, items, list(values), panel.length, panel.width):
        counts[laying.item] += 1
    return counts


@dataclass(frozen=True, slots=True)
class _Kept:
    scores: NDArray[np.float64]
    packed: NDArray[np.uint64]
    made: NDArray[np.int32]
    count: NDArray[np.int32]
    number: NDArray[np.int64]
    is_exact: bool


class Fillings:
    """The search of one board: built once, run with more and more fillings kept."""

    def __init__(self, panel: Panel, items: Sequence[Item]) -> None:
        self.panel = panel
        self.items = items
        allowed = copies_allowed(panel, items)
        self.limits = np.array(allowed, np.int64)
        self.ls = _positions(
            [(i.length, q) for i, q in zip(items, allowed, strict=True)], panel.length
        )
        self.ws = _positions(
            [(i.width, q) for i, q in zip(items, allowed, strict=True)], panel.width
        )
        self._below_l = floors(self.ls, panel.length)
        self._below_w = floors(self.ws, panel.width)
        self._pack(allowed)

    def _pack(self, allowed: list[int]) -> None:
        word, shift = 0, 0
        self._fields: list[tuple[int, int, int]] = []
        for limit in allowed:
            bits = max(2, (2 * limit).bit_length() + 1)
            if shift + bits > 63:
                word, shift = word + 1, 0
            self._fields.append((word, shift, bits))
            shift += bits
        size = word + 1
        self._limit_words = np.zeros(size, np.uint64)
        self._high_words = np.zeros(size, np.uint64)
        self._item_words = np.zeros((len(allowed), size), np.uint64)
        for k, (at, start, bits) in enumerate(self._fields):
            self._limit_words[at] |= np.uint64(allowed[k] << start)
            self._high_words[at] |= np.uint64(1 << (start + bits - 1))
            self._item_words[k, at] = np.uint64(1 << start)

    @property
    def most_kept(self) -> int:
        """How many fillings per size memory allows."""
        return max(1, MEMORY // (self.ls.size * self.ws.size * (4 + self._limit_words.size)))

    def _search(
        self,
        values: NDArray[np.float64],
        prices: NDArray[np.float64],
        limits: NDArray[np.int64],
        target: float,
        keep: int,
        is_over: IsOver,
        all_needed: bool = False,
    ) -> _Kept:
        from furniture.shop.cutting.classic.limited_kernels import good_fillings, outside_values

        table = value_table(self.panel, self.items, values - prices)
        outside = np.zeros((self.ls.size, self.ws.size))
        best = table.best.astype(np.float64)
        outside_values(self.ls, self.ws, table.below_l, table.below_w, best, outside)
        slots = self.ls.size * self.ws.size
        scores = np.zeros((slots, keep))
        packed = np.zeros((slots, keep, self._limit_words.size), np.uint64)
        made = np.zeros((slots, keep, 4), np.int32)
        count = np.zeros(slots, np.int32)
        allowed = (limits > 0) & ((values > 0) | all_needed)
        tables = (
            self.ls,
            self.ws,
            self._below_l,
            self._below_w,
            np.array([i.length for i in self.items], np.int64)[allowed],
            np.array([i.width for i in self.items], np.int64)[allowed],
            (values - prices)[allowed],
            self._item_words[allowed],
            self._words_of(limits),
            self._high_words,
            outside,
            target - float(prices @ limits),
            keep,
            scores,
            packed,
            made,
            count,
        )
        full = start = 0
        stretch = 64
        now = time.monotonic()
        while start < slots:
            until = min(start + stretch, slots)
            full += good_fillings(*tables, all_needed, start, until)
            start, before, now = until, now, time.monotonic()
            if start < slots and is_over():
                full += 1
                break
            stretch = max(1, stretch // 2) if now - before > LOOK else stretch * 2
        number = np.nonzero(allowed)[0]
        return _Kept(scores, packed, made, count, number, full == 0)

    def run(
        self,
        values: NDArray[np.float64],
        prices: NDArray[np.float64],
        target: float,
        keep: int,
        is_over: IsOver,
    ) -> tuple[float, list[Laying], bool]:
        """The best value found, its layout, and whether nothing better than `target` was lost."""
        kept = self._search(values, prices, self.limits, target, keep, is_over)
        top, layings = 0.0, []
        last = kept.count.size - 1
        for k in range(int(kept.count[last])):
            value = float(self._unpacked(kept.packed[last, k]) @ values)
            if value > top:
                top = value
                layings = self._layings(kept.made, kept.number, last, k)
        return top, layings, kept.is_exact

    def run_for_all(
        self,
        values: NDArray[np.float64],
        prices: NDArray[np.float64],
        keep: int,
        is_over: IsOver,
    ) -> tuple[list[Laying] | None, bool]:
        """A layout that uses every copy, if found, and whether none can have been missed."""
        prices = np.minimum(prices, values)
        target = float(values @ self.limits) - 1e-5
        kept = self._search(values, prices, self.limits, target, keep, is_over, True)
        last = kept.count.size - 1
        for k in range(int(kept.count[last])):
            if (self._unpacked(kept.packed[last, k]) == self.limits).all():
                spare = self.limits.copy()
                layings: list[Laying] = []
                for laying in self._layings(kept.made, kept.number, last, k):
                    if spare[laying.item] > 0:
                        spare[laying.item] -= 1
                        layings.append(laying)
                return layings, True
        return None, kept.is_exact

    def best_boards(
        self,
        values: NDArray[np.float64],
        limits: NDArray[np.int64],
        target: float,
        keep: int,
        deadline: float,
    ) -> tuple[list[tuple[Laying, ...]], bool]:
        """Boards worth at least `target`, the best first, no copy used more often than limits.

        And whether nothing worth the target can have been missed.
        """
        bounded = np.minimum(self.limits, limits)
        kept = self._search(values, np.zeros(values.size), bounded, target, keep, past(deadline))
        last = kept.count.size - 1
        boards = [
            tuple(self._layings(kept.made, kept.number, last, k))
            for k in range(int(kept.count[last]))
            if kept.scores[last, k] >= target
        ]
        return boards, kept.is_exact

    def _words_of(self, limits: NDArray[np.int64]) -> NDArray[np.uint64]:
        words = np.zeros_like(self._limit_words)
        for k, (at, start, _) in enumerate(self._fields):
            words[at] |= np.uint64(int(limits[k]) << start)
        return words

    def _unpacked(self, words: NDArray[np.uint64]) -> NDArray[np.int64]:
        return np.array(
            [int(words[w]) >> start & ((1 << bits) - 1) for w, start, bits in self._fields],
            np.int64,
        )

    def _layings(
        self, made: NDArray[np.int32], number: NDArray[np.int64], slot: int, kept: int
    ) -> list[Laying]:
        layings: list[Laying] = []
        n_w = self.ws.size
        stack = [(slot, kept, 0, 0)]
        while stack:
            at, k, x, y = stack.pop()
            kind, index, k1, k2 = (int(v) for v in made[at, k])
            i, j = divmod(at, n_w)
            if kind == 0:
                layings.append(Laying(item=int(number[index]), x=x, y=y))
            elif kind == 1:
                cut = int(self.ls[index])
                rest = int(self._below_l[self.ls[i] - cut])
                stack += [(index * n_w + j, k1, x, y), (rest * n_w + j, k2, x + cut, y)]
            elif kind == 2:
                cut = int(self.ws[index])
                rest = int(self._below_w[self.ws[j] - cut])
                stack += [(i * n_w + index, k1, x, y), (i * n_w + rest, k2, x, y + cut)]
            else:
                stack.append((at - n_w if kind == 3 else at - 1, k1, x, y))
        return layings


def _positions(sizes: list[tuple[int, int]], limit: int) -> NDArray[np.int64]:
    return np.union1d(reachable_limited(sizes, limit), [limit]).astype(np.int64)


def best_limited(
    panel: Panel,
    items: Sequence[Item],
    *,
    seconds: float = 10.0,
    seed: int = 1,
    report: Report | None = None,
) -> Answer:
    """The most valuable way to cut the panel with each item at most `quantity` times.

    seconds [s]: stops with the best so far; the panel's faults are not looked at.
    """
    started = time.monotonic()
    deadline = started + seconds
    search = Fillings(panel, items)
    values = np.array([float(item.value) for item in items])
    top, layings, proven = search.run(values, np.zeros(len(items)), 0.0, 1, past(deadline))
    bound = price_bound(panel, items, values, search.limits, top, deadline=started + 0.25 * seconds)
    dice = random.Random(seed)
    keep = 2
    number = 0
    limit = int(bound.value + 1e-6)
    while top < limit and time.monotonic() < deadline:
        elapsed = time.monotonic() - started
        if report is not None and not report(int(top), limit, elapsed):
            break
        begun = time.monotonic()
        prices = bound.prices
        if number % 2:
            prices = prices * np.array([dice.uniform(0.3, 1.3) for _ in items])
        value, found, exact = search.run(
            values, prices, top + 1, min(keep, search.most_kept), past(deadline)
        )
        if value > top:
            top, layings = value, found
        if exact:
            limit = int(top + 0.5)
            proven = True
            break
        spent = time.monotonic() - begun
        if number % 2:
            keep *= 2
        number += 1
        if time.monotonic() + 2.0 * spent > deadline and number > 2:
            break
    source = BoundFrom.SEARCH if proven else BoundFrom.PRICES
    return Answer(
        boards=(tuple(layings),),
        value=int(top + 0.5),
        bound=max(limit, int(top + 0.5)),
        bound_from=source,
    )
