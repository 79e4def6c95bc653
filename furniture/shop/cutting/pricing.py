"""The boards that are worth most by the prices of their pieces: what columns are made of.

A clear board is filled by `fillings.py`. A board on which pieces lie in one row only, as rails on a
board of their width, is a knapsack: exact, and quick where its cuts are too many for tables.

Source: P. C. Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock problem",
Operations Research 9 (1961), 849-859: the knapsack.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from furniture.shop.cutting.board_kinds import BoardKind
from furniture.shop.cutting.covering import Counts
from furniture.shop.cutting.fillings import Fillings, Worth
from furniture.shop.cutting.unit_boards import Spot, UnitBoard
from furniture.shop.cutting.value_tables import ClearTable, Filled

MOST_AT_ONCE = 60
"""Boards that one pricing of bars gives at most. Own rule: fewer rounds, a larger program."""

MOST_STEPS, MOST_KINDS = 300_000_000, 12
"""Boards are priced where filling one of each kind takes no more additions, and there are no more
kinds. Own rule: a second."""


@dataclass(frozen=True, slots=True)
class Priced:
    """Layouts that are worth what was asked, the best first.

    most: what no board is worth more than with these limits; None where that is not known.
    """

    layouts: tuple[tuple[Spot, ...], ...]
    most: float | None


class Pricing(Protocol):
    """Fills boards of one kind by the worth of pieces."""

    @property
    def most_kept(self) -> int:
        """How many layouts for each size memory allows."""

    @property
    def heeds_copies(self) -> bool:
        """Whether no piece is reckoned more often than it is wanted."""

    def filled(self, worth: Worth) -> Filled:
        """What no board of the kind is worth more than, and a layout that shows where from."""

    def boards(
        self, worth: Worth, limits: Counts, least: float, keep: int, is_over: Callable[[], bool]
    ) -> Priced:
        """Boards worth at least so much with no piece more often than its limit.

        Args:
            worth: of a copy, by piece.
            limits: copies, by piece.
            least: less is of no use.
            keep: layouts for each size.
        """


def steps_of(kind: BoardKind) -> int:
    """Additions, nearly, that filling one board of the kind takes."""
    along, across = (len(cuts) for cuts in kind.wide.cuts())
    row = _row(kind.wide)
    if row is not None and row == _row(kind.against):
        return (along, across)[row] * sum(most.bit_length() for most in kind.wide.most)
    return along * across * (along + across)


def pricing_of(kind: BoardKind) -> Pricing:
    """What fills boards of the kind."""
    along = _row(kind.wide), _row(kind.against)
    if along[0] is not None and along[0] == along[1]:
        return _Bars(kind, along[0])
    return _Sheets(kind)


def _row(board: UnitBoard) -> int | None:
    """The side along which all pieces lie in one row, 0 or 1; None where they may lie otherwise."""
    if not board.is_clear or len({shape.piece for shape in board.shapes}) < len(board.shapes):
        return None
    if all(2 * shape.width > board.width for shape in board.shapes):
        return 0
    return 1 if all(2 * shape.length > board.length for shape in board.shapes) else None


class _Sheets:
    """Boards that pieces lie on every way; for a bound their faults are not looked at."""

    def __init__(self, kind: BoardKind) -> None:
        self._kind, is_clear = kind, kind.against.is_clear
        self._table = ClearTable(kind.wide)
        self._fillings = Fillings(kind.against) if is_clear else None
        self._is_exact = is_clear and kind.wide == kind.against

    heeds_copies = False

    @property
    def most_kept(self) -> int:
        return self._fillings.most_kept if self._fillings else 1

    def filled(self, worth: Worth) -> Filled:
        found = self._table.filled(worth)
        return found if self._is_exact else Filled(found.value, ())

    def boards(
        self, worth: Worth, limits: Counts, least: float, keep: int, is_over: Callable[[], bool]
    ) -> Priced:
        if self._fillings is None:
            return Priced((), None)
        found = self._fillings.run(worth, np.zeros(worth.size), least, keep, is_over, limits)
        shapes = self._kind.against.shapes
        layouts = tuple(
            spots
            for spots in found.layouts
            if sum(float(worth[shapes[spot.shape].piece]) for spot in spots) >= least
        )
        is_sure = found.is_exact and self._is_exact
        return Priced(layouts, max(least, found.value) if is_sure else None)


class _Bars:
    """Boards that pieces lie on in one row, along one side."""

    most_kept, heeds_copies = 1, True

    def __init__(self, kind: BoardKind, along: int) -> None:
        self._wide, self._against, self._along = kind.wide, kind.against, along
        self._is_exact = kind.is_exact

    def filled(self, worth: Worth) -> Filled:
        counts, _ = self._best(self._wide, worth, np.array(self._wide.most, np.int64), False)
        spots = self._spots(counts[0]) if self._is_exact else ()
        return Filled(float(counts[0] @ worth), spots)

    def boards(
        self, worth: Worth, limits: Counts, least: float, keep: int, is_over: Callable[[], bool]
    ) -> Priced:
        most = np.minimum(np.array(self._against.most, np.int64), limits)
        counts, worths = self._best(self._against, worth, most, True)
        order = np.argsort(-worths, kind="stable")[:MOST_AT_ONCE]
        chosen = dict.fromkeys(
            tuple(int(c) for c in counts[n]) for n in order if worths[n] >= least
        )
        layouts = tuple(self._spots(np.array(each)) for each in chosen)
        return Priced(layouts, float(worths[0]) if self._is_exact else None)

    def _best(
        self, board: UnitBoard, worth: Worth, most: Counts, with_each: bool
    ) -> tuple[Counts, Worth]:
        """The best row, then those with a copy more of each piece; and their worths."""
        from furniture.shop.cutting.bar_kernels import best_rows

        sizes = np.full(worth.size, self._room(board) + 1, np.int64)
        for shape in board.shapes:
            sizes[shape.piece] = (shape.length, shape.width)[self._along]
        rows = worth.size + 1 if with_each else 1
        counts, worths = np.zeros((rows, worth.size), np.int64), np.zeros(rows)
        best_rows(self._room(board), sizes, most, worth, counts, worths)
        return counts, worths

    def _room(self, board: UnitBoard) -> int:
        return (board.length, board.width)[self._along]

    def _spots(self, counts: Counts) -> tuple[Spot, ...]:
        spots, at = [], 0
        for n, shape in enumerate(self._against.shapes):
            for _ in range(int(counts[shape.piece])):
                spots.append(Spot(n, *((at, 0) if self._along == 0 else (0, at))))
                at += (shape.length, shape.width)[self._along]
        return tuple(spots)
