"""Linear programs, solved or told to have no answer."""

from __future__ import annotations

from typing import Any

from numpy.typing import NDArray
from scipy.optimize import OptimizeResult, linprog

_SOLVED = 0
INFEASIBLE = 2
"""What the solver calls a program that nothing meets."""


def solved(costs: NDArray[Any], **program: Any) -> OptimizeResult:
    """The program's answer, or that none is feasible.

    The solver's first reduction of a program can end with neither ("status not set"): then it is
    solved as it stands, which takes some times as long.

    Args:
        costs: of each variable, to be made least
        program: its rows and bounds, by the solver's names

    Raises:
        ArithmeticError: it does not end either way.
    """
    for is_reduced in (True, False):
        answer = linprog(costs, **program, method="highs", options={"presolve": is_reduced})
        if answer.status in (_SOLVED, INFEASIBLE):
            return answer
    raise ArithmeticError(f"the statics did not end: {answer.message}")
