"""The place of each sheet in its set, filled in once the whole set is known."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeGuard

from exporters.sheets.values import InSet, Item, Lettering, Sheet


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
    for number, sheet in enumerate(sheets, start=1):
        own = {item.text for item in sheet.items if _is_number(item)}
        seen.update(own)
        after = {text: "" if seen[text] == 1 else f".{seen[text]}" for text in own}
        place = f"{number} of {total}"
        items = tuple(_in_set(item, place, after, of_parts) for item in sheet.items)
        bare = sheet.name.split("-", 1)[1]
        named[bare] += 1
        again = "" if named[bare] == 1 else f"-{named[bare]}"
        name = f"{number:02d}-{bare}{again}"
        made.append(replace(sheet, name=name, items=items))
    return tuple(made)


def _is_number(item: Item) -> TypeGuard[Lettering]:
    return isinstance(item, Lettering) and item.in_set is InSet.DRAWING_NUMBER


def _in_set(
    item: Item, place: str, after: Mapping[str, str], of_parts: Mapping[str, Sequence[int]]
) -> Item:
    """The text with its place in the set, and with what tells a sheet from one that it goes on."""
    if not isinstance(item, Lettering):
        return item
    if item.in_set is InSet.SHEET:
        return replace(item, text=place)
    if item.in_set is InSet.PART_SHEETS:
        return replace(item, text=listed_in_runs(of_parts.get(item.of, ())))
    if _is_number(item):
        return replace(item, text=item.text + after[item.text])
    return item
