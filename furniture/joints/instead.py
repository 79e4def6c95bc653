"""Which joints take two parts as they stand: what a maker is told who chose one that does not."""

from __future__ import annotations

from furniture.joints.butt import ButtJoint
from furniture.joints.corner_rabbet import CornerRabbetJoint
from furniture.joints.dado import DadoJoint
from furniture.joints.flat_mitre import FlatMitreJoint
from furniture.joints.groove import GrooveJoint
from furniture.joints.half_lap import HalfLapJoint
from furniture.joints.joint import Joint
from furniture.joints.mitre import MitreJoint
from furniture.joints.relation import CannotMeet
from furniture.joints.stopped_dado import StoppedDadoJoint
from furniture.joints.tongue_and_groove import TongueAndGrooveJoint
from furniture.parts.part import Placed

USUAL: tuple[type[Joint], ...] = (
    DadoJoint, GrooveJoint, StoppedDadoJoint, CornerRabbetJoint, MitreJoint,
    FlatMitreJoint, HalfLapJoint, TongueAndGrooveJoint, ButtJoint,
)  # fmt: skip
"""The joints that need no figure of their own."""


def joints_that_take(into: Placed, incoming: Placed) -> tuple[str, ...]:
    """The names of the joints that two parts can be joined by where they stand.

    Args:
        into: the part that is gone into.
        incoming: the part that goes in.
    """
    return tuple(kind.__name__ for kind in USUAL if _takes(kind, into, incoming))


def _takes(kind: type[Joint], into: Placed, incoming: Placed) -> bool:
    try:
        worked = kind(into=into.instance, incoming=incoming.instance).work(into, incoming)
    except CannotMeet:
        return False
    return not worked.problems
