"""The wood that a cut leaves between itself and the outside of the blank, place by place."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.parts.blank import Blank
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector, length, scaled

SKIN_MM = 1e-3
"""How far inside a face the wood right under it is looked at [mm]."""
_AXES = (0, 1, 2)
_NONE: Vector = (0.0, 0.0, 0.0)


class Leftover(Enum):
    """Where some wood is left, seen from the cut; the value goes before its name."""

    BEHIND = "behind"
    BESIDE = "beside"
    TO_END = "between an end and"
    SHORT_POINT = "at the short point of"
    OF_FACE = "of the face beside"
    UNDER_SLOPE = "in the mitre beside"
    ACROSS = "across"


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """Wood that stands between a cut and the outside of the bare blank.

    It fills the block spanned by `way` and the two `sides` from the corner `at`; a side without
    length stands for the one line where there is least.

    Args:
        what: where it is, seen from the cut.
        at: a corner of it, on the cut's own surface, part frame [mm].
        way: from the cut's surface to the blank's, part frame [mm].
        sides: how far it reaches along the cut's surface [mm].
        towards: the face of the blank that it ends at.
    """

    what: Leftover
    at: Vector
    way: Vector
    sides: tuple[Vector, Vector]
    towards: Face

    @property
    def wood_mm(self) -> float:
        """How much there is, with no other cut in it [mm]."""
        return length(self.way)

    @property
    def is_short_grain(self) -> bool:
        """Whether it is thin along the grain, so that it splits off."""
        return self.towards.axis == 0


def left_of_box(
    low: Vector, high: Vector, blank: Blank, open_at: frozenset[Face], floor: Face | None
) -> tuple[Left, ...]:
    """What an upright box of a cut leaves towards each face of the blank that it does not reach.

    Args:
        low: its least corner, part frame [mm].
        high: its greatest corner [mm].
        blank: the wood.
        open_at: faces towards which nothing is told.
        floor: the face that the cut's floor looks away from; wood towards it is behind the cut.
    """
    found = []
    for face in Face:
        axis = face.axis
        start = high[axis] if face.is_far else low[axis]
        wood = blank.size[axis] - start if face.is_far else start
        if face in open_at or wood <= 0.0:
            continue
        first, second = (other for other in _AXES if other != axis)
        found.append(
            Left(
                what=_where(face, floor),
                at=put(low, axis, start),
                way=scaled(face.normal, wood),
                sides=(
                    put(_NONE, first, high[first] - low[first]),
                    put(_NONE, second, high[second] - low[second]),
                ),
                towards=face,
            )
        )
    return tuple(found)


def put(point: Vector, axis: int, value: float) -> Vector:
    """The same point with another coordinate on one axis."""
    moved = list(point)
    moved[axis] = value
    return (moved[0], moved[1], moved[2])


def _where(face: Face, floor: Face | None) -> Leftover:
    if face is floor:
        return Leftover.BEHIND
    return Leftover.TO_END if face.axis == 0 else Leftover.BESIDE
