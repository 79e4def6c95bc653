"""The place of each sheet in its set, filled in once the whole set is known."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeGuard

from exporters.sheets.values import InSet, Item, Lettering, Sheet, Shows

_KEYS = {
    Shows.WHOLE: "A",
    Shows.INSIDE: "S",
    Shows.POSITIONS: "S",
    Shows.EXPLODED: "E",
    Shows.LISTS: "L",
    Shows.WORK: "W",
    Shows.GLUE_UPS: "G",
    Shows.FIGURES: "F",
}
"""What a sheet's drawing number ends in: that of the first of these that it shows."""
_PICTURED = frozenset({Shows.WHOLE, Shows.EXPLODED})


def named_as(shows: frozenset[Shows]) -> str:
    """A sheet as its title names it; lists beside a view of the whole are not named.

    Args:
        shows: what it shows.
    """
    named = shows - {Shows.LISTS} if shows & _PICTURED else shows
    return ", ".join(each.value for each in Shows if each in named)


def key_of(shows: frozenset[Shows]) -> str:
    """What the drawing number of a sheet ends in.

    Args:
        shows: what it shows.
    """
    return next(key for each, key in _KEYS.items() if each in shows)


def type_of(shows: frozenset[Shows]) -> str:
    """What kind of document a sheet is.

    Args:
        shows: what it shows.
    """
    if shows & _PICTURED:
        return "assembly"
    return "list" if shows == {Shows.LISTS} else named_as(shows)


def listed_in_runs(numbers: Sequence[int]) -> str:
    """Numbers in order, runs of them in short: `1, 3 to 5`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs)


def numbered(sheets: Sequence[Sheet]) -> tuple[Sheet, ...]:
    """The sheets with their place in the set filled in: how many there are is known last."""
    total = len(sheets)
    made = []
    seen: Counter[str] = Counter()
    named: Counter[str] = Counter()
    of_parts: dict[str, list[int]] = {}
    for number, sheet in enumerate(sheets, start=1):
        for part in sheet.parts:
            of_parts.setdefault(part, []).append(number)
    views = {each: number for number, sheet in enumerate(sheets, 1) for each in sheet.letters}
    for number, sheet in enumerate(sheets, start=1):
        own = {item.text for item in sheet.items if _is_number(item)}
        seen.update(own)
        after = {text: "" if seen[text] == 1 else f".{seen[text]}" for text in own}
        place = f"{number} of {total}"
        items = tuple(_in_set(item, place, after, of_parts, views) for item in sheet.items)
        bare = sheet.name.split("-", 1)[1]
        named[bare] += 1
        again = "" if named[bare] == 1 else f"-{named[bare]}"
        name = f"{number:02d}-{bare}{again}"
        made.append(replace(sheet, name=name, items=items))
    return tuple(made)


def _is_number(item: Item) -> TypeGuard[Lettering]:
    return isinstance(item, Lettering) and item.in_set is InSet.DRAWING_NUMBER


def _in_set(
    item: Item,
    place: str,
    after: Mapping[str, str],
    of_parts: Mapping[str, Sequence[int]],
    views: Mapping[str, int],
) -> Item:
    """The text with its place in the set, and with what tells a sheet from one that it goes on."""
    if not isinstance(item, Lettering):
        return item
    if item.in_set is InSet.SHEET:
        return replace(item, text=place)
    if item.in_set is InSet.PART_SHEETS:
        return replace(item, text=listed_in_runs(of_parts.get(item.of, ())))
    if item.in_set is InSet.VIEW_SHEET:
        return replace(item, text=f"{item.text} {views[item.of]}")
    if _is_number(item):
        return replace(item, text=item.text + after[item.text])
    return item
