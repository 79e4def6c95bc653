"""Joints: relations between placed parts, one file each."""

from furniture.joints.butt import ButtJoint
from furniture.joints.corner_rabbet import CornerRabbetJoint
from furniture.joints.dado import DadoJoint
from furniture.joints.dowelled_butt import DowelledButtJoint
from furniture.joints.fit import EASY, NAMED_FITS, PRESS, SLIP, Fit, own_fit
from furniture.joints.flat_mitre import FlatMitreJoint
from furniture.joints.groove import GrooveJoint
from furniture.joints.half_lap import HalfLapJoint
from furniture.joints.joint import (
    Contact,
    Dowel,
    GlueFace,
    GrainRelation,
    Joining,
    Joint,
    Seat,
    Worked,
)
from furniture.joints.key import KeyJoint, key_across
from furniture.joints.mitre import MitreJoint
from furniture.joints.rabbet import RabbetJoint
from furniture.joints.spline import SplineJoint, spline_across
from furniture.joints.stopped_dado import StoppedDadoJoint
from furniture.joints.tongue_and_groove import TongueAndGrooveJoint

__all__ = [
    "EASY",
    "NAMED_FITS",
    "PRESS",
    "SLIP",
    "ButtJoint",
    "Contact",
    "CornerRabbetJoint",
    "DadoJoint",
    "Dowel",
    "DowelledButtJoint",
    "Fit",
    "FlatMitreJoint",
    "GlueFace",
    "GrainRelation",
    "GrooveJoint",
    "HalfLapJoint",
    "Joining",
    "Joint",
    "KeyJoint",
    "MitreJoint",
    "RabbetJoint",
    "Seat",
    "SplineJoint",
    "StoppedDadoJoint",
    "TongueAndGrooveJoint",
    "Worked",
    "key_across",
    "own_fit",
    "spline_across",
]
