"""The findings on the terminal: what to change, by weight, each finding once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from exporters.report.screen import Said
from exporters.report.words import (
    amiss,
    asked,
    at_the_bench,
    counted,
    found_and_limit,
    worst_of_each,
)
from furniture.checks.finding import GRAVEST_FIRST, Finding, Sense, Show, Verdict
from furniture.checks.of_piece import Group
from furniture.checks.rows.proofs import PLACES

GUIDANCE_SHORT = "Fix what children can reach to the wall; local codes and tests decide."
MOST_TOLD = 3
"""How many findings the end of a run tells in full. Own rule: more are not read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """What to change: the weightiest findings, how many more there are, and the bench's.

    Args:
        first: of the design, what fails before what cautions, each the furthest over its limit
            first; one for each check.
        more: how many further checks are not in order.
        bench: what to be careful with at the bench, the furthest over its limit first.
    """

    first: tuple[Finding, ...]
    more: int
    bench: tuple[Finding, ...]


def changes_of(groups: Sequence[Group], most: int = MOST_TOLD) -> Changes:
    """What of the findings asks for a change; parts without a place are told of the boards.

    Args:
        groups: the findings by subject.
        most: how many are told in full.
    """
    found = _by_weight(each for group in groups for each in amiss(group))
    bench = _by_weight(each for group in groups for each in at_the_bench(group))
    return Changes(first=tuple(found[:most]), more=max(len(found) - most, 0), bench=tuple(bench))


def overrun(finding: Finding) -> float:
    """How far a value is beyond its limit, as a multiple: twice too much and half of what is
    needed are both 2; without a limit 1.

    Args:
        finding: any.
    """
    value, limit = finding.value, finding.limit
    if value is None or limit is None or finding.sense is None:
        return 1.0
    over, under = (value, limit) if finding.sense is Sense.AT_MOST else (limit, value)
    return float("inf") if under <= 0.0 else over / under


def change_lines(
    groups: Sequence[Group], show: Show, advice_lines: int, most: int = MOST_TOLD
) -> list[Said]:
    """The second answer: what fails and cautions with its cure, then the bench, the rest counted.

    Args:
        groups: the findings by subject.
        show: puts amounts into the piece's unit.
        advice_lines: how many lines one piece of advice may take.
        most: how many findings are told in full.
    """
    changes = changes_of(groups, most)
    lines = [Said(text=f"What to change? {_must(changes, groups)}", is_loud=True)]
    for number, each in enumerate(changes.first, 1):
        lines.append(Said(text=f"{number}. {_told(each, show)}", indent=2, most=2))
        if each.advice:
            text = f"-> {each.advice}"
            lines.append(Said(text=text, indent=5, most=advice_lines, more="... (checks.pdf)"))
        if each.parameters:
            lines.append(Said(text=f"({', '.join(each.parameters)})", indent=7, most=1))
    if changes.more:
        lines.append(Said(text=f"{changes.more} more in checks.pdf", indent=2))
    if changes.bench:
        text = f"At the bench: {_told(changes.bench[0], show, is_named=False)}"
        rest = len(changes.bench) - 1
        text += f"; {rest} more in checks.pdf" if rest else ""
        lines.append(Said(text=text, indent=2, most=2))
    lines.append(Said(text=f"In all: {counted(groups)}", indent=2))
    return lines


def _must(changes: Changes, groups: Sequence[Group]) -> str:
    fails = sum(each.verdict is Verdict.FAIL for each in changes.first)
    if fails:
        return "This first:"
    if changes.first:
        one = len(changes.first) + changes.more == 1
        which = "This caution is" if one else "These cautions are"
        return f"Nothing must change. {which} yours to weigh:"
    is_left = any(each.verdict is Verdict.FAIL for group in groups for each in group.findings)
    return "Nothing of the design." if is_left else "Nothing: no check fails, none cautions."


def _told(finding: Finding, show: Show, *, is_named: bool = True) -> str:
    """What was found against its limit, in a line."""
    value = found_and_limit(finding, show)[0]
    word = {Verdict.FAIL: "FAILS: "}.get(finding.verdict, "") if is_named else ""
    figures = f": {value}" if finding.value is not None else ""
    if finding.limit is not None and finding.value is not None:
        figures += f", limit {asked(finding, show)}"
    return f"{word}{finding.check.name}, {finding.subject}{figures}"


def _by_weight(findings: Iterable[Finding]) -> list[Finding]:
    """One finding for each check, the gravest verdict first, then the furthest over its limit."""
    return sorted(
        worst_of_each(each for each in findings if each.check is not PLACES),
        key=lambda each: (GRAVEST_FIRST.index(each.verdict), -overrun(each)),
    )
