"""How many cases a random law is tried on, and where they come from.

Every run draws new ones: cases that never change are found once and then prove nothing more. All
of a run hangs on one seed (`--seed`), which a failure names, so that any failure can be repeated.
"""

from __future__ import annotations

from typing import Any, TypeVar

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import seed as seeded
from hypothesis.internal.conjecture import providers
from hypothesis.strategies import SearchStrategy

Value = TypeVar("Value")
SAMPLE, FULL = "sample", "full"
"""The two profiles: what every run tries, and what `--full` tries."""

_OURS: dict[str, Any] = {
    "deadline": None,
    "print_blob": True,
    # Where the environment says CI, hypothesis would draw the same cases on every run.
    "derandomize": False,
    "database": None,
}
# Hypothesis also draws numbers that stand in the modules imported so far: one seed would draw other
# cases where one file is run alone than in the whole run that named it.
providers._get_local_constants = providers.Constants
settings.register_profile(SAMPLE, max_examples=20, **_OURS)
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


def drawn_by(seed: int, strategy: SearchStrategy[Value], count: int) -> list[Value]:
    """What hypothesis draws for a seed: always the same, the simplest first.

    Args:
        seed: any.
        strategy: what to draw from.
        count: how many; fewer come where there are no more.
    """
    found: list[Value] = []

    @seeded(seed)
    @settings(max_examples=count, phases=[Phase.generate], suppress_health_check=list(HealthCheck))
    @given(strategy)
    def draw(value: Value) -> None:
        found.append(value)

    draw()
    return found
