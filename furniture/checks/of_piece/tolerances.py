"""Sums of small errors: over the dados of a post, and round a mitred box."""

from __future__ import annotations

from collections.abc import Iterable

from furniture.checks.finding import Finding
from furniture.checks.of_piece.reading import most_telling, shown_by, worst_alone
from furniture.checks.tolerances import dado_run_finding, mitre_finding_of_errors
from furniture.parts.cuts import Dado, Mitre
from furniture.pieces import Piece, distinct_parts

SHELF_HEIGHT_ALLOWED_MM = 0.5
"""How far a shelf's height may be off [mm]. Own rule: beside a square nobody sees less."""
CORNERS_OF_A_BOX = 4


def tolerance_findings_of(piece: Piece) -> tuple[Finding, ...]:
    """What small errors come to, and which dimension to leave long and trim last.

    Args:
        piece: the piece as cut
    """
    show = shown_by(piece)
    runs = [sum(isinstance(cut, Dado) for cut in each.part.cuts) for each in distinct_parts(piece)]
    found = [dado_run_finding(count, SHELF_HEIGHT_ALLOWED_MM, show) for count in runs if count > 1]
    return (*worst_alone(most_telling(found)), *_box(piece))


def _box(piece: Piece) -> Iterable[Finding]:
    corners = sum(each.kind == "mitre" for each in piece.joinings)
    mitred = [
        each.part.blank.thickness_mm
        for each in distinct_parts(piece)
        if any(isinstance(cut, Mitre) for cut in each.part.cuts)
    ]
    if corners >= CORNERS_OF_A_BOX and mitred:
        yield mitre_finding_of_errors(max(mitred), shown_by(piece))
