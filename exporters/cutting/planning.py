"""A job planned while the maker watches: progress on long runs, stopped at any time by Ctrl-C."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TextIO

from furniture.shop.boards.job import CuttingJob
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.cutting import Progress

QUIET_SECONDS = 2.0
"""Shorter runs say nothing, longer ones so often [s]. Own rule."""


@dataclass(slots=True)
class _Watch:
    """Tells of the search and remembers whether it is to stop."""

    stream: TextIO
    is_stopped: bool = False
    said_at: float = 0.0

    def on_progress(self, progress: Progress) -> bool:
        """Whether to go on."""
        if progress.seconds - self.said_at >= QUIET_SECONDS and not self.is_stopped:
            self.said_at = progress.seconds
            print(
                f"cutting plan: round {progress.round}, {progress.seconds:.0f} s, "
                f"{progress.unplaced} without a place, price {progress.price:g} "
                f"(bound {progress.bound:g}); Ctrl-C takes the best so far",
                file=self.stream,
            )
        return not self.is_stopped


def planned(job: CuttingJob, stream: TextIO | None = None) -> CuttingOutcome:
    """The plan for the job; Ctrl-C ends the search with the best plan so far.

    Args:
        job: what is asked.
        stream: that is told of long runs; none takes standard error.

    Raises:
        DesignError: the job cannot be planned.
    """
    watch = _Watch(stream or sys.stderr)
    with _stopped_by_interrupt(watch):
        return outcome_of(job, watch.on_progress)


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
