"""What is made of printed strengths: its divisors."""

from __future__ import annotations

from furniture.timber.species import Kind, Species

SOLID_DIVISOR = 4.0
SHEET_DIVISOR = 3.0
DIVISOR_REASON = (
    "mean strength of clear wood divided by 4: 1.36 for the weakest twentieth, 2.3 for safety and "
    "normal duration (ASTM D245, from memory), 1.25 for a load that stays; sheets, whose printed "
    "strength is the weakest twentieth's, by 3"
)


def divisor(species: Species) -> float:
    """By how much the printed strength is divided [-].

    Args:
        species: a row of the timber data

    **Source:** own rule: see DIVISOR_REASON.
    """
    return SHEET_DIVISOR if species.kind is Kind.SHEET else SOLID_DIVISOR
