"""Random designs and the same with one thing changed, as a maker changes it half way through."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from furniture import DesignError, Stock, Tier
from furniture.job import Old, old_of
from furniture.pieces import Piece
from tests.everywhere.design_options import mm
from tests.everywhere.designs import drawn
from tests.job.spoilt import without_part


def changed_pair(seed: int) -> tuple[Piece, Piece]:
    """A design, and the same after one to three changes that it bears."""
    design = drawn(seed)
    return design.piece, design.make(**changed_figures(seed)).build()


def changed_figures(seed: int) -> Mapping[str, Any]:
    """The figures of a design after one to three changes that it bears."""
    design, dice = drawn(seed), random.Random(seed + 1)
    figures, left = dict(design.figures), dice.randint(1, 3)
    for _ in range(40):
        tried = _changed(dice, figures)
        try:
            piece = design.make(**tried).build()
        except (DesignError, KeyError, TypeError):
            continue
        figures, left = tried, left - 1
        if left <= 0 and piece.placed != design.piece.placed:
            break
    return figures


def partly_cut(seed: int, piece: Piece) -> Old:
    """What of a design is cut so far: all of it, or all but a few parts."""
    dice, old = random.Random(seed + 2), old_of(piece)
    for part in dice.sample(old.parts, min(len(old.parts) - 1, dice.choice([0, 0, 1, 2, 4]))):
        old = without_part(old, part.name)
    return old


def _changed(dice: random.Random, figures: Mapping[str, Any]) -> dict[str, Any]:
    name = dice.choice(list(figures))
    value = figures[name]
    return {**figures, name: _other(dice, value)}


def _other(dice: random.Random, value: Any) -> Any:
    by = dice.choice([-1.2, -0.3, 0.3, 1.2, dice.uniform(-12, 4), dice.uniform(-40, 12)])
    if isinstance(value, str) and value.endswith(" mm"):
        return mm(float(value.removesuffix(" mm")) + by)
    if isinstance(value, Stock):
        return replace(value, thickness=_other(dice, value.thickness))
    if isinstance(value, Tier):
        name = dice.choice(["depth", "rise"])
        return replace(value, **{name: _other(dice, getattr(value, name))})
    if isinstance(value, (list, tuple)) and value:
        at = dice.randrange(len(value))
        rest = list(value)
        if dice.random() < 0.3:
            del rest[at]
        else:
            rest[at] = _other(dice, rest[at])
        return rest
    return value
