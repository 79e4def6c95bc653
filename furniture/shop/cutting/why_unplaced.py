"""Why a part lies on no board: the first rule that keeps it off, and a board that would do."""

from __future__ import annotations

from collections.abc import Container, Iterable, Sequence
from dataclasses import replace

from furniture.shop.cutting.blanks import blanks_of, suits
from furniture.shop.cutting.buying import purchases_for
from furniture.shop.cutting.cover import fits_alone
from furniture.shop.cutting.in_the_way import zones_in_the_way
from furniture.shop.cutting.plan import (
    Across,
    BoardWanted,
    LeftOut,
    LeftOutReason,
    NearMiss,
    Placement,
    Purchase,
    Unplaced,
    UnplacedReason,
)
from furniture.shop.cutting.sawable import can_be_sawn
from furniture.shop.cutting.settling import copies_laid
from furniture.shop.cutting.values import Board, CutPart, CuttingRequest, GrainRule, Saw
from furniture.shop.cutting.zones import TOUCH, usable_frame

NEAR_MM, MOST_NEAR = 10.0, 2
"""A board that is too small by no more is named, and so many [mm]. Own rule: what a smaller
allowance or trim might find."""

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
    """Parts that must have a place and have none, each with a reason and a board that would do.

    And what to buy for them.
    """
    missing: list[Unplaced] = []
    wanted: list[tuple[BoardWanted, int]] = []
    for part in request.parts:
        copies = part.quantity - copies_laid(part, placements)
        if copies <= 0 or not part.is_must:
            continue
        entry = why_unplaced(request, part, copies)
        missing.append(entry)
        wanted.append((entry.would_do, copies))
    return tuple(missing), purchases_for(wanted, request.waste_share)


def parts_left_out(
    request: CuttingRequest, placements: Sequence[Placement], begun: Container[str]
) -> tuple[LeftOut, ...]:
    """Copies that are cut only if it pays, and are not.

    Args:
        request: as planned.
        placements: of what is cut.
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


def why_unplaced(request: CuttingRequest, part: CutPart, copies: int) -> Unplaced:
    """The part with the first rule that keeps it off the boards.

    Args:
        request: as planned.
        part: of which copies were left out.
        copies: how many.
    """
    saw = request.saw
    same = [board for board in request.boards if board.species == part.species]
    fitting = [board for board in same if suits(board, part, saw)]
    large = [board for board in fitting if _is_large_enough(board, part, saw)]
    if large:
        reason, needs, most, blocked_by = _where_it_is_large(request, part, large)
    else:
        reason, needs, most = _too_small(request, part, same, fitting)
        blocked_by = ()
    return Unplaced(
        part=part.name,
        copies=copies,
        reason=reason,
        would_do=board_wanted(saw, part),
        needs=needs,
        most=most,
        blocked_by=blocked_by,
        near=tuple(_near_misses(fitting, part, saw)),
    )


def _too_small(
    request: CuttingRequest, part: CutPart, same: list[Board], fitting: list[Board]
) -> tuple[UnplacedReason, float | None, float | None]:
    """Why no board is large enough, what is needed, and the most that there is [mm]."""
    saw = request.saw
    if not same:
        return UnplacedReason.NO_SPECIES, None, None
    if not fitting:
        thickest = max(board.thickness for board in same)
        return UnplacedReason.TOO_THIN, part.thickness + saw.planing_loss, thickest
    turned = replace(part, grain=GrainRule.EITHER)
    if any(_is_large_enough(board, turned, saw) for board in fitting):
        return UnplacedReason.GRAIN, None, None
    longest = max(usable_frame(board, saw).length for board in fitting)
    if part.rough_length > longest + TOUCH:
        return UnplacedReason.TOO_LONG, part.rough_length, longest
    widest = max(usable_frame(board, saw).width for board in fitting)
    needed = _widest_piece(part)
    if needed > widest + TOUCH:
        return UnplacedReason.TOO_WIDE, part.rough_width, widest
    return UnplacedReason.TOO_LARGE, None, None


def _where_it_is_large(
    request: CuttingRequest, part: CutPart, large: list[Board]
) -> tuple[UnplacedReason, None, None, tuple[str, ...]]:
    """What keeps a part off boards that are large enough."""
    piece = _widest_piece_of(part)
    alone = replace(request, boards=_unlike(large), parts=(piece,), matches=())
    bare = tuple(replace(board, zones=()) for board in alone.boards)
    if not _somewhere(replace(alone, boards=bare)):
        return UnplacedReason.NARROWS, None, None, ()
    if not _somewhere(alone):
        named = zones_in_the_way(request, alone.boards, piece)
        return UnplacedReason.FAULTS, None, None, named
    limits = _limits_in_the_way(alone)
    if limits is None:
        named = zones_in_the_way(request, alone.boards, piece)
        return UnplacedReason.FAULTS, None, None, named
    if limits:
        return UnplacedReason.UNSAFE, None, None, limits
    musts = [m.name for m in request.matches if m.price is None and part.name in m.members]
    if musts:
        return UnplacedReason.MATCH, None, None, tuple(musts)
    return UnplacedReason.STRIPS if part.strips else UnplacedReason.NO_ROOM, None, None, ()


def _unlike(boards: list[Board]) -> tuple[Board, ...]:
    """One of each kind of boards."""
    kinds = {replace(board, name="", price=0.0, description=""): board for board in boards[::-1]}
    return tuple(reversed(kinds.values()))


def _widest_piece_of(part: CutPart) -> CutPart:
    """One copy of the part, or the widest of its strips by itself."""
    if not part.strips:
        return replace(part, quantity=1)
    return replace(
        part, quantity=1, width=max(part.strips), width_allowance=0.0, strips=(), glue_up=None
    )


def _widest_piece(part: CutPart) -> float:
    """The widest piece that one copy is cut as, at least [mm]."""
    return max(part.strips, default=part.least_width)


def _is_large_enough(board: Board, part: CutPart, saw: Saw) -> bool:
    frame = usable_frame(board, saw)
    straight = part.rough_length <= frame.length + TOUCH
    straight &= _widest_piece(part) <= frame.width + TOUCH
    turned = part.rough_width <= frame.length + TOUCH and part.rough_length <= frame.width + TOUCH
    return straight or (turned and part.grain is GrainRule.EITHER)


def _near_misses(fitting: list[Board], part: CutPart, saw: Saw) -> Iterable[NearMiss]:
    """The boards that are too short or too narrow by little, the nearest first."""
    near = []
    for board in fitting:
        frame = usable_frame(board, saw)
        short = part.rough_length - frame.length
        narrow = _widest_piece(part) - frame.width
        if short <= TOUCH < narrow <= NEAR_MM:
            near.append(NearMiss(board=board.name, across=Across.WIDTH, by=narrow))
        if narrow <= TOUCH < short <= NEAR_MM:
            near.append(NearMiss(board=board.name, across=Across.LENGTH, by=short))
    return sorted(near, key=lambda each: each.by)[:MOST_NEAR]


def _somewhere(alone: CuttingRequest) -> bool:
    blanks = blanks_of(alone, frozenset())
    return len(set().union(*fits_alone(alone, blanks))) == len(blanks)


def _limits_in_the_way(alone: CuttingRequest) -> tuple[str, ...] | None:
    """The saw's limits that keep the only part off: each by itself, or all; none when it fits.

    None where it does not fit without limits either.
    """
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
    return ("shortest workpiece",) if can_be_sawn(whole) else None
