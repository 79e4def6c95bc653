"""Strips that an earlier plan has laid for a part: off their boards they are still to be glued."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from furniture.joints.relation import clean
from furniture.making.strips import (
    FLAT_ENOUGH_MM,
    GluedUp,
    Strip,
    long_of,
    strips_of_plan,
    thickness_left_mm,
    wide_of,
)
from furniture.making.units import Left, Unit
from furniture.parts.vectors import Vector
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.blanks import StripPlace, in_strips, strip_places


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


def strips_record(laid: StripsInHand) -> dict[str, Any]:
    """The strips for a record [mm].

    Args:
        laid: of one part, or of one length.
    """
    return {
        "instances": list(laid.instances),
        "thickness_mm": round(laid.thickness_mm, 6),
        "strips": [
            {
                "low_mm": [round(each, 6) for each in strip.low],
                "high_mm": [round(each, 6) for each in strip.high],
                "across_mm": round(strip.across_mm, 6),
            }
            for strip in laid.strips
        ],
    }


def strips_in(rows: Iterable[Mapping[str, Any]]) -> Iterator[StripsInHand]:
    """The strips that a record tells of.

    Args:
        rows: as `strips_record` writes them.

    Raises:
        KeyError, TypeError: they are not of ours.
    """
    for row in rows:
        yield StripsInHand(
            instances=tuple(row["instances"]),
            thickness_mm=row["thickness_mm"],
            strips=tuple(
                StripWood(
                    low=tuple(each["low_mm"]),
                    high=tuple(each["high_mm"]),
                    across_mm=each["across_mm"],
                )
                for each in row["strips"]
            ),
        )


def laid_in_strips(outcome: CuttingOutcome) -> Iterator[StripsInHand]:
    """What a plan glues up from strips that all have their place, by its names among all copies.

    Args:
        outcome: the cutting plan.
    """
    thick = {each.name: each.thickness_mm for each in outcome.job.boards}
    parts = {each.name: each for each in in_strips(outcome.job.request).parts}
    for instances, placements in strips_of_plan(outcome).items():
        part = parts[placements[0].part]
        rules = outcome.job.lot_of[instances[0]].piece.rules
        over = min(thick[each.board] for each in placements) - part.thickness_mm
        places = strip_places(part)
        if len(places) == len(placements):
            yield StripsInHand(
                instances=instances,
                thickness_mm=part.thickness_mm + thickness_left_mm(over, rules),
                strips=tuple(
                    StripWood(
                        low=(0.0, -place.before, 0.0),
                        high=(long_of(laid), wide_of(laid) - place.before, thick[laid.board]),
                        across_mm=place.low,
                    )
                    for laid, place in zip(placements, places, strict=True)
                ),
            )


def of_copy(strips: Iterable[StripsInHand], mark: str) -> tuple[StripsInHand, ...]:
    """What one copy of a batch has in strips, by its own names.

    Args:
        strips: of all copies.
        mark: what stands before the names of that copy, a colon and a space after it.
    """
    own = f"{mark}: "
    return tuple(
        replace(each, instances=tuple(name.removeprefix(own) for name in each.instances))
        for each in strips
        if all(name.startswith(own) for name in each.instances)
    )


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
