"""The findings on the terminal: what is not in order first, the rest counted."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.report.unbroken import HELD, unbroken
from exporters.report.words import (
    amiss,
    amount,
    asked,
    at_the_bench,
    counted,
    found_and_limit,
    noted,
    stands,
    worst_of_each,
)
from furniture.checks.finding import GRAVEST_FIRST, Finding, Show
from furniture.checks.of_piece import Group

GUIDANCE_SHORT = (
    "The checks guide; local codes and tests decide. A piece that children can reach is fixed to "
    "the wall."
)
Row = tuple[str, str, str, str, str]


def rows_of(groups: Sequence[Group], show: Show) -> list[Row]:
    """One row for every check of the design that is not in order, then what is only noted.

    Verdict, check, worst case, value, limit.

    Args:
        groups: the findings by subject.
        show: puts a length [mm] into the piece's unit.
    """
    return [
        (
            each.verdict.value,
            each.check.name,
            unbroken(each.subject, HELD),
            unbroken(found_and_limit(each, show)[0], HELD),
            unbroken(asked(each, show), HELD),
        )
        for each in (*_amiss_in_all(groups), *_noted_in_all(groups))
    ]


def advice_of(groups: Sequence[Group]) -> list[tuple[str, str]]:
    """Check and advice of every row that has one."""
    return [
        (unbroken(f"{each.check.name}, {each.subject}", HELD), unbroken(each.advice, HELD))
        for each in _amiss_in_all(groups)
        if each.advice
    ]


def bench_lines(groups: Sequence[Group], show: Show) -> list[str]:
    """What is to be minded at the bench, one line each: it is no fault of the design.

    Args:
        groups: the findings by subject.
        show: puts a length [mm] into the piece's unit.
    """
    return [
        unbroken(
            f"at the bench: {each.check.name}, {each.subject}, "
            f"{amount(each.value, each.unit, show)} ({asked(each, show)})",
            HELD,
        )
        for group in groups
        for each in worst_of_each(at_the_bench(group))
    ]


def counts_of(groups: Sequence[Group]) -> list[str]:
    """How many are of each verdict, and where they are all in order."""
    quiet = [group for group in groups if not (amiss(group) or at_the_bench(group) or noted(group))]
    lines = [counted(groups)]
    if quiet:
        names = ", ".join(f"{group.subject.value} {len(group.findings)}" for group in quiet)
        lines[0] += f" All in order: {names}."
    return lines


def first_of_all(groups: Sequence[Group], show: Show) -> str:
    """The first sentence of all, its figures held to their units."""
    return unbroken(stands(groups, show), HELD)


def _amiss_in_all(groups: Sequence[Group]) -> list[Finding]:
    """The worst of every check that is not in order: what fails first, then subject by subject."""
    found = [each for group in groups for each in worst_of_each(amiss(group))]
    return sorted(found, key=lambda each: GRAVEST_FIRST.index(each.verdict))


def _noted_in_all(groups: Sequence[Group]) -> list[Finding]:
    return [each for group in groups for each in worst_of_each(noted(group))]
