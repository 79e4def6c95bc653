"""Who watches the search: tells how far it is, and ends it when time is up or the maker says so."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

TOLD_EVERY_S = 0.1
"""The watcher is asked so often whether to go on [s]. Own rule: a stop is felt at once."""

SEARCH_SHARE = 0.75
"""Of the time, for the search of an order that is not large. Own rule."""

FIRST_SHARE = 1.1
"""Of the time, until the search comes back without any plan. Own rule: jobs plan in less than they
have."""

PROOF_SHARE = 0.9
"""Of the time, for search and proof; in what is left it is found out why parts have no place. Own
rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far the search is: round, seconds, copies unplaced and price of the best so far."""

    round: int
    seconds: float
    unplaced: int
    price: float
    bound: float


@dataclass(slots=True)
class Watch:
    """Looks at the clock for the search.

    Args:
        seconds: to look at most [s].
        on_progress: told while the search runs and after every round; False ends the search.
        wanted: copies of parts.
        unplaced: copies without a place in the best plan so far.
        bound: no plan is cheaper [money].
        search_share: of the time, for the search; the rest is for its proof.
    """

    seconds: float
    on_progress: Callable[[Progress], bool] | None
    wanted: int
    unplaced: int = field(init=False)
    bound: float = 0.0
    round: int = 0
    price: float = 0.0
    has_plan: bool = False
    is_stopped: bool = False
    search_share: float = SEARCH_SHARE
    started: float = field(init=False)
    told: float = field(init=False)

    def __post_init__(self) -> None:
        """Nothing has a place yet."""
        self.unplaced = self.wanted
        self.started = self.told = time.monotonic()

    @property
    def search_ends(self) -> float:
        """When the search is over, by the monotonic clock [s]."""
        return self.started + self.seconds * self.search_share

    @property
    def elapsed(self) -> float:
        """Time since the search began [s]."""
        return time.monotonic() - self.started

    @property
    def left(self) -> float:
        """Time that is left, never under nothing [s]."""
        return 0.0 if self.is_stopped else max(0.0, self.seconds - self.elapsed)

    def is_late(self) -> bool:
        """Whether the time is up, be there a plan or none."""
        return self.elapsed > self.seconds

    def is_over(self) -> bool:
        """Whether to come back with the best so far."""
        return self._is_past(self.seconds * PROOF_SHARE)

    def is_search_over(self) -> bool:
        """The same for the search, which leaves some of the time to prove what it found."""
        return self._is_past(self.seconds * self.search_share)

    def _is_past(self, seconds: float) -> bool:
        if self.on_progress is not None and time.monotonic() - self.told >= TOLD_EVERY_S:
            self.tell()
        if not self.has_plan:
            return self.elapsed > self.seconds * FIRST_SHARE
        return self.is_stopped or self.elapsed > seconds

    def not_counted(self, load: Callable[[], None]) -> None:
        """Does what is done once on a machine, such as compiling; the clock stands meanwhile."""
        begun = time.monotonic()
        load()
        self.started += time.monotonic() - begun

    def tell(self) -> None:
        """Tells the watcher how far the search is, and hears whether to go on."""
        self.told = time.monotonic()
        if self.on_progress is None or self.is_stopped:
            return
        report = Progress(
            round=self.round,
            seconds=self.elapsed,
            unplaced=self.unplaced,
            price=self.price,
            bound=self.bound,
        )
        self.is_stopped = not self.on_progress(report)
