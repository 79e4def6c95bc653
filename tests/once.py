"""What many tests ask for and is long in the making is made by one process of a run."""

from __future__ import annotations

import fcntl
import os
import pickle
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

FOLDER_OF_RUN = "TESTS_OF_ONE_RUN"
"""The environment's name for the folder that all processes of a run share."""


T = TypeVar("T")


def once_a_run(name: str, make: Callable[[], T]) -> T:
    """What `make` gives; another process of the run that asks meanwhile waits for it.

    Args:
        name: of a file, unlike for what is unlike.
        make: gives a value that is the same in every process.
    """
    if FOLDER_OF_RUN not in os.environ:
        return make()
    kept = Path(os.environ[FOLDER_OF_RUN]) / name
    with kept.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not kept.exists():
            made = make()
            kept.write_bytes(pickle.dumps(made))
            return made
    found: T = pickle.loads(kept.read_bytes())
    return found
