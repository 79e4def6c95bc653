"""How a stand's tiers look: their steps in both views, and depth that nothing needs."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.checks.finding import Finding
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.of_piece.supported import Supported
from furniture.checks.proportion import spare_depth_finding, steps_finding
from furniture.pieces import Piece
from furniture.rules import Rules


def proportion_findings_of(
    piece: Piece, supported: Sequence[Supported], rules: Rules
) -> tuple[Finding, ...]:
    """What its builder says of the tiers, looked at from the front and from the side.

    Args:
        piece: the piece as cut
        supported: its level surfaces with what stands on them
        rules: the maker's
    """
    seen, show = piece.intent.proportion, shown_by(piece)
    if seen is None:
        return ()
    on = {each.name: each for each in supported if not each.persons}
    spare = [
        told
        for tier in seen.tiers
        if tier.instance in on
        and (
            told := spare_depth_finding(
                tier, on[tier.instance].loads, seen.least_depth_mm, show, rules
            )
        )
    ]
    steps = steps_finding(seen, show, rules)
    return (*([] if steps is None else [steps]), *worst_alone(spare))
