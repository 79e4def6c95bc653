"""Which word of a list a maker meant: the nearest in letters, or the one that says the same."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches

from furniture.units.texts import odd_letters

_SAME = {
    "weight": "mass", "thick": "thickness", "long": "length", "wide": "width", "breadth": "width",
    "deep": "depth", "high": "height", "tall": "height", "wood": "species", "timber": "stock",
    "distance": "spacing", "number": "count", "quantity": "count", "part": "on", "tier": "on",
    "loose": "easy", "tight": "press", "rear": "back", "behind": "back", "top": "up",
    "bottom": "down", "below": "down", "above": "up", "all faces": "both faces",
    "both": "both faces", "upper": "upper face", "lower": "lower face",
}  # fmt: skip
"""Words that a maker may say for a parameter. Own list."""
_ALIKE = 0.6
"""What share of the letters of a word agrees with those of the one that was meant. Own rule."""
_LONGEST = 80
"""Letters of what was written that are compared."""


_CALLED = 40
"""Letters of a name that a message has room for."""

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


def counted(name: str, index: int, called: object = None) -> str:
    """What messages call one of several, counted from one: `load 2 (fern)`.

    Args:
        name: of one of them.
        index: its place in what was given, from 0.
        called: its own name, where it has one that says more.
    """
    numbered = f"{name} {index + 1}"
    says_more = isinstance(called, str) and called.strip() not in ("", name)
    if not says_more or len(str(called)) > _CALLED or odd_letters(str(called)):
        return numbered
    return f"{numbered} ({called})"


_NUMBERS = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_LONGEST_COUNT = 9


def number_meant(given: object) -> int | None:
    """The whole number that was meant, one in quotes or as a word too; nothing where none is.

    Args:
        given: what was written.
    """
    if isinstance(given, str):
        word = given.strip().lower()
        if word.isdecimal() and len(word) < _LONGEST_COUNT:
            return int(word)
        return _NUMBERS.index(word) if word in _NUMBERS[1:] else None
    return given if isinstance(given, int) and not isinstance(given, bool) else None


def nearest_word(given: object, words: Sequence[str], alike: float = _ALIKE) -> str | None:
    """The one of these words that was most likely meant; nothing where none is like it.

    Args:
        given: what was written.
        words: those that are allowed.
        alike: what share of the letters agrees at least.
    """
    if not isinstance(given, str):
        return None
    written = given.strip().lower()[:_LONGEST]
    by_lower = {word.lower(): word for word in reversed(words)}
    same = _SAME.get(written)
    if same in by_lower:
        return by_lower[same]
    close = get_close_matches(written, list(by_lower), n=1, cutoff=alike)
    return by_lower[close[0]] if close else None


def word_remedy(given: object, words: Sequence[str]) -> str:
    """The change to propose for a word that is not allowed."""
    near = nearest_word(given, words)
    if near is not None:
        return f"write {near!r}"
    return f"write one of these, such as {words[0]!r}" if words else "leave it out"


def the_listed(names: Sequence[str]) -> str:
    """Several parts, each once, as `the left strip and the right strip`."""
    return listed([f"the {each}" for each in dict.fromkeys(names)])


def listed(names: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
