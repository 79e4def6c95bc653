"""Published instances put as a maker's request, and what the planner of the product answers.

Equal boards of one price, kerf 0, no limits of the saw, faults as knots. Where parts have a worth
the board is free, and the saw changes direction as often as it must. A request cannot say endless
copies: as many as the board has room for are asked for, and an instance whose sum a request does
not take is not put to the planner.
"""

from __future__ import annotations

import math
import time
from dataclasses import dataclass

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import CuttingPlan
from furniture.shop.cutting.request_problems import MOST_BOARDS, MOST_COPIES
from furniture.shop.cutting.values import (
    CutPart,
    CuttingRequest,
    Limits,
    Saw,
    Stages,
    Zone,
    ZoneKind,
    straight_board,
)
from tests.benchmarks.cutting_instances import Instance
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """What we found: value (1 or 0 for yes or no, None for unknown), bound, source, faults."""

    value: int | None
    bound: int | None
    source: str
    is_proven: bool
    seconds: float
    faults: tuple[str, ...]


BARE = Saw(kerf_mm=0.0, usable_length_mm=1e9)


def can_be_said(instance: Instance) -> bool:
    """Whether a request takes so many copies and boards."""
    return instance.pieces <= MOST_COPIES and _boards_offered(instance) <= MOST_BOARDS


def request_of(instance: Instance, seconds: float, rounds: int = 12) -> CuttingRequest:
    """The instance as the request that a job would make of it.

    Raises:
        ValueError: a request cannot say it.
    """
    if not can_be_said(instance):
        raise ValueError(f"{instance.name} wants too many")
    panel, saw = instance.panel, BARE
    zones: tuple[Zone, ...] = tuple(
        rectangular_zone(
            name=f"k{n}", kind=ZoneKind.KNOT, x=f.x, y=f.y, length=f.length, width=f.width
        )
        for n, f in enumerate(panel.faults)
    )
    parts = tuple(
        CutPart(
            name=f"p{n}", quantity=instance.copies_of(item), length_mm=item.length,
            width_mm=item.width, thickness_mm=18, species="oak",
            worth=float(item.value) if instance.is_by_worth else None,
        )
        for n, item in enumerate(instance.items)
        if instance.copies_of(item)
    )  # fmt: skip
    boards = tuple(
        straight_board(
            name=f"b{n}", length_mm=panel.length, width_mm=panel.width, thickness_mm=18,
            species="oak", price=0.0 if instance.is_by_worth else 1.0, zones=zones,
        )
        for n in range(_boards_offered(instance))
    )  # fmt: skip
    stages = Stages.ANY if instance.is_by_worth else Stages.THREE
    limits = Limits(seconds=seconds, rounds=rounds, stages=stages)
    return CuttingRequest(boards=boards, parts=parts, saw=saw, limits=limits)


def _boards_offered(instance: Instance) -> int:
    """A board for each piece, so that the number tells nothing; one for a decision or by worth."""
    is_one = instance.is_by_worth or instance.family.startswith("g2opp")
    return 1 if is_one else instance.pieces


def planned(instance: Instance, seconds: float) -> Run:
    """The planner's answer within about `seconds` [s], checked as every plan is."""
    request = request_of(instance, seconds)
    started = time.monotonic()
    plan = plan_cutting(request)
    took = time.monotonic() - started
    faults = tuple(faults_of_plan(request, plan))
    value, bound = _answer(instance, plan)
    return Run(
        value=value,
        bound=bound,
        source=plan.proof.kind.value,
        is_proven=value is not None and value == bound,
        seconds=took,
        faults=faults,
    )


def _answer(instance: Instance, plan: CuttingPlan) -> tuple[int | None, int | None]:
    """Boards and their bound; by worth what is cut; for a decision 1 or 0 where it is certain."""
    if instance.is_by_worth:
        everything = sum(instance.copies_of(item) * item.value for item in instance.items)
        value, bound = everything - plan.cost, everything - plan.proof.bound
        return round(value), math.floor(bound + 1e-6)
    if instance.family.startswith("g2opp"):
        certain = plan.proof.bound > 0 if plan.unplaced else True
        return (int(not plan.unplaced), int(not plan.unplaced)) if certain else (None, None)
    if plan.unplaced:
        return None, None
    return len(plan.boards), math.ceil(plan.proof.bound - 1e-6)
