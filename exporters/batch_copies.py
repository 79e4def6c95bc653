"""Copies of a batch by their wood: those whose wood comes otherwise are worked otherwise."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from exporters.batch import BuiltBatch, Member
from furniture.blanks import CommonBlank
from furniture.making.strips_in_hand import StripsInHand, laid_in_strips, of_copy
from furniture.pieces import Piece
from furniture.shop.boards.lots import Lot
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.units import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class CopyWood:
    """How the wood of a copy comes off its boards.

    Args:
        blanks: that several of its parts share.
        strips: that its parts are glued up from.
    """

    blanks: tuple[CommonBlank, ...]
    strips: tuple[StripsInHand, ...]


def wood_of(cutting: CuttingOutcome, lot: Lot) -> CopyWood:
    """How the wood of one copy comes off its boards, by its own names.

    Args:
        cutting: the plan for all copies.
        lot: the copy.
    """
    return CopyWood(
        blanks=cutting.job.common_blanks_of(lot.mark),
        strips=of_copy(laid_in_strips(cutting), lot.mark),
    )


def parted_by_wood(batch: BuiltBatch, cutting: CuttingOutcome) -> tuple[BuiltBatch, CuttingOutcome]:
    """The batch and its plan with copies that are worked otherwise as pieces of their own.

    One copy's rails may be one length where another's are two, or its lid be glued up: one packet
    could not be true of both.

    Args:
        batch: with its pieces built.
        cutting: the plan for all of them.
    """
    members: list[Member] = []
    piece_of: dict[str, Piece] = {}
    for member in batch.members:
        lots = [lot for lot in batch.lots if lot.piece is member.piece]
        groups = _alike(lots, cutting)
        for group in groups:
            piece = member.piece
            if len(groups) > 1:
                piece = replace(piece, name=_together(group), copy_of=piece.copy_of or piece.name)
            members.append(replace(member, piece=piece, count=len(group)))
            piece_of |= {lot.mark: piece for lot in group}
    lots = [_of_piece(lot, piece_of[lot.mark]) for lot in batch.lots]
    job = replace(cutting.job, lots=tuple(lots))
    parted = replace(batch, members=tuple(members), lots=tuple(lots))
    return parted, replace(cutting, job=job)


def _alike(lots: Sequence[Lot], cutting: CuttingOutcome) -> list[list[Lot]]:
    """The copies of one piece, those together whose wood comes alike."""
    groups: list[tuple[CopyWood, list[Lot]]] = []
    for lot in lots:
        wood = wood_of(cutting, lot)
        own = next((group for known, group in groups if known == wood), None)
        if own is None:
            groups.append((wood, [lot]))
        else:
            own.append(lot)
    return [group for _, group in groups]


def _together(lots: Sequence[Lot]) -> str:
    """What some copies of a design are called, such as `Tea box 1 to 3 and 5`."""
    numbers = [lot.number or 1 for lot in lots]
    starts = [each for each in numbers if each - 1 not in numbers]
    ends = [each for each in numbers if each + 1 not in numbers]
    runs = (
        f"{start}" if start == end else f"{start} to {end}"
        for start, end in zip(starts, ends, strict=True)
    )
    return f"{lots[0].design or lots[0].piece.name} {listed(list(runs))}"


def _of_piece(lot: Lot, piece: Piece) -> Lot:
    """The copy as one of a piece that may have come to be of its own."""
    if lot.piece is piece:
        return lot
    return replace(lot, piece=piece, design=lot.design or lot.piece.name)
