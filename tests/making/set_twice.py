"""Set-ups of one rig and one figure that are made twice, and whether precedence asks for it.

What a set-up is comes from the making as it is told; that a second one is needed is looked up in
what each pass waits for, whichever way the order was found.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from furniture.making.making import Making
from furniture.making.operations import Kind
from furniture.making.set_ups import Dial, Figures, SetUp


@dataclass(frozen=True, slots=True)
class Twice:
    """A machine set to figures it has been set to before, by the operations that begin both."""

    first: str
    again: str
    figures: Figures

    def __str__(self) -> str:
        return f"{self.again} is set as {self.first} was: {self.figures}"


def set_twice(making: Making) -> list[Twice]:
    """Every set-up that is made again though nothing between the two has to be there."""
    before = _all_before(making)
    measured = _measured(making)
    machine = defaultdict(list)
    for each in making.set_ups:
        machine[each.rig.machine].append(each)
    return [
        Twice(first.operations[0], again.operations[0], first.figures)
        for several in machine.values()
        for at, first in enumerate(several)
        for then, again in enumerate(several[at + 1 :], start=at + 1)
        if first.rig == again.rig
        and not measured.intersection(again.operations)
        and set(_figures(first)) & set(_figures(again))
        and not _is_forced(first, several[at + 1 : then], again, before)
    ]


def _measured(making: Making) -> set[str]:
    """What is cut to a size that was measured on other wood: no figure that was known before."""
    measures = {each.key: {*each.takes} for each in making.operations if each.kind is Kind.MEASURE}
    return {
        each.key
        for each in making.operations
        if each.sizes
        for after in each.after
        if after.key in measures and not measures[after.key].intersection(each.takes)
    }


def _figures(set_up: SetUp) -> Iterator[Figures]:
    """What is set to what, each stop that a spacer makes by itself; nothing for a mark."""
    step = dict(set_up.figures).get(Dial.SPACER, 0.0)
    for turn in range(set_up.times + 1):
        found = tuple(
            (dial, round(value + (turn * step if dial is Dial.STOP else 0.0), 6))
            for dial, value in set_up.figures
            if dial is not Dial.SPACER
        )
        if found:
            yield found


def _all_before(making: Making) -> Mapping[str, frozenset[str]]:
    """All that must come before each operation, at however many removes."""
    found: dict[str, frozenset[str]] = {}
    for each in making.operations:
        firsts = [after.key for after in each.after]
        found[each.key] = frozenset(firsts).union(*(found[key] for key in firsts))
    return found


def _is_forced(
    first: SetUp, between: list[SetUp], again: SetUp, before: Mapping[str, frozenset[str]]
) -> bool:
    """Whether a pass of another set-up must come after the first and before the second."""
    return any(
        before[then].intersection(first.operations) and then in before[last]
        for other in between
        for then in other.operations
        for last in again.operations
    )
