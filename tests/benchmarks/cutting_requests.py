"""Published instances put as a maker's request, and what the planner of the product answers.

Equal boards of one price, kerf 0, no limits of the saw, faults as knots: whatever a request cannot
say (worth per part, endless copies) is not put to the planner.
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
    Zone,
    ZoneKind,
    rectangular_zone,
    straight_board,
)
from tests.benchmarks.cutting_instances import Instance
from tests.shop.cutting.checker import faults_of_plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """What we found: value (1 or 0 for yes or no, None for unknown), bound, source, faults."""

    value: int | None
    bound: int | None
    source: str
    is_proven: bool
    seconds: float
    faults: tuple[str, ...]


BARE = Saw(kerf=0.0, usable_length=1e9)


def can_be_said(instance: Instance) -> bool:
    """Whether a request can say the instance: all parts wanted, and no more than it takes."""
    return (
        instance.family.startswith(("g2csp", "g2opp", "csp1d"))
        and all(item.quantity is not None for item in instance.items)
        and instance.pieces <= MOST_COPIES
        and _boards_offered(instance) <= MOST_BOARDS
    )


def request_of(instance: Instance, seconds: float, rounds: int = 12) -> CuttingRequest:
    """The instance as the request that a job would make of it.

    Raises:
        ValueError: a request cannot say it.
    """
    if not can_be_said(instance):
        raise ValueError(f"{instance.name} wants worth, endless copies, or too many")
    panel, saw = instance.panel, BARE
    zones: tuple[Zone, ...] = tuple(
        rectangular_zone(
            name=f"k{n}", kind=ZoneKind.KNOT, x=f.x, y=f.y, length=f.length, width=f.width
        )
        for n, f in enumerate(panel.faults)
    )
    parts = tuple(
        CutPart(
            name=f"p{n}", quantity=item.quantity, length=item.length, width=item.width,
            thickness=18, species="oak",
        )
        for n, item in enumerate(instance.items)
        if item.quantity
    )  # fmt: skip
    boards = tuple(
        straight_board(
            name=f"b{n}", length=panel.length, width=panel.width, thickness=18, species="oak",
            price=1.0, zones=zones,
        )
        for n in range(_boards_offered(instance))
    )  # fmt: skip
    limits = Limits(seconds=seconds, rounds=rounds)
    return CuttingRequest(boards=boards, parts=parts, saw=saw, limits=limits)


def _boards_offered(instance: Instance) -> int:
    """A board for each piece, so that the number tells nothing; one for a decision."""
    return 1 if instance.family.startswith("g2opp") else instance.pieces


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
    """Boards and their bound; for a decision 1 or 0 where the planner is certain."""
    if instance.family.startswith("g2opp"):
        certain = plan.proof.bound > 0 if plan.unplaced else True
        return (int(not plan.unplaced), int(not plan.unplaced)) if certain else (None, None)
    if plan.unplaced:
        return None, None
    return len(plan.boards), math.ceil(plan.proof.bound - 1e-6)
