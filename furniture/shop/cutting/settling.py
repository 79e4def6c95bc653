"""From places to a finished plan: copies, trees, cuts, offcuts, matches, what is missing."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from furniture.shop.cutting.blanks import Blank
from furniture.shop.cutting.plan import (
    BoardPlan,
    Costs,
    LeafUse,
    MatchOutcome,
    Offcut,
    Placement,
    Rectangle,
    by_board,
)
from furniture.shop.cutting.preferences import (
    Home,
    figure_used,
    odd_name,
    settles,
    wish_missed,
    zones_meant,
)
from furniture.shop.cutting.sawing import trimmed_tree
from furniture.shop.cutting.states import LaidBlank
from furniture.shop.cutting.tree import is_held_safely, leaves, numbered_cuts
from furniture.shop.cutting.values import Board, CutPart, CuttingRequest, MatchGroup, MatchRule
from furniture.shop.cutting.zones import TOUCH, area_of_board, is_within, usable_frame


@dataclass(frozen=True, slots=True)
class Settled:
    """Boards cut up, and where a cut holds too short a piece, if one does."""

    boards: tuple[BoardPlan, ...]
    unsafe: tuple[str, Rectangle] | None


def smallest_within(placements: Sequence[Placement], piece: tuple[str, Rectangle]) -> Placement:
    """The smallest placement that comes out of a piece of a board."""
    board, whole = piece
    inside = [p for p in placements if p.board == board and is_within(p.place, whole)]
    return min(inside, key=lambda p: (p.place.area_mm2, p.part, p.copy))


def placements_of(
    request: CuttingRequest, blanks: Sequence[Blank], laid: Sequence[LaidBlank]
) -> tuple[Placement, ...]:
    """Where each part lies, strip by strip and member by member, its copies numbered."""
    ordered = sorted(
        (
            (entry.blank, entry.board, place.x_mm, place.y_mm, index, member, entry, place)
            for index, entry in enumerate(laid)
            for member, place in zip(blanks[entry.blank].members, entry.places, strict=True)
        ),
        key=lambda each: each[:5],
    )
    counts: Counter[tuple[str, int]] = Counter()
    placements: list[Placement] = []
    for *_, member, entry, place in ordered:
        counts[member.part.name, member.strip] += 1
        placements.append(
            Placement(
                part=member.part.name,
                copy=counts[member.part.name, member.strip],
                board=request.boards[entry.board].name,
                place=place,
                strip=member.strip,
                is_turned=entry.turned,
                is_flipped=entry.flipped,
            )
        )
    return tuple(placements)


def whole_copies(request: CuttingRequest, placements: Sequence[Placement]) -> tuple[Placement, ...]:
    """The placements numbered anew, without strips of copies that lack another of their strips."""
    counts: Counter[tuple[str, int]] = Counter()
    numbered: list[Placement] = []
    for placement in placements:
        counts[placement.part, placement.strip] += 1
        copy = counts[placement.part, placement.strip]
        numbered.append(replace(placement, copy=copy))
    whole = {
        part.name: min(counts[part.name, strip] for strip, _ in part.pieces)
        for part in request.parts
    }
    return tuple(each for each in numbered if each.copy <= whole[each.part])


def within_quantities(
    request: CuttingRequest, placements: Sequence[Placement]
) -> tuple[Placement, ...]:
    """The placements without copies more than are wanted."""
    left = {(part.name, strip): part.quantity for part in request.parts for strip, _ in part.pieces}
    kept = []
    for each in placements:
        left[each.part, each.strip] -= 1
        if left[each.part, each.strip] >= 0:
            kept.append(each)
    return tuple(kept)


def sawable(request: CuttingRequest, placements: Sequence[Placement]) -> tuple[Placement, ...]:
    """The placements without the smallest of those that no safe cut frees; maybe none."""
    known: dict[tuple[str, tuple[Placement, ...]], SettledBoard] = {}
    while placements:
        settled = settled_boards(request, placements, known)
        if settled is None:
            return ()
        if settled.unsafe is None:
            break
        dropped = smallest_within(placements, settled.unsafe)
        placements = [each for each in placements if each is not dropped]
    return tuple(placements)


SettledBoard = tuple[BoardPlan, tuple[str, Rectangle] | None] | None
"""A board cut up, and where a cut holds too short a piece; None where no saw frees its parts."""


def settled_boards(
    request: CuttingRequest,
    placements: Sequence[Placement],
    known: dict[tuple[str, tuple[Placement, ...]], SettledBoard] | None = None,
) -> Settled | None:
    """Every board used, with its tree of cuts; None when a saw could not free the parts.

    known: boards settled before, which are not settled anew; gets those that are.
    """
    known = {} if known is None else known
    on_board = by_board(placements)
    plans: list[BoardPlan] = []
    unsafe: tuple[str, Rectangle] | None = None
    for board in request.boards:
        here = tuple(on_board.get(board.name, ()))
        if not here:
            continue
        if (board.name, here) not in known:
            known[board.name, here] = _settled_board(request, board, here)
        settled = known[board.name, here]
        if settled is None:
            return None
        plans.append(settled[0])
        unsafe = unsafe or settled[1]
    return Settled(tuple(plans), unsafe)


def _settled_board(
    request: CuttingRequest, board: Board, here: tuple[Placement, ...]
) -> SettledBoard:
    whole = Rectangle(
        x_mm=0.0, y_mm=0.0, length_mm=board.length_mm, width_mm=board.greatest_width_mm
    )
    frame, saw = usable_frame(board, request.saw), request.saw
    tree = trimmed_tree(whole, frame, here, saw, request.limits.stages)
    if tree is None:
        return None
    cuts = numbered_cuts(tree, saw.kerf_mm)
    unsafe = next(
        (
            (board.name, cut.workpiece)
            for cut in cuts
            if not is_held_safely(cut.workpiece, cut.direction, saw)
        ),
        None,
    )
    offcuts = tuple(
        Offcut(board=board.name, place=leaf.piece, is_usable=leaf.use is LeafUse.OFFCUT)
        for leaf in leaves(tree)
        if leaf.use is not LeafUse.PART
    )
    laid = sum(placement.place.area_mm2 for placement in here)
    plan = BoardPlan(
        board=board.name,
        tree=tree,
        cuts=cuts,
        placements=here,
        offcuts=offcuts,
        yield_share=laid / area_of_board(board),
    )
    return plan, unsafe


def outcomes_of(
    request: CuttingRequest, placements: Sequence[Placement]
) -> tuple[MatchOutcome, ...]:
    """Whether each match was kept, judged from the places alone."""
    return tuple(_outcome(request, match, placements) for match in request.matches)


def copies_laid(part: CutPart, placements: Sequence[Placement]) -> int:
    """Whole copies of a part, all strips of those that are glued up."""
    laid = Counter(each.strip for each in placements if each.part == part.name)
    return min(laid[strip] for strip, _ in part.pieces)


def has_all_musts(request: CuttingRequest, placements: Sequence[Placement]) -> bool:
    """Whether every copy that must have a place has one."""
    laid = Counter((each.part, each.strip) for each in placements)
    return all(
        laid[part.name, strip] >= part.quantity
        for part in request.parts
        if part.is_must
        for strip, _ in part.pieces
    )


def worth_left_out(request: CuttingRequest, placements: Sequence[Placement]) -> float:
    """What the copies that may be left out, and are, would have been worth [money]."""
    return sum(
        (part.quantity - copies_laid(part, placements)) * part.worth
        for part in request.parts
        if part.worth is not None
    )


def costs_of(
    request: CuttingRequest, placements: Sequence[Placement], outcomes: Sequence[MatchOutcome]
) -> Costs:
    """What boards begun, matches not kept, wishes not met, figure used and copies left out cost."""
    boards, parts = request.board_named, request.part_named
    wishes = figure = 0.0
    for placement in placements:
        board, part = boards[placement.board], parts[placement.part]
        asked = frozenset(
            name
            for match in request.matches
            if match.rule.asks_for_zone and placement.part in match.members
            for name, _ in zones_meant(match, board)
        )
        wishes += wish_missed(part, placement.place, board)
        figure += figure_used(part, placement.place, board, asked)
    return Costs(
        boards=sum(boards[name].price for name in sorted({p.board for p in placements})),
        matches=sum(outcome.price_paid for outcome in outcomes),
        wishes=wishes,
        figure=figure,
        left_out=worth_left_out(request, placements),
    )


def _outcome(
    request: CuttingRequest, match: MatchGroup, placements: Sequence[Placement]
) -> MatchOutcome:
    odd: str | None = None
    if match.rule is MatchRule.IN_SEQUENCE:
        kept = bool(sequence_kept(match, placements, request.saw.kerf_mm))
    else:
        kept, odd = _group_kept(request, match, placements)
    paid = 0.0 if kept else (match.price or 0.0)
    return MatchOutcome(group=match.name, is_kept=kept, odd_one=odd, price_paid=paid)


def sequence_kept(
    match: MatchGroup, placements: Sequence[Placement], kerf: float
) -> list[Placement]:
    """The placements of the match end to end in order off one strip; empty when they are not."""
    named = [p for p in placements if p.part in match.members and not p.is_turned]
    for first in named:
        if first.part != match.members[0]:
            continue
        run = [first]
        for name in match.members[1:]:
            here = run[-1].place
            following = [
                p
                for p in named
                if p.part == name
                and p.board == first.board
                and p.is_flipped == first.is_flipped
                and p not in run
                and abs(p.place.y_mm - first.place.y_mm) <= TOUCH
                and abs(p.place.x_mm - here.x_end_mm - kerf) <= TOUCH * 10
            ]
            if not following:
                break
            run.append(following[0])
        if len(run) == len(match.members):
            return run
    return []


def _group_kept(
    request: CuttingRequest, match: MatchGroup, placements: Sequence[Placement]
) -> tuple[bool, str | None]:
    """Whether some choice of copies keeps the match, and who stayed out."""
    index_of = {board.name: index for index, board in enumerate(request.boards)}
    may_stay_out = odd_name(match, request.part_named)
    wanted = Counter(match.members)
    by_home: dict[Home, Counter[str]] = defaultdict(Counter)
    for placement in placements:
        if placement.part not in wanted or placement.strip > 1:
            continue
        number = index_of[placement.board]
        board = request.boards[number]
        home = settles(match, None, number, board, placement.place)
        if home is not None:
            by_home[home][placement.part] += 1
    pools = list(by_home.values())
    if match.rule.fixes_place:
        pools = [sum(pools, Counter())]
    missing = [wanted - pool for pool in pools]
    if not all(missing):
        return True, None
    if any(each.total() == 1 and may_stay_out in each for each in missing):
        return True, may_stay_out
    return False, None
