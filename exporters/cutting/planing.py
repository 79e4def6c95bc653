"""What must be planed before a joint is cut, and where a board leaves little on a width."""

from __future__ import annotations

from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import BoardPlan
from furniture.units import Shown, dialled, figure_with_unit

SAME_MM = 0.05
"""A difference that a calliper does not show [mm]. Own rule."""

FLAT_ENOUGH_MM = 0.5
"""Of a board thicker by no more nothing is said: a passing plane takes it off [mm]. Own rule."""


def planing_of(outcome: CuttingOutcome, plan: BoardPlan) -> tuple[str, ...]:
    """For each thickness that the board must be brought to, what to plane, in words.

    Dados are sized from the stock's measured thickness, so a part left thicker would not go in.
    Strips are left a little thicker until they are glued up: the work says how much.
    """
    job = outcome.job
    measured = job.board_named[plan.board].thickness_mm
    finished = {each.name: each.thickness_mm for each in job.request.parts}
    wanted: dict[tuple[float, bool], list[str]] = {}
    for placement in plan.placements:
        if measured - finished[placement.part] > SAME_MM:
            key = (finished[placement.part], placement.strip > 0)
            wanted.setdefault(key, []).append(outcome.name_of(placement))
    loss = job.request.saw.planing_loss_mm
    return tuple(
        f"Plane from {dialled(measured, job.shown)} to {dialled(thickness, job.shown).with_unit} "
        f"{_WHEN_GLUED if is_strip else _BEFORE_JOINTS}: {', '.join(names)}."
        f"{_flat(measured - thickness, loss, job.shown)}"
        for (thickness, is_strip), names in sorted(wanted.items())
    )


_BEFORE_JOINTS = "before any joint is cut"
_WHEN_GLUED = "in two goes, the last once they are glued up, as the work says"


def _flat(off: float, loss: float, shown: Shown) -> str:
    """That a board must be flat as it is, where less comes off than a rough board loses [mm]."""
    if FLAT_ENOUGH_MM < off < loss - SAME_MM:
        return f" A rough board loses {figure_with_unit(loss, shown)}: this one must be flat."
    return ""


def narrow_of(outcome: CuttingOutcome, plan: BoardPlan) -> tuple[str, ...]:
    """The parts that the board leaves less on their width than was asked, and how much."""
    job = outcome.job
    parts = job.request.part_named
    left: dict[float, list[str]] = {}
    for placement in plan.placements:
        part, place = parts[placement.part], placement.place
        width = place.length_mm if placement.is_turned else place.width_mm
        if placement.strip == 0 and width < part.rough_width_mm - SAME_MM:
            left.setdefault(round(width - part.width_mm, 6), []).append(outcome.name_of(placement))
    return tuple(
        f"The board is narrow: only {figure_with_unit(allowance, job.shown)} is left on the width "
        f"of {', '.join(names)}."
        for allowance, names in sorted(left.items())
    )
