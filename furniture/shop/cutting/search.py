"""The search for a plan: beams, boards of one kind, columns, and boards chosen anew, in rounds."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import replace

from furniture.shop.cutting.arrangements import arrangements_for
from furniture.shop.cutting.beam import Finished, finished_packings
from furniture.shop.cutting.best import BestPlan, better
from furniture.shop.cutting.board_sets import cheaper_sets
from furniture.shop.cutting.bounds import Bounds, money_unit, whole_up
from furniture.shop.cutting.columns import Columns
from furniture.shop.cutting.dives import Dives
from furniture.shop.cutting.equal_boards import EqualBoards
from furniture.shop.cutting.one_board import all_on_one, is_one_clear_board
from furniture.shop.cutting.packing import Packer
from furniture.shop.cutting.patterns import Patterns
from furniture.shop.cutting.plan import Bound, BoundKind, Placement
from furniture.shop.cutting.pricing import MOST_KINDS, MOST_STEPS
from furniture.shop.cutting.settling import (
    copies_laid,
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
from furniture.shop.cutting.values import Board, CutPart, CuttingRequest, names_by_kind
from furniture.shop.cutting.watch import Watch
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

COLUMN_SHARE = 0.5
"""Of the time left, at most to price columns until their prices stand. Own rule."""

CROWDED, ALIKE = 15, 4
"""Pieces on a board from which the strip beam alone is better than columns, unless there are so
many of a kind. Own rule from trials."""

DIVES = 2
"""Pairs of dives in the first round, twice as many in each that follows. Own rule."""

CHOICE_SHARE = 0.3
"""Of the time left, to choose among the boards cut up so far. Own rule."""


class Search:
    """Rounds of the beam on all boards, and on sets of boards that cost less than the best plan."""

    def __init__(self, request: CuttingRequest, watch: Watch) -> None:
        self._request = request
        self._watch = watch
        self._area_price = _area_price(request)
        self._patterns = Patterns(request)
        self._equal_boards: EqualBoards | None = None
        self._worth: WorthSearch | None = None
        self._columns: Columns | None = None
        self._dives: Dives | None = None
        self._has_asked_one_board = False
        kinds = names_by_kind(request.boards)
        is_paid = min((board.price for board in kinds), default=0.0) > 0
        self._can_price = is_paid and len(kinds) <= MOST_KINDS
        self._is_large = watch.wanted >= MANY
        self._is_plain = _is_plain(request)
        self.is_cut_short = False
        self._beginnings: dict[tuple[str, ...], Beginnings] = {}

    def round(self, number: int, best: BestPlan | None, bounds: Bounds) -> BestPlan | None:
        """The best plan after one more round, which keeps twice as many half-made plans."""
        if self._is_large and self._is_plain:
            return self._of_one_kind(number, best, bounds)
        best = self._on(self._request.boards, number, best)
        if self._is_large or number >= LEAST_ROUNDS:
            best = self._on_equal_boards(best)
        if best is not None and self._asks_for_columns(number, best, bounds):
            best = self.by_columns(number, best, bounds)
        if best is not None and not best.is_complete and number > 0:
            best = self._on_one_board(best, bounds)
        best = self._chosen_anew(self._on_cheaper_sets(number, best))
        if best is not None and self._asks_for_worth(number, best, bounds):
            best = self.by_worth(best, bounds)
        return best

    def _on_whole_boards(self, best: BestPlan | None) -> BestPlan | None:
        """The best plan with what it lacks laid on boards that it leaves whole.

        What no safe cut frees is dropped from a plan; a large order has room for it elsewhere.
        """
        request, watch = self._request, self._watch
        if best is None or request.matches or request.has_extras:
            return best
        while not best.is_complete and not watch.is_search_over():
            laid = [each for board in best.settled.boards for each in board.placements]
            begun = {board.board for board in best.settled.boards}
            whole = tuple(board for board in request.boards if board.name not in begun)
            if not whole:
                break
            rest = Beginnings(replace(request, boards=whole, parts=_lacking(request, laid)))
            packer, beginning = rest.packer(0), rest.arrangements[0]
            start = packer.start(beginning.pinned)
            if start is None:
                break
            source = random.Random(request.limits.seed)
            (entry, *_) = finished_packings(
                packer, start, 1, math.inf, self._area_price, source, watch.is_search_over
            )
            found = placements_of(packer.request, packer.blanks, laid_in_order(entry.state))
            more = sawable(packer.request, whole_copies(packer.request, found))
            further = self._with_more(best, (*laid, *more))
            if further is best:
                break
            best = further
        return best

    def _with_more(self, best: BestPlan, placements: Sequence[Placement]) -> BestPlan:
        """The placements as a plan, where they lack fewer copies than the best one."""
        request, watch = self._request, self._watch
        placements = whole_copies(request, placements)
        lacking = _lacking(request, placements)
        missing = sum(part.quantity for part in lacking)
        settled = settled_boards(request, placements) if missing < best.missing else None
        if settled is None or settled.unsafe is not None:
            return best
        price = costs_of(request, placements, outcomes_of(request, placements)).total
        area = sum(p.quantity * p.rough_length_mm * p.rough_width_mm for p in lacking)
        watch.unplaced, watch.price = missing, price
        return BestPlan((float(missing), area, price, math.inf), missing, price, settled)

    def _on_one_board(self, best: BestPlan, bounds: Bounds) -> BestPlan:
        """The plan of all pieces off the only board, if one is found; else maybe that none is."""
        watch, request = self._watch, self._request
        if (
            self._has_asked_one_board
            or not is_one_clear_board(request)
            or watch.left < LEAST_S_TO_LOAD
        ):
            return best
        self._has_asked_one_board = True
        (board,) = request.boards
        columns = Columns(replace(request, boards=(replace(board, price=1.0),)))
        if columns.steps > MOST_STEPS:
            return best
        watch.not_counted(columns.load)
        answer = all_on_one(columns, watch.is_search_over)
        if answer.is_impossible:
            bounds.rule_out()
        if answer.placements is None:
            return best
        return self._taken(answer.placements, best) or best

    def _of_one_kind(self, number: int, best: BestPlan | None, bounds: Bounds) -> BestPlan | None:
        """The same for many pieces on clear boards that are all alike: what is quick comes first.

        The beam on all boards is asked where there is no plan yet, or for better offcuts.
        """
        best = self._on_equal_boards(best)
        if best is not None and self._asks_for_columns(number, best, bounds):
            best = self.by_columns(number, best, bounds)
        if best is None or not best.is_complete or bounds.reaches(best):
            best = self._on(self._request.boards, number, best)
        return best if best is None or bounds.reaches(best) else self._chosen_anew(best)

    def _asks_for_columns(self, number: int, best: BestPlan, bounds: Bounds) -> bool:
        if self._request.has_extras or not (best.is_complete and self._can_price):
            return False
        if bounds.reaches(best):
            return False
        if self._is_large:
            return not self._is_crowded(best)
        return self._is_plain and self._watch.wanted >= SMALL_JOB and number > 0

    def _is_crowded(self, best: BestPlan) -> bool:
        """Whether so many unlike pieces lie on a board that the strip beam is better alone."""
        pieces, kinds = self._watch.wanted, len(self._request.parts)
        return pieces >= CROWDED * len(best.settled.boards) and pieces < ALIKE * kinds

    def _asks_for_worth(self, number: int, best: BestPlan, bounds: Bounds) -> bool:
        if not self._request.has_extras:
            return False
        if self._watch.wanted >= SMALL_JOB:
            return not bounds.reaches(best)
        return number > 0 and not bounds.proves(best)

    def _on_cheaper_sets(self, number: int, best: BestPlan | None) -> BestPlan | None:
        tried: set[tuple[str, ...]] = set()
        while best is not None and best.is_complete and len(tried) < SETS_TRIED:
            sets = cheaper_sets(self._request, best.price, SETS_TRIED)
            fresh = [boards for boards in sets if _names(boards) not in tried]
            if not fresh or self._watch.is_search_over():
                break
            tried.add(_names(fresh[0]))
            best = self._on(fresh[0], number, best)
        return best

    def _on_equal_boards(self, best: BestPlan | None) -> BestPlan | None:
        """The best plan with what the strip beam packs on clear boards of one size."""
        watch = self._watch
        if self._equal_boards is None:
            if watch.left < LEAST_S_TO_LOAD:
                return best
            self._equal_boards = EqualBoards(self._request)
            watch.not_counted(self._equal_boards.load)
        for placements in self._equal_boards.packings(watch.is_search_over, watch.search_ends):
            self._patterns.add(placements)
            best = self._taken(placements, best)
        return best

    def by_worth(self, best: BestPlan, bounds: Bounds) -> BestPlan:
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

    def by_columns(self, number: int, best: BestPlan, bounds: Bounds) -> BestPlan:
        """The best plan with whole boards taken from a linear program; bounds learn of it."""
        watch, request = self._watch, self._request
        if self._columns is None:
            if watch.left < LEAST_S_TO_LOAD:
                return best
            self._columns = Columns(request)
            self._can_price = self._columns.steps <= MOST_STEPS
            if self._can_price:
                watch.not_counted(self._columns.load)
                self._dives = Dives(self._columns)
        if not self._can_price:
            return best
        for board in self._patterns.boards:
            self._columns.learn(board)
        ends = watch.left * (1.0 - COLUMN_SHARE)
        useful = self._columns.priced(
            lambda bound: whole_up(request, bound) >= best.price - 1e-6,
            lambda: watch.is_search_over() or watch.left < ends,
        )
        bounds.learn(Bound(self._columns.value, BoundKind.PRICES))
        if self._dives is None or not self._columns.is_settled or bounds.reaches(best):
            return best
        plans = self._dives.plans(useful, best.price, DIVES * 2**number, watch.is_search_over)
        for placements in plans:
            self._patterns.add(placements)
            best = self._taken(placements, best) or best
            if bounds.reaches(best):
                break
        return best

    def _note(self, packer: Packer, entry: Finished) -> None:
        laid = laid_in_order(entry.state)
        self._patterns.add(placements_of(packer.request, packer.blanks, laid))

    def _chosen_anew(self, best: BestPlan | None) -> BestPlan | None:
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

    def _taken(self, placements: Sequence[Placement], best: BestPlan | None) -> BestPlan | None:
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
        return BestPlan((0.0, 0.0, price, math.inf), 0, price, settled)

    def _on(self, boards: tuple[Board, ...], number: int, best: BestPlan | None) -> BestPlan | None:
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
                best = self._on_whole_boards(best)
                if best is not None and best.is_complete and not packer.has_extras():
                    break  # waste alone may still place what prices kept out; nothing is out
        return best


def _names(boards: tuple[Board, ...]) -> tuple[str, ...]:
    return tuple(board.name for board in boards)


def is_settled(best: BestPlan, bounds: Bounds, watch: Watch) -> bool:
    """Whether no round can better the plan of many pieces, or that leaves out one for certain."""
    if not best.is_complete:
        return watch.round >= LEAST_ROUNDS and bounds.is_ruled_out and best.missing == 1
    return watch.wanted >= MANY and bounds.reaches(best)


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


def _lacking(request: CuttingRequest, placements: Sequence[Placement]) -> tuple[CutPart, ...]:
    """The parts of which copies lie nowhere, with their number."""
    lacks = [(part, part.quantity - copies_laid(part, placements)) for part in request.parts]
    return tuple(replace(part, quantity=copies) for part, copies in lacks if copies > 0)


def _is_plain(request: CuttingRequest) -> bool:
    """Whether all boards are one clear kind, and nothing else than their number counts."""
    kinds = names_by_kind(request.boards)
    is_alike = len(kinds) == 1 and all(each.is_straight and not each.zones for each in kinds)
    return is_alike and not request.matches and not request.has_extras


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
    needed = sum(p.quantity * p.rough_length_mm * p.rough_width_mm for p in request.parts)
    return needed / dearest if dearest > 0 else 0.0
