"""What to buy when there are no boards: the least clear stock that takes every part."""

from __future__ import annotations

import math
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.buying import INCH, exact_board_feet, purchases_for, quarters_for
from furniture.shop.cutting.plan import BoardWanted, Purchase
from furniture.shop.cutting.sawable import can_be_sawn
from furniture.shop.cutting.values import FOOT, CuttingRequest, MatchRule, Saw, straight_board

SIZES_TRIED, MORE_BOARDS = 24, 2
"""Sizes and numbers of boards sawn on paper, cheapest first; boards more than rows alone take."""


@dataclass(frozen=True, slots=True)
class _Block:
    length_mm: float
    width_mm: float


def shopping_list(request: CuttingRequest, seconds: float = math.inf) -> tuple[Purchase, ...]:
    """Clear boards of whole inches and feet that take all parts of the request in rows.

    Of all widths and lengths the one with the fewest board feet, then the fewest boards, that gives
    every part by safe cuts: a plan that is known to work, not the best there is.
    The boards are clear; the request's share for faults is added to the measure, not to them.

    Args:
        request: what is wanted; its boards are not looked at.
        seconds: to look for it [s]; then the least board for each piece is asked for.
    """
    ends = time.monotonic() + seconds

    def is_over() -> bool:
        return time.monotonic() > ends

    wanted: list[tuple[BoardWanted, int]] = []
    for key in dict.fromkeys(part.species for part in request.parts):
        for thickness in sorted({p.thickness_mm for p in request.parts if p.species == key}):
            some = _of_stock(request, key, thickness)
            rough = thickness + request.saw.planing_loss_mm
            found = _best(_blocks(some), rough, some, is_over)
            if found is not None:
                length, width, count = found
                board = BoardWanted(
                    species=key,
                    length_mm=length,
                    width_mm=width,
                    thickness_mm=rough,
                )
                wanted.append((board, count))
    return purchases_for(wanted, request.waste_share)


def _blocks(request: CuttingRequest) -> list[_Block]:
    """What has to be cut free of one stock: sequences whole, everything else piece by piece."""
    blanks = blanks_of(request, frozenset(range(len(request.matches))))
    return [_Block(each.length_mm, each.width_mm) for each in blanks for _ in range(each.quantity)]


def _of_stock(request: CuttingRequest, key: str, thickness: float) -> CuttingRequest:
    """The request for the parts of one stock alone and their sequences, without boards."""
    parts = tuple(p for p in request.parts if p.species == key and p.thickness_mm == thickness)
    names = {part.name for part in parts}
    matches = tuple(
        match
        for match in request.matches
        if match.rule is MatchRule.IN_SEQUENCE and names.issuperset(match.members)
    )
    return replace(request, boards=(), parts=parts, matches=matches)


def _best(
    blocks: Sequence[_Block],
    thickness: float,
    request: CuttingRequest,
    is_over: Callable[[], bool],
) -> tuple[float, float, int] | None:
    """Length and width of the boards [mm], and how many."""
    if not blocks:
        return None
    saw = request.saw
    quarters = quarters_for(thickness)
    least_width = math.ceil((max(b.width_mm for b in blocks) + 2 * saw.edge_trim_mm) / INCH - 1e-9)
    longest = max(block.length_mm for block in blocks) + 2 * saw.end_trim_mm
    least_feet = max(2, math.ceil(longest / FOOT - 1e-9))
    if is_over():
        return least_feet * FOOT, max(least_width, 4) * INCH, len(blocks)
    options = []
    for feet in range(least_feet, max(least_feet, round(request.longest_sold_mm / FOOT)) + 1):
        for inches in range(max(least_width, 4), max(least_width, 12) + 1):
            length, width = feet * FOOT, inches * INCH
            count = _boards_needed(blocks, length, width, saw)
            for wanted in range(count, count + MORE_BOARDS + 1):
                measure = wanted * exact_board_feet(width, length, quarters)
                options.append((round(measure, 6), wanted, feet, inches))
    options.sort()
    for _, count, feet, inches in options[:SIZES_TRIED]:
        length, width = feet * FOOT, inches * INCH
        if can_be_sawn(_with_boards(request, length, width, thickness, count), is_over):
            return length, width, count
    _, count, feet, inches = options[0]
    length, width = feet * FOOT, inches * INCH
    while count < len(blocks) and not can_be_sawn(
        _with_boards(request, length, width, thickness, count), is_over
    ):
        count = len(blocks) if is_over() else count + 1
    return length, width, count


def _with_boards(
    request: CuttingRequest, length: float, width: float, thickness: float, count: int
) -> CuttingRequest:
    """The request with so many clear boards of one size [mm]."""
    boards = tuple(
        straight_board(
            name=str(number),
            length_mm=length,
            width_mm=width,
            thickness_mm=thickness,
            species=request.parts[0].species,
        )
        for number in range(count)
    )
    return replace(request, boards=boards)


def _boards_needed(blocks: Sequence[_Block], length: float, width: float, saw: Saw) -> int:
    """How many boards the blocks take in rows, each in the first row that has room."""
    room_along = length - 2 * saw.end_trim_mm
    room_across = width - 2 * saw.edge_trim_mm
    boards: list[list[list[float]]] = []  # rows of each board: [height, length used]
    for block in sorted(blocks, key=lambda b: (-b.width_mm, -b.length_mm)):
        if not any(_laid(rows, block, room_along, room_across, saw.kerf_mm) for rows in boards):
            boards.append([[block.width_mm, block.length_mm]])
    return len(boards)


def _laid(rows: list[list[float]], block: _Block, along: float, across: float, kerf: float) -> bool:
    for row in rows:
        if block.width_mm <= row[0] and row[1] + kerf + block.length_mm <= along:
            row[1] += kerf + block.length_mm
            return True
    used = sum(row[0] + kerf for row in rows)
    if used + block.width_mm <= across:
        rows.append([block.width_mm, block.length_mm])
        return True
    return False
