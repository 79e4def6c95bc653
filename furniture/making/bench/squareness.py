"""Whether a frame is square, from its two diagonals, and where to clamp what is not."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import DIAGONALS_APART


class Diagonal(Enum):
    """One of two diagonals, as they were measured."""

    FIRST = "first"
    SECOND = "second"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutOfSquare:
    """How far a frame is racked; all of it is 0 or None where it is square.

    corner_deg: by which its corners miss 90 [deg]; shift_mm: how far one long rail has slid along
    the other [mm]; clamp_across: the longer diagonal, which a light clamp draws shorter until it
    reads target_mm, and both do.
    """

    corner_deg: float
    shift_mm: float
    clamp_across: Diagonal | None
    target_mm: float

    @property
    def is_square(self) -> bool:
        """Whether nothing is to be done."""
        return self.clamp_across is None


def out_of_square(
    long_mm: float, short_mm: float, first_mm: float, second_mm: float,
    rules: Rules = USUAL_RULES,
) -> OutOfSquare:  # fmt: skip
    """How far a frame with equal opposite rails is racked, and what to do.

    Equal diagonals prove a rectangle only where opposite rails are equal; sight for twist too.

    Args:
        long_mm: its longer side, between the corners that are measured [mm].
        short_mm: its shorter side, between the same [mm].
        first_mm: one diagonal [mm].
        second_mm: the other [mm].
        rules: what counts as equal.

    Raises:
        ValueError: diagonals that differ more than those of any such frame.

    **Source:** own derivation: in a parallelogram the squares of the diagonals differ by four times
    the sides and the sine, and add up to twice the squares of the sides. Clamp across the longer
    one: a magazine's page on gluing box joints (woodworkersjournal.com).
    """
    apart = abs(first_mm - second_mm)
    whole = 4.0 * (long_mm**2 + short_mm**2) - apart**2
    sine = apart * math.sqrt(max(whole, 0.0)) / (4.0 * long_mm * short_mm)
    if whole < 0.0 or sine > 1.0:
        raise ValueError(f"no frame of {long_mm} by {short_mm} mm has such diagonals")
    longer = Diagonal.FIRST if first_mm > second_mm else Diagonal.SECOND
    return OutOfSquare(
        corner_deg=math.degrees(math.asin(sine)),
        shift_mm=short_mm * sine,
        clamp_across=longer if apart > rules[DIAGONALS_APART] else None,
        target_mm=(first_mm + second_mm) / 2.0,
    )
