"""Why a part lies on no board: the first rule that keeps it off, and a board that would do."""

from __future__ import annotations

from collections.abc import Callable, Container, Sequence
from dataclasses import replace

from furniture.shop.cutting.blanks import blanks_of, suits
from furniture.shop.cutting.cover import fits_alone
from furniture.shop.cutting.in_the_way import zones_in_the_way
from furniture.shop.cutting.near_misses import MOST_NEAR, near_misses
from furniture.shop.cutting.plan import (
    BoardPlan,
    BoardWanted,
    InStrips,
    LeftOut,
    LeftOutReason,
    NearMiss,
    NearPlace,
    Placement,
    Unplaced,
    UnplacedReason,
)
from furniture.shop.cutting.sawable import can_be_sawn
from furniture.shop.cutting.settling import copies_laid
from furniture.shop.cutting.values import Board, CutPart, CuttingRequest, GrainRule, Saw
from furniture.shop.cutting.zones import TOUCH, usable_frame

MOST_SAWN = 5
"""Boards on which the saw's limits are tried, the longest. Own rule: none is barred less."""

_LIMITS = {
    "shortest_rip_mm": "shortest rip",
    "narrowest_rip_mm": "narrowest rip",
    "shortest_crosscut_mm": "shortest crosscut",
}
"""What the saw's limits are called, by the names that `Saw` has for them."""


def board_wanted(saw: Saw, part: CutPart) -> BoardWanted:
    """The least clear board that gives one copy, at the saw's limits [mm]."""
    length = max(part.rough_length_mm, saw.shortest_rip_mm, saw.shortest_crosscut_mm)
    if part.rough_length_mm < length:
        length = max(length, part.rough_length_mm + saw.kerf_mm)
    width = max(part.rough_width_mm, saw.narrowest_rip_mm)
    if saw.kerf_mm < width - part.rough_width_mm < 2 * saw.kerf_mm:
        width = part.rough_width_mm + 2 * saw.kerf_mm  # one pass, no sliver
    return BoardWanted(
        species=part.species,
        length_mm=length + 2 * saw.end_trim_mm,
        width_mm=width + 2 * saw.edge_trim_mm,
        thickness_mm=part.thickness_mm + saw.planing_loss_mm,
    )


def unplaced_parts(
    request: CuttingRequest, boards: Sequence[BoardPlan], is_over: Callable[[], bool]
) -> tuple[Unplaced, ...]:
    """Parts that must have a place and have none, each with a reason and a board that would do.

    Args:
        is_over: whether time is up: what takes time to find out is then left out.
    """
    placements = [each for board in boards for each in board.placements]
    missing: list[Unplaced] = []
    for part in request.parts:
        copies = part.quantity - copies_laid(part, placements)
        if copies <= 0 or not part.is_must:
            continue
        missing.append(why_unplaced(request, boards, part, copies, is_over))
    return tuple(missing)


def parts_in_strips(
    request: CuttingRequest, placements: Sequence[Placement], is_over: Callable[[], bool]
) -> tuple[InStrips, ...]:
    """The parts that are glued up, and the boards that all but take them whole."""
    laid = {each.part for each in placements if each.strip}
    found = []
    for part in request.parts:
        if part.name in laid:
            whole = replace(part, strips_mm=())
            fitting = [board for board in request.boards if suits(board, part, request.saw)]
            near = near_misses(whole, fitting, (), request.saw, is_over)
            found.append(InStrips(part=part.name, strips=len(part.strips_mm), near=near))
    return tuple(found)


def parts_left_out(
    request: CuttingRequest, placements: Sequence[Placement], begun: Container[str]
) -> tuple[LeftOut, ...]:
    """Copies that are cut only if it pays, and are not.

    Args:
        begun: names of the boards that are cut up.
    """
    found = []
    for part in request.parts:
        copies = part.quantity - copies_laid(part, placements)
        if part.worth is None or copies <= 0:
            continue
        further = any(
            board.name not in begun
            and suits(board, part, request.saw)
            and _is_large_enough(board, part, request.saw)
            for board in request.boards
        )
        reason = LeftOutReason.NOT_WORTH_IT if further else LeftOutReason.NO_ROOM
        found.append(LeftOut(part=part.name, copies=copies, worth=part.worth, reason=reason))
    return tuple(found)


