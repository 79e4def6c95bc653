"""The cutting plan for a request: what is asked, the search round by round, bound and proof."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from furniture.errors import DesignError
from furniture.shop.cutting.best import BestPlan
from furniture.shop.cutting.blanks import blanks_of, in_strips
from furniture.shop.cutting.bounds import Bounds
from furniture.shop.cutting.plan import Bound, BoundKind, CuttingPlan, Proof
from furniture.shop.cutting.request_problems import problems_of
from furniture.shop.cutting.search import LEAST_ROUNDS, MANY, Search, is_settled
from furniture.shop.cutting.settling import Settled, costs_of, outcomes_of
from furniture.shop.cutting.tidying import tidied
from furniture.shop.cutting.values import CuttingRequest
from furniture.shop.cutting.watch import SEARCH_SHARE, Progress, Watch
from furniture.shop.cutting.why_unplaced import (
    parts_in_strips,
    parts_left_out,
    unplaced_parts,
)
from furniture.shop.cutting.zones import area_of_board

SHARE_OF_LARGE = 0.9
"""Of the time, for the search of so many: columns prove while they search, and board by board
little is proved of them. Own rule."""


def plan_cutting(
    request: CuttingRequest,
    on_progress: Callable[[Progress], bool] | None = None,
) -> CuttingPlan:
    """The best plan found within the limits, with its proof.

    on_progress is told while the search runs and after every round, and stops it by returning
    False; the plan is then the best so far.

    Raises: DesignError with every problem of the request.
    """
    problems = problems_of(request)
    if problems:
        raise DesignError(problems)
    request = in_strips(request)
    watch = Watch(
        seconds=request.limits.seconds,
        on_progress=on_progress,
        wanted=request.copies,
        search_share=SHARE_OF_LARGE if request.copies >= MANY else SEARCH_SHARE,
    )
    search = Search(request, watch)
    best: BestPlan | None = None
    bounds = Bounds(request, watch)
    for number in range(request.limits.rounds):
        watch.round = number + 1
        before, best = best, search.round(number, best, bounds)
        watch.tell()
        if watch.is_search_over():
            break
        if best is not None and is_settled(best, bounds, watch):
            break
        if watch.round >= LEAST_ROUNDS and best is not None:
            is_stuck = before is not None and best.rank[:3] == before.rank[:3]
            if bounds.proves(best) or (is_stuck and bounds.is_near(best)):
                break
    is_cut_short = watch.is_search_over() or search.is_cut_short
    found = best.settled if best is not None else Settled((), None)
    settled = tidied(request, found, watch.is_over)
    plan = _plan(request, settled, bounds.for_plan(best), watch)
    return replace(plan, is_cut_short=is_cut_short and not plan.proof.is_proven)


def _plan(request: CuttingRequest, settled: Settled, bound: Bound, watch: Watch) -> CuttingPlan:
    placements = [p for board in settled.boards for p in board.placements]
    unplaced = unplaced_parts(request, settled.boards, watch.is_late)
    begun = {board.board for board in settled.boards}
    outcomes = outcomes_of(request, placements)
    costs = costs_of(request, placements, outcomes)
    wood = sum(
        area_of_board(board)
        for board in request.boards
        if any(plan.board == board.name for plan in settled.boards)
    )
    laid = sum(placement.place.area_mm2 for placement in placements)
    missing = float(sum(entry.copies for entry in unplaced))
    if missing:
        certain = _copies_impossible(request, bound)
        proof = Proof(
            value=missing,
            bound=certain,
            kind=BoundKind.COUNT,
            measure="copies left out",
            conflicts=bound.conflicts,
        )
    else:
        proof = Proof(
            value=costs.total,
            bound=min(bound.price, costs.total),
            kind=bound.kind,
            measure="price",
            conflicts=bound.conflicts,
        )
    return CuttingPlan(
        boards=settled.boards,
        unplaced=unplaced,
        matches=outcomes,
        costs=costs,
        yield_share=laid / wood if wood else 0.0,
        proof=proof,
        rounds=watch.round,
        in_strips=parts_in_strips(request, placements, watch.is_late),
        left_out=parts_left_out(request, placements, begun),
    )


def _copies_impossible(request: CuttingRequest, bound: Bound) -> float:
    blanks = blanks_of(request, frozenset())
    musts = [part for part in request.parts if part.is_must]
    alone = {blanks[i].members[0].part.name for i in bound.impossible}
    count = sum(part.quantity for part in musts if part.name in alone)
    if not bound.all_may_fit and not count:
        count = 1
    return float(count)
