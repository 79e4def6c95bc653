"""Names of pieces of wood in a line: numbered ones as a run, like ones together."""

from __future__ import annotations

from collections.abc import Sequence

from furniture.making.making import Making
from furniture.making.workpieces import Wood
from furniture.units import listed, plural


def strips_of(making: Making) -> dict[str, str]:
    """What the blanks of several parts are called where names must be short, such as `strip 1`.

    Args:
        making: with its workpieces.
    """
    blanks = (each.id for each in making.workpieces if each.what is Wood.COMMON_BLANK)
    return {name: f"strip {number}" for number, name in enumerate(blanks, start=1)}


def woods_in_words(names: Sequence[str]) -> str:
    """The names in their order, such as `lid and tiers 1 to 4`.

    Args:
        names: each once.
    """
    runs: list[tuple[str, list[int]]] = []
    for name in names:
        stem, _, last = name.rpartition(" ")
        number = int(last) if stem and last.isdigit() else None
        if number is None:
            runs.append((name, []))
        elif runs and runs[-1][0] == stem and runs[-1][1] and runs[-1][1][-1] == number - 1:
            runs[-1][1].append(number)
        else:
            runs.append((stem, [number]))
    return listed([_run_in_words(stem, numbers) for stem, numbers in runs])


def _run_in_words(stem: str, numbers: Sequence[int]) -> str:
    if not numbers:
        return stem
    if len(numbers) == 1:
        return f"{stem} {numbers[0]}"
    between = "and" if len(numbers) == 2 else "to"
    return f"{plural(stem)} {numbers[0]} {between} {numbers[-1]}"
