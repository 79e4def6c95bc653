"""The six faces of a blank, and the arrises where two of them meet.

Part frame: x along the grain, y across it, z through the thickness. The face side is z = thickness,
the face edge y = 0, and the named end x = 0: dimensions are struck from the face edge and the named
end.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from furniture.parts.vectors import Vector


class Face(Enum):
    """One of the six faces of a blank."""

    FACE_SIDE = "face side"
    BACK_SIDE = "back side"
    FACE_EDGE = "face edge"
    BACK_EDGE = "back edge"
    NAMED_END = "named end"
    FAR_END = "far end"

    @property
    def axis(self) -> int:
        """The part axis that the face stands across: 0 = x, 1 = y, 2 = z."""
        return _AXIS_AND_SIDE[self][0]

    @property
    def is_far(self) -> bool:
        """Whether the face lies at the far end of its axis rather than at its origin."""
        return _AXIS_AND_SIDE[self][1] > 0

    @property
    def normal(self) -> Vector:
        """The direction out of the wood, in the part frame."""
        axis, side = _AXIS_AND_SIDE[self]
        return (
            float(side) if axis == 0 else 0.0,
            float(side) if axis == 1 else 0.0,
            float(side) if axis == 2 else 0.0,
        )

    @property
    def opposite(self) -> Face:
        """The face across the blank."""
        return face_on(self.axis, not self.is_far)


_AXIS_AND_SIDE: dict[Face, tuple[int, int]] = {
    Face.FACE_SIDE: (2, 1),
    Face.BACK_SIDE: (2, -1),
    Face.FACE_EDGE: (1, -1),
    Face.BACK_EDGE: (1, 1),
    Face.NAMED_END: (0, -1),
    Face.FAR_END: (0, 1),
}
_BY_AXIS_AND_SIDE = {value: face for face, value in _AXIS_AND_SIDE.items()}

WIDE_FACES = (Face.FACE_SIDE, Face.BACK_SIDE)
EDGES = (Face.FACE_EDGE, Face.BACK_EDGE)
ENDS = (Face.NAMED_END, Face.FAR_END)


def face_on(axis: int, is_far: bool) -> Face:
    """The face across `axis` (0, 1 or 2) at its far or its origin side."""
    return _BY_AXIS_AND_SIDE[(axis, 1 if is_far else -1)]


@dataclass(frozen=True, slots=True)
class Arris:
    """The sharp line where two faces of a blank meet; the order of the two does not matter.

    Args:
        first: one face.
        second: the other.

    Raises:
        ValueError: the two faces are the same or opposite and never meet.
    """

    first: Face
    second: Face

    def __post_init__(self) -> None:
        if self.first.axis == self.second.axis:
            raise ValueError(f"{self.first.value} and {self.second.value} do not meet")
        if self.first.axis < self.second.axis:  # one arris, one value: wide face first
            first, second = self.first, self.second
            object.__setattr__(self, "first", second)
            object.__setattr__(self, "second", first)

    @property
    def run_axis(self) -> int:
        """The part axis that the arris runs along."""
        return 3 - self.first.axis - self.second.axis

    @property
    def name(self) -> str:
        """The arris in words, such as `face side / face edge`."""
        return f"{self.first.value} / {self.second.value}"


ALL_ARRISES = frozenset(
    Arris(first, second) for first in Face for second in Face if first.axis != second.axis
)
"""The twelve of a blank."""
