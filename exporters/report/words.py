"""Findings in a maker's words: what would happen, against which limit."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from furniture.checks.check import Check
from furniture.checks.finding import Finding, Kind, Sense, Show, Verdict
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.reading import badness, told_with
from furniture.checks.rows.proofs import PLACES

VERDICT_WORDS = {
    Verdict.OK: "in order",
    Verdict.NOTE: "note",
    Verdict.CAUTION: "caution",
    Verdict.FAIL: "fails",
}
AMISS = (Verdict.FAIL, Verdict.CAUTION)
MOST_FIGURES = 9
NONE_TOLD = "–"
"""Stands where there is no figure."""
GUIDANCE = (
    "The checks guide; local codes and tests of the finished piece decide. Fix a tall piece, or "
    "any piece that children can reach, to the wall with hardware made for it, fitted by someone "
    "licensed where the law asks for that."
)


def amount(value: float | None, unit: str, show: Show) -> str:
    """A figure with its unit, lengths in the piece's; a dash where there is none.

    Args:
        value: the figure, in `unit`.
        unit: of the finding.
        show: puts a length [mm] into the piece's unit.
    """
    if value is None:
        return NONE_TOLD
    return show.of_unit(value, unit)


def found_and_limit(finding: Finding, show: Show) -> tuple[str, str]:
    """What was found and the limit, with as many figures as tell them apart where they differ.

    Args:
        finding: any.
        show: puts amounts into the piece's unit.
    """
    value, limit = finding.value, finding.limit
    told = (amount(value, finding.unit, show), amount(limit, finding.unit, show))
    if finding.verdict is Verdict.OK or value is None or limit is None:
        return told
    for figures in range(show.figures + 1, MOST_FIGURES + 1):
        if told[0] != told[1]:
            break
        finer = replace(show, figures=figures)
        told = (amount(value, finding.unit, finer), amount(limit, finding.unit, finer))
    return told


def asked(finding: Finding, show: Show) -> str:
    """The limit in words, such as `at least 10 °`; a dash where there is none."""
    if finding.limit is None or finding.sense is None:
        return NONE_TOLD
    sign = "at least" if finding.sense is Sense.AT_LEAST else "at most"
    return f"{sign} {found_and_limit(finding, show)[1]}"


def happens(finding: Finding, show: Show) -> str:
    """What would happen, as a sentence.

    Args:
        finding: one that is not in order.
        show: puts a length [mm] into the piece's unit.
    """
    value, limit = found_and_limit(finding, show)
    template = finding.check.says
    has_no_limit = limit == NONE_TOLD and "{limit}" in template
    if has_no_limit and finding.value is not None:
        text = f"{finding.check.name}, {finding.subject}: {value}; {finding.basis}."
    elif not template or finding.value is None:
        tail = f": {value}, {asked(finding, show)}" if finding.value is not None else ""
        reason = "" if finding.value is not None else f": {finding.basis}"
        text = f"{finding.check.name}, {finding.subject}{tail or reason}."
    else:
        text = template.format(subject=finding.subject, value=value, limit=limit)
    return text[0].upper() + text[1:]


def worst_of_each(findings: Iterable[Finding]) -> list[Finding]:
    """For every check its worst finding: the gravest verdict, then the least room to its limit.

    Others that are amiss by the same check are named with it, so that none is counted unseen.
    """
    of_check: dict[Check, list[Finding]] = {}
    for each in findings:
        of_check.setdefault(each.check, []).append(each)
    return [_with_others(sorted(each, key=badness)) for each in of_check.values()]


def _with_others(found: Sequence[Finding]) -> Finding:
    worst, *others = found
    names = [e.subject for e in others if e.verdict in AMISS and e.subject != worst.subject]
    return replace(worst, subject=told_with(worst.subject, names))


def amiss(group: Group, kind: Kind = Kind.DESIGN) -> list[Finding]:
    """The findings of a group that fail or caution, the gravest first.

    Args:
        group: findings on one subject.
        kind: those of the design, or those of the bench.
    """
    found = [each for each in group.findings if each.verdict in AMISS and each.check.kind is kind]
    return sorted(found, key=badness)


def at_the_bench(group: Group) -> list[Finding]:
    """What of a group is to be minded at the bench."""
    return amiss(group, Kind.BENCH)


def noted(group: Group) -> list[Finding]:
    """The figures of a group that are told without a judgement."""
    return [
        each
        for each in group.findings
        if each.verdict is Verdict.NOTE and each.check.kind is Kind.DESIGN
    ]


def in_order(group: Group) -> list[Finding]:
    """The findings of a group that are in order, the one nearest to its limit first."""
    found = [each for each in group.findings if each.verdict is Verdict.OK]
    return sorted(found, key=badness)


def nearest(group: Group, show: Show) -> str:
    """The finding of a group that is in order and nearest to its limit, in words; or nothing."""
    for each in in_order(group):
        if each.value is not None and each.limit is not None and each.sense is not None:
            value = amount(each.value, each.unit, show)
            return (
                f"closest to its limit is {each.check.name}, {each.subject}: {value}, limit "
                f"{asked(each, show)}"
            )
    return ""


def counted(groups: Sequence[Group]) -> str:
    """How many checks come to each verdict, in words; bench and boards by themselves."""
    everything = [each for group in groups for each in group.findings]
    findings = worst_of_each(each for each in everything if each.check is not PLACES)
    is_short = any(each.check is PLACES and each.verdict is Verdict.FAIL for each in everything)
    design = [each for each in findings if each.check.kind is Kind.DESIGN]
    count: Callable[[Verdict], int] = lambda verdict: sum(  # noqa: E731 - said once
        each.verdict is verdict for each in design
    )
    fails, cautions, notes = count(Verdict.FAIL), count(Verdict.CAUTION), count(Verdict.NOTE)
    bench = sum(each.verdict in AMISS for each in findings) - fails - cautions
    told = [
        f"{fails} {'fails' if fails == 1 else 'fail'}" if fails else "nothing fails",
        _several(cautions, "caution"),
        _several(notes, "note") if notes else "",
        f"{_several(bench, 'caution')} at the bench" if bench else "",
        f"{count(Verdict.OK)} in order",
        "the boards do not hold every part" if is_short else "",
    ]
    return f"{', '.join(each for each in told if each)}."


def _several(number: int, what: str) -> str:
    return f"{number or 'no'} {what if number == 1 else f'{what}s'}"
