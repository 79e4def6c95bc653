"""Names of pieces of wood in a line: numbered ones as a run, like ones together."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from furniture.pieces.piece import Piece
from furniture.units import listed, plural

_MANY = 3
"""So many of a noun are counted where none is left out. Own rule."""


def counted_woods(piece: Piece, names: Sequence[str]) -> str:
    """The names in their order; all parts of the piece that share a noun are counted.

    Args:
        piece: that they are of.
        names: of its instances, or of other wood, each once.
    """
    of_noun: dict[str, set[str]] = defaultdict(set)
    for each in piece.placed:
        of_noun[_noun(each.instance)].add(each.instance)
    found: dict[str, None] = {}
    for name in names:
        several = of_noun.get(_noun(name), set())
        is_whole = len(several) >= _MANY and several <= set(names)
        numbered = name.rpartition(" ")[2].isdigit()
        text = f"the {len(several)} {plural(_noun(name))}"
        found[text if is_whole and not numbered else name] = None
    return woods_in_words(tuple(found))


def _noun(name: str) -> str:
    """What a name calls a thing, without what tells it from others."""
    before, _, last = name.rpartition(" ")
    return before.rpartition(" ")[2] if before and last.isdigit() else last


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
