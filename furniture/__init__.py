"""knifewall's model: timber, parts and cuts, joints, builders, checks and shop planning.

What a model script needs is named here.
"""

# The systems of equations here are small: threads for them only wait for one another (the checks
# took twice as long). It is read when numpy is loaded, hence before all else.
import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from furniture.builders import *  # noqa: F403
from furniture.builders import __all__ as _builders
from furniture.builders.all_corners import Keys, Splines
from furniture.builders.composition import Composition, join
from furniture.builders.corner_parts import Key, Spline
from furniture.builders.own_parts import PlacedPart, cut, row_of
from furniture.checks.of_piece.setting import CableOf, HeldBy, Place
from furniture.checks.tall import StandsOn
from furniture.errors import DesignError, KnifewallError, Problem
from furniture.joints import (
    EASY,
    PRESS,
    SLIP,
    ButtJoint,
    CleatJoint,
    CornerRabbetJoint,
    DadoJoint,
    DowelledButtJoint,
    Driven,
    FlatMitreJoint,
    GrooveJoint,
    HalfLapJoint,
    HoldBy,
    KeyJoint,
    MitreJoint,
    MortiseAndTenonJoint,
    NotchJoint,
    RabbetJoint,
    RestJoint,
    SplineJoint,
    StoppedDadoJoint,
    TongueAndGrooveJoint,
    TongueEnd,
    TrialCut,
    own_fit,
)
from furniture.parts.cuts import (
    Along,
    Bevel,
    Bore,
    Dado,
    FingerNotch,
    FlatMitre,
    Gain,
    Groove,
    Mitre,
    Mortise,
    Notch,
    Profile,
    ProfileKind,
    Rabbet,
    Slot,
    Tenon,
)
from furniture.parts.faces import Arris, Face
from furniture.parts.placing import Against, At, CentredOn, FlushWith, Mark
from furniture.parts.turning import Way
from furniture.pieces import LoadKind, Note, Stance
from furniture.reference import show_as_written
from furniture.rules import ShopRules
from furniture.shop.boards import *  # noqa: F403
from furniture.shop.boards import __all__ as _boards
from furniture.shop.tools import *  # noqa: F403
from furniture.shop.tools import __all__ as _tools
from furniture.timber.climates import climate_of
from furniture.timber.movement import Sawn
from furniture.timber.own import OwnSheet, OwnWood
from furniture.timber.species import species_names
from furniture.timber.stock import Stock
from furniture.units import decimal_inches, inches, millimetres, quantity

__all__ = [
    "Against",
    "Along",
    "Arris",
    "At",
    "Bevel",
    "OwnSheet",
    "OwnWood",
    "PlacedPart",
    "Bore",
    "ButtJoint",
    "CableOf",
    "CentredOn",
    "CleatJoint",
    "Composition",
    "CornerRabbetJoint",
    "Dado",
    "DadoJoint",
    "DesignError",
    "DowelledButtJoint",
    "Driven",
    "EASY",
    "Face",
    "FingerNotch",
    "FlatMitre",
    "FlatMitreJoint",
    "FlushWith",
    "Gain",
    "Groove",
    "GrooveJoint",
    "HalfLapJoint",
    "HoldBy",
    "HeldBy",
    "Key",
    "Keys",
    "KeyJoint",
    "KnifewallError",
    "Mark",
    "Mitre",
    "MitreJoint",
    "Mortise",
    "MortiseAndTenonJoint",
    "Notch",
    "Place",
    "PRESS",
    "Problem",
    "Profile",
    "ProfileKind",
    "Rabbet",
    "NotchJoint",
    "RabbetJoint",
    "RestJoint",
    "SLIP",
    "ShopRules",
    "LoadKind",
    "Note",
    "Slot",
    "Spline",
    "Splines",
    "SplineJoint",
    "StandsOn",
    "Stock",
    "StoppedDadoJoint",
    "Stance",
    "Tenon",
    "TongueAndGrooveJoint",
    "TongueEnd",
    "TrialCut",
    "Sawn",
    "Way",
    "climate_of",
    "cut",
    "decimal_inches",
    "inches",
    "join",
    "millimetres",
    "own_fit",
    "quantity",
    "row_of",
    "species_names",
    *_boards,
    *_builders,
    *_tools,
]

show_as_written(globals())
