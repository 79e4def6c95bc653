"""The cutting plan for a request: beginnings, beam search, the tree of cuts, bound and proof."""

from __future__ import annotations

import random
import time
from collections.abc import Callable
from dataclasses import dataclass

from furniture.errors import DesignError
from furniture.shop.cutting.arrangements import Arrangement, arrangements_for
from furniture.shop.cutting.beam import Finished, finished_packings
from furniture.shop.cutting.cover import CoverBound, cheapest_cover, fits_alone
from furniture.shop.cutting.packing import Packer, State, laid_in_order
from furniture.shop.cutting.plan import BoundKind, CuttingPlan, Placement, Proof, Rectangle
from furniture.shop.cutting.request_problems import problems_of
from furniture.shop.cutting.settling import (
    Settled,
    copies_of,
    cost_of,
    outcomes_of,
    settled_boards,
    smallest_within,
    unplaced_parts,
)
from furniture.shop.cutting.values import CuttingRequest
from furniture.shop.cutting.zones import area_of_board

LEAST_ROUNDS = 3
"""Rounds run even when the price is proven least, to leave better offcuts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far the search is: round, seconds, copies unplaced and price of the best so far."""

    round: int
    seconds: float
    unplaced: int
    price: float
    bound: float


@dataclass(frozen=True, slots=True)
class _Best:
    rank: tuple[float, ...]
    missing: int
    price: float
    settled: Settled

    @property
    def is_complete(self) -> bool:
        return self.missing == 0


def plan_cutting(
    request: CuttingRequest,
    on_progress: Callable[[Progress], bool] | None = None,
) -> CuttingPlan:
    """The best plan found within the limits, with its proof.

    on_progress is told after every round and stops the search by returning False; the plan is
    then the best so far.

    Raises: DesignError with every problem of the request.
    """
    problems = problems_of(request)
    if problems:
        raise DesignError(problems)
    started = time.monotonic()
    arrangements = arrangements_for(request)
    packers = [
        Packer(request, arrangement.blanks, arrangement.beds, arrangement.first_cut)
        for arrangement in arrangements
    ]
    bound = _bound(request)
    area_price = _area_price(request)
    best: _Best | None = None
    rounds = 0
    for number in range(request.limits.rounds):
        best = _round(request, arrangements, packers, number, best, area_price, started)
        rounds = number + 1
        elapsed = time.monotonic() - started
        if on_progress is not None:
            price = best.price if best else 0.0
            count = best.missing if best else sum(p.quantity for p in request.parts)
            report = Progress(
                round=rounds, seconds=elapsed, unplaced=count, price=price, bound=bound.price
            )
            if not on_progress(report):
                break
        if elapsed > request.limits.seconds:
            break
        if best is not None and rounds >= LEAST_ROUNDS and _is_proven(best, bound):
            break
    return _plan(request, best, bound, rounds)


def _is_proven(best: _Best, bound: CoverBound) -> bool:
    return best.is_complete and best.price <= bound.price + 1e-6


def _round(
    request: CuttingRequest,
    arrangements: tuple[Arrangement, ...],
    packers: list[Packer],
    number: int,
    best: _Best | None,
    area_price: float,
    started: float,
) -> _Best | None:
    deadline = started + request.limits.seconds

    def is_over() -> bool:
        return best is not None and time.monotonic() > deadline

    for index, (arrangement, packer) in enumerate(zip(arrangements, packers, strict=True)):
        start = packer.start(arrangement.pinned)
        if start is None:
            continue
        limit = best.price if best is not None and best.is_complete else float("inf")
        source = random.Random(f"{request.limits.seed}/{number}/{index}")
        finished = finished_packings(
            packer, start, 2**number, limit + 1e-6, area_price, source, is_over
        )
        for entry in finished:
            best = _better(request, arrangement, packer, entry, best)
        if is_over():
            break
    return best


