"""The work on a piece: its glue-ups and its making, by what is known of shop and boards."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from furniture.assembly.values import AssemblyPlan, NoOrder
from furniture.blanks import CommonBlank, as_laid, common_blanks, runs_round_corners
from furniture.making.begun import NOTHING_BEGUN, Begun
from furniture.making.from_scrap import with_scrap
from furniture.making.glue_ups import GlueUps, NoStages, stages_of
from furniture.making.glue_ups.stages import USUAL_BENCH
from furniture.making.left_to_do import left_to_do
from furniture.making.making import Making, making_of
from furniture.pieces.piece import Piece
from furniture.pieces.weighed import Weighed
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.tools.reading import usual_or
from furniture.shop.tools.values import ShopRead

Found = GlueUps | NoStages | NoOrder
"""The glue-ups, or why there are none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """How a piece is made, and how it goes together; None is what nobody asked for."""

    making: Making
    found: Found | None = None


def work_of(
    piece: Piece,
    shop: ShopRead | None = None,
    cutting: CuttingOutcome | None = None,
    order: AssemblyPlan | NoOrder | None = None,
    weighed: Weighed | None = None,
    begun: Begun = NOTHING_BEGUN,
    laid: Collection[CommonBlank] | None = None,
) -> Work:
    """The work with all that is known.

    Args:
        piece: that is made.
        shop: what is on hand; a usual one where none is given.
        cutting: its cutting plan, from whose boards the work begins; None begins with blanks.
        order: of assembly; None leaves the parts apart.
        weighed: its solids as measured; None leaves the amount of finish unknown.
        begun: what is done in the middle of a job, and asked no more.
        laid: the blanks that a plan for several pieces lays for it; None where there is none.

    Raises:
        SolidError: glue-ups are asked for, and a part's solid cannot be made.
    """
    shop = shop or usual_or(None, piece.shown)
    found = _found(piece, order, shop)
    blanks: tuple[CommonBlank, ...]
    if cutting is None and laid is None:
        blanks = common_blanks(piece, runs_round_corners(piece), shop.saw.kerf_mm)
    elif cutting is None:
        blanks = (*(laid or ()), *_begun(piece, shop.saw.kerf_mm, begun.lengths))
    else:
        shop = replace(shop, saw=cutting.job.request.saw)
        blanks = (*cutting.job.common_blanks, *_begun(piece, shop.saw.kerf_mm, begun.lengths))
        if cutting.plan is None:
            cutting = None
    glue_ups = found if isinstance(found, GlueUps) else None
    making = making_of(piece, blanks, shop, glue_ups, cutting, weighed, begun)
    making = with_scrap(making, glue_ups, piece.rules)
    return Work(making=left_to_do(making, begun), found=found)


def _begun(
    piece: Piece, kerf_mm: float, lengths: Collection[frozenset[str]]
) -> tuple[CommonBlank, ...]:
    """The common blanks that are off their boards, or have their place there."""
    begun = piece.done | piece.in_hand
    there = [each for each in lengths if each <= begun]
    blanks = common_blanks(piece, runs_round_corners(piece), kerf_mm)
    return tuple(each for blank in blanks for each in as_laid(blank, there, kerf_mm))


def _found(piece: Piece, order: AssemblyPlan | NoOrder | None, shop: ShopRead) -> Found | None:
    if order is None or isinstance(order, NoOrder):
        return order
    minutes = shop.glue.open_minutes
    bench = USUAL_BENCH if minutes is None else replace(USUAL_BENCH, open_seconds=60.0 * minutes)
    return stages_of(piece, order, bench=bench)
