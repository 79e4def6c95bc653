"""The one error family: every problem of a design, said at once and in full."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

_LONG = 70
"""Letters of a list that is not told twice."""


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
        told = _told_once(_grouped(self.problems))
        count = len(told)
        heading = f"{count} problem{'' if count == 1 else 's'} to mend, then run again"
        super().__init__("\n".join([heading, *(f"  {problem}" for problem in told)]))


def _grouped(problems: Iterable[Problem]) -> list[Problem]:
    """The same problem of several parameters as one that names them all."""
    named: dict[tuple[str, str, str, str], list[str]] = {}
    for each in problems:
        named.setdefault((each.given, each.allowed, each.why, each.remedy), []).append(
            each.parameter
        )
    return [
        Problem(
            parameter=", ".join(dict.fromkeys(names)),
            given=given, allowed=allowed, why=why, remedy=remedy,
        )
        for (given, allowed, why, remedy), names in named.items()
    ]  # fmt: skip


def _told_once(problems: Iterable[Problem]) -> list[Problem]:
    """A long list of what is allowed stands once; later problems point back to it."""
    told: list[Problem] = []
    first_at: dict[str, str] = {}
    for each in problems:
        if len(each.allowed) > _LONG and each.allowed in first_at:
            first = first_at[each.allowed]
            same = "the same as above" if first == each.parameter else f"the same as for {first}"
            told.append(replace(each, allowed=same))
            continue
        first_at.setdefault(each.allowed, each.parameter)
        told.append(each)
    return told


class TargetError(KnifewallError, OSError):
    """A place on disk that cannot take the packet; nothing there was changed."""


class SolidError(KnifewallError, RuntimeError):
    """The solid kernel did not do what the model asked of it."""
