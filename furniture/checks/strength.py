"""Working stresses: the handbook's mean strengths, by direction of grain, over a stated divisor."""

from __future__ import annotations

import math
from enum import Enum
from functools import cache

from furniture.rules.strengths import STIFFNESS_ACROSS, STRENGTH_ACROSS
from furniture.timber.species import Kind, Species
from furniture.timber.strengths import divisor
from furniture.timber.table import all_species

ROLLING_SHEAR_SHARE = 0.18


class Grain(Enum):
    """How the grain runs beside the direction in which a part spans."""

    ALONG = "grain along the span"
    ACROSS = "grain across the span"


def stiffness_gpa(species: Species, grain: Grain) -> float | None:
    """The bending stiffness [GPa] in a direction; None where the row has no stiffness.

    It contains shear deflection, as it was measured: no shear term is to be added.

    Args:
        species: a row of the timber data
        grain: direction of the grain beside the span

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Table 5-3a, and Table 5-1 for the ratio across
    the grain; where no ratio is printed 0.04, own rule: near the least of the hardwoods.
    """
    if species.moe_gpa is None or grain is Grain.ALONG:
        return species.moe_gpa
    ratio = species.stiffness_across_ratio
    return species.moe_gpa * (STIFFNESS_ACROSS.value if ratio is None else ratio)


def working_bending_mpa(species: Species, grain: Grain) -> float | None:
    """The bending stress [MPa] that a part may carry for good; None where nothing is printed.

    Across the grain it is tension perpendicular to the grain that gives way.

    Args:
        species: a row of the timber data
        grain: direction of the grain beside the span

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Table 5-3a, over the divisor; where no strength
    across is printed 2.5 % of that along, own rule: less than any row that prints both.
    """
    along = species.mor_mpa
    if along is None:
        return None
    strength = along
    if grain is Grain.ACROSS:
        across = species.strength_across_mpa
        strength = along * STRENGTH_ACROSS.value if across is None else across
    return strength / divisor(species)


def working_shear_mpa(species: Species, grain: Grain) -> float | None:
    """The shear stress [MPa] that a part may carry for good; None where nothing is printed.

    Across the grain the fibres roll over each other at a small share of the shear along it; what
    is printed of a sheet is that of its layers already.

    Args:
        species: a row of the timber data
        grain: direction of the grain beside the span

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Table 5-3a, over the divisor; rolling shear
    18 to 28 % of it (ch. 5, from memory), the least taken.
    """
    if species.shear_mpa is None:
        return None
    rolls = grain is Grain.ACROSS and species.kind is not Kind.SHEET
    share = ROLLING_SHEAR_SHARE if rolls else 1.0
    return species.shear_mpa * share / divisor(species)


def working_bearing_mpa(species: Species) -> float | None:
    """The bearing stress [MPa] across the grain that leaves no lasting dent; None if not printed.

    It is a stress at the proportional limit and not at failure, so a divisor of 1.5 serves.

    Args:
        species: a row of the timber data

    **Source:** Wood Handbook, FPL-GTR-190 (2010), Table 5-3a; ASTM D245 divides by 1.5 (memory).
    """
    crushing = species.compression_perp_mpa
    return None if crushing is None else crushing / 1.5


@cache
def least_bearing_mpa() -> float:
    """The bearing stress [MPa] that any sheet carries whose crushing is not printed.

    **Source:** own rule: that of the softest wood in the table, as none is softer.
    """
    known = (working_bearing_mpa(each) for each in all_species().values())
    return min(each for each in known if each is not None)


def strength_at_angle_mpa(along_mpa: float, across_mpa: float, angle_deg: float) -> float:
    """A strength [MPa] at an angle to the grain.

    Args:
        along_mpa: strength along the grain [MPa]
        across_mpa: strength across the grain [MPa]
        angle_deg: angle to the grain [deg], 0 to 90

    **Source:** Hankinson's formula with exponent 2, Wood Handbook, FPL-GTR-190 (2010), ch. 5
    (equation from memory).
    """
    sine = math.sin(math.radians(angle_deg)) ** 2
    cosine = math.cos(math.radians(angle_deg)) ** 2
    return along_mpa * across_mpa / (along_mpa * sine + across_mpa * cosine)
