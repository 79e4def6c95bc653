"""Housings as hinges: what a frame has left once the glue of shallow housings has let go."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from furniture.joints.joint import Joining, JointFace, Role
from furniture.joints.reading import closes_on_both_sides, edge_face, housing_of
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, cross, dot, scaled
from furniture.pieces import Piece, placed_named
from furniture.structure.capacity import Carries
from furniture.structure.frame import FREE, Frame
from furniture.structure.links import Link, axes_across

_ALONG = 0.7
_FACING = -0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hinge:
    """A housing that turns: its joint's place, the way in, and the ends of the line it turns on."""

    joining: int
    incoming: str
    inward: Vector
    ends: tuple[Vector, Vector]


def with_hinges(piece: Piece, frame: Frame, free_turn: float) -> Frame | None:
    """The frame with a hinge for every shallow housing of a part that spans between two others.

    Such a housing is cut across the grain, so that its glue holds on end grain, and its part turns
    in it by its play over its depth before the shoulders bear, or freely where there is but one.
    None where there is no such part.

    Args:
        piece: as cut, with its joinings
        frame: of the piece
        free_turn: what it turns at least [rad] to count as a hinge

    **Source:** geometry of the housing; that its glue lets go in time is an own rule.
    """
    found = list(_turning(piece, free_turn))
    hinges = [
        each
        for each in found
        if any(
            other.incoming == each.incoming and dot(other.inward, each.inward) < _FACING
            for other in found
        )
    ]
    if not hinges:
        return None
    turned = {each.joining for each in hinges}
    kept = tuple(link for link in frame.links if link.joining not in turned)
    pins = tuple(link for each in hinges for link in _pins(piece, frame, each))
    return replace(frame, links=(*kept, *pins))


def _turning(piece: Piece, free_turn: float) -> Iterator[_Hinge]:
    for index, joining in enumerate(piece.joinings):
        if joining.role is not Role.HOUSING or joining.fasteners:
            continue
        incoming, into = (placed_named(piece, name) for name in (joining.incoming, joining.into))
        housing, edge = housing_of(joining, incoming), edge_face(joining, incoming)
        if housing is None or edge is None:
            continue
        shoulders = _glued_shoulders(joining, edge)
        is_tight = (
            closes_on_both_sides(joining, incoming)
            and joining.clearance_mm < free_turn * housing.depth_mm
        )
        if is_tight or not _are_on_end_grain(shoulders, into):
            continue
        half = scaled(cross(edge.normal, shoulders[0].normal), housing.run_mm / 2.0)
        ends = (add(edge.centre, scaled(half, -1.0)), add(edge.centre, half))
        yield _Hinge(joining=index, incoming=joining.incoming, inward=edge.normal, ends=ends)


def _glued_shoulders(joining: Joining, edge: JointFace) -> list[JointFace]:
    return [
        each
        for each in joining.faces
        if each.glue is not None and abs(dot(each.normal, edge.normal)) < 1.0 - _ALONG
    ]


def _are_on_end_grain(shoulders: list[JointFace], into: Placed) -> bool:
    grain = into.placement.x_axis
    return bool(shoulders) and all(abs(dot(each.normal, grain)) > _ALONG for each in shoulders)


def _pins(piece: Piece, frame: Frame, hinge: _Hinge) -> Iterator[Link]:
    joining = piece.joinings[hinge.joining]
    for at in hinge.ends:
        for direction in (hinge.inward, *axes_across(hinge.inward)):
            yield Link(
                first=frame.body(joining.incoming),
                second=frame.body(joining.into),
                at=at,
                direction=direction,
                least_n=-FREE,
                most_n=FREE,
                carries=Carries.PUSH,
                joining=hinge.joining,
            )
