"""A finished plan with fewer passes of the saw: parts pushed against an edge or a neighbour.

Nothing else changes: each part stays on its board, on wood that it tolerates, at no higher price,
with every match kept that was kept.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from furniture.shop.cutting.plan import BoardPlan, Placement
from furniture.shop.cutting.settling import (
    Settled,
    costs_of,
    outcomes_of,
    settled_boards,
)
from furniture.shop.cutting.tree import worth_of_offcuts
from furniture.shop.cutting.values import Board, CuttingRequest
from furniture.shop.cutting.zones import (
    TOUCH,
    are_nearer,
    is_within,
    obstacles_for,
    overlap_area,
    usable_frame,
)

MOST_TRIED = 60
"""Moves that are sawn through on paper at most. Own rule: well under a second."""


@dataclass(slots=True)
class _Budget:
    left: int


def tidied(request: CuttingRequest, settled: Settled, is_over: Callable[[], bool]) -> Settled:
    """The boards with parts pushed to where fewer passes free them, or larger offcuts are left.

    Args:
        settled: the plan's boards, every cut safe.
        is_over: whether to come back with what is gained so far.
    """
    budget = _Budget(MOST_TRIED)
    boards = list(settled.boards)
    for index in range(len(boards)):
        improved = True
        while improved and budget.left > 0 and not is_over():
            improved = False
            for moved in _moves(request, boards, index):
                if budget.left <= 0 or is_over():
                    break
                budget.left -= 1
                better = _better(request, boards, index, moved)
                if better is not None:
                    boards[index] = better
                    improved = True
                    break
    return replace(settled, boards=tuple(boards))


def _better(
    request: CuttingRequest, boards: Sequence[BoardPlan], index: int, moved: tuple[Placement, ...]
) -> BoardPlan | None:
    settled = settled_boards(request, moved)
    if settled is None or settled.unsafe is not None:
        return None
    (plan,) = settled.boards
    if _effort(request, plan) >= _effort(request, boards[index]) - 1e-9:
        return None
    before = [p for board in boards for p in board.placements]
    after = [p for board in boards for p in board.placements if p.board != plan.board] + [*moved]
    outcomes, kept = outcomes_of(request, after), outcomes_of(request, before)
    if outcomes != kept:
        return None
    price = costs_of(request, after, outcomes).total
    if price > costs_of(request, before, kept).total + 1e-9:
        return None
    return plan


def _effort(request: CuttingRequest, plan: BoardPlan) -> float:
    """Passes of the saw less what the offcuts are worth in passes."""
    return len(plan.cuts) - worth_of_offcuts(plan.tree, request.saw)


def _moves(
    request: CuttingRequest, boards: Sequence[BoardPlan], index: int
) -> Iterator[tuple[Placement, ...]]:
    """The board's parts with one row or one part moved across the board, or along it."""
    plan = boards[index]
    board = request.board_named[plan.board]
    frame, kerf = usable_frame(board, request.saw), request.saw.kerf_mm
    for row in _rows(plan.placements):
        others = [p for p in plan.placements if p not in row]
        low, high = row[0].place.y_mm, max(p.place.y_end_mm for p in row)
        targets = [frame.y_mm - low, frame.y_end_mm - high]
        for other in others:
            targets += [other.place.y_end_mm + kerf - low, other.place.y_mm - kerf - high]
            targets += [other.place.y_mm - low, other.place.y_end_mm - high]
        yield from _shifted(request, board, row, others, [(0.0, dy) for dy in _nearest(targets)])
    for part in plan.placements:
        others = [p for p in plan.placements if p is not part]
        low, high = part.place.x_mm, part.place.x_end_mm
        targets = [frame.x_mm - low, frame.x_end_mm - high]
        for other in others:
            targets += [other.place.x_end_mm + kerf - low, other.place.x_mm - kerf - high]
        yield from _shifted(request, board, [part], others, [(dx, 0.0) for dx in _nearest(targets)])


def _rows(placements: Sequence[Placement]) -> list[list[Placement]]:
    """Parts that lie at one height, and each part by itself where that is something else."""
    rows: dict[float, list[Placement]] = {}
    for placement in placements:
        rows.setdefault(round(placement.place.y_mm, 4), []).append(placement)
    alone = [[p] for row in rows.values() if len(row) > 1 for p in row]
    return [*rows.values(), *alone]


def _nearest(targets: Sequence[float]) -> list[float]:
    return sorted({round(t, 9) for t in targets if abs(t) > TOUCH}, key=lambda t: (abs(t), t))


def _shifted(
    request: CuttingRequest,
    board: Board,
    moving: Sequence[Placement],
    others: Sequence[Placement],
    shifts: Sequence[tuple[float, float]],
) -> Iterator[tuple[Placement, ...]]:
    frame, kerf = usable_frame(board, request.saw), request.saw.kerf_mm
    parts = request.part_named
    for dx, dy in shifts:
        moved = [
            replace(p, place=replace(p.place, x_mm=p.place.x_mm + dx, y_mm=p.place.y_mm + dy))
            for p in moving
        ]
        if not all(is_within(p.place, frame) for p in moved):
            continue
        if any(are_nearer(p.place, other.place, kerf) for p in moved for other in others):
            continue
        barred = any(
            overlap_area(outline, p.place) > TOUCH
            for p in moved
            for outline in obstacles_for(board, parts[p.part], request.saw, flipped=p.is_flipped)
        )
        if not barred:
            yield (*others, *moved)
