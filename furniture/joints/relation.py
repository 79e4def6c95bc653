"""How one placed part lies to another: what the joints read instead of guessing at solids."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise, product

from furniture.errors import KnifewallError
from furniture.joints.joint import GrainRelation, Joint
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bite, shapes_of
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, add, dot, scaled
from furniture.units import Draft, RangeDraft, WordedDraft, Words

TOUCHING_MM = 1e-6
"""Faces nearer than this touch [mm]: far above rounding, far below what a tool can do."""


class CannotMeet(KnifewallError, ValueError):  # noqa: N818 - says what is so
    """Two parts do not stand to each other as a joint needs them to; the text says how they do.

    What a joint's author did wrong is any other error, and is not told to the maker.
    """


def box_in(into: Placed, incoming: Placed) -> Box:
    """The box round the incoming blank, in the part frame of `into` [mm].

    Raises:
        CannotMeet: the two are not square to each other, so a box would not be the blank.
    """
    for axis in incoming.placement.axes:
        turned = into.placement.direction_to_part(axis)
        if max(abs(value) for value in turned) < 1 - 1e-9:
            raise CannotMeet(f"{incoming.instance} does not stand square to {into.instance}")
    corners = [
        into.placement.to_part(incoming.placement.to_piece((x, y, z)))
        for x, y, z in product(*((0.0, size) for size in incoming.part.blank.size))
    ]
    low = [min(corner[axis] for corner in corners) for axis in range(3)]
    high = [max(corner[axis] for corner in corners) for axis in range(3)]
    return ((low[0], low[1], low[2]), (high[0], high[1], high[2]))


def clean(value: float) -> float:
    """A length free of the dust that frames leave behind [mm]: 1e-9 mm steps."""
    return round(value, 9) + 0.0


def overlap(first: tuple[float, float], second: tuple[float, float]) -> tuple[float, float]:
    """The common part of two spans; its end lies before its start when there is none."""
    return (max(first[0], second[0]), min(first[1], second[1]))


def notched_mm(
    into: Placed, incoming: Placed, going_in: Face, along: int, run: tuple[float, float]
) -> float:
    """How far notches set a face of the incoming part back from its blank along a joint [mm].

    Args:
        into: the part in whose frame the joint runs.
        incoming: the part with its notches.
        going_in: its face.
        along: the axis of `into` that the joint runs along.
        run: from where to where on that axis [mm].

    Returns:
        Where it is set back least; 0 where some of the face stands at the blank's.
    """
    bites = [
        bite
        for bite in shapes_of(incoming.part.cuts, incoming.part.blank, Bite)
        if bite.edge is going_in
    ]
    way = into.placement.axes[along]
    axis = axis_along(incoming, way)
    start = into.placement.to_piece((0.0, 0.0, 0.0))
    low, high = sorted(incoming.placement.to_part(add(start, scaled(way, at)))[axis] for at in run)
    ends = [end for bite in bites for end in bite.span if low < end < high]
    return min(
        (
            max((bite.depth_mm for bite in bites if bite.span[0] < (a + b) / 2 < bite.span[1]),
                default=0.0)
            for a, b in pairwise(sorted([low, *ends, high]))
            if b - a > TOUCHING_MM
        ),
        default=0.0,
    )  # fmt: skip


def centre_of_blank(placed: Placed) -> Vector:
    """The middle of the placed blank, piece frame [mm]."""
    length, width, thickness = placed.part.blank.size
    return placed.placement.to_piece((length / 2, width / 2, thickness / 2))


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart(WordedDraft):
    """The problem of two parts that do not lie as their joint needs them to."""


def apart(kind: str, into: Placed, incoming: Placed, need: str) -> Apart:
    """The problem of two parts that do not lie as their joint needs them to."""
    return Apart(
        parameter=f"{kind} of {incoming.instance} in {into.instance}",
        given="parts that do not meet that way",
        allowed=need,
        why="a joint works from where its two parts stand",
        remedy=f"place {incoming.instance} so, or choose another joint",
    )


def touched_face(into: Placed, low: Vector, high: Vector) -> Face | None:
    """The face of `into` that a box outside it lies against, if any.

    Args:
        into: the part.
        low: least corner of the box, in its frame [mm].
        high: greatest corner [mm].
    """
    blank = into.part.blank
    for face in Face:
        limit = blank.across(face) if face.is_far else 0.0
        touching = low[face.axis] if face.is_far else high[face.axis]
        others = [axis for axis in range(3) if axis != face.axis]
        meets = all(
            min(high[axis], blank.size[axis]) - max(low[axis], 0.0) > TOUCHING_MM for axis in others
        )
        if abs(touching - limit) <= TOUCHING_MM and meets:
            return face
    return None


def entered_face(into: Placed, low: Vector, high: Vector, faces: tuple[Face, ...]) -> Face | None:
    """The one of `faces` that a box reaches in through, standing out of it and of no opposite.

    Args:
        into: the part.
        low: least corner of the box, in its frame [mm].
        high: greatest corner [mm].
        faces: those that may be entered.
    """
    blank = into.part.blank
    for face in faces:
        size = blank.across(face)
        start, end = low[face.axis], high[face.axis]
        inner, outer = (start, end - size) if face.is_far else (size - end, -start)
        others = [axis for axis in range(3) if axis != face.axis]
        meets = all(
            min(high[axis], blank.size[axis]) - max(low[axis], 0.0) > TOUCHING_MM for axis in others
        )
        if meets and outer > TOUCHING_MM and -TOUCHING_MM < inner < size - TOUCHING_MM:
            return face
    return None


def grain_between(
    into: Placed, into_axis: int, incoming: Placed, incoming_axis: int
) -> GrainRelation:
    """How the grain meets where a face across one axis of each part lies on the other.

    Args:
        into: one part.
        into_axis: the axis that its face stands across; 0 is end grain.
        incoming: the other part.
        incoming_axis: the same of its face.
    """
    ends = (into_axis == 0) + (incoming_axis == 0)
    if ends:
        return GrainRelation.END_TO_END if ends == 2 else GrainRelation.LONG_TO_END
    is_parallel = abs(dot(into.placement.x_axis, incoming.placement.x_axis)) > 0.5
    return GrainRelation.LONG_TO_LONG if is_parallel else GrainRelation.CROSSING


def axis_along(placed: Placed, direction: Vector) -> int:
    """The part axis that lies most along a direction of the piece."""
    turned = placed.placement.direction_to_part(direction)
    return max(range(3), key=lambda axis: abs(turned[axis]))


def out_of_range(
    joint: Joint, parameter: str, given: float, low: float, high: float, why: Words
) -> tuple[Draft, ...]:
    """The problem of a joint's own length [mm] outside what it may be, or nothing.

    Args:
        joint: the joint.
        parameter: the name of the length, without its unit.
        given: its value [mm].
        low: least allowed [mm].
        high: greatest allowed [mm].
        why: the reason for the limit.
    """
    if low - TOUCHING_MM <= given <= high + TOUCHING_MM:
        return ()
    problem = RangeDraft(
        parameter=f"{joint.kind} of {joint.incoming} in {joint.into}: {parameter}",
        given_mm=given,
        low_mm=low,
        high_mm=high,
        why=why,
    )
    return (problem,)


def extent(blank: Blank, axis: int) -> tuple[float, float]:
    """The span of a blank along a part axis [mm]."""
    return (0.0, blank.size[axis])


@dataclass(frozen=True, slots=True, kw_only=True)
class OverEdge:
    """Where one part lies over an edge of another, in that one's part frame [mm].

    `nearest_mm` is its near side's place across the other, `off_mm` how far off the edge that is,
    below nothing within the wood. `down` is the way onto the edge, in the piece.
    """

    low: Vector
    high: Vector
    edge: Face
    nearest_mm: float
    off_mm: float
    down: Vector


def over_edge(into: Placed, incoming: Placed) -> OverEdge:
    """Over which edge of `into` the other lies: the one that it is nearer to.

    Raises:
        CannotMeet: the parts do not stand square to each other.
    """
    low, high = box_in(into, incoming)
    wide = into.part.blank.width_mm
    is_upper = low[1] + high[1] > wide
    edge = Face.BACK_EDGE if is_upper else Face.FACE_EDGE
    return OverEdge(
        low=low,
        high=high,
        edge=edge,
        nearest_mm=low[1] if is_upper else high[1],
        off_mm=low[1] - wide if is_upper else -high[1],
        down=into.placement.direction_to_piece(scaled(edge.normal, -1.0)),
    )
