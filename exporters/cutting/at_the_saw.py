"""Cautions at the saw, judged on the piece that the cutting plan really puts in hand."""

from __future__ import annotations

from dataclasses import replace

from exporters.cutting.steps import Guide, saw_steps
from furniture.checks.finding import Finding, Show, Verdict
from furniture.checks.of_piece.reading import in_a_row, worst_alone
from furniture.checks.of_piece.saw import saw_findings_of
from furniture.checks.rows.bench import LAST_CROSSCUT
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from furniture.pieces import Piece
from furniture.rules import USUAL_RULES, Rules
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.at_the_saw import CutInHand, cuts_of
from furniture.shop.cutting.plan import BoardPlan, CutDirection, CuttingPlan
from furniture.shop.cutting.values import CutPart
from furniture.units import Amounts

_SAME_MM = 0.05


def saw_findings_with(
    piece: Piece, outcome: CuttingOutcome | None, rules: Rules = USUAL_RULES
) -> tuple[Finding, ...]:
    """The hardest rip and crosscut of the plan, and parts too short to be trimmed by themselves.

    Without a plan, or while a part has no place in it, every part is judged at its own size.

    Args:
        piece: as cut.
        outcome: its cutting plan, if there is one.
        rules: the maker's.
    """
    planned = None if outcome is None else planned_saw_findings(outcome, rules)
    return saw_findings_of(piece, rules) if planned is None else planned


def planned_saw_findings(
    outcome: CuttingOutcome, rules: Rules = USUAL_RULES
) -> tuple[Finding, ...] | None:
    """The same of a plan alone; None where there is none, or a part has no place in it.

    Args:
        outcome: the plan and its job.
        rules: the maker's.
    """
    if outcome.plan is None or outcome.plan.unplaced:
        return None
    plan, show = outcome.plan, Amounts(shown=outcome.job.shown)
    found: list[Finding] = []
    for each in cuts_of(plan, CutDirection.RIP):
        hand = each.cut.workpiece
        found += (
            rip_finding(_named(each), round(hand.length, 6), round(hand.width, 6), show, rules),
            narrow_rip_finding(
                _named(each), round(hand.length, 6), round(hand.width, 6), show, rules
            ),
        )
    found += [
        crosscut_finding(_named(each), round(each.cut.workpiece.length, 6), show, rules)
        for each in cuts_of(plan, CutDirection.CROSSCUT)
    ]
    found += _last_trims(plan, outcome, show, rules)
    return worst_alone(found)


def _named(each: CutInHand) -> str:
    return f"board {each.board}, cut {each.cut.number}"


def _last_trims(
    plan: CuttingPlan, outcome: CuttingOutcome, show: Show, rules: Rules
) -> list[Finding]:
    """Parts that come off the plan rough and would be cut to length as short pieces.

    What comes off a common blank is cut to length off the long piece.
    """
    used = {laid.placement.part for laid in outcome.blanks if not laid.copy.is_common}
    found = []
    for part in outcome.job.request.parts:
        if part.name not in used or part.length_allowance <= 0:
            continue
        finding = crosscut_finding(part.name, part.length, show, rules)
        if finding.verdict is Verdict.OK:
            continue
        where = [
            told
            for board in plan.boards
            if (told := _at_finished_length(board, outcome, part, show))
        ]
        ways = [*where, "clamp each in a sled to trim it"]
        found.append(replace(finding, check=LAST_CROSSCUT, advice=", or ".join(ways)))
    return found


def _at_finished_length(
    board: BoardPlan, outcome: CuttingOutcome, part: CutPart, show: Show
) -> str:
    """The cuts of a board's sheet whose stop is set to a part's finished length instead."""
    own = {outcome.name_of(each) for each in board.placements if each.part == part.name}
    cuts: list[str] = []
    guides: set[Guide] = set()
    rough = 0.0
    for step in saw_steps(outcome, board):
        is_short = step.direction is CutDirection.CROSSCUT and step.guide is not Guide.PLANE
        for held in (step.comes_off, step.goes_on):
            if is_short and held is not None and held.name in own:
                if abs(held.length - step.setting) > _SAME_MM:
                    continue
                own.discard(held.name)
                cuts.append(f"cut {step.number}")
                guides.add(step.guide)
                rough = step.setting
    if not cuts:
        return ""
    what = "the mark" if guides == {Guide.MARK} else "the stop"
    last = ", and cut once more at it what is left for the last of them" if own else ""
    told = " and ".join(in_a_row(cuts))
    return (
        f"set {what} to the finished {show(part.length)} in {told} of board {board.board} instead "
        f"of {show(rough)}{last}"
    )
