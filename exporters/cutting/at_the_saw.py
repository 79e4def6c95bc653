"""Cautions at the saw, judged on the piece that the cutting plan really puts in hand."""

from __future__ import annotations

from dataclasses import replace

from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.of_piece.saw import saw_findings_of
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from furniture.pieces import Piece
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.at_the_saw import CutInHand, cuts_of
from furniture.shop.cutting.plan import CutDirection, CuttingPlan

_LAST = "last cross-cut of a short part"


def saw_findings_with(piece: Piece, outcome: CuttingOutcome | None) -> tuple[Finding, ...]:
    """The hardest rip and crosscut of the plan, and parts too short to be trimmed by themselves.

    Without a plan, or while a part has no place in it, every part is judged at its own size.

    Args:
        piece: as cut.
        outcome: its cutting plan, if there is one.
    """
    if outcome is None or outcome.plan is None or outcome.plan.unplaced:
        return saw_findings_of(piece)
    plan, show = outcome.plan, shown_by(piece)
    found: list[Finding] = []
    for each in cuts_of(plan, CutDirection.RIP):
        hand = each.cut.workpiece
        found += (
            rip_finding(_named(each), round(hand.length, 6), round(hand.width, 6), show),
            narrow_rip_finding(_named(each), round(hand.length, 6), round(hand.width, 6), show),
        )
    found += [
        crosscut_finding(_named(each), round(each.cut.workpiece.length, 6), show)
        for each in cuts_of(plan, CutDirection.CROSSCUT)
    ]
    found += _last_trims(plan, outcome, show)
    return worst_alone(found)


def _named(each: CutInHand) -> str:
    return f"board {each.board}, cut {each.cut.number}"


def _last_trims(plan: CuttingPlan, outcome: CuttingOutcome, show: Show) -> list[Finding]:
    """Parts that come off the plan rough and would be cut to length as short pieces."""
    found = []
    parts = {part.name: part for part in outcome.job.request.parts}
    for board in plan.boards:
        for placement in board.placements:
            part = parts[placement.part]
            if part.length_allowance <= 0 or placement.copy > 1 or placement.strip > 1:
                continue
            finding = crosscut_finding(part.name, part.length, show)
            if finding.verdict is Verdict.OK:
                continue
            found.append(
                replace(
                    finding,
                    check=_LAST,
                    advice=f"on board {board.board} cut it to its finished {show(part.length)} "
                    "straight off the strip in hand, not afterwards; or clamp it in a sled",
                )
            )
    return found
