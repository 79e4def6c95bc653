"""The statics of the whole piece: what holds, what bears and what gives, as its joints say."""

from furniture.structure.cases import Case, cases_of
from furniture.structure.frame import Frame, frame_of, masses_by_cuts, masses_weighed
from furniture.structure.held import Held, State, held_in
from furniture.structure.holding import Hold, Holding, Statics, rest_of, statics_of
from furniture.structure.loose import WaysOut
from furniture.structure.rigid import Motion, Strength, motion_of, strength_of

__all__ = [
    "Case",
    "Frame",
    "Held",
    "Hold",
    "Holding",
    "Motion",
    "State",
    "Statics",
    "Strength",
    "WaysOut",
    "cases_of",
    "frame_of",
    "held_in",
    "masses_by_cuts",
    "masses_weighed",
    "motion_of",
    "rest_of",
    "statics_of",
    "strength_of",
]
