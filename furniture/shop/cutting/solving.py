"""The integer programs' solver, set so that what it answers hangs on no machine."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ortools.sat.python import cp_model


MONEY = 10_000
"""Steps of a program to a unit of money."""


def in_steps(amount: float) -> int:
    """An amount [money] in steps of a program, rounded down so that a bound holds."""
    return math.floor(amount * MONEY + 1e-6)


def solved(
    model: cp_model.CpModel, effort_s: float, seconds: float
) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
    """The solver after it has run, and how far it came.

    Args:
        effort_s: what it may take, in its own deterministic seconds [s].
        seconds: what it may take by the clock, for a machine that is too slow for that [s].
    """
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.catch_sigint_signal = False  # Ctrl-C stays the maker's
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = effort_s
    solver.parameters.max_time_in_seconds = seconds
    return solver, solver.solve(model)
