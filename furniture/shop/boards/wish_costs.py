"""What a wish costs: the boards that a plan takes more with it than without it.

The job is planned again without the wish, or with it as a must where it is not met, in the time
that is left. Where a bound that knows no wishes is as high as the plan, none of them costs a thing.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from furniture.errors import DesignError
from furniture.shop.boards.choosing import LEAST_SECONDS
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.cutting import Progress, plan_cutting
from furniture.shop.cutting.bounds import least_price
from furniture.shop.cutting.plan import CuttingPlan
from furniture.shop.cutting.preferences import lacks_board, lacks_zone
from furniture.shop.cutting.values import CutPart, CuttingRequest, GrainRule, ZoneKind
from furniture.shop.cutting.zones import area_of_board

COLOURS = frozenset({ZoneKind.SAPWOOD, ZoneKind.STAIN})
"""Sound wood of another colour: to keep a face clear of it is a wish, of a knot it is not."""

KEPT_OFF = "no sapwood or stain on faces that are to be clear"
ALONG = "the grain along every part"

BOUND_SHARE, LEAST_SHARE = 0.5, 0.25
"""Of the time, for a bound that knows no wishes; and of the time that the plan took, what another
needs at least. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WishCost:
    """What a wish takes more than a plan without it; of one that is not met, what it would take.

    Args:
        wish: what it is called.
        is_met: whether the plan keeps it.
        boards: that are begun.
        wood_mm3: of those boards.
        price: of those boards [money].
        copies: parts that have no place for its sake.
        is_certain: whether no better plan exists either way.
    """

    wish: str
    is_met: bool
    boards: int
    wood_mm3: float
    price: float
    copies: int
    is_certain: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WishCosts:
    """What the wishes of a plan cost.

    Args:
        asked: how many wishes are met or might be.
        costs: of those that cost something.
        is_nothing_certain: whether it is certain that the others cost nothing.
        is_whole: whether all were looked at before time was up.
    """

    asked: int = 0
    costs: tuple[WishCost, ...] = ()
    is_nothing_certain: bool = True
    is_whole: bool = True


NO_WISH_COSTS = WishCosts()
"""Where there is no plan whose wishes might cost something."""


@dataclass(frozen=True, slots=True)
class _Taken:
    """What a plan takes of the boards."""

    missing: int
    price: float
    wood_mm3: float
    boards: int
    is_proven: bool

    def is_less_than(self, other: _Taken) -> bool:
        """Whether it leaves out fewer, or takes less of what is paid for, else of the wood."""
        ours = (self.missing, round(self.price, 6), round(self.wood_mm3))
        theirs = (other.missing, round(other.price, 6), round(other.wood_mm3))
        if self.price > 0.0 or other.price > 0.0:
            return ours[:2] < theirs[:2]
        return ours < theirs


@dataclass(frozen=True, slots=True)
class _Wish:
    """A wish, and the request that would tell what it costs.

    `is_in_bound` is one that a bound without wishes keeps all the same, so that the bound does not
    tell what it costs: the grain of every part runs along its board there too.
    """

    name: str
    is_met: bool
    instead: CuttingRequest
    is_in_bound: bool = False


def wish_costs(
    job: CuttingJob,
    plan: CuttingPlan,
    took: float,
    seconds: float,
    on_progress: Callable[[Progress], bool] | None = None,
) -> WishCosts:
    """What the wishes cost, as far as it can be found out.

    Args:
        took: to plan it [s].
        seconds: to look at most [s].
        on_progress: told while plans are looked for; False ends it.
    """
    ends = time.monotonic() + seconds
    taken, wishes = _taken(job.request, plan), tuple(_wishes(job, plan))
    found = WishCosts(asked=len(wishes))
    least = max(LEAST_SECONDS, LEAST_SHARE * took)
    if wishes and seconds > least and _is_least(job, taken, BOUND_SHARE * seconds):
        wishes = tuple(each for each in wishes if not each.is_met or each.is_in_bound)
    stopped = False

    def told(progress: Progress) -> bool:
        nonlocal stopped
        stopped = stopped or (on_progress is not None and not on_progress(progress))
        return not stopped

    for number, wish in enumerate(wishes):
        share = (ends - time.monotonic()) / (len(wishes) - number)
        if share <= least or stopped:
            return replace(found, is_whole=False, is_nothing_certain=False)
        limits = replace(wish.instead.limits, seconds=share, rounds=max(plan.rounds, 1))
        try:
            other = plan_cutting(replace(wish.instead, limits=limits), told)
        except DesignError:  # as a must it cannot be kept on any of the boards
            continue
        instead = _taken(wish.instead, other)
        certain = taken.is_proven and instead.is_proven
        is_nothing = found.is_nothing_certain and (certain or not wish.is_met)
        found = replace(found, is_nothing_certain=is_nothing)
        if not wish.is_met:
            found = replace(found, costs=(*found.costs, _cost(wish, instead, taken, certain)))
        elif wish.is_met and instead.is_less_than(taken):
            found = replace(found, costs=(*found.costs, _cost(wish, taken, instead, certain)))
    return found


