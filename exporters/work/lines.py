"""Like work told in one line: operations are put together where nothing has to come between."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from furniture.making.operations import Operation
from furniture.pieces.in_rows import WoodName, woods_in_words
from furniture.units import listed

OWN = "{own}"
"""Where the wood's own figure stands in what is done, if all wood of a line has the same."""

PlacementWords = tuple[str, ...]
"""How the wood lies: which face is down first, then what it bears on, in the order it is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is done and how the wood lies; `at` is one of several places, listed where they differ,
    from the nearest on: `at_mm` is how far off it lies.

    `what` has `{on}` where it says which of its faces, and `on` names the face: others that have
    the same done to them are named with it; `every` is what stands for so many of them, where that
    is all that there are. `several` says it where one piece of wood has it `{n}`
    times in one set-up. `own` is a figure of the wood, as others of the same line have theirs: it
    stands where `what` has `OWN`, or after each piece of wood where they differ. And
    `long` the face that the long point of a leaning cut is on. `most` is what comes off at most,
    and `why` says why it is done so.
    """

    what: str
    placement: PlacementWords = ()
    at: str = ""
    at_mm: float = 0.0
    at_end: str = ""
    on: str = ""
    every: tuple[int, str] | None = None
    several: str = ""
    own: str = ""
    long: str = ""
    most: str = ""
    why: str = ""


@dataclass(frozen=True, slots=True)
class _Group:
    """Operations that are told in one line: the pieces of wood, each with the same places.

    `own` has the figure of each piece of wood.
    """

    told: Told
    operations: tuple[Operation, ...]
    woods: tuple[WoodName, ...]
    at: tuple[tuple[float, str], ...]
    own: tuple[str, ...]
    on: tuple[str, ...]
    in_turn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of the work: which wood, what is done to it, how it lies.

    `long` is the face of the long point of a leaning cut, `most` what comes off at most.
    """

    wood: str
    what: str
    placement: PlacementWords = ()
    long: str = ""
    most: str = ""
    why: str = ""

    @property
    def placement_in_words(self) -> str:
        """How the wood lies, in words; empty where nothing has to be said."""
        return ", ".join(self.placement)

    @property
    def text(self) -> str:
        """The line in full, its wood before a colon."""
        return f"{self.wood}: {self._done}"

    @property
    def without_wood(self) -> str:
        """The line as a sentence after another one on the same wood."""
        return f"{self._done[:1].upper()}{self._done[1:]}"

    @property
    def _done(self) -> str:
        long = f", long point on {self.long}" if self.long else ""
        placement = " ".join(filter(None, (self.placement_in_words, self.why and f"({self.why})")))
        if self.why and not self.placement:
            placement = self.why
        done = ", ".join(filter(None, (f"{self.what}{long}", self.most)))
        return f"{done}; {placement}" if placement else done


Called = Callable[[Sequence[WoodName]], str]
"""What several pieces of wood are called together."""


def lines_from(
    told: Iterable[tuple[Operation, WoodName, Told]], called: Called
) -> tuple[Line, ...]:
    """The lines of a step.

    Args:
        told: its operations in order, what the wood of each is called, and what is done.
        called: what wood is called together.
    """
    groups: list[_Group] = []
    for operation, wood, each in told:
        at = ((each.at_mm, each.at),) if each.at else ()
        on = (each.on,) if each.on else ()
        bare = replace(each, at="", at_mm=0.0, own="", on="")
        group = _Group(bare, (operation,), (wood,), at, (each.own,), on)
        _put(groups, group, _on_one_wood)
    for merged in (_on_other_faces, _alike, _in_turn):
        before, groups = groups, []
        for group in before:
            _put(groups, group, merged)
    return tuple(_line(group, called) for group in groups)


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
    if (group.told, group.woods, group.own, group.on) != (own.told, own.woods, own.own, own.on):
        return None
    at = tuple(sorted(dict.fromkeys((*group.at, *own.at)), key=lambda each: each[0]))
    return replace(group, operations=(*group.operations, *own.operations), at=at)


def _on_other_faces(group: _Group, own: _Group) -> _Group | None:
    """The same done to another face of the same piece of wood, at the same places."""
    is_same = (group.told, group.woods, group.own, group.at) == (
        own.told, own.woods, own.own, own.at,
    )  # fmt: skip
    if not is_same or not group.on or set(group.on) & set(own.on):
        return None
    return replace(group, operations=(*group.operations, *own.operations), on=(*group.on, *own.on))


def _alike(group: _Group, own: _Group) -> _Group | None:
    """The same done as often, at the same places, to other wood: its faces in whatever order."""
    is_same = (group.told, group.at, sorted(group.on)) == (own.told, own.at, sorted(own.on))
    times = [len(each.operations) / len(each.woods) for each in (group, own)]
    if not is_same or times[0] != times[1]:
        return None
    return _both(group, own, group.at)


def _in_turn(group: _Group, own: _Group) -> _Group | None:
    """The same done once to each, at a place of its own."""
    is_once = len(group.at) == len(group.woods) and len(own.at) == len(own.woods) == 1
    if (group.told, group.on) != (own.told, own.on) or not is_once:
        return None
    return replace(_both(group, own, (*group.at, *own.at)), in_turn=True)


def _both(group: _Group, own: _Group, at: tuple[tuple[float, str], ...]) -> _Group:
    return replace(
        group,
        operations=(*group.operations, *own.operations),
        woods=(*group.woods, *own.woods),
        at=at,
        own=(*group.own, *own.own),
    )


def _line(group: _Group, called: Called) -> Line:
    told = group.told
    is_all = told.every is not None and len(group.on) == told.every[0]
    on = told.every[1] if told.every is not None and is_all else listed(group.on)
    what = told.what.replace("{on}", on)
    if OWN in what:
        is_one = len(set(group.own)) == 1
        what = what.replace(OWN, group.own[0] if is_one else "so")
        group = replace(group, own=("",) * len(group.own)) if is_one else group
    each = len(group.operations) // len(group.woods)
    if group.at:
        words = (
            what,
            "at" if told.at_end else "",
            listed([text for _, text in group.at]),
            told.at_end,
            "in turn" if group.in_turn else "",
        )
        what = " ".join(word for word in words if word)
    elif told.several and each > 1:
        what = told.several.format(n=each)
    wood = _woods(group, woods_in_words if group.in_turn else called)
    return Line(
        wood=wood, what=what, placement=told.placement, long=told.long, most=told.most, why=told.why
    )


def _woods(group: _Group, called: Called) -> str:
    """The wood, each with its own figure where they have one; what all share is said once."""
    by_figure: dict[str, list[WoodName]] = {}
    for wood, own in zip(group.woods, group.own, strict=True):
        by_figure.setdefault(own, []).append(wood)
    first, *_ = by_figure
    said = [
        f"{called(woods)} ({_unlike(own, first)})" if own
        else called(woods)
        for own, woods in by_figure.items()
    ]  # fmt: skip
    return ", ".join(said)


def _unlike(own: str, first: str) -> str:
    """What is said of one figure after the first: without the words that stand round both."""
    words, before = own.split(), first.split()
    if words == before:
        return own
    while words and words[0] == before[0] and not _has_figure(words[0]):
        words, before = words[1:], before[1:]
    shared = 0
    while shared < min(len(words), len(before)) and words[-1 - shared] == before[-1 - shared]:
        shared += 1
    while shared and _has_figure(words[-shared]):  # a fraction, of another whole number
        shared -= 1
    return " ".join(words[: len(words) - shared])


def _has_figure(word: str) -> bool:
    return any(letter.isdigit() for letter in word)
