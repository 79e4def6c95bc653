"""One published value beside ours: data that both the tests and the table of agreement use."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum
from functools import cache


class How(Enum):
    """How the expected value was come by."""

    READ = "read"
    MEMORY = "memory"
    DATA_READ = "data read, result worked by hand"
    LIBRARY = "computed by the library"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One quantity: what a source gives, what we give, and how near they must be, and why."""

    id: str
    quantity: str
    place: str
    how: How
    expected: float | Callable[[], float]
    unit: str
    tolerance: float
    reason: str
    compute: Callable[[], float]
    source: str = ""

    @property
    def theirs(self) -> float:
        """The source's value."""
        return _once(self.expected) if callable(self.expected) else self.expected

    @property
    def ours(self) -> float:
        """Our value."""
        return _once(self.compute)

    @property
    def difference(self) -> float:
        """Ours less theirs."""
        return self.ours - self.theirs

    @property
    def agrees(self) -> bool:
        """Whether the two are as near as the tolerance asks, to the last binary digit."""
        return abs(self.difference) <= self.tolerance + 1e-12 * max(1.0, abs(self.theirs))

    def __str__(self) -> str:
        return (
            f"{self.id}: {self.quantity}: {self.place} has {self.theirs:.6g} {self.unit}, ours is "
            f"{self.ours:.6g}, allowed {self.tolerance:.3g} ({self.reason})"
        )


def from_source(source: str, *cases: Case) -> tuple[Case, ...]:
    """The cases, each with the name of the one source that they come from."""
    return tuple(replace(case, source=source) for case in cases)


@cache
def _once(compute: Callable[[], float]) -> float:
    return compute()
