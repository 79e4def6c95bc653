"""The cutting plan for a request: beginnings, beam search, the tree of cuts, bound and proof."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import replace

from furniture.errors import DesignError
from furniture.shop.cutting.arrangements import arrangements_for
from furniture.shop.cutting.beam import Finished, finished_packings
from furniture.shop.cutting.best import Best, better
from furniture.shop.cutting.blanks import blanks_of, in_strips
from furniture.shop.cutting.board_sets import cheaper_sets
from furniture.shop.cutting.bounds import Bounds, money_unit
from furniture.shop.cutting.cover import CoverBound
from furniture.shop.cutting.equal_boards import EqualBoards
from furniture.shop.cutting.packing import Packer
from furniture.shop.cutting.patterns import Patterns
from furniture.shop.cutting.plan import BoundKind, CuttingPlan, Placement, Proof
from furniture.shop.cutting.request_problems import problems_of
from furniture.shop.cutting.settling import (
    Settled,
    costs_of,
    has_all_musts,
    outcomes_of,
    placements_of,
    sawable,
    settled_boards,
    whole_copies,
    within_quantities,
)
from furniture.shop.cutting.states import laid_in_order
from furniture.shop.cutting.tidying import tidied
from furniture.shop.cutting.values import Board, CuttingRequest
from furniture.shop.cutting.watch import Progress, Watch
from furniture.shop.cutting.why_unplaced import parts_left_out, unplaced_parts
from furniture.shop.cutting.worth_search import WorthSearch
from furniture.shop.cutting.zones import area_of_board

LEAST_ROUNDS = 3
"""Rounds run even when the price is proven least, to leave better offcuts."""

SETS_TRIED = 4
"""Cheaper sets of boards that each round tries by themselves. Own rule."""

MANY = 30
"""Of so many pieces clear equal boards are filled by the strip beam from the first round on; orders
of fewer are mostly proven before it is loaded. Own rule."""

LEAST_S_TO_LOAD = 3.0
"""With less time left the strip beam is not loaded, nor compiled as at its first use [s]. Own rule:
a machine of today compiles it in as long."""

SMALL_JOB = 12
"""Jobs of fewer pieces are filled by worth from the second round on, and only if not yet proven
otherwise: most are, and never load it. Own rule."""

WORTH_SHARE, BOUND_SHARE = 0.5, 0.25
"""Of the time left, what has to be left when boards were filled by worth; and for the bound of
prices. Own rule."""

CHOICE_SHARE = 0.3
"""Of the time left, to choose among the boards cut up so far. Own rule."""


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
        wanted=sum(part.quantity for part in request.parts),
    )
    search = Search(request, watch)
    best: Best | None = None
    bounds = Bounds(request, watch)
    for number in range(request.limits.rounds):
        watch.round = number + 1
        before, best = best, search.round(number, best)
        if best is not None and request.has_extras:
            is_small = watch.wanted < SMALL_JOB
            is_proven = bounds.proves if is_small else bounds.reaches
            is_too_early = is_small and number == 0
            if not is_too_early and not is_proven(best):
                best = search.by_worth(best, bounds)
        watch.tell()
        if watch.is_search_over():
            break
        if watch.round >= LEAST_ROUNDS and best is not None:
            is_stuck = before is not None and best.rank[:3] == before.rank[:3]
            if bounds.proves(best) or (is_stuck and bounds.is_near(best)):
                break
    is_cut_short = watch.is_search_over() or search.is_cut_short
    found = best.settled if best is not None else Settled((), None)
    settled = tidied(request, found, watch.is_over)
    plan = _plan(request, settled, bounds.for_plan(best), watch.round)
    return replace(plan, is_cut_short=is_cut_short and not plan.proof.is_proven)


class Search:
    """Rounds of the beam on all boards, and on sets of boards that cost less than the best plan."""

    def __init__(self, request: CuttingRequest, watch: Watch) -> None:
        self._request = request
        self._watch = watch
        self._area_price = _area_price(request)
        self._patterns = Patterns(request)
        self._equal_boards: EqualBoards | None = None
        self._worth: WorthSearch | None = None
        self.is_cut_short = False
        self._beginnings: dict[tuple[str, ...], Beginnings] = {}

    def round(self, number: int, best: Best | None) -> Best | None:
        """The best plan after one more round, which keeps twice as many half-made plans."""
        best = self._on(self._request.boards, number, best)
        if number >= (0 if self._watch.wanted >= MANY else LEAST_ROUNDS):
            best = self._on_equal_boards(best)
        tried: set[tuple[str, ...]] = set()
        while best is not None and best.is_complete and len(tried) < SETS_TRIED:
            sets = cheaper_sets(self._request, best.price, SETS_TRIED)
            fresh = [boards for boards in sets if _names(boards) not in tried]
            if not fresh or self._watch.is_search_over():
                break
            tried.add(_names(fresh[0]))
            best = self._on(fresh[0], number, best)
        return self._chosen_anew(best)

    def _on_equal_boards(self, best: Best | None) -> Best | None:
        """The best plan with what the strip beam packs on clear boards of one size."""
        if self._equal_boards is None:
            if self._watch.left < LEAST_S_TO_LOAD:
                return best
            self._equal_boards = EqualBoards(self._request)
        watch = self._watch
        for placements in self._equal_boards.packings(watch.is_search_over, watch.search_ends):
            self._patterns.add(placements)
            best = self._taken(placements, best)
        return best

    def by_worth(self, best: Best, bounds: Bounds) -> Best:
        """The best plan with boards filled by what their pieces are worth; bounds learn of it."""
        watch, request = self._watch, self._request
        if not best.is_complete:
            return best
        if self._worth is None:
            if watch.left < LEAST_S_TO_LOAD:
                return best
            self._worth = WorthSearch(request)
            watch.not_counted(self._worth.load)
        ends, bound_ends = watch.left * WORTH_SHARE, watch.left * (1.0 - BOUND_SHARE)
        packings = self._worth.packings(
            lambda: best.price,
            money_unit(request),
            lambda: watch.is_search_over() or watch.left < ends,
            lambda: watch.is_search_over() or watch.left < bound_ends,
        )
        for placements in packings:
            sound = sawable(request, within_quantities(request, placements))
            self._patterns.add(sound)
            best = self._taken(sound, best) or best
        self.is_cut_short = watch.left < ends
        bounds.learn(self._worth.bound)
        return self._chosen_anew(best) or best

    def _note(self, packer: Packer, entry: Finished) -> None:
        laid = laid_in_order(entry.state)
        self._patterns.add(placements_of(packer.request, packer.blanks, laid))

    def _chosen_anew(self, best: Best | None) -> Best | None:
        """The best of all boards cut up so far, each taken from whatever packing it lay in."""
        if best is None or not self._patterns.is_grown or self._watch.is_search_over():
            return best
        everything = sum(board.price for board in self._request.boards) + 1.0
        everything += sum(part.worth_of_all for part in self._request.parts)
        under = best.price if best.is_complete else everything
        found = self._patterns.choice(under, self._watch.left * CHOICE_SHARE)
        if found is None:
            return best
        return self._taken(found, best)

    def _taken(self, placements: Sequence[Placement], best: Best | None) -> Best | None:
        """The better of the best plan and the placements, if these are whole and can be sawn."""
        request = self._request
        placements = whole_copies(request, placements)
        if not has_all_musts(request, placements):
            return best
        outcomes = outcomes_of(request, placements)
        price = costs_of(request, placements, outcomes).total
        musts = {match.name for match in request.matches if match.price is None}
        is_broken = any(each.group in musts and not each.is_kept for each in outcomes)
        if is_broken or (best is not None and best.is_complete and price >= best.price - 1e-6):
            return best
        settled = settled_boards(request, placements)
        if settled is None or settled.unsafe is not None:
            return best
        self._watch.has_plan = True
        self._watch.unplaced, self._watch.price = 0, price
        return Best((0.0, 0.0, price, math.inf), 0, price, settled)

    def _on(self, boards: tuple[Board, ...], number: int, best: Best | None) -> Best | None:
        watch, names = self._watch, _names(boards)
        if names not in self._beginnings:
            self._beginnings[names] = Beginnings(replace(self._request, boards=boards))
        beginnings = self._beginnings[names]
        for index, arrangement in enumerate(beginnings.arrangements):
            packer = beginnings.packer(index)
            whole = packer.start(arrangement.pinned)
            if whole is None:
                continue
            starts = [(whole, self._area_price), (whole, 0.0)]
            if packer.has_extras():
                starts.insert(0, (packer.with_musts_alone(whole), self._area_price))
            for start, area_price in starts:
                limit = best.price if best is not None and best.is_complete else float("inf")
                finished = finished_packings(
                    packer,
                    start,
                    2**number,
                    limit + 1e-6,
                    area_price,
                    random.Random(f"{self._request.limits.seed}/{number}/{index}"),
                    watch.is_search_over,
                )
                for entry in finished:
                    self._note(packer, entry)
                    best = better(beginnings.request, arrangement, packer, entry, best)
                    if best is not None:
                        watch.has_plan = True
                        watch.unplaced, watch.price = best.missing, best.price
                    if watch.is_search_over():
                        return best
                if best is not None and best.is_complete and not packer.has_extras():
                    break  # waste alone may still place what prices kept out; nothing is out
        return best


def _names(boards: tuple[Board, ...]) -> tuple[str, ...]:
    return tuple(board.name for board in boards)


class Beginnings:
    """The ways to begin on some boards, with a packer for each, made when it is first used."""

    def __init__(self, request: CuttingRequest) -> None:
        self.request = request
        self.arrangements = arrangements_for(request)
        self._packers: dict[int, Packer] = {}

    def packer(self, index: int) -> Packer:
        """The packer for the arrangement of that index."""
        if index not in self._packers:
            arrangement = self.arrangements[index]
            self._packers[index] = Packer(
                self.request, arrangement.blanks, arrangement.beds, arrangement.first_cut
            )
        return self._packers[index]


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
    prices += [part.worth_of_all for part in request.parts]
    needed = sum(p.quantity * p.rough_length * p.rough_width for p in request.parts)
    return needed / dearest if dearest > 0 else 0.0


def _plan(request: CuttingRequest, settled: Settled, bound: CoverBound, rounds: int) -> CuttingPlan:
    placements = [p for board in settled.boards for p in board.placements]
    unplaced, purchases = unplaced_parts(request, placements)
    begun = {board.board for board in settled.boards}
    outcomes = outcomes_of(request, placements)
    costs = costs_of(request, placements, outcomes)
    wood = sum(
        area_of_board(board)
        for board in request.boards
        if any(plan.board == board.name for plan in settled.boards)
    )
    laid = sum(placement.place.area for placement in placements)
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
        purchases=purchases,
        costs=costs,
        yield_share=laid / wood if wood else 0.0,
        proof=proof,
        rounds=rounds,
        left_out=parts_left_out(request, placements, begun),
    )


def _copies_impossible(request: CuttingRequest, bound: CoverBound) -> float:
    blanks = blanks_of(request, frozenset())
    musts = [part for part in request.parts if part.is_must]
    alone = {blanks[i].members[0].part.name for i in bound.impossible}
    count = sum(part.quantity for part in musts if part.name in alone)
    if not bound.all_may_fit and not count:
        count = 1
    return float(count)
