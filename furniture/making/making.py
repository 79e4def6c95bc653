"""The making of a piece: its wood in hand, and every operation on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from furniture.blanks import CommonBlank
from furniture.making.cutting import passes_of
from furniture.making.milling import left_on, measured, milling
from furniture.making.operations import Operation
from furniture.making.parting import parting, to_length_last
from furniture.making.units import Unit, units_of
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """How a piece comes about: workpieces, each from another, and the operations in their order."""

    workpieces: tuple[Workpiece, ...]
    operations: tuple[Operation, ...]


def making_of(piece: Piece, commons: Iterable[CommonBlank], kerf_mm: float) -> Making:
    """The making of a piece from rough blanks of its stocks.

    Args:
        piece: what is made.
        commons: blanks that serve several of its parts.
        kerf_mm: that the saw takes.
    """
    units = units_of(piece, commons)
    return Making(
        workpieces=tuple(wood for unit in units for wood in workpieces_of(unit)),
        operations=tuple(each for unit in units for each in operations_of(unit, kerf_mm)),
    )


def operations_of(unit: Unit, kerf_mm: float) -> tuple[Operation, ...]:
    """All that is done to a unit until its parts are ready to go together."""
    late = to_length_last(unit, kerf_mm)
    return (
        measured(unit),
        *milling(unit, kerf_mm),
        *passes_of(unit, kerf_mm),
        *parting(unit, kerf_mm),
        *(() if late is None else (late,)),
    )


def workpieces_of(unit: Unit) -> Iterator[Workpiece]:
    """The rough unit, and the parts that come off it in the frame that they have along it."""
    left = left_on(unit)
    low: Vector = (-left.low[0], -left.low[1], -left.low[2])
    size = unit.blank.size
    high: Vector = (size[0] + left.high[0], size[1] + left.high[1], size[2] + left.high[2])
    yield Workpiece(
        id=unit.id,
        what=Wood.COMMON_BLANK if unit.is_common else Wood.PART,
        instances=unit.instances,
        low=low,
        high=high,
    )
    if unit.is_common:
        for member in unit.members:
            yield Workpiece(
                id=member.instance,
                what=Wood.PART,
                instances=(member.instance,),
                low=(0.0, 0.0, 0.0),
                high=member.part.blank.size,
                source=unit.id,
                at_mm=(member.at_mm, 0.0, 0.0),
            )