def why_unplaced(
    request: CuttingRequest,
    boards: Sequence[BoardPlan],
    part: CutPart,
    copies: int,
    is_over: Callable[[], bool],
) -> Unplaced:
    """The part with the first rule that keeps it off the boards, and what misses by the least.

    Args:
        part: of which copies were left out.
    """
    saw, wanted = request.saw, board_wanted(request.saw, part)
    ready = _not_reached(request, {each.board for each in boards}, part, wanted)
    if ready is not None:
        return Unplaced(
            part=part.name, copies=copies, reason=UnplacedReason.NOT_REACHED, would_do=wanted,
            blocked_by=(ready.name,),
        )  # fmt: skip
    if is_over():
        return Unplaced(
            part=part.name, copies=copies, reason=UnplacedReason.TIME_UP, would_do=wanted
        )
    fitting = [board for board in request.boards if suits(board, part, saw)]
    large = [board for board in fitting if _is_large_enough(board, part, saw)]
    blocked_by: tuple[str, ...] = ()
    if large:
        reason, blocked_by = _where_it_is_large(request, part, large, is_over)
    else:
        reason = _too_small(part, fitting, saw)
    near: tuple[NearMiss, ...] = ()
    if reason is UnplacedReason.UNSAFE:
        near = _too_small_to_hold(wanted, large)
    elif reason is UnplacedReason.NO_ROOM:
        offcuts = [each for board in boards for each in board.offcuts]
        near = near_misses(part, fitting, offcuts, saw, is_over) if offcuts else ()
        begun = {each.board for each in boards}
        held = _too_small_to_hold(wanted, [board for board in large if board.name not in begun])
        near = tuple(sorted((*held, *near), key=lambda each: each.lacks_mm))[:MOST_NEAR]
    elif reason is not UnplacedReason.MATCH:
        near = near_misses(replace(part, strips_mm=()), fitting, (), saw, is_over)
    return Unplaced(
        part=part.name, copies=copies, reason=reason, would_do=wanted, blocked_by=blocked_by,
        near=near,
    )  # fmt: skip


def _not_reached(
    request: CuttingRequest, begun: Container[str], part: CutPart, wanted: BoardWanted
) -> Board | None:
    """A clear board as large as would do that is whole still: the search did not come to it."""
    if part.strips_mm or any(m.price is None and part.name in m.members for m in request.matches):
        return None
    for board in request.boards:
        is_clear = board.is_straight and not board.zones and board.name not in begun
        if is_clear and suits(board, part, request.saw):
            is_wide = board.greatest_width_mm >= wanted.width_mm - TOUCH
            if is_wide and board.length_mm >= wanted.length_mm - TOUCH:
                alone = replace(part, quantity=1)
                is_sure = can_be_sawn(replace(request, boards=(board,), parts=(alone,), matches=()))
                return board if is_sure else None
    return None


def _too_small_to_hold(wanted: BoardWanted, large: Sequence[Board]) -> tuple[NearMiss, ...]:
    """The board that lacks the least of what could be held."""
    misses = [
        NearMiss(
            board=board.name,
            place=NearPlace.AT_THE_SAW,
            short_mm=max(0.0, wanted.length_mm - board.length_mm),
            narrow_mm=max(0.0, wanted.width_mm - board.greatest_width_mm),
        )
        for board in large
    ]
    return tuple(each for each in sorted(misses, key=lambda e: e.lacks_mm)[:1] if each.lacks_mm)


