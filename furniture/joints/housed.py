"""How a part lies in the wide face of another: what every kind of housing reads."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.joints.faces import Span, glued, rectangle
from furniture.joints.joint import GrainRelation, Joint, JointFace
from furniture.joints.relation import (
    TOUCHING_MM,
    box_in,
    clean,
    extent,
    notched_mm,
    out_of_range,
    overlap,
)
from furniture.parts.cuts import Channel, shapes_of
from furniture.parts.faces import EDGES, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, scaled
from furniture.rules import Rules
from furniture.rules.design import DADO_SHARE
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class Housed:
    """A part reaching into a wide face of another, in the frame of the other [mm].

    `low` and `high` are the corners of its blank, `run` is what it covers of the other's width.
    """

    into: Placed
    incoming: Placed
    low: Vector
    high: Vector
    face: Face
    run: tuple[float, float]

    @property
    def notched(self) -> float:
        """How far notches of the incoming part set its edge back at the joint [mm]."""
        return notched_mm(self.into, self.incoming, self.going_in, 1, self.run)

    @property
    def reach(self) -> float:
        """How far it goes in [mm]."""
        thickness = self.into.part.blank.thickness_mm
        whole = thickness - self.low[2] if self.face is Face.FACE_SIDE else self.high[2]
        return whole - self.notched

    @property
    def thickness(self) -> float:
        """What the housing must hold, along the grain of `into` [mm]."""
        return clean(self.high[0] - self.low[0])

    @property
    def is_at_far_end(self) -> bool:
        """Whether it lies at the very end of `into`, where a housing opens into a rabbet."""
        return self.high[0] >= self.into.part.blank.length_mm - TOUCHING_MM

    @property
    def is_across(self) -> bool:
        """Whether it covers the other's whole width, but for what rabbets along edges took."""
        wide = self.into.part.blank.width_mm - sum(self.taken_mm(edge) for edge in EDGES)
        return self.run[1] - self.run[0] >= wide - TOUCHING_MM

    @property
    def inward(self) -> Vector:
        """The way into the wood, piece frame."""
        return self.into.placement.direction_to_piece(scaled(self.face.normal, -1.0))

    @property
    def down(self) -> Vector:
        """The way to the lower shoulder, piece frame."""
        return self.into.placement.direction_to_piece((-1.0, 0.0, 0.0))

    @property
    def going_in(self) -> Face:
        """The face of the incoming part that goes in first."""
        return self.incoming.placement.face_towards(self.inward)

    @property
    def run_axis(self) -> int:
        """The incoming part's axis that lies along the housing."""
        turned = self.incoming.placement.direction_to_part(self.into.placement.y_axis)
        return max(range(3), key=lambda axis: abs(turned[axis]))

    def taken_mm(self, edge: Face) -> float:
        """What a rabbet along an edge of `into` has taken there, in which no housing shows [mm].

        It goes past the whole thickness of what goes in, and as deep.

        Args:
            edge: of `into`.
        """
        return max(
            (
                each.wide[1] - each.wide[0]
                for each in shapes_of(self.into.part.cuts, self.into.part.blank, Channel)
                if each.step is edge and each.face is self.face and self._is_within(each)
            ),
            default=0.0,
        )

    def _is_within(self, channel: Channel) -> bool:
        low, high = channel.run
        is_past = low <= self.low[0] + TOUCHING_MM and high >= self.high[0] - TOUCHING_MM
        return is_past and channel.depth_mm(self.into.part.blank) >= self.reach - TOUCHING_MM

    @property
    def surface(self) -> float:
        """Where the face that it goes into lies, along part z of `into` [mm]."""
        return self.into.part.blank.thickness_mm if self.face is Face.FACE_SIDE else 0.0

    def below_surface(self, depth: float) -> float:
        """Part z of `into` at a depth below that face [mm]."""
        return self.surface - depth if self.face is Face.FACE_SIDE else self.surface + depth


def housed_in(into: Placed, incoming: Placed) -> Housed:
    """How the incoming part lies in `into`.

    Args:
        into: the part that is housed into.
        incoming: the part that goes in.

    Raises:
        CannotMeet: the parts do not stand square to each other.
    """
    low, high = box_in(into, incoming)
    blank = into.part.blank
    from_face = high[2] > blank.thickness_mm + TOUCHING_MM
    return Housed(
        into=into,
        incoming=incoming,
        low=low,
        high=high,
        face=Face.FACE_SIDE if from_face else Face.BACK_SIDE,
        run=overlap((low[1], high[1]), extent(blank, 1)),
    )


def depth_problems(
    joint: Joint, lies: Housed, bottom_gap_mm: float, rules: Rules
) -> tuple[Draft, ...]:
    """The problem of a housing sunk deeper than half the wood, or nothing.

    Args:
        joint: the joint.
        lies: how its part lies.
        bottom_gap_mm: below the part [mm].
    """
    most = rules[DADO_SHARE] * lies.into.part.blank.thickness_mm - bottom_gap_mm
    why = f"half the thickness of {lies.into.instance} stays behind a dado (common practice)"
    return out_of_range(joint, "reach into the dado", lies.reach, 1.0, most, why)


def housing_faces(
    lies: Housed,
    run: Span,
    *,
    clearance_mm: float | None,
    bottom_gap_mm: float,
    is_glued: bool,
) -> tuple[JointFace, ...]:
    """The faces of a housing: lower shoulder, bottom, and upper shoulder where there is one.

    Args:
        lies: how the part lies.
        run: from where to where along the housing, in the frame of `into` [mm].
        clearance_mm: above the part [mm]; none where the housing is open above.
        bottom_gap_mm: between the part's edge and the bottom [mm].
        is_glued: whether it is fixed there.
    """
    deep = (2, _ordered(lies.surface, lies.below_surface(lies.reach)))
    end = GrainRelation.LONG_TO_END if lies.going_in.axis == 0 else GrainRelation.CROSSING
    bottom = rectangle(
        lies.into,
        "bottom",
        towards=lies.face.opposite,
        at=lies.below_surface(lies.reach),
        run=(1, run),
        deep=(0, (lies.low[0], lies.high[0])),
        play_mm=bottom_gap_mm,
        glue=glued(end, bottom_gap_mm, is_glued),
    )
    shoulders = [("lower shoulder", Face.NAMED_END, lies.low[0], 0.0)]
    if clearance_mm is not None:
        shoulders.append(("upper shoulder", Face.FAR_END, lies.high[0], clearance_mm))
    lower, *upper = (
        rectangle(
            lies.into,
            what,
            towards=towards,
            at=at,
            run=(1, run),
            deep=deep,
            play_mm=play,
            glue=glued(GrainRelation.CROSSING, play, is_glued),
        )
        for what, towards, at, play in shoulders
    )
    return (*lower, *bottom, *(face for faces in upper for face in faces))


def _ordered(first: float, second: float) -> Span:
    return (min(first, second), max(first, second))
