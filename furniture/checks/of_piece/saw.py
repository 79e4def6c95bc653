"""At the saw: rough pieces that are too short or too narrow to hold by hand."""

from __future__ import annotations

from furniture.checks.finding import Finding
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.saw import crosscut_finding, narrow_rip_finding, rip_finding
from furniture.pieces import Piece, distinct_parts
from furniture.rules import USUAL_RULES, Rules


def saw_findings_of(piece: Piece, rules: Rules = USUAL_RULES) -> tuple[Finding, ...]:
    """The rip and the crosscut that are hardest to hold, the other small pieces named with them.

    A rip is made at the rough size, the last crosscut leaves the finished length.

    Args:
        piece: the piece as cut
        rules: the maker's
    """
    show = shown_by(piece)
    found: list[Finding] = []
    for each in distinct_parts(piece):
        blank, rough = each.part.blank, each.part.rough
        length, width = blank.length_mm + rough.length_mm, blank.width_mm + rough.width_mm
        found += (
            rip_finding(each.part.name, length, width, show, rules),
            narrow_rip_finding(each.part.name, length, width, show, rules),
            crosscut_finding(each.part.name, blank.length_mm, show, rules),
        )
    return worst_alone(found)
