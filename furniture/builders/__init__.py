"""Builders: parameters in, a piece out."""

from furniture.builders.edges import (
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
)
from furniture.builders.loads import Load
from furniture.builders.mitred_box import FingerHold, MitredBox
from furniture.builders.post import PostStrips
from furniture.builders.stepped_stand import SteppedStand
from furniture.builders.tiers import Tier, TierRule
from furniture.builders.uprights import DadoEnds, Uprights

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
    "DadoEnds",
    "EdgeProfile",
    "FingerHold",
    "Load",
    "MitredBox",
    "PostStrips",
    "SteppedStand",
    "Tier",
    "TierRule",
    "Uprights",
]
