"""How problems of a cutting request show lengths and call things, and names that are taken."""

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
