"""The linear program over boards cut up: what wanted pieces cost at least, and are worth."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Column:
    """A board of a kind cut up: how often each piece comes off it."""

    kind: int
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Relaxed:
    """Boards cut up in shares: what they cost, and what follows from it [money].

    prices: what a copy of each piece is worth. scarce: what a board of each kind costs beyond its
    price because there are no more. shares: how often each column is taken; dearer: what each
    costs beyond what its pieces are worth.
    """

    value: float
    prices: NDArray[np.float64]
    scarce: NDArray[np.float64]
    shares: NDArray[np.float64]
    dearer: NDArray[np.float64]


class Covering:
    """Columns so far, and the cheapest shares of them that give all that is wanted.

    Args:
        wanted: copies of each piece.
        costs: the price of a board of each kind [money].
        boards: how many there are of each kind.
    """

    def __init__(self, wanted: Counts, costs: tuple[float, ...], boards: tuple[int, ...]) -> None:
        from ortools.linear_solver import pywraplp

        self._solver = pywraplp.Solver.CreateSolver("GLOP")
        endless = self._solver.infinity()
        self._costs = np.array(costs)
        self._used = np.flatnonzero(wanted > 0)
        self._rows = [self._solver.Constraint(float(wanted[n]), endless) for n in self._used]
        self._kinds = [self._solver.Constraint(-endless, float(count)) for count in boards]
        self._objective = self._solver.Objective()
        self._objective.SetMinimization()
        self._size = wanted.size
        self.columns: list[Column] = []
        self._known: set[Column] = set()
        self._table: list[NDArray[np.float64]] = []
        self._times: list[pywraplp.Variable] = []
        for row in self._rows:
            bought = self._solver.NumVar(0.0, endless, "")
            row.SetCoefficient(bought, 1.0)
            self._objective.SetCoefficient(bought, 2.0 * float(self._costs.max()))

    def add(self, column: Column) -> bool:
        """Whether the column is new, and gives anything that is wanted."""
        if column in self._known:
            return False
        counts = np.array(column.counts, float)[self._used]
        if not counts.any():
            return False
        self._known.add(column)
        self.columns.append(column)
        self._table.append(counts)
        often = self._solver.NumVar(0.0, self._solver.infinity(), "")
        self._times.append(often)
        self._objective.SetCoefficient(often, float(self._costs[column.kind]))
        self._kinds[column.kind].SetCoefficient(often, 1.0)
        for n in np.flatnonzero(counts):
            self._rows[n].SetCoefficient(often, float(counts[n]))
        return True

    def solve(self) -> Relaxed:
        """The program's optimum; what no column gives is had at twice the dearest board's price."""
        self._solver.Solve()
        prices = np.zeros(self._size)
        prices[self._used] = [max(row.dual_value(), 0.0) for row in self._rows]
        scarce = np.array([max(-kind.dual_value(), 0.0) for kind in self._kinds])
        shares = np.array([often.solution_value() for often in self._times])
        of_kind = np.array([each.kind for each in self.columns], int)
        table = np.array(self._table).reshape(len(self.columns), self._used.size)
        dearer = (self._costs + scarce)[of_kind] - table @ prices[self._used]
        return Relaxed(float(self._objective.Value()), prices, scarce, shares, dearer)

    def useful(self, relaxed: Relaxed) -> list[Column]:
        """Columns that the optimum takes or nearly would, the most useful first."""
        order = np.argsort(relaxed.dearer - relaxed.shares, kind="stable")
        return [self.columns[n] for n in order[: 4 * self._used.size + 50]]
