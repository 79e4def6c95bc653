"""Which faces of each part its places are measured from, so that mates agree on the wood.

Two parts that meet are measured from faces that look the same way, so that what one is thicker or
wider then shows on the other side only; a part and its mirror image are measured from mirrored
faces, so that one set-up serves both. Sheets and the work read the same answer.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

from furniture.joints.joint import Joining, Role
from furniture.parts.cuts import Slope, Stub, shapes_of
from furniture.parts.faces import ENDS, Face, face_on
from furniture.parts.part import Part
from furniture.parts.vectors import Vector, dot
from furniture.pieces.piece import Piece, distinct_parts, placed_named
from furniture.pieces.twins import twins_of

_SAME_WAY = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class Datums:
    """The end, the edge and the wide face that places on a part are measured from."""

    end: Face = Face.NAMED_END
    edge: Face = Face.FACE_EDGE
    side: Face = Face.FACE_SIDE

    def on(self, axis: int) -> Face:
        """The face that places on a part axis are measured from."""
        return (self.end, self.edge, self.side)[axis]


USUAL_DATUMS = Datums()


def true_end_of(part: Part) -> Face:
    """The end that is trued first and stays: not the one trimmed last, and a square one if any.

    Args:
        part: whose ends may be mitred.
    """
    last = part.trimmed_last
    if last is not None and last in ENDS:
        return last.opposite
    sloped = {slope.face for slope in shapes_of(part.cuts, part.blank, Slope)}
    is_only_near = Face.NAMED_END in sloped and Face.FAR_END not in sloped
    return Face.FAR_END if is_only_near else Face.NAMED_END


@dataclass(frozen=True, slots=True)
class _Node:
    """One axis of a distinct part: its datum lies at the far or at the near side of it."""

    part: str
    axis: int


@dataclass(frozen=True, slots=True)
class _Tie:
    """Another node whose datum follows: on the same side of its axis, or on the other one."""

    to: _Node
    is_turned: bool


def datums_of(piece: Piece) -> Mapping[str, Datums]:
    """The datums of every distinct part, by its id.

    An end is the one that is trued first. What nothing ties is measured from its face edge and its
    face side, and so is the first of those that are tied to each other.

    Args:
        piece: parts and joints.
    """
    ties: dict[_Node, list[_Tie]] = defaultdict(list)
    for one, two, is_turned in (*_of_joints(piece), *_of_twins(piece)):
        ties[one].append(_Tie(two, is_turned))
        ties[two].append(_Tie(one, is_turned))
    parts = [each.part for each in distinct_parts(piece)]
    found = {_Node(part.id, 0): true_end_of(part).is_far for part in parts}
    for node in list(found):
        _spread(node, ties, found)
    for part, (axis, usual) in product(parts, ((1, Face.FACE_EDGE), (2, Face.FACE_SIDE))):
        node = _Node(part.id, axis)
        if node not in found:
            found[node] = usual.is_far
            _spread(node, ties, found)
    return {
        part.id: Datums(
            end=face_on(0, found[_Node(part.id, 0)]),
            edge=face_on(1, found[_Node(part.id, 1)]),
            side=face_on(2, found[_Node(part.id, 2)]),
        )
        for part in parts
    }


def _spread(start: _Node, ties: Mapping[_Node, list[_Tie]], found: dict[_Node, bool]) -> None:
    """Carries a datum's way on to all that follow it; what is settled already stays."""
    left = [start]
    while left:
        node = left.pop()
        for tie in ties.get(node, ()):
            if tie.to not in found:
                found[tie.to] = found[node] != tie.is_turned
                left.append(tie.to)


def _of_joints(piece: Piece) -> Iterator[tuple[_Node, _Node, bool]]:
    for joining in piece.joinings:
        into, incoming = (placed_named(piece, name) for name in (joining.into, joining.incoming))
        across = _pushed_along(joining) if is_measured_alike(piece, joining) else None
        if across is None:
            continue
        for (first, way), (second, other) in product(
            enumerate(into.placement.axes), enumerate(incoming.placement.axes)
        ):
            level = dot(way, other)
            if abs(level) > _SAME_WAY and abs(dot(way, across)) < 1.0 - _SAME_WAY:
                yield _Node(into.part.id, first), _Node(incoming.part.id, second), level < 0


def _of_twins(piece: Piece) -> Iterator[tuple[_Node, _Node, bool]]:
    for twins in twins_of(piece):
        for axis in range(3):
            yield _Node(twins.first, axis), _Node(twins.second, axis), twins.flips[axis]


def is_measured_alike(piece: Piece, joining: Joining) -> bool:
    """Whether both parts of a joint carry figures of the place where they meet, and must agree.

    So it is with dowels, with boards glued edge to edge and their tongues, and with tenons.

    Args:
        piece: that holds the joint.
        joining: the joint.
    """
    incoming = placed_named(piece, joining.incoming).part
    is_tenon = joining.role is Role.HOUSING and bool(
        list(shapes_of(incoming.cuts, incoming.blank, Stub))
    )
    has_dowels = any(each.is_glued for each in joining.fasteners)
    return has_dowels or is_tenon or joining.role in (Role.EDGE_GLUE, Role.LOOSE_TONGUE)


def _pushed_along(joining: Joining) -> Vector | None:
    """The way square to the place where the two meet."""
    if joining.fasteners:
        return joining.fasteners[0].axis
    return joining.ways_in[0] if joining.ways_in else None
