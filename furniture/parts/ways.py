"""The six ways along the piece and what a maker calls them."""

from __future__ import annotations

from furniture.parts.vectors import BACK, DOWN, FRONT, LEFT, RIGHT, UP, Vector, dot

PIECE_WAYS: tuple[tuple[Vector, str], ...] = (
    (DOWN, "down"),
    (BACK, "back"),
    (LEFT, "to the left"),
    (RIGHT, "to the right"),
    (FRONT, "forward"),
    (UP, "up"),
)
"""The six ways along the piece, in the order in which a maker would rather push a part home."""


def way_in_words(direction: Vector) -> str:
    """A direction of the piece in words: `back`, `to the left and back`."""
    words = [name for way, name in PIECE_WAYS if dot(direction, way) > 0.2]
    words.sort(key=lambda word: word in ("down", "up"))
    return " and ".join(words)


def axis_in_words(direction: Vector) -> str:
    """Along which axis of the piece a direction lies most, whichever way: `in height`."""
    names = ("from side to side", "from front to back", "in height")
    return names[max(range(3), key=lambda axis: abs(direction[axis]))]
