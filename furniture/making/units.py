"""Units of work: wood that is worked as one until it falls apart into its parts."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from furniture.blanks import CommonBlank, Member
from furniture.parts.blank import Blank
from furniture.parts.part import Rough
from furniture.pieces.piece import Piece
from furniture.timber.stock import Timber


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A common blank, or the blank of one part: a frame like that of its members, moved along x.

    `blank` is from the named end of the first member to the far end of the last [mm].
    """

    id: str
    members: tuple[Member, ...]
    blank: Blank
    rough: Rough
    timber: Timber
    held_mm: float = 0.0

    @property
    def instances(self) -> tuple[str, ...]:
        """Its instances, in their order along it."""
        return tuple(each.instance for each in self.members)

    @property
    def is_common(self) -> bool:
        """Whether several parts come off it."""
        return len(self.members) > 1


def units_of(piece: Piece, commons: Iterable[CommonBlank]) -> tuple[Unit, ...]:
    """Every instance of the piece in just one unit, in the order of the piece.

    Args:
        piece: what is made.
        commons: the blanks that serve several of its parts.
    """
    of = {name: common for common in commons for name in common.instances}
    found: dict[str, Unit] = {}
    for placed in piece.placed:
        common = of.get(placed.instance)
        part = placed.part
        unit = (
            Unit(
                id=placed.instance,
                members=(Member(instance=placed.instance, part=part, at_mm=0.0),),
                blank=part.blank,
                rough=part.rough,
                timber=part.timber,
            )
            if common is None
            else Unit(
                id=common.name,
                members=common.members,
                blank=common.blank,
                rough=common.rough,
                timber=common.timber,
                held_mm=common.held_mm,
            )
        )
        found.setdefault(unit.id, unit)
    return tuple(found.values())
