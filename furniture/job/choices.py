"""What gave so that a measured or a done figure stands, and what else could have."""

from __future__ import annotations

from dataclasses import dataclass

from furniture.job.equations import Equation
from furniture.job.levers import Lever


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A length that could give for an equation: its new figure, what it changes and what breaks.

    Args:
        lever: the parameter.
        to_mm: its new figure [mm].
        changed: parts that come out otherwise than designed.
        broken: done parts among them that would not be right any more.
    """

    lever: Lever
    to_mm: float
    changed: tuple[str, ...]
    broken: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PassedOver:
    """A choice that would have disturbed less, and why it does not go with all the rest."""

    choice: Choice
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Gave:
    """What gave for one equation, and what else could have.

    Args:
        equation: that is met.
        choice: that was taken; None where it took nothing, or the part alone has that thickness.
        others: that would have done for it, the least disturbing first.
        passed_over: that come to nothing with what else is measured and done.
    """

    equation: Equation
    choice: Choice | None
    others: tuple[Choice, ...] = ()
    passed_over: tuple[PassedOver, ...] = ()
