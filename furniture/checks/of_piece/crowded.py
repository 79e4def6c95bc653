"""What stands on a surface: whether it all fits side by side, and whether it hangs over an edge."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.checks.finding import Finding
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.of_piece.supported import Supported
from furniture.checks.over_edge import over_edge_finding
from furniture.checks.side_by_side import side_by_side_finding
from furniture.pieces import Piece


def crowded_findings_of(piece: Piece, supported: Sequence[Supported]) -> tuple[Finding, ...]:
    """Loads that do not fit beside each other on a surface, and those larger than it.

    Args:
        piece: the piece as cut
        supported: its level surfaces with what stands on them
    """
    show = shown_by(piece)
    side_by_side = [
        told
        for each in supported
        if each.loads and (told := side_by_side_finding(each.loads[0].on, each.loads, show))
    ]
    over = [
        told for each in supported for load in each.loads if (told := over_edge_finding(load, show))
    ]
    return (*worst_alone(side_by_side), *worst_alone(over))
