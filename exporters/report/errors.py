"""How small errors add up, and which measurement matters most, as tables with bars."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any

from reportlab.platypus import Flowable, KeepTogether, Paragraph, Table, TableStyle

from exporters.pdf.fonts import drawable
from exporters.report.abreast import BETWEEN_MM, abreast
from exporters.report.style import BLACK, FINE_PT, LIGHT, MM, THIN_PT, headed, styles
from exporters.report.unbroken import unbroken
from furniture.checks.finding import Show
from furniture.checks.tolerances import Chain, Error, shares, statistical_mm, worst_case_mm

BAR_MM = 2.3
_MOST_BESIDE, _WIDE_MM = 3, 80.0
"""So many chains stand beside one another; a table as wide as this has longer bars [mm]."""


class ShareBar(Flowable):  # type: ignore[misc]
    """A bar as long as its share of the width."""

    def __init__(self, share: float, width_mm: float) -> None:
        super().__init__()
        self._share = share
        self.width, self.height = width_mm * MM, BAR_MM * MM

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """The size that it takes [pt]."""
        return (self.width, self.height)

    def draw(self) -> None:
        """Draw it."""
        canvas: Any = self.canv
        canvas.setFillColor(LIGHT)
        canvas.setStrokeColor(BLACK)
        canvas.setLineWidth(FINE_PT)
        canvas.rect(0, 0, max(0.3, self.width * self._share), self.height, stroke=1, fill=1)


def errors_of(chains: Sequence[Chain], show: Show, width_mm: float) -> list[Flowable]:
    """For every chain its sums and its measurements, the one that matters most first, chains beside
    one another.

    Args:
        chains: of the piece.
        show: puts a length [mm] into the piece's unit.
        width_mm: of the text [mm].
    """
    if not chains:
        return []
    words = (
        "Careful work at a small shop's saw (common practice, no source). A bar is a measurement's "
        "share of the error by chance: take most care with the first."
    )
    head: list[Flowable] = [headed("Which measurements matter most", words)]
    beside = min(max(len(chains), 2), _MOST_BESIDE)
    wide = (width_mm - (beside - 1) * BETWEEN_MM) / beside
    blocks: list[list[Flowable]] = [
        [_title(chain, show), _table(chain, show, wide)] for chain in chains
    ]
    found: list[Flowable] = []
    for at in range(0, len(blocks), beside):
        row = [*blocks[at : at + beside], *([] for _ in range(beside))][:beside]
        found.append(KeepTogether([*head, abreast([(each, wide) for each in row], above_mm=0.6)]))
        head = []
    return found


def _title(chain: Chain, show: Show) -> Flowable:
    told = chain.told[0].upper() + chain.told[1:]
    worst, chance = (show(each(chain.errors)) for each in (worst_case_mm, statistical_mm))
    return _p(f"{told}: off by {worst} at worst, by {chance} by chance.", "small")


def _table(chain: Chain, show: Show, width_mm: float) -> Flowable:
    errors = {each.what: each for each in chain.errors}
    figure, share_mm, bar = 14.0, 7.3, 4.6 if width_mm < _WIDE_MM else 13.0
    columns = [width_mm - figure - share_mm - bar, figure, share_mm, bar]
    rows = []
    for share in shares(chain.errors):
        error = errors[share.what]
        rows.append(
            [
                _p(_times(error), "small"),
                _p(f"± {show(error.tolerance_mm)}", "small"),
                _p(f"{share.share:.0%}", "small"),
                ShareBar(share.share, columns[3] - 1.2),
            ]
        )
    return Table(
        rows,
        spaceBefore=0.6 * MM,
        colWidths=[each * MM for each in columns],
        style=TableStyle(
            [
                ("LINEABOVE", (0, 0), (-1, 0), THIN_PT, BLACK),
                ("LINEBELOW", (0, 0), (-1, -1), FINE_PT, LIGHT),
                ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
                ("TOPPADDING", (0, 0), (-1, -1), 0.2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.0),
                ("LEFTPADDING", (0, 0), (-1, -1), 1),
                ("RIGHTPADDING", (0, 0), (-1, -1), 1),
            ]
        ),
    )


def _times(error: Error) -> str:
    return f"{error.what}, {error.count} times" if error.count > 1 else error.what


def _p(text: str, style: str) -> Paragraph:
    return Paragraph(escape(drawable(unbroken(text))), styles()[style])
