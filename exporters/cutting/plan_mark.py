"""What tells the numbers of one plan's cuts from those of another: a short mark on its sheets."""

from __future__ import annotations

import hashlib

from furniture.shop.boards.outcome import CuttingOutcome

_LETTERS = 4
"""Two plans of the same boards have the same mark once in 65,000 times. Own rule."""


def plan_mark(outcome: CuttingOutcome) -> str:
    """The mark of a plan: another one as soon as a number means another cut of a board."""
    told = [
        (plan.board, cut.number, cut.direction.value, f"{cut.position_mm:.1f}")
        for plan in outcome.used
        for cut in plan.cuts
    ]
    return hashlib.sha256(repr(told).encode()).hexdigest()[:_LETTERS]
