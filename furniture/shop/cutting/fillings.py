"""The best filling of one clear board when copies are limited: good fillings kept for every size.

For every size the best few fillings are kept, scored by the prices of the bound; what cannot reach
a better board even with the most that can be had beside it is dropped. Where no size was full,
nothing was lost, and the best is proven, however often the saw changes direction.

Source: the prices as in `price_bound.py`; what can be had beside a piece: `outside_values`.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.unit_boards import Spot, UnitBoard
from furniture.shop.cutting.value_tables import ClearTable

LOOK_S = 0.1
"""Between two looks at the clock [s], nearly."""

MEMORY = 40_000_000
"""Fillings are limited so that their tables stay below about so many numbers. Own rule."""

Worth = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class BoardFillings:
    """What a board is worth, its layouts, the best first, and whether none better was lost."""

    value: float
    layouts: tuple[tuple[Spot, ...], ...]
    is_exact: bool


class Fillings:
    """The search of one board, run with more and more fillings kept."""

    def __init__(self, board: UnitBoard) -> None:
        self._table = ClearTable(board)
        self._board = board
        most = board.most
        self.limits = np.array(most, np.int64)
        word = shift = 0
        fields: list[tuple[int, int, int]] = []
        for limit in most:
            bits = max(2, (2 * limit).bit_length() + 1)
            if shift + bits > 63:
                word, shift = word + 1, 0
            fields.append((word, shift, bits))
            shift += bits
        self._fields = fields
        self._high_words = np.zeros(word + 1, np.uint64)
        self._piece_words = np.zeros((len(most), word + 1), np.uint64)
        for k, (at, start, bits) in enumerate(fields):
            self._high_words[at] |= np.uint64(1 << (start + bits - 1))
            self._piece_words[k, at] = np.uint64(1 << start)

    @property
    def most_kept(self) -> int:
        """How many fillings for each size memory allows."""
        sizes = self._table.ls.size * self._table.ws.size
        return max(1, MEMORY // (sizes * (4 + self._high_words.size)))

    def run(
        self,
        worth: Worth,
        prices: Worth,
        target: float,
        keep: int,
        is_over: Callable[[], bool],
        limits: NDArray[np.int64] | None = None,
    ) -> BoardFillings:
        """The best found of what is worth the target at least; `is_exact` is said of that alone.

        Args:
            worth: of a copy, by piece.
            prices: taken off it for every copy, to weigh fillings by.
            target: less is of no use.
            keep: fillings for each size.
            limits: copies of each piece at most, where fewer are left than a board may hold.
        """
        from furniture.shop.cutting.filling_kernels import good_fillings
        from furniture.shop.cutting.value_kernels import outside_values

        table, shapes = self._table, self._board.shapes
        best = table.worths(worth - prices)
        outside = np.zeros(best.shape)
        outside_values(table.ls, table.ws, table.below_l, table.below_w, best, outside)
        slots, words = best.size, self._high_words.size
        scores = np.zeros((slots, keep))
        packed = np.zeros((slots, keep, words), np.uint64)
        made = np.zeros((slots, keep, 4), np.int32)
        count = np.zeros(slots, np.int32)
        most = self.limits if limits is None else np.minimum(self.limits, limits)
        used = [n for n, s in enumerate(shapes) if worth[s.piece] > 0 and most[s.piece] > 0]
        pieces = np.array([shapes[n].piece for n in used], np.int64)
        given = (
            table.ls, table.ws, table.below_l, table.below_w,
            np.array([shapes[n].length for n in used], np.int64),
            np.array([shapes[n].width for n in used], np.int64),
            (worth - prices)[pieces], self._piece_words[pieces],
            self._words_of(most), self._high_words, outside,
            target - float(prices @ most), keep, scores, packed, made, count,
        )  # fmt: skip
        full = start = 0
        stretch, now = 64, time.monotonic()
        while start < slots:
            until = min(start + stretch, slots)
            full += good_fillings(*given, start, until)
            start, before, now = until, now, time.monotonic()
            if start < slots and is_over():
                return BoardFillings(0.0, (), False)
            stretch = max(1, stretch // 2) if now - before > LOOK_S else stretch * 2
        ranked = []
        for k in range(int(count[-1])):
            spots = self._spots(made, used, slots - 1, k)
            ranked.append((sum(float(worth[shapes[s.shape].piece]) for s in spots), -k, spots))
        ranked.sort(key=lambda each: each[:2], reverse=True)
        value = ranked[0][0] if ranked else 0.0
        return BoardFillings(value, tuple(spots for _, _, spots in ranked), full == 0)

    def _words_of(self, counts: NDArray[np.int64]) -> NDArray[np.uint64]:
        words = np.zeros_like(self._high_words)
        for k, (at, start, _) in enumerate(self._fields):
            words[at] |= np.uint64(int(counts[k]) << start)
        return words

    def _spots(
        self, made: NDArray[np.int32], used: list[int], slot: int, kept: int
    ) -> tuple[Spot, ...]:
        table = self._table
        n_w = table.ws.size
        spots: list[Spot] = []
        stack = [(slot, kept, 0, 0)]
        while stack:
            at, k, x, y = stack.pop()
            kind, index, k1, k2 = (int(n) for n in made[at, k])
            i, j = divmod(at, n_w)
            if kind == 0:
                spots.append(Spot(used[index], x, y))
            elif kind == 1:
                cut = int(table.ls[index])
                rest = int(table.below_l[table.ls[i] - cut])
                stack += [(index * n_w + j, k1, x, y), (rest * n_w + j, k2, x + cut, y)]
            elif kind == 2:
                cut = int(table.ws[index])
                rest = int(table.below_w[table.ws[j] - cut])
                stack += [(i * n_w + index, k1, x, y), (i * n_w + rest, k2, x, y + cut)]
            else:
                stack.append((at - n_w if kind == 3 else at - 1, k1, x, y))
        return tuple(spots)
