"""A hand on a front edge: what it breaks and what it presses is one fact of all shelves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from furniture.checks.check import Verdict
from furniture.checks.finding import Finding, Show
from furniture.checks.of_piece.reading import with_figures
from furniture.checks.rows.joints import HAND_LEVER
from furniture.checks.rows.shelves import HAND_BENDING


def as_one_hand(
    bent: Sequence[Finding], housed: Sequence[Finding], levers: Sequence[Finding], show: Show
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings of bending and of joints, in which a hand on an edge is cautioned once.

    Where it breaks the wood of one shelf, that speaks, and names every dado that it presses beyond
    its limit, of that shelf or another: a bracket or a rail in front mends both. The dados are
    told as a figure.

    Args:
        bent: of the piece as it bends
        housed: of its joints
        levers: how a hand presses the dado of each shelf
        show: puts their figures into words
    """
    pressed = [each for each in levers if each.verdict is Verdict.CAUTION]
    breaks = any(_speaks(each) for each in bent)
    if not (pressed and breaks):
        return tuple(bent), tuple(housed)
    beside = f"; it presses dados too: {with_figures(pressed, show)}"
    return (
        tuple(
            replace(each, basis=f"{each.basis}{beside}") if _speaks(each) else each for each in bent
        ),
        tuple(each.at_most(Verdict.NOTE) if each.check == HAND_LEVER else each for each in housed),
    )


def _speaks(finding: Finding) -> bool:
    return finding.check == HAND_BENDING and finding.verdict is Verdict.CAUTION
