"""Cuts: everything that may be done to a blank, one immutable value each."""

from furniture.parts.cuts.cut import (
    Cut,
    Misfit,
    NoTurnedForm,
    problems_of,
    record_of,
    shapes_of,
)
from furniture.parts.cuts.dado import Dado, Groove
from furniture.parts.cuts.gain import Gain
from furniture.parts.cuts.left import Left, Leftover
from furniture.parts.cuts.mitre import Bevel, FlatMitre, Mitre
from furniture.parts.cuts.mitre_slot import KeySlot, SplineGroove
from furniture.parts.cuts.mortise import Mortise
from furniture.parts.cuts.notch import FingerNotch, Notch
from furniture.parts.cuts.opening import Along, Bore, Slot
from furniture.parts.cuts.profile import Profile, ProfileKind
from furniture.parts.cuts.rabbet import Rabbet
from furniture.parts.cuts.shapes import Bite, Channel, Eased, Hole, Shape, TongueEnd
from furniture.parts.cuts.slopes import InSlope, Slope
from furniture.parts.cuts.stub import Stub
from furniture.parts.cuts.tenon import Tenon
from furniture.parts.cuts.tongue import RoundedTongue

ALL_CUTS: tuple[type[Cut], ...] = (
    Dado,
    Groove,
    Rabbet,
    Mitre,
    FlatMitre,
    Bevel,
    SplineGroove,
    KeySlot,
    Bore,
    Slot,
    Notch,
    FingerNotch,
    RoundedTongue,
    Profile,
    Mortise,
    Tenon,
    Gain,
)
"""Every kind of cut there is; the readers' tables and tests run over it."""

__all__ = [
    "ALL_CUTS",
    "Along",
    "Bevel",
    "Bite",
    "Bore",
    "Channel",
    "Cut",
    "Dado",
    "Eased",
    "FingerNotch",
    "FlatMitre",
    "Gain",
    "Groove",
    "Hole",
    "InSlope",
    "KeySlot",
    "Left",
    "Leftover",
    "Misfit",
    "Mitre",
    "Mortise",
    "NoTurnedForm",
    "Notch",
    "Profile",
    "ProfileKind",
    "Rabbet",
    "RoundedTongue",
    "Shape",
    "Slope",
    "Slot",
    "SplineGroove",
    "Stub",
    "Tenon",
    "TongueEnd",
    "problems_of",
    "record_of",
    "shapes_of",
]
