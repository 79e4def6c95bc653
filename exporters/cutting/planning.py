"""A job planned while the maker watches: progress on long runs, stopped at any time by Ctrl-C."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TextIO

from exporters.cutting.words import money
from furniture.shop.boards.cutting_job import CuttingJob
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.cutting import Progress

QUIET_SECONDS = 2.0
"""Shorter runs say nothing, longer ones so often [s]. Own rule."""


@dataclass(slots=True)
class _Watch:
    """Tells of the search and remembers whether it is to stop."""

    stream: TextIO | None
    currency: str
    is_stopped: bool = False
    said_at: float = 0.0
    best: str = "the first that was found"

    def on_progress(self, progress: Progress) -> bool:
        """Whether to go on."""
        self.best = self._found(progress)
        if progress.seconds - self.said_at >= QUIET_SECONDS and not self.is_stopped:
            self.said_at = progress.seconds
            self.say(
                f"Looking for a better cutting plan, {progress.seconds:.0f} s: so far {self.best} "
                "(Ctrl-C stops and takes it)"
            )
        return not self.is_stopped

    def say(self, text: str) -> None:
        """Tell the maker, where there is anybody to tell."""
        if self.stream is not None:
            print(text, file=self.stream)

    def _found(self, progress: Progress) -> str:
        """What the best plan so far has, in words."""
        left = progress.unplaced
        if left:
            return f"{left} {'part has' if left == 1 else 'parts have'} no place"
        if progress.price <= progress.bound + 1e-6:
            return "every part has a place, and no choice of boards is cheaper"
        price = money(round(progress.price, 2), self.currency)
        least = money(round(progress.bound, 2), self.currency)
        return f"every part has a place for {price}; it may come down to {least}"


def planned(job: CuttingJob, stream: TextIO | None = None) -> CuttingOutcome:
    """The plan for the job; Ctrl-C ends the search with the best plan so far.

    Args:
        stream: that is told of long runs; nobody is told where there is none.

    Raises:
        DesignError: the job cannot be planned.
    """
    watch = _Watch(stream, job.currency)
    with _stopped_by_interrupt(watch):
        outcome = outcome_of(job, watch.on_progress)
    if watch.is_stopped:
        watch.say(f"Stopped by hand. The best plan so far is taken: {watch.best}")
    return outcome


@contextmanager
def _stopped_by_interrupt(watch: _Watch) -> Iterator[None]:
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def stop(*_: object) -> None:
        if watch.is_stopped:  # asked a second time: at once
            raise KeyboardInterrupt
        watch.is_stopped = True

    before = signal.signal(signal.SIGINT, stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
