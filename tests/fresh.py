"""How many cases a random law is tried on, and where they come from.

Every run draws new ones: cases that never change are found once and then prove nothing more. All
of a run hangs on one seed (`--seed`), which a failure names, so that any failure can be repeated.
"""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, settings

SAMPLE, FULL = "sample", "full"
"""The two profiles: what every run tries, and what `--full` tries."""

_OURS: dict[str, Any] = {
    "deadline": None,
    "print_blob": True,
    # Where the environment says CI, hypothesis would draw the same cases on every run.
    "derandomize": False,
    "database": None,
}
settings.register_profile(SAMPLE, max_examples=40, **_OURS)
settings.register_profile(FULL, max_examples=300, **_OURS)


def law(few: int, full: int, **more: Any) -> settings:
    """The settings of a costly law that hypothesis draws cases for.

    Args:
        few: how many cases every run tries.
        full: how many `--full` tries.
        more: any other of hypothesis's settings.

    Whether drawing is slow says how busy the machine is and nothing of the law, so it is no fault.
    """
    is_full = settings.get_current_profile_name() == FULL
    more.setdefault("suppress_health_check", list(HealthCheck))
    return settings(max_examples=full if is_full else few, **(_OURS | more))
