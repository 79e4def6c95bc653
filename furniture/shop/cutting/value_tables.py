"""The most that a board is worth when each piece has a worth and its copies are endless: exact.

Source: J. E. Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting", Journal
of the Operational Research Society 36 (1985), 297-306: the recursion over reachable sums. With
faults cuts may lie at sums from the far edge of every fault too: V. Afsharian, A. Niknejad,
G. Waescher, OR Spectrum 36 (2014), 971-999.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.unit_boards import Spot, UnitBoard

MOST_ENTRIES = 80_000_000
"""Of a table with faults, one for every rectangle of the board. Own rule: 320 megabytes."""

_LARGEST = 1 << 30


@dataclass(frozen=True, slots=True)
class Filled:
    """What a board is worth, and a layout that gives it."""

    value: float
    spots: tuple[Spot, ...]


class ClearTable:
    """Tables of a board whose faults are not looked at."""

    def __init__(self, board: UnitBoard) -> None:
        self.board = board
        along, across = board.cuts()
        self.ls, self.ws = np.array(along, np.int64), np.array(across, np.int64)
        self.below_l = _floors(self.ls, board.length)
        self.below_w = _floors(self.ws, board.width)
        self._length = np.array([shape.length for shape in board.shapes], np.int64)
        self._width = np.array([shape.width for shape in board.shapes], np.int64)
        self._piece = np.array([shape.piece for shape in board.shapes], np.int64)

    @property
    def knows_faults(self) -> bool:
        """Whether the faults of the board, if it has any, are kept off."""
        return self.board.is_clear

    def worths(self, worth: NDArray[np.float64]) -> NDArray[np.float64]:
        """The table: entry i, j of a board ls[i] x ws[j]; worth: by piece."""
        from furniture.shop.cutting.value_kernels import best_values

        best = np.zeros((self.ls.size, self.ws.size))
        if self._piece.size:
            best_values(
                self.ls, self.ws, self.below_l, self.below_w, self._length, self._width,
                worth[self._piece], best,
            )  # fmt: skip
        return best

    def filled(self, worth: NDArray[np.float64]) -> Filled:
        """The most for the whole board; worth: by piece."""
        from furniture.shop.cutting.value_kernels import spots_behind

        best = self.worths(worth)
        if not self._piece.size:
            return Filled(0.0, ())
        value = worth[self._piece]
        room = (self.board.length * self.board.width) // int((self._length * self._width).min())
        spots = np.zeros((room + 1, 3), np.int64)
        count = spots_behind(
            self.ls, self.ws, self.below_l, self.below_w, self._length, self._width, value,
            np.argsort(-value, kind="stable"), best, self.board.length, self.board.width, spots,
        )  # fmt: skip
        found = tuple(Spot(int(k), int(x), int(y)) for k, x, y in spots[:count])
        return Filled(float(best[-1, -1]), found)


class FaultyTable:
    """Tables of a board with faults: one entry for every rectangle of it between cuts."""

    def __init__(self, board: UnitBoard) -> None:
        self.board = board
        along, across = board.cuts()
        self.xs, self.ys = np.array(along, np.int64), np.array(across, np.int64)
        self.rows = np.zeros((self.xs.size, self.xs.size), np.int64)
        upper = np.triu_indices(self.xs.size, 1)
        self.rows[upper] = np.arange(upper[0].size)
        heights = np.arange(self.ys.size - 1, -1, -1)
        self.starts = np.concatenate([[0], np.cumsum(heights + 1)[:-1]]).astype(np.int64)
        self._size = max(1, upper[0].size), int((heights + 1).sum())

    @property
    def knows_faults(self) -> bool:
        """Whether the faults of the board, if it has any, are kept off."""
        return True

    @staticmethod
    def is_small(board: UnitBoard) -> bool:
        """Whether the table of the board has few enough entries."""
        along, across = board.cuts()
        return (len(along) * len(across)) ** 2 / 4 <= MOST_ENTRIES

    @cached_property
    def _clear(self) -> NDArray[np.bool_]:
        """Whether each shape may lie with its near corner at each cut along and across."""
        board = self.board
        clear = np.zeros((len(board.shapes), self.xs.size, self.ys.size), np.bool_)
        kerf = board.kerf / board.unit
        for k, shape in enumerate(board.shapes):
            x_end, y_end = self.xs + shape.length, self.ys + shape.width
            clear[k] = (x_end <= board.length)[:, None] & (y_end <= board.width)[None, :]
            for box in shape.barred:
                on_x = (self.xs < box.x_end) & (x_end - kerf > box.x + 1e-6)
                on_y = (self.ys < box.y_end) & (y_end - kerf > box.y + 1e-6)
                clear[k] &= ~(on_x[:, None] & on_y[None, :])
        return clear

    def filled(self, worth: NDArray[np.float64]) -> Filled:
        """The most for the whole board; worth: by piece."""
        from furniture.shop.cutting.value_kernels import faulty_values

        board = self.board
        if not board.shapes:
            return Filled(0.0, ())
        best = np.zeros(self._size, np.int32)
        step = _step(worth, board)
        steps = np.ceil(np.maximum(worth, 0.0) / step - 1e-7).astype(np.int32)
        values = np.array([steps[shape.piece] for shape in board.shapes], np.int32)
        faulty_values(
            self.xs, self.ys,
            np.array([shape.length for shape in board.shapes], np.int64),
            np.array([shape.width for shape in board.shapes], np.int64),
            values, self._clear, self.rows, self.starts, best,
        )  # fmt: skip
        spots = tuple(self._spots(best, values))
        return Filled(step * int(best[self.rows[0, -1], self.ys.size - 1]), spots)

    def _spots(self, best: NDArray[np.int32], values: NDArray[np.int32]) -> list[Spot]:
        """The layout behind the whole board's worth, found by asking which choice gives it."""

        def at(a: int, b: int, c: int, d: int) -> int:
            return int(best[self.rows[a, b], self.starts[c] + d - c]) if a < b and c < d else 0

        spots: list[Spot] = []
        stack = [(0, self.xs.size - 1, 0, self.ys.size - 1)]
        while stack:
            a, b, c, d = stack.pop()
            target = at(a, b, c, d)
            if target <= 0:
                continue
            shape = self._alone(values, a, b, c, d, target)
            if shape is not None:
                spots.append(Spot(shape, int(self.xs[a]), int(self.ys[c])))
                continue
            for p in range(a + 1, b):
                if at(a, p, c, d) + at(p, b, c, d) == target:
                    stack += [(a, p, c, d), (p, b, c, d)]
                    break
            else:
                for q in range(c + 1, d):
                    if at(a, b, c, q) + at(a, b, q, d) == target:
                        stack += [(a, b, c, q), (a, b, q, d)]
                        break
        return spots

    def _alone(
        self, values: NDArray[np.int32], a: int, b: int, c: int, d: int, target: int
    ) -> int | None:
        for k, shape in enumerate(self.board.shapes):
            if (
                int(values[k]) == target
                and self._clear[k, a, c]
                and shape.length <= self.xs[b] - self.xs[a]
                and shape.width <= self.ys[d] - self.ys[c]
            ):
                return k
        return None


