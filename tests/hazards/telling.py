"""What the tool tells of a design, and whether that is what its row asks."""

from __future__ import annotations

import time
from dataclasses import dataclass

from furniture.assembly.findings import fit_findings
from furniture.assembly.ways_out import ways_out_of
from furniture.checks.check import Kind, Verdict
from furniture.checks.finding import GRAVEST_FIRST, Finding
from furniture.checks.of_piece import Setting, findings_of
from furniture.checks.rows.proofs import PROOFS
from furniture.errors import DesignError, Problem
from furniture.solids.measure import weigh
from tests.hazards.rows import Danger, Design, Sound


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """All that was said of a design, and what the processor took [s]; or why it was refused."""

    findings: tuple[Finding, ...] = ()
    refused: tuple[Problem, ...] = ()
    seconds: float = 0.0

    def of_the_design(self, verdict: Verdict) -> tuple[Finding, ...]:
        """The findings about the design, not about the bench, of one verdict."""
        return tuple(
            each
            for each in self.findings
            if each.verdict is verdict and each.check.kind is Kind.DESIGN
        )


def told_of(design: Design, setting: Setting, *, with_proofs: bool = False) -> Told:
    """The design weighed and put to the checks; to the proofs of fit too if asked."""
    start = time.process_time()
    try:
        piece = design.build()
    except DesignError as error:
        return Told(refused=error.problems, seconds=time.process_time() - start)
    findings = findings_of(piece, weigh(piece), setting, ways_out_of(piece))
    seconds = time.process_time() - start
    if with_proofs:
        findings = (*findings, *fit_findings(piece))
    return Told(findings=findings, seconds=seconds)


def told_of_row(row: Danger | Sound) -> Told:
    """What is told of a row's design; a danger that only proofs see is put to them."""
    proofs = isinstance(row, Danger) and any(each in PROOFS for each in row.subjects)
    return told_of(row.build(), row.setting, with_proofs=proofs)


def is_at_least(verdict: Verdict, least: Verdict) -> bool:
    """Whether a verdict is as grave as another, or graver."""
    return GRAVEST_FIRST.index(verdict) <= GRAVEST_FIRST.index(least)


def danger_is_told(row: Danger, told: Told) -> bool:
    """Whether one of the row's subjects is told gravely enough, or it is refused for that."""
    if told.refused:
        over = row.refused_over
        return over != "" and any(over in each.parameter for each in told.refused)
    return any(
        each.check in row.subjects and is_at_least(each.verdict, row.least)
        for each in told.findings
    )


def sound_is_told(row: Sound, told: Told) -> bool:
    """Whether nothing fails, nothing is refused, and no more is cautioned than is fair."""
    fails = told.of_the_design(Verdict.FAIL)
    return (
        not told.refused and not fails and len(told.of_the_design(Verdict.CAUTION)) <= row.cautions
    )
