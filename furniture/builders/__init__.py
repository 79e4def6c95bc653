"""Builders: parameters in, a piece out."""

from furniture.builders.common import (
    OUTER_BOTTOM,
    OUTER_TOP,
    TOP_BACK,
    TOP_FRONT,
    TOP_LEFT,
    TOP_RIGHT,
    UNDER_BACK,
    UNDER_FRONT,
    UNDER_LEFT,
    UNDER_RIGHT,
    EdgeProfile,
    Load,
)
from furniture.builders.mitred_box import FingerHold, MitredBox
from furniture.builders.stepped_stand import SteppedStand
from furniture.builders.tiers import Tier, TierRule

__all__ = [
    "OUTER_BOTTOM",
    "OUTER_TOP",
    "TOP_BACK",
    "TOP_FRONT",
    "TOP_LEFT",
    "TOP_RIGHT",
    "UNDER_BACK",
    "UNDER_FRONT",
    "UNDER_LEFT",
    "UNDER_RIGHT",
    "EdgeProfile",
    "FingerHold",
    "Load",
    "MitredBox",
    "SteppedStand",
    "Tier",
    "TierRule",
]
