"""Every finding in a row, with its verdict where it is not in order, in two columns."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import groupby

from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Flowable, Paragraph, Table, TableStyle

from exporters.no_break import NO_BREAK
from exporters.pdf.fonts import drawable
from exporters.report.abreast import BETWEEN_MM
from exporters.report.style import (
    BLACK,
    FINE_PT,
    LIGHT,
    MM,
    SMALL_SIZE,
    THIN_PT,
    bold,
    plain,
    styles,
)
from exporters.report.unbroken import unbroken
from exporters.report.words import NONE_TOLD, VERDICT_WORDS, found_and_limit
from furniture.checks.finding import Finding, Kind, Sense, Show, Verdict
from furniture.checks.of_piece import Group
from furniture.checks.of_piece.reading import badness

_HEADINGS = ("check, where", "found", "asked")
_MOST_SHARE = 0.24
"""Of a column's width, what figures take at most."""
_LEAST_MM = 11.0
"""For the heading of figures."""


_Widths = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class _Row:
    """A finding's cells, whether it is the first on its subject, and whether it has no figures and
    its words therefore their room too."""

    cells: tuple[Flowable, ...]
    is_first: bool
    is_bare: bool


def every_finding(groups: Sequence[Group], show: Show, width_mm: float) -> Flowable:
    """The rows of all findings, subject by subject, the worst of each first.

    Args:
        groups: the findings by subject.
        show: puts amounts into the piece's unit.
        width_mm: of both columns [mm].
    """
    half = (width_mm - BETWEEN_MM) / 2.0
    findings = [each for group in groups for each in group.findings]
    found = _room([found_and_limit(each, show)[0] for each in findings], half)
    limits = _room([_limit(each, show) for each in findings], half)
    widths = (half - found - limits, found, limits)
    return _Columns([row for group in groups for row in _rows(group, show)], widths)


def _room(texts: Sequence[str], width_mm: float) -> float:
    """For the longest of these, and a gap [mm]."""
    wide = max((stringWidth(text, plain(), SMALL_SIZE) for text in texts), default=0.0)
    return min(max(wide / MM + 1.4, _LEAST_MM), _MOST_SHARE * width_mm)


def _rows(group: Group, show: Show) -> Iterator[_Row]:
    """What it is about stands before the first of them."""
    about = f"{_bold(group.subject.value)}: "
    for index, alike in enumerate(_told_together(sorted(group.findings, key=badness))):
        each = alike[0]
        what = _said("; ".join(_by_subject(alike)))
        if each.verdict is not Verdict.OK:
            what = f"{_bold(_verdict_words(each))}: {what}"
        figures = (found_and_limit(each, show)[0], _limit(each, show))
        cells = (
            Paragraph(what if index else f"{about}{what}", styles()["small"]),
            *(_p(text, "small") for text in figures),
        )
        yield _Row(cells, index == 0, _is_bare(each))


def _is_bare(finding: Finding) -> bool:
    """Whether nothing of it is measured."""
    return finding.value is None and finding.limit is None


def _told_together(findings: Sequence[Finding]) -> Iterator[list[Finding]]:
    """Findings that follow one another and are in order without a figure are one row; any other
    has a row of its own."""
    for together, some in groupby(findings, key=_is_merely_in_order):
        if together:
            yield list(some)
        else:
            yield from ([each] for each in some)


def _is_merely_in_order(finding: Finding) -> bool:
    return _is_bare(finding) and finding.verdict is Verdict.OK


def _by_subject(findings: Sequence[Finding]) -> Iterator[str]:
    """The checks in words, those of one subject together."""
    for subject, some in groupby(findings, key=lambda each: each.subject):
        yield f"{', '.join(each.check.name for each in some)}, {subject}"


def _limit(finding: Finding, show: Show) -> str:
    if finding.limit is None or finding.sense is None:
        return NONE_TOLD
    return f"{_SIGNS[finding.sense]}{NO_BREAK}{found_and_limit(finding, show)[1]}"


