"""Like work told in one line: operations are put together where nothing has to come between."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from exporters.work.names import woods_in_words
from furniture.making.operations import Operation
from furniture.units import listed


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is done and how the wood lies; `at` is one of several places, listed where they differ.

    `several` says it where one piece of wood has it `{n}` times in one set-up.
    """

    what: str
    lie: str = ""
    at: str = ""
    at_end: str = ""
    several: str = ""


@dataclass(frozen=True, slots=True)
class _Group:
    """Operations that are told in one line: the pieces of wood, each with the same places."""

    told: Told
    operations: tuple[Operation, ...]
    woods: tuple[str, ...]
    at: tuple[str, ...]
    in_turn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the work: which wood, what is done to it, how it lies."""

    wood: str
    what: str
    lie: str = ""

    @property
    def text(self) -> str:
        """The line in full, its wood before a colon."""
        lie = f"; {self.lie}" if self.lie else ""
        return f"{self.wood}: {self.what}{lie}"


def lines_from(told: Iterable[tuple[Operation, str, Told]]) -> tuple[Line, ...]:
    """The lines of a step.

    Args:
        told: its operations in order, what the wood of each is called, and what is done.
    """
    groups: list[_Group] = []
    for operation, wood, each in told:
        at = (each.at,) if each.at else ()
        _put(groups, _Group(replace(each, at=""), (operation,), (wood,), at), _on_one_wood)
    for merged in (_alike, _in_turn):
        before, groups = groups, []
        for group in before:
            _put(groups, group, merged)
    return tuple(_line(group) for group in groups)


def _put(
    groups: list[_Group], own: _Group, merged: Callable[[_Group, _Group], _Group | None]
) -> None:
    """Put a group with an earlier one that it goes with, unless it has to wait for a later one."""
    before = {after.key for each in own.operations for after in each.after}
    for index in reversed(range(len(groups))):
        found = merged(groups[index], own)
        if found is not None:
            groups[index] = found
            return
        if before & {each.key for each in groups[index].operations}:
            break
    groups.append(own)


def _on_one_wood(group: _Group, own: _Group) -> _Group | None:
    """The same done to the same piece of wood, at another place or once more."""
    if group.told != own.told or group.woods != own.woods:
        return None
    return _both(group, own, group.woods, (*group.at, *own.at))


def _alike(group: _Group, own: _Group) -> _Group | None:
    """The same done as often, at the same places, to other wood."""
    is_same = (group.told, group.at) == (own.told, own.at)
    times = [len(each.operations) / len(each.woods) for each in (group, own)]
    if not is_same or times[0] != times[1]:
        return None
    return _both(group, own, (*group.woods, *own.woods), group.at)


def _in_turn(group: _Group, own: _Group) -> _Group | None:
    """The same done once to each, at a place of its own."""
    is_once = len(group.at) == len(group.woods) and len(own.at) == len(own.woods) == 1
    if group.told != own.told or not is_once:
        return None
    found = _both(group, own, (*group.woods, *own.woods), (*group.at, *own.at))
    return replace(found, in_turn=True)


def _both(group: _Group, own: _Group, woods: tuple[str, ...], at: tuple[str, ...]) -> _Group:
    operations = (*group.operations, *own.operations)
    return replace(group, operations=operations, woods=woods, at=at)


def _line(group: _Group) -> Line:
    told, what = group.told, group.told.what
    each = len(group.operations) // len(group.woods)
    if group.at:
        words = (
            what,
            "at" if told.at_end else "",
            listed(group.at),
            told.at_end,
            "in turn" if group.in_turn else "",
        )
        what = " ".join(word for word in words if word)
    elif told.several and each > 1:
        what = told.several.format(n=each)
    return Line(wood=woods_in_words(group.woods), what=what, lie=told.lie)
