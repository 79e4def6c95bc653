"""Builders: parameters in, a piece out."""

from furniture.builders.at_edge import TierEdge
from furniture.builders.back_panel import BackFixing, BackPanel
from furniture.builders.back_rail import BackRail
from furniture.builders.ballast import Ballast
from furniture.builders.bottom import BottomFixing
from furniture.builders.box_lid import FingerHold
from furniture.builders.brackets import Bracket
from furniture.builders.cord_clips import CordClip
from furniture.builders.cord_notches import CordNotch
from furniture.builders.dowels import Dowels
from furniture.builders.edges import EdgeProfile
from furniture.builders.feet import Feet
from furniture.builders.fixings import Hardware, Peg, Screw
from furniture.builders.flap import Flap
from furniture.builders.footed_stand import FootedStand
from furniture.builders.hinged_lid import HingedLid
from furniture.builders.hung import Hung
from furniture.builders.lid_fixing import Cleats, LidFixing
from furniture.builders.lid_stay import Stay
from furniture.builders.lips import Lip, LipEdge
from furniture.builders.loads import Load
from furniture.builders.measured_hinge import Hinge
from furniture.builders.mitred_box import MitredBox
from furniture.builders.openings import Opening, Vent, VentKind
from furniture.builders.panel_grain import PanelGrain
from furniture.builders.passing import Air, Cable, Plug
from furniture.builders.post import PostStrips
from furniture.builders.prefinish import Prefinish
from furniture.builders.sliding_lid import DrawnTo, SlidingLid
from furniture.builders.stepped_stand import SteppedStand
from furniture.builders.tier_cleats import TierCleat
from furniture.builders.tier_rules import Tier, TierLine, TierRule
from furniture.builders.uprights import DadoEnds, Uprights
from furniture.parts.edge_names import (
    INNER_BOTTOM,
    INNER_TOP,
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
)
from furniture.pieces import OpeningFor

__all__ = [
    "INNER_BOTTOM",
    "INNER_TOP",
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
    "Air",
    "BackFixing",
    "BackPanel",
    "BackRail",
    "Ballast",
    "BottomFixing",
    "Bracket",
    "Cable",
    "Cleats",
    "CordClip",
    "CordNotch",
    "DadoEnds",
    "Dowels",
    "DrawnTo",
    "EdgeProfile",
    "Feet",
    "FingerHold",
    "Flap",
    "FootedStand",
    "Hardware",
    "Hinge",
    "HingedLid",
    "Hung",
    "LidFixing",
    "Lip",
    "LipEdge",
    "Load",
    "MitredBox",
    "Opening",
    "OpeningFor",
    "PanelGrain",
    "Peg",
    "Plug",
    "PostStrips",
    "Prefinish",
    "Screw",
    "SlidingLid",
    "Stay",
    "SteppedStand",
    "Tier",
    "TierCleat",
    "TierEdge",
    "TierLine",
    "TierRule",
    "Uprights",
    "Vent",
    "VentKind",
]
