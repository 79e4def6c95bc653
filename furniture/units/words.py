"""Which word of a list a maker meant: the nearest in letters, or the one that says the same."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches

_SAME = {
    "weight": "mass", "thick": "thickness", "long": "length", "wide": "width", "breadth": "width",
    "deep": "depth", "high": "height", "tall": "height", "wood": "species", "timber": "stock",
    "distance": "spacing", "number": "count", "quantity": "count", "part": "on", "tier": "on",
}  # fmt: skip
"""Words that a maker may say for a parameter. Own list."""
_LONGEST = 80
"""Letters of what was written that are compared."""


_PLURALS = {"shelf": "shelves", "half": "halves", "leaf": "leaves", "foot": "feet", "box": "boxes"}
"""Plurals of the trade that are not made with an s."""


def plural(name: str) -> str:
    """Several of what is so called, such as `shelves` for `shelf` and `lower feet`.

    Args:
        name: one word or several, the thing itself last.
    """
    before, between, last = name.rpartition(" ")
    odd = _PLURALS.get(last)
    if odd is not None:
        return f"{before}{between}{odd}"
    return f"{name}es" if last.endswith(("ch", "sh", "s", "x")) else f"{name}s"


def nearest_word(given: object, words: Sequence[str]) -> str | None:
    """The one of these words that was most likely meant; nothing where none is like it.

    Args:
        given: what was written.
        words: those that are allowed.
    """
    if not isinstance(given, str):
        return None
    written = given.strip().lower()[:_LONGEST]
    by_lower = {word.lower(): word for word in reversed(words)}
    same = _SAME.get(written)
    if same in by_lower:
        return by_lower[same]
    close = get_close_matches(written, list(by_lower), n=1)
    return by_lower[close[0]] if close else None


def word_remedy(given: object, words: Sequence[str]) -> str:
    """The change to propose for a word that is not allowed."""
    near = nearest_word(given, words)
    if near is not None:
        return f"write {near!r}"
    return f"write one of these, such as {words[0]!r}" if words else "leave it out"


def listed(names: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
