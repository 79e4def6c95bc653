"""What a model script hands on."""

from __future__ import annotations

from typing import Protocol

from furniture.errors import DesignError, Problem
from furniture.pieces import Piece
from furniture.rules import KeptBy, Rules, ShopRules, read_rules
from furniture.units import Reader


class Design(Protocol):
    """Anything that can be built into a piece, such as a `SteppedStand`."""

    def build(self, rules: ShopRules | None = None) -> Piece: ...


def piece_of(design: Design | Piece, rules: ShopRules | None) -> Piece:
    """The piece of a design, built by the shop's own limits; a composed piece as it is.

    Rules that cannot be read are left to the reader of the setting, which tells them.

    Args:
        design: what to build, or a piece already composed.
        rules: the shop's own limits that differ from the usual ones.

    Raises:
        DesignError: the design cannot be built, or a composed piece went by other rules.
    """
    reader = Reader()
    read = read_rules(reader, rules)
    if isinstance(design, Piece):
        if problems := [] if reader.problems else _too_late(design, read):
            raise DesignError(problems)
        return design
    return design.build(None if reader.problems else rules)


def _too_late(piece: Piece, rules: Rules) -> list[Problem]:
    return [
        Problem(
            parameter=f"rules.{rule.name}",
            given=f"{value:g} {rule.unit}".strip(),
            allowed=f"{piece.rules[rule]:g} {rule.unit}".strip(),
            why=f"this piece is composed already, by the rules that it was handed, and the "
            f"{rule.kept_by.value} go by this one",
            remedy="write compose(..., rules=...), or hand main the design",
        )
        for rule, value in rules.changed
        if rule.kept_by is not KeptBy.CHECKS and value != piece.rules[rule]
    ]
