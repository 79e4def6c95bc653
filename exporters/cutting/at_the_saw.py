"""Cautions at the saw, judged on the pieces that a cutting plan alone puts in hand."""

from __future__ import annotations

from furniture.checks.finding import Finding
from furniture.checks.of_piece.reading import worst_alone
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from furniture.rules import USUAL_RULES, Rules
from furniture.shop.boards.outcome import CuttingOutcome
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
    cuts = [
        (f"board {one.board}, cut {cut.number}", cut) for one in plan.boards for cut in one.cuts
    ]
    # all rips first: of two as hard the first is told
    for name, cut in sorted(cuts, key=lambda each: each[1].direction is CutDirection.CROSSCUT):
        length, width = round(cut.workpiece.length_mm, 6), round(cut.workpiece.width_mm, 6)
        if cut.direction is CutDirection.CROSSCUT:
            found.append(crosscut_finding(name, length, show, rules))
            continue
        found.append(rip_finding(name, length, width, show, rules))
        found.append(narrow_rip_finding(name, length, width, show, rules))
    return worst_alone(found)
