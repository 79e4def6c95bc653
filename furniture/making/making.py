"""The making of a piece: its wood in hand, and every operation on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from furniture.blanks import CommonBlank
from furniture.making.amounts import Finishing, Gluing, finishing_of, gluing_of
from furniture.making.begun import NOTHING_BEGUN, Begun
from furniture.making.breaking_out import BrokenOut, as_thick, broken_out
from furniture.making.corners import keyed_of
from furniture.making.cutting import Bench, bench_for, passes_of, with_bores_between
from furniture.making.depths import depths_for
from furniture.making.edge_gluing import EdgeGluing, edge_gluing_of
from furniture.making.fitting import fitted, planed_to_fit, with_test_cuts
from furniture.making.glue_ups.values import GlueUps
from furniture.making.guides import edge_of, guides_of
from furniture.making.in_hand import in_hand_of, within_limits
from furniture.making.milling import milling, thicknessed
from furniture.making.operations import (
    After,
    Axis,
    InHand,
    Kind,
    Operation,
    SizeOf,
    Stage,
)
from furniture.making.order import in_order
from furniture.making.parting import left_when_off, parting, to_length_last
from furniture.making.precedence import with_precedence
from furniture.making.resawing import with_resawing
from furniture.making.set_once import set_once
from furniture.making.set_ups import SetUp, set_ups_of
from furniture.making.settings import Flush
from furniture.making.straight_edge import straight_edge_for
from furniture.making.together import Together, brought_together
from furniture.making.units import Unit, units_of
from furniture.making.why import Why
from furniture.making.workpieces import Wood, Workpiece
from furniture.parts.vectors import Vector
from furniture.pieces.let_in import let_in_of
from furniture.pieces.piece import Piece
from furniture.pieces.weighed import Weighed
from furniture.rules import Rules
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.tools.values import ShopRead


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """How a piece comes about: workpieces, each from another, and the operations in their order.

    `edge_gluing` is what each part takes that is glued up from strips, `gluing` what each glue-up,
    `finishing` what the finish does, where it is known. `done` are the operations that are left out
    since they are made: what is left may go on from them. `copies` are made by it side by side.
    """

    workpieces: tuple[Workpiece, ...]
    operations: tuple[Operation, ...]
    set_ups: tuple[SetUp, ...] = ()
    gluing: tuple[Gluing, ...] = ()
    finishing: Finishing | None = None
    edge_gluing: tuple[EdgeGluing, ...] = ()
    done: tuple[Operation, ...] = ()
    copies: int = 1

    @property
    def flushed(self) -> frozenset[str]:
        """The instances that are glued in square, and made flush when that is dry."""
        return frozenset(
            cut.instance
            for each in self.operations
            if isinstance(each.setting, Flush)
            for cut in each.cuts
        )


def making_of(
    piece: Piece,
    commons: Iterable[CommonBlank],
    shop: ShopRead,
    glue_ups: GlueUps | None = None,
    cutting: CuttingOutcome | None = None,
    weighed: Weighed | None = None,
    begun: Begun = NOTHING_BEGUN,
) -> Making:
    """The making of a piece from its boards, or from rough blanks of its stocks.

    Args:
        piece: what is made.
        commons: blanks that serve several of its parts.
        shop: what is on hand.
        glue_ups: how it goes together; None leaves it in parts.
        cutting: the plan that lays it on boards; None begins with rough blanks.
        weighed: its solids as measured; None leaves the amount of finish unknown.
        begun: the wood that is in hand in the middle of a job.
    """
    asked = [
        as_thick(unit, begun.thick_mm, piece.rules) for unit in units_of(piece, commons, begun.cuts)
    ]
    broken = broken_out(asked, cutting, shop, piece.rules, begun.in_strips)
    units = broken.units
    guides = guides_of(piece)
    keyed = keyed_of(piece, glue_ups, shop, guides)
    bench = bench_for(units, shop, piece.rules, guides, let_in_of(piece), keyed)
    thicknessed = broken.thicknessed.union(each.id for each in units if _is_planed(each, begun))
    worked = {unit.id: operations_of(unit, bench, unit.id in thicknessed) for unit in units}
    later = [each.key for each in keyed]
    fits = planed_to_fit(piece, with_precedence(units, worked), later)
    of_parts = fitted(piece, units, fits, later)
    together = (
        Together(operations=(), workpieces=())
        if glue_ups is None
        else brought_together(piece, glue_ups, of_parts, keyed, shop.finish is not None)
    )
    later_set = set_once((*_after_sawing(of_parts, broken), *together.operations))
    ordered = in_order((*broken.operations, *with_test_cuts(later_set)))
    operations = _as_held(ordered, units, worked, shop)
    return Making(
        workpieces=(
            *broken.workpieces,
            *(
                wood
                for unit in units
                for wood in workpieces_of(unit, broken.frames, shop.saw.kerf_mm, piece.rules)
            ),
            *together.workpieces,
        ),
        operations=operations,
        set_ups=set_ups_of(operations),
        gluing=()
        if glue_ups is None
        else tuple(gluing_of(piece, each, shop) for each in glue_ups.stages),
        finishing=None if weighed is None else finishing_of(piece, weighed, shop),
        edge_gluing=tuple(edge_gluing_of(each, shop, piece.rules) for each in broken.glued),
    )


def _is_planed(unit: Unit, begun: Begun) -> bool:
    """Whether it has its thickness, though it is off a board that is no more spoken of."""
    return all(SizeOf(name, Axis.THICKNESS) in begun.sizes for name in unit.instances)


def operations_of(unit: Unit, bench: Bench, has_thickness: bool) -> tuple[Operation, ...]:
    """All that is done to a unit until its parts are ready to go together."""
    saw, edge = bench.shop.saw, edge_of(unit, bench.guides)
    late = to_length_last(unit, saw.kerf_mm)
    rough_size = [
        size + low + high
        for size, low, high in zip(unit.blank.size, unit.left.low, unit.left.high, strict=True)
    ]
    rough = InHand(length_mm=rough_size[0], width_mm=rough_size[1], thickness_mm=rough_size[2])
    found = (
        *with_resawing(thicknessed(unit, has_thickness), rough, bench.shop, bench.rules),
        *milling(unit, saw.kerf_mm, edge),
        *(() if late is None else (late,)),
        *passes_of(unit, bench),
        *with_bores_between(unit, parting(unit, saw.kerf_mm, bench.rules), bench),
    )
    stages = list(Stage)
    staged = sorted(found, key=lambda each: stages.index(each.stage))
    return tuple(
        within_limits(each, wood, bench.shop, bench.rules)
        for each, wood in in_hand_of(unit, staged, saw)
    )


def _as_held(
    ordered: Sequence[Operation],
    units: Iterable[Unit],
    worked: Mapping[str, Sequence[Operation]],
    shop: ShopRead,
) -> tuple[Operation, ...]:
    """The operations with the wood that they have in hand in the order that was found, and what is
    clamped on it to guide a router.
    """
    held: dict[str, InHand] = {}
    for unit in units:
        keys = {each.key for each in worked[unit.id]}
        mine = [each for each in ordered if each.key in keys]
        held |= {each.key: wood for each, wood in in_hand_of(unit, mine, shop.saw)}

    def as_held(each: Operation, wood: InHand | None) -> Operation:
        deep = replace(each, depths_mm=depths_for(each, wood, shop))
        if wood is None:  # of a body of several parts
            return deep
        return replace(deep, in_hand=wood, straight_edge=straight_edge_for(each, wood, shop))

    return tuple(as_held(each, held.get(each.key)) for each in ordered)


def _after_sawing(operations: Iterable[Operation], broken: BrokenOut) -> Iterator[Operation]:
    """The operations, those on a unit after the cut that gives it, or after it was glued up."""
    makers = {
        name: After(each.key, Why.SCRAPED_FIRST if each.kind is Kind.SCRAPE else Why.SAME_WOOD)
        for each in broken.operations
        for name in each.gives
    }
    for each in operations:
        first = [makers[name] for name in each.takes if name in makers]
        if each.stage in (Stage.MILL, Stage.FIT) and first:
            yield replace(each, after=(*each.after, *first))
        else:
            yield each


def workpieces_of(
    unit: Unit, frames: Mapping[str, Workpiece], kerf_mm: float, rules: Rules
) -> Iterator[Workpiece]:
    """The rough unit, and the parts that come off it in the frame that they have along it."""
    yield frames.get(unit.id) or _rough(unit)
    if unit.is_common:
        for member in unit.members:
            before, beyond = left_when_off(unit, member, kerf_mm, rules)
            long, wide, thick = member.part.blank.size
            yield Workpiece(
                id=member.instance,
                what=Wood.PART,
                instances=(member.instance,),
                low=(-before, 0.0, 0.0),
                high=(long + beyond, wide, thick),
                source=unit.id,
                at_mm=(member.at_mm, 0.0, 0.0),
            )


def _rough(unit: Unit) -> Workpiece:
    """The unit as it was asked for, when it comes off no board."""
    left = unit.left
    low: Vector = (-left.low[0], -left.low[1], -left.low[2])
    size = unit.blank.size
    high: Vector = (size[0] + left.high[0], size[1] + left.high[1], size[2] + left.high[2])
    return Workpiece(
        id=unit.id,
        what=unit.what,
        instances=unit.instances,
        low=low,
        high=high,
    )