def _too_small(part: CutPart, fitting: Sequence[Board], saw: Saw) -> UnplacedReason:
    """Why no board is large enough; boards of its species that are all too thin are refused."""
    if not fitting:
        return UnplacedReason.NO_SPECIES
    turned = replace(part, grain=GrainRule.EITHER)
    if any(_is_large_enough(board, turned, saw) for board in fitting):
        return UnplacedReason.GRAIN
    frames = [usable_frame(board, saw) for board in fitting]
    if part.rough_length_mm > max(frame.length_mm for frame in frames) + TOUCH:
        return UnplacedReason.TOO_LONG
    if _widest_piece(part) > max(frame.width_mm for frame in frames) + TOUCH:
        return UnplacedReason.TOO_WIDE
    return UnplacedReason.TOO_LARGE


def _where_it_is_large(
    request: CuttingRequest, part: CutPart, large: list[Board], is_over: Callable[[], bool]
) -> tuple[UnplacedReason, tuple[str, ...]]:
    """What keeps a part off boards that are large enough."""
    piece = _widest_piece_of(part)
    boards = _unlike(large)
    alone = replace(request, boards=boards, parts=(piece,), matches=())
    fits = _fit_alone(alone, is_over)
    if is_over():
        return UnplacedReason.TIME_UP, ()
    if not fits:
        bare = replace(alone, boards=tuple(replace(board, zones=()) for board in boards))
        if not _fit_alone(bare, is_over):
            return UnplacedReason.NARROWS, ()
        return UnplacedReason.FAULTS, zones_in_the_way(request, boards, piece, is_over)
    longest = sorted(fits, key=lambda board: -board.length_mm)[:MOST_SAWN]
    limits = _limits_in_the_way(replace(alone, boards=tuple(longest)))
    if limits is None:
        return UnplacedReason.FAULTS, zones_in_the_way(request, boards, piece, is_over)
    if limits:
        return UnplacedReason.UNSAFE, limits
    musts = [m.name for m in request.matches if m.price is None and part.name in m.members]
    if musts:
        return UnplacedReason.MATCH, tuple(musts)
    return UnplacedReason.STRIPS if part.strips_mm else UnplacedReason.NO_ROOM, ()


def _unlike(boards: list[Board]) -> tuple[Board, ...]:
    """One of each kind of boards."""
    kinds = {board.wood: board for board in boards[::-1]}
    return tuple(reversed(kinds.values()))


def _widest_piece_of(part: CutPart) -> CutPart:
    """One copy of the part, or the widest of its strips by itself."""
    if not part.strips_mm:
        return replace(part, quantity=1)
    return replace(
        part,
        quantity=1,
        width_mm=max(part.strips_mm),
        width_allowance_mm=0.0,
        strips_mm=(),
        glue_up=None,
    )


def _widest_piece(part: CutPart) -> float:
    """The widest piece that one copy is cut as, at least [mm]."""
    return max(part.strips_mm, default=part.least_width_mm)


def _is_large_enough(board: Board, part: CutPart, saw: Saw) -> bool:
    frame = usable_frame(board, saw)
    straight = part.rough_length_mm <= frame.length_mm + TOUCH
    straight &= _widest_piece(part) <= frame.width_mm + TOUCH
    turned = (
        part.rough_width_mm <= frame.length_mm + TOUCH
        and part.rough_length_mm <= frame.width_mm + TOUCH
    )
    return straight or (turned and part.grain is GrainRule.EITHER)


def _fit_alone(alone: CuttingRequest, is_over: Callable[[], bool]) -> list[Board]:
    """The boards that hold the only part somewhere, of those looked at in time."""
    blanks = blanks_of(alone, frozenset())
    on_board = fits_alone(alone, blanks, is_over)
    return [board for board, on in zip(alone.boards, on_board, strict=True) if on]


def _limits_in_the_way(alone: CuttingRequest) -> tuple[str, ...] | None:
    """The saw's limits that keep the only part off: each by itself, or all; none when it fits.

    None where it does not fit without limits either.
    """
    if can_be_sawn(alone):
        return ()
    found = [
        called
        for name, called in _LIMITS.items()
        if can_be_sawn(replace(alone, saw=replace(alone.saw, **{name: 0.0})))
    ]
    if found:
        return tuple(found)
    free = replace(alone, saw=replace(alone.saw, **dict.fromkeys(_LIMITS, 0.0)))
    return tuple(_LIMITS.values()) if can_be_sawn(free) else None
