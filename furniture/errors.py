"""The one error family: every problem of a design, said at once and in full."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing wrong with a design: where, what was given, what is allowed, why, and a way out."""

    parameter: str
    given: str
    allowed: str
    why: str
    remedy: str

    def __str__(self) -> str:
        return (
            f"{self.parameter}: given {self.given}; allowed {self.allowed}.\n"
            f"    why: {self.why}\n"
            f"    smallest change that would do: {self.remedy}"
        )


class KnifewallError(Exception):
    """The base of every error that knifewall raises on purpose."""


class DesignError(KnifewallError, ValueError):
    """A design that cannot be built, with all its problems."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems: tuple[Problem, ...] = tuple(problems)
        count = len(self.problems)
        heading = f"the design has {count} problem{'' if count == 1 else 's'}"
        super().__init__("\n".join([heading, *(f"  {problem}" for problem in self.problems)]))


class TargetError(KnifewallError, OSError):
    """A place on disk that cannot take the packet; nothing there was changed."""


class SolidError(KnifewallError, RuntimeError):
    """The solid kernel did not do what the model asked of it."""
