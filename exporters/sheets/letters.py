"""Letters that stand for things in the order in which they come."""

from __future__ import annotations


def letter_of(index: int) -> str:
    """A to Z, then AA, AB and so on.

    Args:
        index: 0 for the first.
    """
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


_NOT_USED = "IO"
"""Taken for figures. **Source:** ISO 128-3 and ISO 3098-1 (from memory)."""


def letter_of_view(index: int) -> str:
    """The letter of a section or a detail: as above, but never I or O.

    Args:
        index: 0 for the first.
    """
    usable = [letter for letter in map(letter_of, range(26)) if letter not in _NOT_USED]
    over, rest = divmod(index, len(usable))
    return (usable[over - 1] if over else "") + usable[rest]
