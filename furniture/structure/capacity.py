"""What a glue line bears, from the weaker of the two woods and how their grain meets."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from furniture.joints.joint import Fastener, GrainRelation
from furniture.rules.strengths import GLUED_END_SHARE, SHOP_SHARE, STRENGTH_ACROSS
from furniture.timber.species import Kind, Species
from furniture.timber.strengths import divisor

CROSSING_SHEAR_SHARE = 1.0 / 3.0
"""Shear of glued long grain that crosses, beside that of grain laid along grain [-].

**Source:** rolling shear is 18 to 28 % of the shear along the grain (Wood Handbook ch. 5, from
memory), and the other face of the pair slides along its grain: a third, own rule between the two.
"""


class Carries(Enum):
    """What sort of force a link is; a state of the glue leaves some of them out."""

    PUSH = "a face that pushes"
    SIDE_GLUE = "glue between side grains"
    END_GLUE = "glue on end grain"
    MITRE_GLUE = "glue between two mitred ends"
    PULL = "a fastener along its axis"
    END_PULL = "a fastener along its axis in end grain"
    GLUED_PULL = "a glued fastener along its axis"
    SIDE = "a fastener across its axis"


def pull_of(fastener: Fastener) -> Carries:
    """What sort of pull a fastener bears.

    Args:
        fastener: across a joint

    **Source:** own rule: what nothing glues loosens, and soonest in end grain.
    """
    if fastener.is_glued:
        return Carries.GLUED_PULL
    return Carries.END_PULL if fastener.in_end_grain else Carries.PULL


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueStrength:
    """What a glued face bears [MPa]: pulled off, and slid along; and which glue it is."""

    peel_mpa: float
    shear_mpa: float
    carries: Carries


def glue_strength(grain: GrainRelation, *woods: Species) -> GlueStrength:
    """What a glued face bears for good [MPa], by the weakest wood whose strength is known.

    Endless where none is known: the wood is then told as not checked, and not as what lets go.

    Args:
        grain: how the two faces meet
        woods: of both parts

    **Source:** own rule from the printed strengths over their divisor; the shares are of the table
    of rules.
    """
    known = [each for each in woods if is_known(each)]
    peel = min((_peel_mpa(each) for each in known), default=math.inf) * SHOP_SHARE.value
    shear = min((_shear_mpa(each, grain) for each in known), default=math.inf) * SHOP_SHARE.value
    if grain in (GrainRelation.LONG_TO_LONG, GrainRelation.CROSSING):
        return GlueStrength(peel_mpa=peel, shear_mpa=shear, carries=Carries.SIDE_GLUE)
    is_mitre = grain is GrainRelation.END_TO_END
    return GlueStrength(
        peel_mpa=peel * GLUED_END_SHARE.value,
        shear_mpa=shear * GLUED_END_SHARE.value,
        carries=Carries.MITRE_GLUE if is_mitre else Carries.END_GLUE,
    )


def is_known(species: Species) -> bool:
    """Whether a wood's strength is known, so that its glue lines are reckoned at all."""
    return species.mor_mpa is not None and species.shear_mpa is not None


def _peel_mpa(species: Species) -> float:
    """Pulled off its face [MPa]; a sheet's layers part, which its shear in its plane stands for."""
    across = species.shear_mpa if species.kind is Kind.SHEET else species.strength_across_mpa
    if across is None:
        across = STRENGTH_ACROSS.value * (species.mor_mpa or 0.0)
    return across / divisor(species)


def _shear_mpa(species: Species, grain: GrainRelation) -> float:
    """Slid along its face [MPa]; a sheet's own layers cross, so its printed shear is that."""
    is_along = species.kind is Kind.SHEET or grain is GrainRelation.LONG_TO_LONG
    share = 1.0 if is_along else CROSSING_SHEAR_SHARE
    return (species.shear_mpa or 0.0) * share / divisor(species)
