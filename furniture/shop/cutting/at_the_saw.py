"""The piece that is really in hand at each cut of a plan, against what can be held safely."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.shop.cutting.plan import CutDirection, CuttingPlan, NumberedCut
from furniture.shop.cutting.values import Saw
from furniture.shop.cutting.zones import TOUCH


class HoldingRule(Enum):
    """What a piece in hand may not be."""

    SHORT_RIP = "too short to rip"
    NARROW_RIP = "too narrow to rip"
    SHORT_CROSSCUT = "too short to crosscut"


@dataclass(frozen=True, slots=True, kw_only=True)
class UnsafeCut:
    """A cut whose piece in hand is under the least that its rule asks."""

    board: str
    cut: NumberedCut
    rule: HoldingRule
    in_hand_mm: float
    least_mm: float


def unsafe_cuts(plan: CuttingPlan, saw: Saw) -> tuple[UnsafeCut, ...]:
    """Every cut of the plan that holds a piece shorter or narrower than the saw's limits.

    Args:
        plan: as planned, or as changed by hand.
        saw: with the limits to judge by; they may be stricter than those planned with.
    """
    return tuple(
        UnsafeCut(board=board.board, cut=cut, rule=rule, in_hand_mm=in_hand, least_mm=least)
        for board in plan.boards
        for cut in board.cuts
        for rule, in_hand, least in _limits(cut, saw)
        if in_hand < least - TOUCH
    )


def _limits(cut: NumberedCut, saw: Saw) -> list[tuple[HoldingRule, float, float]]:
    """The rules of a cut, each with what is in hand and the least that it asks [mm]."""
    hand = cut.workpiece
    if cut.direction is CutDirection.CROSSCUT:
        return [(HoldingRule.SHORT_CROSSCUT, hand.length_mm, saw.shortest_crosscut_mm)]
    return [
        (HoldingRule.SHORT_RIP, hand.length_mm, saw.shortest_rip_mm),
        (HoldingRule.NARROW_RIP, hand.width_mm, saw.narrowest_rip_mm),
    ]
