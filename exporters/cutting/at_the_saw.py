"""Cautions at the saw, judged on the pieces that a cutting plan alone puts in hand."""

from __future__ import annotations

from furniture.checks.finding import Finding
from furniture.checks.of_piece.reading import worst_alone
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from furniture.rules import USUAL_RULES, Rules
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.at_the_saw import CutInHand, cuts_of
from furniture.shop.cutting.plan import CutDirection
from furniture.units import Amounts


def planned_saw_findings(
    outcome: CuttingOutcome, rules: Rules = USUAL_RULES
) -> tuple[Finding, ...] | None:
    """The hardest rip and crosscut of a plan for several pieces; None where parts have no place."""
    if outcome.plan is None or outcome.plan.unplaced:
        return None
    plan, show = outcome.plan, Amounts(shown=outcome.job.shown)
    found: list[Finding] = []
    for each in cuts_of(plan, CutDirection.RIP):
        length, width = round(each.cut.workpiece.length, 6), round(each.cut.workpiece.width, 6)
        found += (
            rip_finding(_named(each), length, width, show, rules),
            narrow_rip_finding(_named(each), length, width, show, rules),
        )
    found += [
        crosscut_finding(_named(each), round(each.cut.workpiece.length, 6), show, rules)
        for each in cuts_of(plan, CutDirection.CROSSCUT)
    ]
    return worst_alone(found)


def _named(each: CutInHand) -> str:
    return f"board {each.board}, cut {each.cut.number}"
