"""Builders: parameters in, a piece out."""

from furniture.builders.back_rail import BackRail
from furniture.builders.ballast import Ballast
from furniture.builders.bottom import BottomFixing
from furniture.builders.dowels import Dowels
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
from furniture.builders.feet import Feet
from furniture.builders.fixings import Hardware, Peg, Screw
from furniture.builders.lid_fixing import Cleats, LidFixing
from furniture.builders.lips import Lip, LipEdge
from furniture.builders.loads import Load
from furniture.builders.mitred_box import FingerHold, MitredBox
from furniture.builders.openings import Opening, Vent, VentKind
from furniture.builders.post import PostStrips
from furniture.builders.prefinish import Prefinish
from furniture.builders.stepped_stand import SteppedStand
from furniture.builders.tiers import Tier, TierRule
from furniture.builders.uprights import DadoEnds, Uprights
from furniture.pieces import OpeningFor

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
    "BackRail",
    "Ballast",
    "BottomFixing",
    "Cleats",
    "DadoEnds",
    "Dowels",
    "EdgeProfile",
    "Feet",
    "FingerHold",
    "Hardware",
    "LidFixing",
    "Lip",
    "LipEdge",
    "Load",
    "MitredBox",
    "Opening",
    "OpeningFor",
    "Peg",
    "PostStrips",
    "Prefinish",
    "Screw",
    "SteppedStand",
    "Tier",
    "TierRule",
    "Uprights",
    "Vent",
    "VentKind",
]