def _is_least(job: CuttingJob, taken: _Taken, seconds: float) -> bool:
    """Whether it is certain that no plan of the same parts takes less without any wish."""
    apart = job.request if job.commons is None else job.commons.apart.request
    parts = tuple(replace(_tolerant(part), wants=None) for part in apart.parts)
    if taken.missing or taken.price <= 0.0:
        return False
    bound = least_price(replace(apart, parts=parts, matches=()), taken.price, seconds)
    return round(bound.price, 6) >= round(taken.price, 6)


def _cost(wish: _Wish, more: _Taken, less: _Taken, is_certain: bool) -> WishCost:
    return WishCost(
        wish=wish.name,
        is_met=wish.is_met,
        boards=more.boards - less.boards,
        wood_mm3=more.wood_mm3 - less.wood_mm3,
        price=more.price - less.price,
        copies=more.missing - less.missing,
        is_certain=is_certain,
    )


def _taken(request: CuttingRequest, plan: CuttingPlan) -> _Taken:
    begun = {each.board for each in plan.boards}
    boards = [board for board in request.boards if board.name in begun]
    return _Taken(
        missing=sum(each.copies for each in plan.unplaced),
        price=sum(board.price for board in boards),
        wood_mm3=sum(area_of_board(board) * board.thickness_mm for board in boards),
        boards=len(boards),
        is_proven=plan.proof.is_proven and any(board.price > 0.0 for board in request.boards),
    )


def _wishes(job: CuttingJob, plan: CuttingPlan) -> Iterator[_Wish]:
    """The wishes that a plan could cost or would take something for."""
    request = job.request
    apart = request if job.commons is None else job.commons.apart.request
    outcome = {each.group: each for each in plan.matches}
    asked = (*job.kept, *request.matches)
    if plan.unplaced:  # a wish with a price costs no part its place
        asked = tuple(match for match in asked if match.price is None)
    for match in asked:
        whole = apart if match in job.kept else request
        others = tuple(each for each in whole.matches if each.name != match.name)
        if outcome[match.name].is_kept:
            yield _Wish(match.name, True, replace(whole, matches=others))
        elif not lacks_zone(match, request.boards) and not lacks_board(match, request):
            must = replace(match, price=None)
            matches = tuple(must if each is match else each for each in request.matches)
            yield _Wish(match.name, False, replace(request, matches=matches))
    if plan.unplaced:
        return
    parts = request.parts
    if round(plan.costs.wishes, 6) <= 0.0:
        for kind in dict.fromkeys(part.wants for part in parts if part.wants is not None):
            bare = tuple(replace(p, wants=None) if p.wants is kind else p for p in parts)
            yield _Wish(f"{kind.value} on what wants it", True, replace(request, parts=bare))
    if any(zone.kind in COLOURS for board in request.boards for zone in board.zones):
        tolerant = tuple(_tolerant(part) for part in parts)
        if tolerant != parts:
            yield _Wish(KEPT_OFF, True, replace(request, parts=tolerant))
    turned = tuple(replace(part, grain=GrainRule.EITHER) for part in parts)
    matched = {name for match in request.matches for name in match.members}
    turned = tuple(
        old if old.name in matched else new for old, new in zip(parts, turned, strict=True)
    )
    if turned != parts:
        yield _Wish(ALONG, True, replace(request, parts=turned), is_in_bound=True)


def _tolerant(part: CutPart) -> CutPart:
    return replace(
        part,
        show_face_tolerates=part.show_face_tolerates | COLOURS,
        hidden_face_tolerates=part.hidden_face_tolerates | COLOURS,
    )
