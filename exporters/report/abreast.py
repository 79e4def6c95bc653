"""What stands beside one another on a page of the report."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, Table, TableStyle

from exporters.report.style import MM

BETWEEN_MM = 5.0


def abreast(
    columns: Sequence[tuple[Flowable | list[Flowable], float]], above_mm: float = 0.0
) -> Table:
    """Columns from the left with a gap between them, level at their tops.

    Args:
        columns: what stands in each, and its width [mm].
        above_mm: free above all of them [mm].
    """
    (first, first_mm), *others = columns
    cells: list[Flowable | list[Flowable] | str] = [first]
    widths = [first_mm]
    for each, wide_mm in others:
        cells += ["", each]
        widths += [BETWEEN_MM, wide_mm]
    sides = ("LEFTPADDING", "RIGHTPADDING", "TOPPADDING", "BOTTOMPADDING")
    return Table(
        [cells],
        spaceBefore=above_mm * MM,
        colWidths=[each * MM for each in widths],
        style=TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                *((side, (0, 0), (-1, -1), 0) for side in sides),
            ]
        ),
    )
