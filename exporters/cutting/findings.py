"""Whether every part comes off the boards that are there, as a finding beside the others."""

from __future__ import annotations

from exporters.cutting.words import unplaced_lines
from furniture.checks.finding import Finding, Verdict
from furniture.checks.of_piece import Group, Subject
from furniture.checks.rows.proofs import PLACES
from furniture.shop.boards.outcome import CuttingOutcome

_BASIS = "a part that the cutting plan leaves out cannot be made from these boards"


def place_groups(outcome: CuttingOutcome | None) -> tuple[Group, ...]:
    """A failed check for every part without a place, or one in order; none without a plan.

    Args:
        outcome: the cutting plan and its job, if there is one.
    """
    if outcome is None or outcome.plan is None:
        return ()
    findings = tuple(
        _finding(each.part, each.copies, why)
        for each, why in zip(outcome.unplaced, unplaced_lines(outcome), strict=True)
    )
    return (Group(subject=Subject.BOARDS, findings=findings or (_finding("all parts", 0, ""),)),)


def _finding(subject: str, copies: int, advice: str) -> Finding:
    return Finding(
        check=PLACES,
        subject=subject,
        value=float(copies),
        stated=Verdict.FAIL if copies else Verdict.OK,
        basis=_BASIS,
        advice=advice,
    )