_SIGNS = {Sense.AT_LEAST: "≥", Sense.AT_MOST: "≤"}


def _verdict_words(finding: Finding) -> str:
    words = VERDICT_WORDS[finding.verdict]
    is_bench = finding.check.kind is Kind.BENCH and finding.verdict is Verdict.CAUTION
    return f"{words} at the bench" if is_bench else words


def _bold(text: str) -> str:
    return f'<font name="{bold()}">{escape(text)}</font>'


def _said(text: str) -> str:
    return escape(drawable(unbroken(text)))


def _p(text: str, style: str) -> Paragraph:
    return Paragraph(_said(text), styles()[style])


class _Columns(Flowable):  # type: ignore[misc]
    """Rows in two columns as high as one another; they go on over pages, each under the headings.

    Args:
        rows: in order, down the left column and then the right.
        widths_mm: of the cells of a column [mm].
    """

    def __init__(self, rows: Sequence[_Row], widths_mm: _Widths) -> None:
        super().__init__()
        self._rows = rows
        self._widths_mm = widths_mm
        self._tables: tuple[Table, ...] = ()

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The size that it takes [pt]."""
        cut = _evenly(self._heights())
        self._tables = tuple(
            _table(part, self._widths_mm) for part in (self._rows[:cut], self._rows[cut:]) if part
        )
        self.width = (2.0 * self._half_mm + BETWEEN_MM) * MM
        self.height = max((each.wrap(width, height)[1] for each in self._tables), default=0.0)
        return (self.width, self.height)

    def split(self, _width: float, height: float) -> list[Flowable]:
        """What finds room in that height [pt] on this page, and the rest."""
        room = height - _table((), self._widths_mm).wrap(0.0, height)[1]
        heights = self._heights()
        count = _held(heights, room)
        count += _held(heights[count:], room)
        if not count:
            return []
        parts = (self._rows[:count], self._rows[count:])
        return [_Columns(part, self._widths_mm) for part in parts if part]

    def draw(self) -> None:
        """Draw the columns from the top."""
        for table, x in zip(self._tables, (0.0, self._half_mm + BETWEEN_MM), strict=False):
            table.drawOn(self.canv, x * MM, self.height - table._height)

    @property
    def _half_mm(self) -> float:
        return math.fsum(self._widths_mm)

    def _heights(self) -> list[float]:
        bare = _table((), self._widths_mm).wrap(0.0, 0.0)[1]
        return [_table((row,), self._widths_mm).wrap(0.0, 0.0)[1] - bare for row in self._rows]


def _evenly(heights: Sequence[float]) -> int:
    """How many stand in the left column, so that the higher one is as low as can be."""
    return min(
        range(len(heights) + 1),
        key=lambda cut: max(math.fsum(heights[:cut]), math.fsum(heights[cut:])),
    )


def _held(heights: Sequence[float], room: float) -> int:
    """So many find room under one another."""
    used = 0.0
    for count, high in enumerate(heights):
        used += high
        if used > room:
            return count
    return len(heights)


def _table(rows: Sequence[_Row], widths_mm: _Widths) -> Table:
    style: list[tuple[object, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), 0.2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.0),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 2),
        ("LINEBELOW", (0, 1), (-1, -1), FINE_PT, LIGHT),
        ("LINEBELOW", (0, 0), (-1, 0), THIN_PT, BLACK),
    ]
    style += [
        ("LINEABOVE", (0, at), (-1, at), FINE_PT, BLACK)
        for at, row in enumerate(rows, start=1)
        if row.is_first and at > 1
    ]
    style += [("SPAN", (0, at), (-1, at)) for at, row in enumerate(rows, start=1) if row.is_bare]
    cells = [[_p(text, "small strong") for text in _HEADINGS], *(list(row.cells) for row in rows)]
    return Table(cells, colWidths=[each * MM for each in widths_mm], style=TableStyle(style))
