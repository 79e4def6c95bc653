"""A bound board by board: every cheaper choice of boards and kept matches is refuted, or stands.

A small integer program picks the cheapest choice of boards, parts to boards, and matches to keep.
Each board of that choice is asked whether its parts can lie on it at all; a "cannot" is brought
down to the fewest parts that cannot, becomes a rule of the program, and it picks again. What it
picks costs no more than any plan, so it is a bound at every step; it is reached when a plan is as
cheap.

Source: J. N. Hooker, G. Ottosson, "Logic-based Benders decomposition", Mathematical Programming 96
(2003), 33-60: the method; from memory.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Mapping, Sequence

from furniture.shop.cutting.blanks import Blank
from furniture.shop.cutting.choices import Demand, Program
from furniture.shop.cutting.conflicts import (
    EFFORT,
    FitAnswer,
    boxes_barred,
    cannot_fit_together,
)
from furniture.shop.cutting.plan import Bound, BoundKind, Conflict, Rectangle
from furniture.shop.cutting.values import CuttingRequest

MOST_QUESTIONS, MOST_EFFORT = 150, 0.15
"""Boards are asked so often at most, with so much effort of the solver. Own rule: a second."""

HARD_EFFORT = 1.0
"""What a question may take that stayed open, in the solver's deterministic seconds. Own rule: two
seconds."""


def refuted_bound(
    request: CuttingRequest,
    blanks: tuple[Blank, ...],
    on_board: Sequence[set[int]],
    enough: float,
    is_over: Callable[[], bool],
    hard: int = 0,
    left: Callable[[], float] = lambda: math.inf,
) -> Bound:
    """The bound for these blanks, sought until it reaches `enough` [money] or time is over.

    Args:
        request: boards, matches and the saw.
        blanks: each part by itself; every one lies on some board alone.
        on_board: for each board the blanks that lie on it alone.
        enough: the price of the best plan known.
        is_over: whether to come back with what is proved so far.
        hard: so many questions that stay open are asked again, and harder.
        left: time for a question [s].
    """
    program = Program(request, blanks, on_board)
    questions = _Questions(request, is_over, left)
    conflicts: list[Conflict] = []
    price = 0.0
    while not questions.is_over():
        choice = program.choice(left())
        if choice is None:
            break
        if not choice.is_possible:
            return _bound(math.inf, conflicts, all_may_fit=False)
        price = max(price, choice.price)
        if price >= enough - 1e-6:
            break
        refuted = False
        for board, demands in choice.demands.items():
            if questions.cannot(board, demands):
                refuted = True
                least = questions.least(board, demands)
                program.forbid(board, least)
                conflicts.append(_conflict(request, board, least))
        if refuted:
            continue
        stuck = questions.still_open(choice.demands)
        if stuck is None or hard <= 0 or is_over():
            return _bound(price, conflicts, is_open=stuck is not None)
        hard -= 1
        if questions.cannot_however_hard(*stuck):
            least = questions.least(*stuck)
            program.forbid(stuck[0], least)
            conflicts.append(_conflict(request, stuck[0], least))
    return _bound(price, conflicts)


def _bound(
    price: float, found: Sequence[Conflict], *, all_may_fit: bool = True, is_open: bool = False
) -> Bound:
    conflicts = tuple(found)
    return Bound(price, BoundKind.BOARD_BY_BOARD, all_may_fit, conflicts=conflicts, is_open=is_open)


class _Questions:
    """Asks boards what cannot lie on them, until it has asked enough."""

    def __init__(
        self, request: CuttingRequest, is_over: Callable[[], bool], left: Callable[[], float]
    ) -> None:
        self._request = request
        self._is_over = is_over
        self._left = left
        self._questions = 0
        self._effort = 0.0
        self._open: set[tuple[int, tuple[Demand, ...]]] = set()
        self._barred: dict[tuple[int, str], tuple[Rectangle, ...]] = {}

    def is_over(self) -> bool:
        """Whether enough was asked, or time is over."""
        enough = self._questions >= MOST_QUESTIONS or self._effort >= MOST_EFFORT
        return enough or self._is_over()

    def cannot(self, board: int, demands: Sequence[Demand]) -> bool:
        """Whether it is certain that these cannot lie together on the board."""
        if self.is_over():
            return False
        answer = self._answer(board, demands, EFFORT)
        self._questions += 1
        self._effort += answer.effort
        if answer.is_open:
            self._open.add((board, tuple(demands)))
        return answer.cannot

    def still_open(
        self, demands: Mapping[int, tuple[Demand, ...]]
    ) -> tuple[int, tuple[Demand, ...]] | None:
        """A question of the choice to which there was neither a yes nor a no."""
        return next((each for each in demands.items() if each in self._open), None)

    def cannot_however_hard(self, board: int, demands: tuple[Demand, ...]) -> bool:
        """The same, asked once more with more effort, which is not counted."""
        self._open.discard((board, demands))
        return self._answer(board, demands, HARD_EFFORT).cannot

    def _answer(self, board: int, demands: Sequence[Demand], effort: float) -> FitAnswer:
        confined = [each.confined for each in demands]
        barred = [self._boxes(board, each.blank) for each in confined]
        whole, saw = self._request.boards[board], self._request.saw
        return cannot_fit_together(whole, confined, barred, saw, effort, self._left())

    def _boxes(self, board: int, blank: Blank) -> tuple[Rectangle, ...]:
        key = (board, blank.name)
        if key not in self._barred:
            self._barred[key] = boxes_barred(self._request.boards[board], blank, self._request.saw)
        return self._barred[key]

    def least(self, board: int, demands: tuple[Demand, ...]) -> tuple[Demand, ...]:
        """The fewest of those asked for that still cannot; the smallest are left out first."""
        least = list(demands)
        for each in sorted(demands, key=lambda one: one.confined.blank.area_mm2):
            fewer = [other for other in least if other is not each]
            if fewer and self.cannot(board, fewer):
                least = fewer
        return tuple(least)


def _conflict(request: CuttingRequest, board: int, least: Sequence[Demand]) -> Conflict:
    parts = Counter(member.part.name for each in least for member in each.confined.blank.members)
    homes = {each.home.match for each in least if each.home is not None}
    return Conflict(
        board=request.boards[board].name,
        parts=tuple(parts.items()),
        matches=tuple(request.matches[index].name for index in sorted(homes)),
    )
