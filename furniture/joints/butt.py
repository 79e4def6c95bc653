"""The plain butt: one part's end or edge against another's face, with nothing cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import glued, rectangle
from furniture.joints.joint import (
    GrainRelation,
    Joining,
    Joint,
    Role,
    Worked,
)
from furniture.joints.relation import (
    apart,
    box_in,
    extent,
    grain_between,
    overlap,
    touched_face,
)
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, scaled
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class ButtJoint(Joint):
    """A part standing square against a face of another; an end grain joint wants dowels.

    Args:
        role: what it is for (default: long grain along long grain is edge glue, an end makes a
            corner, and side grain crossing is a seat).
        is_glued: whether it is glued, and not merely laid or screwed on.
    """

    kind: ClassVar[str] = "butt"

    role: Role | None = None
    is_glued: bool = True

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The butt as the two parts stand: nothing is cut, the meeting face is reported.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        low, high = box_in(into, incoming)
        blank = into.part.blank
        face = touched_face(into, low, high)
        problems: tuple[Draft, ...] = ()
        if face is None:
            need = f"a face of {incoming.instance} touching {into.instance}"
            problems = (apart(self.kind, into, incoming, need),)
            face = Face.FACE_EDGE
        spans = {
            axis: overlap((low[axis], high[axis]), extent(blank, axis))
            for axis in range(3)
            if axis != face.axis
        }
        towards = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        meeting = incoming.placement.face_towards(towards)
        is_end = meeting.axis == 0
        grain = grain_between(into, face.axis, incoming, meeting.axis)
        run, deep = sorted(spans.items(), key=lambda each: each[1][0] - each[1][1])
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=0.0,
            ways_in=(towards, *_sideways(into, face)),
            advice="end grain holds little glue: this joint wants dowels"
            if is_end and self.is_glued
            else "",
            role=self.role or _usual_role(grain),
            faces=rectangle(
                into,
                "meeting face",
                towards=face.opposite,
                at=blank.across(face) if face.is_far else 0.0,
                run=run,
                deep=deep,
                glue=glued(grain, 0.0, self.is_glued),
            ),
        )
        return Worked(
            joining=joining,
            problems=problems,
        )


def _usual_role(grain: GrainRelation) -> Role:
    if grain is GrainRelation.LONG_TO_LONG:
        return Role.EDGE_GLUE
    return Role.SEAT if grain is GrainRelation.CROSSING else Role.CORNER


def _sideways(into: Placed, face: Face) -> tuple[Vector, ...]:
    """A flat butt may also be slid home along the face, any way."""
    return tuple(
        into.placement.direction_to_piece(other.normal) for other in Face if other.axis != face.axis
    )
