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
