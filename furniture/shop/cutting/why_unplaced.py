"""Why a part lies on no board: the first rule that keeps it off, and a board that would do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace

from furniture.shop.cutting.blanks import blanks_of, strips_of, suits, widest_for
from furniture.shop.cutting.buying import purchases_for
from furniture.shop.cutting.cover import fits_alone
from furniture.shop.cutting.plan import (
    BoardWanted,
    Placement,
    Purchase,
    Unplaced,
    UnplacedReason,
)
from furniture.shop.cutting.sawable import can_be_sawn
from furniture.shop.cutting.values import Board, CutPart, CuttingRequest, GrainRule, Saw
from furniture.shop.cutting.zones import TOUCH, is_tolerated, usable_frame

_LIMITS = ("shortest_rip", "narrowest_rip", "shortest_crosscut")


def board_wanted(saw: Saw, part: CutPart) -> BoardWanted:
    """The least clear board that gives one copy, at the saw's limits [mm]."""
    length = max(
        part.rough_length, part.shortest_workpiece, saw.shortest_rip, saw.shortest_crosscut
    )
    if part.rough_length < length:
        length = max(length, part.rough_length + saw.kerf)
    width = max(part.rough_width, saw.narrowest_rip)
    if saw.kerf < width - part.rough_width < 2 * saw.kerf:
        width = part.rough_width + 2 * saw.kerf  # one pass, no sliver
    return BoardWanted(
        species=part.species,
        length=length + 2 * saw.end_trim,
        width=width + 2 * saw.edge_trim,
        thickness=part.thickness + saw.planing_loss,
    )


def unplaced_parts(
    request: CuttingRequest, placements: Sequence[Placement]
) -> tuple[tuple[Unplaced, ...], tuple[Purchase, ...]]:
    """Parts left out, each with a reason and a board that would do, and what to buy for them."""
    laid = Counter((placement.part, placement.strip) for placement in placements)
    missing: list[Unplaced] = []
    wanted: list[tuple[BoardWanted, int]] = []
    for part in request.parts:
        copies = part.quantity - min(laid[part.name, strip] for strip, _ in part.pieces)
        if copies <= 0:
            continue
        entry = why_unplaced(request, part, copies)
        missing.append(entry)
        wanted.append((entry.would_do, copies))
    return tuple(missing), purchases_for(wanted, request.waste_share)


def why_unplaced(request: CuttingRequest, part: CutPart, copies: int) -> Unplaced:
    """The part with the first rule that keeps it off the boards.

    Args:
        request: as planned.
        part: of which copies were left out.
        copies: how many.
    """
    reason, needs, most, blocked_by = _reason(request, part)
    return Unplaced(
        part=part.name,
        copies=copies,
        reason=reason,
        would_do=board_wanted(request.saw, part),
        needs=needs,
        most=most,
        blocked_by=blocked_by,
    )


_Why = tuple[UnplacedReason, float | None, float | None, tuple[str, ...]]


def _reason(request: CuttingRequest, part: CutPart) -> _Why:
    saw = request.saw
    same = [board for board in request.boards if board.species == part.species]
    if not same:
        return UnplacedReason.NO_SPECIES, None, None, ()
    fitting = [board for board in same if suits(board, part, saw)]
    if not fitting:
        thickest = max(board.thickness for board in same)
        return UnplacedReason.TOO_THIN, part.thickness + saw.planing_loss, thickest, ()
    large = [board for board in fitting if _is_large_enough(board, part, request)]
    if not large:
        return _too_large(request, part, fitting)
    alone = replace(request, parts=(replace(part, quantity=1),), matches=())
    if not _somewhere(alone):
        return UnplacedReason.FAULTS, None, None, tuple(_faults(alone, large))
    limits = _limits_in_the_way(alone)
    if limits:
        return UnplacedReason.UNSAFE, None, None, limits
    musts = [m.name for m in request.matches if m.price is None and part.name in m.members]
    if musts:
        return UnplacedReason.MATCH, None, None, tuple(musts)
    return UnplacedReason.NO_ROOM, None, None, ()


def _too_large(request: CuttingRequest, part: CutPart, fitting: list[Board]) -> _Why:
    turned = replace(part, grain=GrainRule.EITHER)
    if any(_is_large_enough(board, turned, request) for board in fitting):
        return UnplacedReason.GRAIN, None, None, ()
    longest = max(usable_frame(board, request.saw).length for board in fitting)
    if part.rough_length > longest + TOUCH:
        return UnplacedReason.TOO_LONG, part.rough_length, longest, ()
    widest = widest_for(part, request.boards, request.saw)
    if part.rough_width > widest + TOUCH:
        return UnplacedReason.TOO_WIDE, part.rough_width, widest, ()
    return UnplacedReason.TOO_LARGE, None, None, ()


def _is_large_enough(board: Board, part: CutPart, request: CuttingRequest) -> bool:
    frame = usable_frame(board, request.saw)
    width = part.rough_width
    if part.glue_up is not None and width > frame.width:
        strips = strips_of(part, frame.width)
        width = max(strips) if strips else width
    straight = part.rough_length <= frame.length + TOUCH and width <= frame.width + TOUCH
    turned = part.rough_width <= frame.length + TOUCH and part.rough_length <= frame.width + TOUCH
    return straight or (turned and part.grain is GrainRule.EITHER)


def _somewhere(alone: CuttingRequest) -> bool:
    blanks = blanks_of(alone, frozenset())
    return len(set().union(*fits_alone(alone, blanks))) == len(blanks)


def _faults(alone: CuttingRequest, large: list[Board]) -> Iterable[str]:
    """Zones that keep the part off: those without which it would fit, else all that bar it."""
    (part,) = alone.parts
    barring = [
        (board, zone)
        for board in large
        for zone in board.zones
        if not any(is_tolerated(zone, part, flipped=flipped) for flipped in (False, True))
    ]
    decisive = [
        (board, zone)
        for board, zone in barring
        if _somewhere(
            replace(
                alone,
                boards=(replace(board, zones=tuple(z for z in board.zones if z is not zone)),),
            )
        )
    ]
    for board, zone in decisive or barring:
        yield f"{zone.name} on board {board.name}"


def _limits_in_the_way(alone: CuttingRequest) -> tuple[str, ...]:
    """The saw's limits that keep the only part off: each by itself, or all; none when it fits."""
    if can_be_sawn(alone):
        return ()
    found = [
        name.replace("_", " ")
        for name in _LIMITS
        if can_be_sawn(replace(alone, saw=replace(alone.saw, **{name: 0.0})))
    ]
    if found:
        return tuple(found)
    free = replace(alone, saw=replace(alone.saw, **dict.fromkeys(_LIMITS, 0.0)))
    if can_be_sawn(free):
        return tuple(name.replace("_", " ") for name in _LIMITS)
    (part,) = free.parts
    whole = replace(free, parts=(replace(part, shortest_workpiece=0.0),))
    return ("shortest workpiece",) if can_be_sawn(whole) else ()
