"""The plan for a job: with its common blanks where they find room and cost no more than they save.

Common blanks are planned first. Only where what is then left out, or what it costs, might be less
with every part by itself is that planned too, so most jobs are planned once; where it is less, once
more with some of the blanks. All of it ends within the time that the maker gives.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from furniture.shop.boards.combining import with_blanks, with_parted
from furniture.shop.boards.cutting_job import Commons, CuttingJob
from furniture.shop.cutting import Progress, plan_cutting
from furniture.shop.cutting.bounds import least_price
from furniture.shop.cutting.plan import Bound, CuttingPlan, MatchOutcome, Proof

FIRST_SHARE, BOUND_SHARE, APART_SHARE = 0.6, 0.25, 0.7
"""Of the time that is left, for the plan with common blanks, for a bound on the price of every part
by itself, and for the plan of that. Own rule."""

LEAST_SECONDS = 0.02
"""A plan is looked for no shorter [s]. Own rule."""

_SAME = 1e-6

Watcher = Callable[[Progress], bool]


@dataclass(frozen=True, slots=True)
class _Planned:
    """A job with its plan."""

    job: CuttingJob
    plan: CuttingPlan

    @property
    def is_allowed(self) -> bool:
        """Whether every common blank has a place: no part is left out because of one."""
        return self.job.commons is None or not any(
            self.job.copies[each.part][0].is_common for each in self.plan.unplaced
        )

    @property
    def is_complete(self) -> bool:
        """Whether everything that must have a place has one."""
        return not self.plan.unplaced

    @property
    def price(self) -> float:
        """What it costs, less what its maker would pay for the matches that blanks keep [money].

        A must has no price; a blank that holds it whole is worth what a usual match is.
        """
        commons = self.job.commons
        if commons is None:
            return self.plan.cost
        usual = commons.demands.usual_price
        kept = (usual if each.price is None else each.price for each in self.job.kept)
        return self.plan.cost - sum(kept)

    @property
    def missing(self) -> int:
        """Copies without a place."""
        return sum(each.copies for each in self.plan.unplaced)

    @property
    def rank(self) -> tuple[int, float]:
        """How good it is, the least first."""
        return self.missing, round(self.price, 6)


def best_plan(
    job: CuttingJob, on_progress: Watcher | None, seconds: float
) -> tuple[CuttingJob, CuttingPlan]:
    """The plan that leaves the fewest parts out, then the cheapest, and the job that it is of.

    Args:
        on_progress: told while plans are looked for; False takes the best so far.
        seconds: for all plans together [s].

    Raises:
        DesignError: the job cannot be planned.
    """
    search = _Search(job, on_progress, seconds)
    best = min((each for each in search.found if each.is_allowed), key=lambda each: each.rank)
    kept = (
        MatchOutcome(group=each.name, is_kept=True, odd_one=None, price_paid=0.0)
        for each in best.job.kept
    )
    plan = replace(best.plan, proof=search.proof_of(best))
    return best.job, replace(plan, matches=(*kept, *plan.matches))


class _Search:
    """The plans found, that with all common blanks first; others only where they may be better."""

    def __init__(self, job: CuttingJob, on_progress: Watcher | None, seconds: float) -> None:
        self._on_progress = on_progress
        self._is_stopped = False
        self._started = time.monotonic()
        self._ends = self._started + seconds
        self._bound: Bound | None = None
        self.found: list[_Planned] = []
        commons = job.commons
        self._plan(job, 1.0 if commons is None else FIRST_SHARE)
        if commons is None or self._is_settled(commons):
            return
        self._plan(commons.apart, APART_SHARE)
        first, apart = self.found
        is_worse = not first.is_allowed or (apart.is_complete and apart.rank < first.rank)
        fewer = _fewer(first, commons) if is_worse else None
        if fewer is not None and self._left > 0.0 and not self._is_stopped:
            self._plan(fewer, 1.0)

    @property
    def _left(self) -> float:
        return self._ends - time.monotonic()

    def _plan(self, job: CuttingJob, share: float) -> None:
        """The job planned in a share of the time that is left, of which there is always some."""
        watcher = None if self._on_progress is None else self._told
        limits = replace(job.request.limits, seconds=max(LEAST_SECONDS, share * self._left))
        self.found.append(_Planned(job, plan_cutting(replace(job.request, limits=limits), watcher)))

    def _is_settled(self, commons: Commons) -> bool:
        """Whether the plan with all blanks will do: every part by itself would cost no less."""
        (first,) = self.found
        if not first.is_complete or self._is_stopped:
            return first.is_complete
        request = commons.apart.request
        seconds = max(LEAST_SECONDS, BOUND_SHARE * self._left)
        bound = least_price(request, first.plan.cost, seconds)
        if bound.price < first.price - _SAME and bound.all_may_fit:
            return False  # the plan with every part by itself brings a bound of its own
        self._bound = bound
        return True

    def _told(self, progress: Progress) -> bool:
        """Tells of the best of all plans so far, on one clock."""
        if self._is_stopped or self._on_progress is None:
            return not self._is_stopped
        finished = [(each.missing, each.plan.cost) for each in self.found if each.is_allowed]
        unplaced, price = min([(progress.unplaced, progress.price), *finished])
        seconds = time.monotonic() - self._started
        told = replace(progress, seconds=seconds, unplaced=unplaced, price=price)
        self._is_stopped = not self._on_progress(told)
        return not self._is_stopped

    def proof_of(self, best: _Planned) -> Proof:
        """The proof of a plan, its bound no higher than what is known of the other ways."""
        proof = best.plan.proof
        others = [each.plan.proof for each in self.found]
        known = [
            Bound(other.bound, other.kind, conflicts=other.conflicts)
            for other in others
            if other.measure == proof.measure
        ]
        if proof.measure == "price" and self._bound is not None and self._bound.all_may_fit:
            known.append(self._bound)
        for each in known:
            if each.price < proof.bound:
                proof = replace(proof, bound=each.price, kind=each.kind, conflicts=each.conflicts)
        return proof


def _fewer(first: _Planned, commons: Commons) -> CuttingJob | None:
    """The job with other common blanks, None where there are none such.

    Those without a place are parted in two; where only the price may be at fault, those are left
    that keep a match.
    """
    if first.is_complete:
        blanks = tuple(
            each
            for each in commons.blanks
            if any(set(each.instances).issuperset(match.instances) for match in commons.matches)
        )
    else:
        missing = [copy for each in first.plan.unplaced for copy in first.job.copies[each.part]]
        blanks = with_parted(commons, {copy.instances for copy in missing})
    return with_blanks(commons, blanks) if blanks and blanks != commons.blanks else None
