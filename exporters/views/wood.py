"""Parts that compare by their wood alone: equal parts are drawn once, whatever their name."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement


class Wood:
    """A part as a key: equal blanks with equal cuts are equal."""

    __slots__ = ("_key", "part")

    def __init__(self, part: Part) -> None:
        self.part = part
        self._key = (part.blank, part.cuts)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Wood) and self._key == other._key

    def __hash__(self) -> int:
        return hash(self._key)


Stand = tuple[Wood, Placement]
"""A part's wood and where it stands."""


def stands_of(placed: Sequence[Placed]) -> tuple[Stand, ...]:
    """What is drawn of placed parts: their wood and their places, names left out."""
    return tuple((Wood(each.part), each.placement) for each in placed)