def _better(
    request: CuttingRequest,
    arrangement: Arrangement,
    packer: Packer,
    entry: Finished,
    best: _Best | None,
) -> _Best | None:
    missed = _prices_missed(request, arrangement, entry.state)
    left, area, price, waste = entry.rank
    if best is not None and (left, area, price + missed, waste) >= best.rank:
        return best
    placements = _placements(request, packer, entry.state)
    settled = settled_boards(request, placements)
    while settled is not None and settled.unsafe is not None:
        dropped = smallest_within(placements, settled.unsafe)
        placements = tuple(p for p in placements if p is not dropped)
        left, area = left + 1, area + dropped.place.area
        settled = settled_boards(request, placements)
    rank = (left, area, price + missed, waste)
    if settled is None or (best is not None and rank >= best.rank):
        return best
    return _Best(rank, int(left), entry.state.price + missed, settled)


def _prices_missed(request: CuttingRequest, arrangement: Arrangement, state: State) -> float:
    """The price of sequences that this arrangement does not keep whole."""
    return sum(
        match.price or 0.0
        for index, match in enumerate(request.matches)
        if match.rule.name == "IN_SEQUENCE" and index not in arrangement.joined
    )


def _placements(request: CuttingRequest, packer: Packer, state: State) -> tuple[Placement, ...]:
    laid = laid_in_order(state)
    places: list[tuple[int, int, str, int, bool, bool, Rectangle]] = []
    for entry in laid:
        blank = packer.blanks[entry.blank]
        for member, place in zip(blank.members, entry.places, strict=True):
            places.append(
                (
                    entry.blank,
                    entry.board,
                    member.part.name,
                    member.strip,
                    entry.turned,
                    entry.flipped,
                    place,
                )
            )
    return copies_of(request, places)


def _bound(request: CuttingRequest) -> CoverBound:
    from furniture.shop.cutting.blanks import blanks_of

    blanks = blanks_of(request, frozenset())
    return cheapest_cover(
        request, blanks, fits_alone(request, blanks), min(1.0, request.limits.seconds / 4)
    )


def _area_price(request: CuttingRequest) -> float:
    """Wood that one unit of money is worth [mm^2], to weigh prices against waste in the search."""
    money = sum(board.price for board in request.boards)
    wood = sum(area_of_board(board) for board in request.boards)
    if money > 0:
        return wood / money
    prices = [match.price or 0.0 for match in request.matches]
    prices += [part.want_price for part in request.parts]
    prices += [zone.worth for board in request.boards for zone in board.zones]
    dearest = max(prices, default=0.0)
    needed = sum(p.quantity * p.rough_length * p.rough_width for p in request.parts)
    return needed / dearest if dearest > 0 else 0.0


def _plan(
    request: CuttingRequest, best: _Best | None, bound: CoverBound, rounds: int
) -> CuttingPlan:
    settled = best.settled if best is not None else Settled((), None)
    placements = [p for board in settled.boards for p in board.placements]
    unplaced, purchases = unplaced_parts(request, placements, bound)
    outcomes = outcomes_of(request, placements)
    price = cost_of(request, placements, outcomes)
    wood = sum(
        area_of_board(board)
        for board in request.boards
        if any(plan.board == board.name for plan in settled.boards)
    )
    laid = sum(placement.place.area for placement in placements)
    missing = float(sum(entry.copies for entry in unplaced))
    if missing:
        certain = _copies_impossible(request, bound)
        proof = Proof(value=missing, bound=certain, kind=BoundKind.COUNT, measure="copies left out")
    else:
        proof = Proof(value=price, bound=min(bound.price, price), kind=bound.kind, measure="price")
    return CuttingPlan(
        boards=settled.boards,
        unplaced=unplaced,
        matches=outcomes,
        purchases=purchases,
        cost=price,
        yield_share=laid / wood if wood else 0.0,
        proof=proof,
        rounds=rounds,
    )


def _copies_impossible(request: CuttingRequest, bound: CoverBound) -> float:
    from furniture.shop.cutting.blanks import blanks_of

    blanks = blanks_of(request, frozenset())
    alone = {blanks[i].members[0].part.name for i in bound.impossible}
    count = sum(part.quantity for part in request.parts if part.name in alone)
    if not bound.all_may_fit and not count:
        count = 1
    return float(count)
