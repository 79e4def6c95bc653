"""Whether files have changed: asked again and again, so that any editor's way of saving is seen."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from pathlib import Path

ASKED_EVERY_S = 0.08
"""How often the files are looked at [s]. Own rule: faster than an eye, slower than a disk."""

State = tuple[tuple[str, int, int], ...]


def state_of(paths: Iterable[Path]) -> State:
    """Time and size of each file as it stands; one that is away for a moment counts as empty.

    Args:
        paths: of the files.
    """
    found = []
    for path in sorted(paths):
        try:
            now = path.stat()
            found.append((str(path), now.st_mtime_ns, now.st_size))
        except OSError:
            found.append((str(path), 0, 0))
    return tuple(found)


def wait_for_change(
    paths: Iterable[Path], known: State, is_ended: Callable[[], bool] = lambda: False
) -> State:
    """The new state once a file is other than known and has stood still for one look.

    Args:
        paths: of the files.
        known: their state before.
        is_ended: ends the waiting.
    """
    paths, before = list(paths), known
    while not is_ended():
        now = state_of(paths)
        is_whole = all(size for _, _, size in now)  # a slow writer begins with an empty file
        if now != known and now == before and is_whole:
            return now
        before = now
        time.sleep(ASKED_EVERY_S / 2 if now != known else ASKED_EVERY_S)
    return known
