"""Strips that an earlier plan has laid for a part: off their boards they are still to be glued."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from furniture.joints.relation import clean
from furniture.making.strips import FLAT_ENOUGH_MM, GluedUp, Strip
from furniture.making.units import Left, Unit
from furniture.parts.vectors import Vector
from furniture.shop.cutting.blanks import StripPlace


@dataclass(frozen=True, slots=True, kw_only=True)
class StripWood:
    """A strip as it came off its board.

    Args:
        low: least corner of the wood in its own frame, as `Workpiece` has it [mm].
        high: greatest corner [mm].
        across_mm: where its frame's origin lies across the part [mm].
    """

    low: Vector
    high: Vector
    across_mm: float

    @property
    def size(self) -> Vector:
        """Of the wood [mm]."""
        long, wide, thick = (b - a for a, b in zip(self.low, self.high, strict=True))
        return long, wide, thick


@dataclass(frozen=True, slots=True, kw_only=True)
class StripsInHand:
    """The strips of one part, or of one length, from its face edge on.

    Args:
        instances: that come off it, in their order along it.
        thickness_mm: that it is glued up at [mm].
        strips: at least two.
    """

    instances: tuple[str, ...]
    thickness_mm: float
    strips: tuple[StripWood, ...]


def glued_up_in_hand(units: Sequence[Unit], laid: Iterable[StripsInHand]) -> Iterator[GluedUp]:
    """The units whose strips are in hand, as they are when the glue is hard.

    A part that has changed since lies in the same wood: joints stay where the strips were to be
    jointed, but as far as a wider part wants wood that the first strip has before it.

    Args:
        units: whose wood is off its boards.
        laid: strips by an earlier plan.
    """
    strips = {each.instances: each for each in laid}
    for unit in units:
        if unit.instances in strips:
            yield _glued_up(unit, strips[unit.instances])


def _glued_up(unit: Unit, laid: StripsInHand) -> GluedUp:
    long, wide, thick = unit.blank.size
    last = laid.strips[-1]
    beyond = last.across_mm + last.high[1] - wide
    moved = max(0.0, -beyond)
    marks = [0.0, *(each.across_mm + moved for each in laid.strips[1:]), wide]
    spare = clean(min(each.size[0] for each in laid.strips) - long)
    strips = []
    for at, each in enumerate(laid.strips):
        before = clean(-each.low[1] - (moved if at == 0 else 0.0))
        place = StripPlace(low=marks[at], high=marks[at + 1], before=before)
        width = clean(place.high - place.low)
        over = clean(each.size[2] - laid.thickness_mm)
        strips.append(
            Strip(
                unit=Unit(
                    id=f"{unit.id}, strip {at + 1}",
                    members=(),
                    blank=replace(
                        unit.blank, width_mm=width, thickness_mm=clean(laid.thickness_mm)
                    ),
                    left=Left(
                        low=(spare / 2, before, over / 2),
                        high=(
                            clean(each.size[0] - long - spare / 2),
                            clean(each.size[1] - before - width),
                            over / 2,
                        ),
                    ),
                    timber=unit.timber,
                ),
                across=place,
                laid=None,
            )
        )
    over = clean(laid.thickness_mm - thick)
    below = over / 2 if over > FLAT_ENOUGH_MM else 0.0
    left = Left(
        low=(spare / 2, strips[0].across.before, below),
        high=(spare / 2, strips[-1].unit.left.high[1], over - below),
    )
    return GluedUp(unit=replace(unit, left=left), strips=tuple(strips))
