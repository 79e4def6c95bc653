"""What no plan is better than, and whether a plan is as good."""

from __future__ import annotations

import math
from dataclasses import replace

from furniture.shop.cutting.best import BestPlan
from furniture.shop.cutting.blanks import blanks_of, in_strips
from furniture.shop.cutting.cover import MOST_COLUMNS, cheapest_cover, fits_alone
from furniture.shop.cutting.plan import Bound
from furniture.shop.cutting.refuting import refuted_bound
from furniture.shop.cutting.values import CuttingRequest
from furniture.shop.cutting.watch import Watch

SMALL_GAP = 0.03
"""Within this share of its bound a plan is good enough once a round makes it no cheaper. Own rule:
the whole gap is less than a board's price differs from yard to yard."""

MOST_S_FOR_A_BOUND = 0.3
"""So long at most is the first bound sought [s]. Own rule: a stop waits no longer."""

FITS_SHARE = 0.2
"""Of the time, at most to find out which part lies on which board by itself, faults looked at. Own
rule."""

COLUMNS_IN_A_S = 2_000
"""So many for each second that there is to plan: the first bound takes no more than a fifth of it.
Own rule: as measured."""

MOST_WAYS = 20_000
"""With more ways for a part to go to a board no choice is refuted. Own rule: to write them down
takes a second, and nothing comes of it."""

HARD = 1
"""Questions of the last bound that stay open and are asked again, and harder. Own rule: two
seconds, where there is time for them."""


def money_unit(request: CuttingRequest) -> float:
    """What every plan's price is a whole multiple of [money]; 0 where nothing is known to be."""
    if any(part.wants is not None for part in request.parts):
        return 0.0
    if any(zone.worth for board in request.boards for zone in board.zones):
        return 0.0
    amounts = [board.price for board in request.boards]
    amounts += [match.price or 0.0 for match in request.matches]
    amounts += [part.worth or 0.0 for part in request.parts]
    cents = [round(amount * 100) for amount in amounts]
    if any(abs(a * 100 - c) > 1e-6 for a, c in zip(amounts, cents, strict=True)):
        return 0.0
    return math.gcd(*cents) / 100


def whole_up(request: CuttingRequest, bound: float) -> float:
    """A bound raised to the next price that a plan can have [money]."""
    unit = money_unit(request)
    if unit <= 0 or not math.isfinite(bound):
        return bound
    return max(bound, math.ceil(bound / unit - 1e-5) * unit)


class Bounds:
    """What no plan is better than: the cheap bound first, board by board where that says less."""

    def __init__(self, request: CuttingRequest, watch: Watch) -> None:
        self._request = request
        self._watch = watch
        self._blanks = blanks_of(request, frozenset())
        self._on_board = fits_alone(
            request, self._blanks, lambda: watch.elapsed > FITS_SHARE * watch.seconds
        )
        seconds = min(MOST_S_FOR_A_BOUND, watch.left)
        most = min(MOST_COLUMNS, COLUMNS_IN_A_S * watch.left)
        self._bound = cheapest_cover(request, self._blanks, self._on_board, seconds, most)
        self._bound = replace(self._bound, price=whole_up(request, self._bound.price))
        self._refuted_up_to = -1.0
        self._is_open = False
        watch.bound = self._bound.price

    def reaches(self, best: BestPlan) -> bool:
        """Whether no plan is cheaper than this one, by what is known so far."""
        return best.is_complete and best.price <= self._bound.price + 1e-6

    def proves(self, best: BestPlan) -> bool:
        """Whether no plan is cheaper than this one, which places everything."""
        if not best.is_complete:
            return False
        return best.price <= self.up_to(best.price).price + 1e-6

    def up_to(self, enough: float) -> Bound:
        """The bound, sought board by board where it is lower than this price [money]."""
        if enough > max(self._bound.price, self._refuted_up_to) + 1e-6:
            self._refute(enough)
        return self._bound

    def is_near(self, best: BestPlan) -> bool:
        """Whether a plan that places everything costs hardly more than the bound."""
        if self._request.has_extras:
            return False  # the worth of all is no measure of how good a choice is
        return best.is_complete and best.price <= self._bound.price * (1.0 + SMALL_GAP) + 1e-6

    def learn(self, found: Bound) -> None:
        """Another bound, kept where it says more."""
        price = whole_up(self._request, found.price)
        if price > self._bound.price + 1e-6:
            self._bound = replace(
                self._bound, price=price, kind=found.kind, conflicts=found.conflicts
            )
            self._watch.bound = price

    def rule_out(self) -> None:
        """It is certain that not all musts have a place."""
        self._bound = replace(self._bound, all_may_fit=False)

    @property
    def is_ruled_out(self) -> bool:
        """Whether it is certain that not all musts have a place."""
        return not self._bound.all_may_fit

    def for_plan(self, best: BestPlan | None) -> Bound:
        """The best bound that there is time for, to stand beside the finished plan."""
        if best is not None and self._bound.all_may_fit and not self._watch.is_over():
            enough = best.price if best.is_complete else math.inf
            is_new = enough > self._refuted_up_to + 1e-6
            if enough > self._bound.price + 1e-6 and (is_new or self._is_open):
                self._refute(enough, HARD)
        return self._bound

    def _refute(self, enough: float, hard: int = 0) -> None:
        self._refuted_up_to = enough
        ways = len(self._blanks) * len(self._request.boards)
        if not self._bound.all_may_fit or ways > MOST_WAYS:
            return
        found = refuted_bound(
            self._request,
            self._blanks,
            self._on_board,
            enough,
            self._watch.is_over,
            hard,
            lambda: self._watch.left,
        )
        self._is_open = found.is_open
        if found.all_may_fit:
            self.learn(found)
        else:
            self._bound = replace(self._bound, all_may_fit=False, conflicts=found.conflicts)


def least_price(request: CuttingRequest, enough: float, seconds: float) -> Bound:
    """What no plan for the request is cheaper than, looked for without a plan.

    Args:
        enough: a bound as high as this needs none that says more [money].
        seconds: to look at most [s].
    """
    request = in_strips(request)
    watch = Watch(seconds=seconds, on_progress=None, wanted=request.copies, has_plan=True)
    return Bounds(request, watch).up_to(enough)
