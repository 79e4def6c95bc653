"""What the tests of the adapter share: a stand of round figures, its findings, and their advice."""

from __future__ import annotations

from typing import Any

from furniture import Load, SteppedStand
from furniture.checks.check import Check
from furniture.checks.finding import Finding
from furniture.checks.of_piece import Setting, findings_of
from furniture.pieces import Piece
from furniture.solids.measure import weigh
from tests.builders.bench import a_stand

POT = Load(
    name="pot",
    on="tier 1",
    mass="2 kg",
    footprint=("60 mm", "60 mm"),
    centre_height="50 mm",
)


def loaded_stand(**changes: Any) -> SteppedStand:
    """The benches' stand with one pot on its first tier, some figures changed."""
    return a_stand(**{"loads": [POT], **changes})


def found(design: SteppedStand | Piece, setting: Setting | None = None) -> tuple[Finding, ...]:
    """Every finding of a design."""
    piece = design if isinstance(design, Piece) else design.build()
    return findings_of(piece, weigh(piece), setting)


def named(findings: tuple[Finding, ...], check: str | Check, subject: str = "") -> Finding:
    """The one finding of a check whose subject holds the words."""
    name = check.name if isinstance(check, Check) else check
    wanted = [each for each in findings if each.check.name == name and subject in each.subject]
    assert len(wanted) == 1, [(each.check.name, each.subject) for each in findings]
    return wanted[0]


def mm(figure: float) -> str:
    """A length as a maker writes it."""
    return f"{figure:.2f} mm"
