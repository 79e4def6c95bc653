"""The covering programme over columns: least number of columns so that every demand is met."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray


class CoveringMaster:
    """Columns so far and their linear programme, solved again from where it stood."""

    def __init__(self, demand: NDArray[np.int64], costs: float = 1.0) -> None:
        import highspy

        self._highs = highspy.Highs()
        self._highs.setOptionValue("output_flag", False)
        self._highs.setOptionValue("threads", 1)
        self._cost = costs
        self.rows = np.nonzero(demand > 0)[0]
        self._size = demand.size
        for row in self.rows:
            self._highs.addRow(float(demand[row]), highspy.kHighsInf, 0, [], [])
        self.columns: list[NDArray[np.int64]] = []
        self._known: set[bytes] = set()
        position = np.full(demand.size, -1, np.int64)
        position[self.rows] = np.arange(self.rows.size)
        self._position = position
        self._infinity = highspy.kHighsInf
        for row in self.rows:
            unit = np.zeros(demand.size, np.int64)
            unit[row] = 1
            self.add(unit)

    def add(self, column: NDArray[np.int64]) -> bool:
        """Add a column (copies of each size); False when it is there already or empty."""
        mark = column.tobytes()
        used = np.nonzero((column > 0) & (self._position >= 0))[0]
        if mark in self._known or used.size == 0:
            return False
        self._known.add(mark)
        self.columns.append(column.copy())
        self._highs.addCol(
            self._cost,
            0.0,
            self._infinity,
            int(used.size),
            self._position[used].astype(np.int32),
            column[used].astype(np.float64),
        )
        return True

    def solve(self) -> tuple[float, NDArray[np.float64]]:
        """The programme's value and a price for every size."""
        self._highs.run()
        prices = np.zeros(self._size)
        dual = np.array(self._highs.getSolution().row_dual)
        prices[self.rows] = np.maximum(dual, 0.0)
        return float(self._highs.getInfo().objective_function_value), prices

    def useful(self) -> list[NDArray[np.int64]]:
        """Columns that the last solution used or nearly would have used."""
        reduced = np.array(self._highs.getSolution().col_dual)
        shares = self.shares()
        order = np.argsort(reduced - shares, kind="stable")
        return [self.columns[k] for k in order[: 4 * self.rows.size + 50]]

    def shares(self) -> NDArray[np.float64]:
        """How often each column is used in the last solution."""
        return np.array(self._highs.getSolution().col_value)


def cover_within(
    columns: list[NDArray[np.int64]],
    demand: NDArray[np.int64],
    most: int,
    seconds: float,
    seed: int,
) -> list[int] | None:
    """At most `most` columns, by index, that together meet the demand; None when none was found.

    seconds [s]: gives up then. Two workers in step, so that a finished search repeats itself.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    times = [model.new_int_var(0, most, "") for _ in columns]
    table = np.array(columns)
    for row in range(demand.size):
        if demand[row] > 0:
            used = np.nonzero(table[:, row])[0]
            model.add(sum(int(table[k, row]) * times[k] for k in used) >= int(demand[row]))
    model.add(sum(times) <= most)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 2
    solver.parameters.interleave_search = True
    solver.parameters.random_seed = seed
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return [k for k in range(len(columns)) for _ in range(solver.value(times[k]))]