def _step(worth: NDArray[np.float64], board: UnitBoard) -> float:
    """Worths are counted in whole steps of so much, rounded up [money].

    In hundredths where they are whole in these, else as fine as the table's numbers go: no filling
    is worth more than the whole area at that of the dearest shape.
    """
    dearest = max(float(worth[s.piece]) / (s.length * s.width) for s in board.shapes)
    most = max(dearest, 0.0) * board.length * board.width
    cents = np.round(worth * 100)
    if np.allclose(worth * 100, cents, rtol=0.0, atol=1e-6) and most * 100 < _LARGEST:
        return 0.01
    return max(most, 1e-9) / _LARGEST


Table = ClearTable | FaultyTable


def table_of(board: UnitBoard) -> Table:
    """The table of a board, by its faults where that is not too large."""
    if not board.is_clear and FaultyTable.is_small(board):
        return FaultyTable(board)
    return ClearTable(board)


def counts_of(board: UnitBoard, spots: Sequence[Spot], pieces: int) -> NDArray[np.int64]:
    """How often each piece lies there."""
    counts = np.zeros(pieces, np.int64)
    for spot in spots:
        counts[board.shapes[spot.shape].piece] += 1
    return counts


def _floors(points: NDArray[np.int64], limit: int) -> NDArray[np.int64]:
    """For every size 0..limit the index of the greatest point that is no greater."""
    return (np.searchsorted(points, np.arange(limit + 1), side="right") - 1).astype(np.int64)
