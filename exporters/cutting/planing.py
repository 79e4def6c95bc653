"""What must be planed before a joint is cut, and where a board leaves little on a width."""

from __future__ import annotations

from furniture.making.strips import is_planed_twice, strips_of_plan
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
    thinnest = _thinnest_boards(outcome)
    wanted: dict[tuple[float, str], list[str]] = {}
    for placement in plan.placements:
        thickness = finished[placement.part]
        over = measured - thickness
        if over <= SAME_MM:
            continue
        when = _BEFORE_JOINTS
        if placement.strip > 0:
            least = thinnest[outcome.laid(placement).instances] - thickness
            when = _IN_TWO_GOES if is_planed_twice(over, least) else _WHEN_GLUED
        wanted.setdefault((thickness, when), []).append(outcome.name_of(placement))
    loss = job.request.saw.planing_loss_mm
    return tuple(
        f"Plane from {dialled(measured, job.shown)} to {dialled(thickness, job.shown).with_unit} "
        f"{when}: {', '.join(names)}.{_flat(measured - thickness, loss, job.shown)}"
        for (thickness, when), names in sorted(wanted.items())
    )


def _thinnest_boards(outcome: CuttingOutcome) -> dict[tuple[str, ...], float]:
    """How thick the thinnest board is that the strips of a part come off [mm], by its instances."""
    thick = {each.name: each.thickness_mm for each in outcome.job.boards}
    return {
        instances: min(thick[each.board] for each in laid)
        for instances, laid in strips_of_plan(outcome).items()
    }


_BEFORE_JOINTS = "before any joint is cut"
_IN_TWO_GOES = "in two goes, the last once they are glued up, as the work says"
_WHEN_GLUED = "once they are glued up, as the work says"


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
