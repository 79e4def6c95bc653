"""Units of work: wood that is worked as one until it falls apart into its parts."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from furniture.blanks import CommonBlank, Member
from furniture.making.operations import CutOf
from furniture.making.workpieces import Wood
from furniture.parts.blank import Blank
from furniture.parts.cuts import Slope
from furniture.parts.faces import ENDS, Face
from furniture.parts.part import Placed, Rough
from furniture.parts.vectors import Vector
from furniture.pieces.let_in import square_until_flush
from furniture.pieces.piece import Piece
from furniture.timber.stock import Timber

EDGE_SHARE = 0.5
"""The share of the wood left on a width that the jointer takes; the saw takes the rest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """The wood left beyond a unit's finished size at its low and its high faces [mm]."""

    low: Vector
    high: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A common blank, or the blank of one part: a frame like that of its members, moved along x.

    `blank` is from the named end of the first member to the far end of the last [mm]; `left` is
    what rough wood has beyond it, as it is broken out or bought. A strip that is glued up with
    others has no members. `mitred` are the ends of a part by itself that were sawn already, while
    it was in a longer length.
    """

    id: str
    members: tuple[Member, ...]
    blank: Blank
    left: Left
    timber: Timber
    mitred: frozenset[Face] = frozenset()

    @property
    def instances(self) -> tuple[str, ...]:
        """Its instances, in their order along it."""
        return tuple(each.instance for each in self.members)

    @property
    def what(self) -> Wood:
        """What it is as wood: no part comes off a strip until it is glued up with others."""
        if not self.members:
            return Wood.GLUED_STRIP
        return Wood.COMMON_BLANK if self.is_common else Wood.PART

    @property
    def is_common(self) -> bool:
        """Whether several parts come off it."""
        return len(self.members) > 1


def left_on(rough: Rough, held_mm: float) -> Left:
    """What is left at each face of a blank that is bought or broken out as it was asked for.

    Args:
        rough: on its length and its width.
        held_mm: besides, at its far end [mm].
    """
    long, wide = rough.length_mm, rough.width_mm
    return Left(
        low=(long / 2, wide * EDGE_SHARE, 0.0),
        high=(long / 2 + held_mm, wide * (1.0 - EDGE_SHARE), 0.0),
    )


def units_of(
    piece: Piece, commons: Iterable[CommonBlank], made: Collection[CutOf] = ()
) -> tuple[Unit, ...]:
    """Every instance of the piece in just one unit, in the order of the piece.

    Args:
        piece: what is made.
        commons: the blanks that serve several of its parts.
        made: cuts that are made before the work begins.
    """
    of = {name: common for common in commons for name in common.instances}
    square = square_until_flush(piece)
    found: dict[str, Unit] = {}
    for placed in piece.placed:
        common = of.get(placed.instance)
        part = square.get(placed.instance, placed.part)
        unit = (
            Unit(
                id=placed.instance,
                members=(Member(instance=placed.instance, part=part, at_mm=0.0),),
                blank=part.blank,
                left=left_on(part.rough, 0.0),
                timber=part.timber,
                mitred=_mitred(placed, made),
            )
            if common is None
            else Unit(
                id=common.name,
                members=common.members,
                blank=common.blank,
                left=left_on(common.rough, common.held_mm),
                timber=common.timber,
            )
        )
        found.setdefault(unit.id, unit)
    return tuple(found.values())


def _mitred(placed: Placed, made: Collection[CutOf]) -> frozenset[Face]:
    """The ends of a part that are sawn at a slope already."""
    shapes = (each.shape(placed.part.blank) for each in placed.part.cuts)
    return frozenset(
        shape.face
        for index, shape in enumerate(shapes)
        if isinstance(shape, Slope) and shape.face in ENDS and CutOf(placed.instance, index) in made
    )
