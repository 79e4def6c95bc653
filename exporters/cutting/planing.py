"""What must be planed before a joint is cut: boards that are thicker than their parts."""

from __future__ import annotations

from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.units import figure, figure_with_unit

SAME_MM = 0.05
"""A difference that a calliper does not show [mm]. Own rule."""


def planing_of(outcome: CuttingOutcome, plan: BoardPlan) -> tuple[str, ...]:
    """For each thickness that the board must be brought to, what to plane, in words.

    Dados are sized from the stock's measured thickness, so a part left thicker would not go in.

    Args:
        outcome: the plan and its job.
        plan: of one board.
    """
    job = outcome.job
    measured = next(each.thickness for each in job.boards if each.name == plan.board)
    finished = {each.name: each.thickness for each in job.request.parts}
    wanted: dict[float, list[str]] = {}
    for placement in plan.placements:
        if measured - finished[placement.part] > SAME_MM:
            names = wanted.setdefault(finished[placement.part], [])
            names.append(outcome.name_of(placement))
    return tuple(
        f"Plane from {figure(measured, job.shown)} to {figure_with_unit(thickness, job.shown)} "
        f"before any joint is cut: {', '.join(names)}."
        for thickness, names in sorted(wanted.items())
    )
