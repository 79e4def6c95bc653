"""The shape of what is left standing on an end once the wood round it is gone: a tenon."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.parts.blank import Blank
from furniture.parts.cuts.left import Left, Leftover
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector, subtract

_AROUND = (1, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stub:
    """A block left standing on an end, between shoulders.

    Args:
        end: the end that it stands on.
        low: its least corner, part frame [mm].
        high: its greatest corner [mm].
    """

    end: Face
    low: Vector
    high: Vector

    @property
    def mouths(self) -> tuple[Face, ...]:
        """The end is the one face that it is cut back from for certain."""
        return (self.end,)

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """The block itself, from cheek to cheek and from edge to edge."""
        del blank
        length, *across = subtract(self.high, self.low)
        ways: tuple[Vector, Vector] = ((0.0, across[0], 0.0), (0.0, 0.0, across[1]))
        return tuple(
            Left(
                what=Leftover.ACROSS,
                at=self.low,
                way=way,
                sides=((length, 0.0, 0.0), other),
                towards=towards,
            )
            for way, other, towards in (
                (ways[0], ways[1], Face.BACK_EDGE),
                (ways[1], ways[0], Face.FACE_SIDE),
            )
        )

    def opens(self, blank: Blank) -> frozenset[Face]:
        """The end, and each face that loses wood to its own shoulder or to one beside it."""
        shouldered = {face for face in Face if self._shoulder_mm(face, blank) > 1e-9}
        beside = {
            face for face in Face for other in shouldered if {face.axis, other.axis} == {1, 2}
        }
        return frozenset({self.end, *shouldered, *beside})

    def _shoulder_mm(self, face: Face, blank: Blank) -> float:
        """How far inside a long face of the blank it stands [mm]; none at the ends."""
        if face.axis not in _AROUND:
            return 0.0
        axis = face.axis
        return blank.size[axis] - self.high[axis] if face.is_far else self.low[axis]
