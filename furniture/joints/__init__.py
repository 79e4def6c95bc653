"""Joints: relations between placed parts, one file each."""

from furniture.joints.butt import ButtJoint
from furniture.joints.dado import DadoJoint
from furniture.joints.fit import EASY, NAMED_FITS, PRESS, SLIP, Fit, own_fit
from furniture.joints.joint import (
    Contact,
    GlueFace,
    GrainRelation,
    Joining,
    Joint,
    Seat,
    Worked,
)
from furniture.joints.mitre import MitreJoint
from furniture.joints.rabbet import RabbetJoint
from furniture.joints.stopped_dado import StoppedDadoJoint

__all__ = [
    "EASY",
    "NAMED_FITS",
    "PRESS",
    "SLIP",
    "ButtJoint",
    "Contact",
    "DadoJoint",
    "Fit",
    "GlueFace",
    "GrainRelation",
    "Joining",
    "Joint",
    "MitreJoint",
    "RabbetJoint",
    "Seat",
    "StoppedDadoJoint",
    "Worked",
    "own_fit",
]
