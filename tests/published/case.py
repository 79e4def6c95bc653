"""One published fact beside ours: data that both the tests and the table of agreement use."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from enum import Enum
from functools import cache


class How(Enum):
    """How the expected value was come by."""

    READ = "read"
    REPRINT = "read in a reprint"
    WORKED = "data read, result worked by hand"
    LIBRARY = "computed by the library"


class Says(Enum):
    """What it shows that a source's value and ours agree."""

    FACT = "ours is worked out, and the source had another way to it"
    COPIED = "ours is typed: that it was typed right"
    SPREAD = "ours is typed from another source: how far the two lie apart"


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """What a stranger needs to find it: author, title, year or edition; and where it was read."""

    title: str
    found: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One fact: what a source gives, what we give, and how near they must be, and why.

    A table is one fact: `cells` says how many of its values were compared, `expected` is 0 and
    `compute` gives the largest difference.
    """

    id: str
    quantity: str
    place: str
    how: How
    expected: float | Callable[[], float]
    unit: str
    tolerance: float
    reason: str
    compute: Callable[[], float]
    source: Source | None = None
    cells: int = 1
    says: Says = Says.FACT

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


def from_source(source: Source, *cases: Case) -> tuple[Case, ...]:
    """The cases, each with the one source that they come from."""
    return tuple(replace(case, source=source) for case in cases)


def table(
    *,
    id: str,
    quantity: str,
    place: str,
    how: How,
    unit: str,
    tolerance: float,
    reason: str,
    cells: Iterable[tuple[float, Callable[[], float]]],
    says: Says = Says.FACT,
) -> Case:
    """A table as one fact: each cell as printed beside what gives ours."""
    pairs = tuple(cells)

    def largest() -> float:
        return max((compute() - printed for printed, compute in pairs), key=abs)

    return Case(
        id=id, quantity=quantity, place=place, how=how, expected=0.0, unit=unit,
        tolerance=tolerance, reason=reason, compute=largest, cells=len(pairs), says=says,
    )  # fmt: skip


@cache
def _once(compute: Callable[[], float]) -> float:
    return compute()
