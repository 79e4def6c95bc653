"""The findings on the terminal: what is not in order first, the rest counted."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.report.unbroken import HELD, unbroken
from exporters.report.words import amiss, asked, counted, found_and_limit, stands, worst_of_each
from furniture.checks.finding import Finding, Show
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.reading import GRAVEST_FIRST

GUIDANCE_SHORT = (
    "The checks guide; local codes and tests decide. A piece that children can reach is fixed to "
    "the wall."
)
Row = tuple[str, str, str, str, str]


def rows_of(groups: Sequence[Group], show: Show) -> list[Row]:
    """One row for every check that is not in order: verdict, check, worst case, value, limit.

    Args:
        groups: the findings by subject.
        show: puts a length [mm] into the piece's unit.
    """
    return [
        (
            each.verdict.value,
            each.check,
            unbroken(each.subject, HELD),
            unbroken(found_and_limit(each, show)[0], HELD),
            unbroken(asked(each, show), HELD),
        )
        for each in _amiss_in_all(groups)
    ]


def advice_of(groups: Sequence[Group]) -> list[tuple[str, str]]:
    """Check and advice of every row that has one."""
    return [
        (unbroken(f"{each.check}, {each.subject}", HELD), unbroken(each.advice, HELD))
        for each in _amiss_in_all(groups)
        if each.advice
    ]


def counts_of(groups: Sequence[Group]) -> list[str]:
    """How many are of each verdict, and where they are all in order."""
    quiet = [group for group in groups if not amiss(group)]
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
    return sorted(found, key=lambda each: GRAVEST_FIRST[each.verdict])
