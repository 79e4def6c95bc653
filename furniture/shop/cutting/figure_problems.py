"""What is wrong with single names and figures of a cutting request."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from furniture.errors import Problem

Show = Callable[[float], str]


def in_millimetres(length: float) -> str:
    """A length [mm] with its unit."""
    return f"{length:g} mm"


Called = Callable[[str], str]
"""What messages call a thing, by what the planner calls it, such as `board 'A'`."""


def by_its_own(name: str) -> str:
    """The planner's own name of a thing, where nobody has another."""
    return name


def repeated(parameter: str, names: list[str]) -> Iterator[Problem]:
    """Names that stand more than once."""
    for name, count in Counter(names).items():
        if count > 1:
            yield Problem(
                parameter=f"{parameter} {name!r}",
                given=f"{count} of that name",
                allowed="each name once",
                why="the plan calls boards and parts by their names",
                remedy=f"rename {count - 1} of them",
            )


def positive(parameter: str, value: float, what: str, show: Show) -> Iterator[Problem]:
    """A length [mm] that is nothing or less."""
    if not value > 0:
        yield Problem(
            parameter=parameter,
            given=show(value),
            allowed=f"more than {show(0.0)}",
            why=f"{what} has to be there to be cut",
            remedy="give what was measured",
        )


def not_negative(parameter: str, value: float, why: str) -> Iterator[Problem]:
    """A figure below nothing, or none at all."""
    if not value >= 0:
        yield Problem(
            parameter=parameter,
            given=f"{value:g}",
            allowed="0 or more",
            why=why,
            remedy="give 0 for none",
        )
