"""The making of a piece: its wood in hand, and every operation on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from furniture.blanks import CommonBlank
from furniture.making.cutting import Bench, bench_for, passes_of
from furniture.making.fitting import fitted, with_test_cuts
from furniture.making.in_hand import InHand, within_limits
from furniture.making.milling import left_on, measured, milling
from furniture.making.operations import Operation, Stage
from furniture.making.order import in_order
from furniture.making.parting import parting, to_length_last
from furniture.making.precedence import with_precedence
from furniture.making.set_ups import SetUp, set_ups_of
from furniture.making.units import Unit, units_of
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.faces import Face
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece
from furniture.shop.cutting.values import Saw
from furniture.shop.tools.values import ShopRead


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """How a piece comes about: workpieces, each from another, and the operations in their order."""

    workpieces: tuple[Workpiece, ...]
    operations: tuple[Operation, ...]
    set_ups: tuple[SetUp, ...] = ()


def making_of(
    piece: Piece,
    commons: Iterable[CommonBlank],
    shop: ShopRead,
    glue_ups: GlueUps | None = None,
) -> Making:
    """The making of a piece from rough blanks of its stocks.

    Args:
        piece: what is made.
        commons: blanks that serve several of its parts.
        shop: what is on hand.
        glue_ups: how it goes together; None leaves it in parts.
    """
    units = units_of(piece, commons)
    bench = bench_for(units, shop, piece.rules)
    worked = {unit.id: operations_of(unit, bench) for unit in units}
    of_parts = with_test_cuts(fitted(piece, units, with_precedence(units, worked)))
    together = (
        Together(operations=(), workpieces=())
        if glue_ups is None
        else brought_together(piece, glue_ups, of_parts, shop.finish is not None)
    )
    operations = in_order((*of_parts, *together.operations))
    return Making(
        workpieces=(
            *(wood for unit in units for wood in workpieces_of(unit)),
            *together.workpieces,
        ),
        operations=operations,
        set_ups=set_ups_of(operations),
    )


def operations_of(unit: Unit, bench: Bench) -> tuple[Operation, ...]:
    """All that is done to a unit until its parts are ready to go together."""
    saw = bench.shop.saw
    late = to_length_last(unit, saw.kerf)
    found = (
        measured(unit),
        *milling(unit, saw.kerf),
        *passes_of(unit, bench),
        *parting(unit, saw.kerf),
        *(() if late is None else (late,)),
    )
    return tuple(within_limits(each, wood, bench.shop) for each, wood in _in_hand(unit, found, saw))


def _in_hand(
    unit: Unit, operations: Iterable[Operation], saw: Saw
) -> Iterator[tuple[Operation, InHand]]:
    """Each operation with the wood that it has in hand, as the unit grows shorter."""
    left, right = unit.members[0].at_mm, unit.blank.length_mm + unit.held_mm
    members = {each.instance: each for each in unit.members}
    ends, thick = unit.rough.length_mm, unit.blank.thickness_mm
    for each in operations:
        wood = each.takes[0]
        is_whole = wood == unit.id or each.stage is Stage.PART
        length = right - left + ends if is_whole else members[wood].part.blank.length_mm
        is_rough = each.stage is Stage.MILL
        width = unit.blank.width_mm + (unit.rough.width_mm if is_rough else 0.0)
        yield each, InHand(length_mm=length, width_mm=width, thickness_mm=thick)
        if len(each.gives) > 1:
            gone = members[each.gives[0]]
            ends = 0.0
            if each.hold.stop is Face.FAR_END:
                right = gone.at_mm - saw.kerf
            else:
                left = gone.end_mm + saw.kerf


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
