"""Joints: relations between placed parts, one file each."""

from furniture.joints.butt import ButtJoint
from furniture.joints.cleat import CleatJoint
from furniture.joints.corner_rabbet import CornerRabbetJoint
from furniture.joints.dado import DadoJoint
from furniture.joints.dowelled_butt import DowelledButtJoint
from furniture.joints.fit import (
    EASY,
    NAMED_FITS,
    PRESS,
    SLIP,
    Concern,
    Fit,
    FitCaution,
    TrialCut,
    fit_cautions,
    own_fit,
    read_fit,
)
from furniture.joints.flat_mitre import FlatMitreJoint
from furniture.joints.groove import GrooveJoint
from furniture.joints.half_lap import HalfLapJoint
from furniture.joints.hinge import HingeJoint, barrel_side
from furniture.joints.joint import (
    Driven,
    Fastener,
    GrainRelation,
    HoldBy,
    Joining,
    Joint,
    JointFace,
    Role,
    Worked,
)
from furniture.joints.key import KeyJoint, deepest_key_mm, key_across
from furniture.joints.leaf import Leaf
from furniture.joints.mitre import MitreJoint
from furniture.joints.mitre_plane import MitrePlane, planes_on
from furniture.joints.mortise_and_tenon import MortiseAndTenonJoint
from furniture.joints.notch import NotchJoint
from furniture.joints.rabbet import RabbetJoint
from furniture.joints.rest import RestJoint
from furniture.joints.spline import (
    SplineJoint,
    deepest_spline_mm,
    nearest_spline_mm,
    spline_across,
)
from furniture.joints.stopped_dado import StoppedDadoJoint, TongueEnd
from furniture.joints.tongue_and_groove import TongueAndGrooveJoint

__all__ = [
    "EASY",
    "LEAST_DEPTH_MM",
    "LEAST_INTO_MM",
    "NAMED_FITS",
    "PRESS",
    "SLIP",
    "ButtJoint",
    "CleatJoint",
    "Concern",
    "CornerRabbetJoint",
    "DadoJoint",
    "DowelledButtJoint",
    "Driven",
    "Fastener",
    "Fit",
    "FitCaution",
    "FlatMitreJoint",
    "GrainRelation",
    "GrooveJoint",
    "HalfLapJoint",
    "HingeJoint",
    "HoldBy",
    "Joining",
    "Joint",
    "JointFace",
    "KeyJoint",
    "Leaf",
    "MitreJoint",
    "MitrePlane",
    "MortiseAndTenonJoint",
    "NotchJoint",
    "RabbetJoint",
    "RestJoint",
    "Role",
    "SplineJoint",
    "StoppedDadoJoint",
    "TongueAndGrooveJoint",
    "TongueEnd",
    "TrialCut",
    "Worked",
    "barrel_side",
    "deepest_key_mm",
    "deepest_spline_mm",
    "fit_cautions",
    "key_across",
    "nearest_spline_mm",
    "own_fit",
    "planes_on",
    "read_fit",
    "spline_across",
]
