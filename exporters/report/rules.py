"""The limits behind the checks: every rule with its figure and source, changed ones told first."""

from __future__ import annotations

from html import escape

from reportlab.platypus import Flowable, LongTable, Paragraph, Spacer, TableStyle

from exporters.report.style import BLACK, FINE_PT, LIGHT, MM, PALE, THIN_PT, styles
from exporters.report.unbroken import unbroken
from furniture.checks.finding import Show
from furniture.rules import BY_SUBJECT, Rule, Rules
from furniture.units import dialled

_SHARES = (0.19, 0.13, 0.38, 0.30)


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


def rules_of(rules: Rules, show: Show, width_mm: float) -> list[Flowable]:
    """The table of all rules, by subject.

    Args:
        rules: the maker's.
        show: puts amounts into the piece's unit.
        width_mm: of the text [mm].
    """
    rows: list[list[Flowable]] = [
        [_p(text, "small strong") for text in ("rule", "figure", "what it is for", "source")]
    ]
    style: list[tuple[object, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), 1.0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.8),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 3),
        ("LINEBELOW", (0, 0), (-1, 0), THIN_PT, BLACK),
        ("LINEBELOW", (0, 1), (-1, -1), FINE_PT, LIGHT),
    ]
    for subject, group in BY_SUBJECT:
        style += [
            ("SPAN", (0, len(rows)), (-1, len(rows))),
            ("BACKGROUND", (0, len(rows)), (-1, len(rows)), PALE),
            ("NOSPLIT", (0, len(rows)), (0, len(rows) + 1)),
        ]
        rows.append([_p(subject, "small strong"), *([Spacer(0, 0)] * 3)])
        rows += [_row(rule, rules, show) for rule in group]
    table = LongTable(
        rows, colWidths=[share * width_mm * MM for share in _SHARES], repeatRows=1,
        style=TableStyle(style),
    )  # fmt: skip
    words = (
        "A maker changes a rule in the script, by its name: "
        'main(..., rules=ShopRules(tilt_asked="12 deg")); what makes the piece goes by it as the '
        "checks do. What is fixed says why."
    )
    return [_p("The limits behind the checks", "head"), _p(words, "small"), Spacer(0, 4.0), table]


def _row(rule: Rule, rules: Rules, show: Show) -> list[Flowable]:
    figure = _figure(rules[rule], rule, show)
    if rules[rule] != rule.value:
        figure += f" (usually {_figure(rule.value, rule, show)})"
    return [
        _p(rule.name, "small"), _p(figure, "small"), _p(rule.what, "small"),
        _p(f"{rule.source}; fixed: {rule.fixed}" if rule.fixed else rule.source, "small"),
    ]  # fmt: skip


def _figure(value: float, rule: Rule, show: Show) -> str:
    """A rule's figure; a length as finely as a dial: a glue line is tenths of a millimetre."""
    if rule.unit == "mm":
        return dialled(value, show.shown).with_unit
    return show.of_unit(value, rule.unit)


def _p(text: str, style: str) -> Paragraph:
    return Paragraph(escape(unbroken(text)), styles()[style])
