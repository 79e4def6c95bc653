"""The limits behind the checks: every rule with its figure and source, changed ones told first."""

from __future__ import annotations

from furniture.checks.finding import Show
from furniture.rules import BY_SUBJECT, Rule, Rules
from furniture.units import dialled

RULES_HEADER = ("about", "rule", "figure", "usually", "what it is for", "source", "fixed because")


def changed_words(rules: Rules, show: Show) -> str:
    """Which rules the maker changed, in words; nothing where none.

    Args:
        rules: the maker's.
        show: puts amounts into the piece's unit.
    """
    if not rules.changed:
        return ""
    told = ", ".join(
        f"{rule.name} {_figure(value, rule, show)} (usually {_figure(rule.value, rule, show)})"
        for rule, value in rules.changed
    )
    return f"Made and judged by changed rules: {told}."


def rules_rows(rules: Rules, show: Show) -> list[tuple[str, ...]]:
    """A row for each rule, by subject; `usually` is empty where the maker changed nothing.

    Args:
        rules: the maker's.
        show: puts amounts into the piece's unit.
    """
    return [
        (
            subject,
            rule.name,
            _figure(rules[rule], rule, show),
            "" if rules[rule] == rule.value else _figure(rule.value, rule, show),
            rule.what,
            rule.source,
            rule.fixed,
        )
        for subject, group in BY_SUBJECT
        for rule in group
    ]


def _figure(value: float, rule: Rule, show: Show) -> str:
    """A rule's figure; a length as finely as a dial: a glue line is tenths of a millimetre."""
    if rule.unit == "mm":
        return dialled(value, show.shown).with_unit
    return show.of_unit(value, rule.unit)
