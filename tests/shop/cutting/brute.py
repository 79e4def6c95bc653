"""Best values by looking at everything, for boards a few units across: the tests' own oracle."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from tests.shop.cutting.sawing import Box, meets

Size = tuple[int, int, int | None, int]
"""length, width, most copies, value."""


def best_value(length: int, width: int, items: Sequence[Size], bad: Sequence[Box] = ()) -> int:
    """Most value that edge-to-edge cuts get from the board: every whole-number cut is tried.

    Keeps for each rectangle every set of copies it can yield, so limits are met exactly.
    """
    limits = [q if q is not None else (length * width) // (le * wi) for le, wi, q, _ in items]

    @cache
    def yields(x: int, y: int, far_x: int, far_y: int) -> frozenset[tuple[int, ...]]:
        none = (0,) * len(items)
        found = {none}
        for k, (le, wi, _, _) in enumerate(items):
            box = (float(x), float(y), float(x + le), float(y + wi))
            inside = x + le <= far_x and y + wi <= far_y
            if inside and limits[k] > 0 and not any(meets(box, other) for other in bad):
                found.add(tuple(int(n == k) for n in range(len(items))))
        for cut in range(x + 1, far_x):
            found |= joined(yields(x, y, cut, far_y), yields(cut, y, far_x, far_y))
        for cut in range(y + 1, far_y):
            found |= joined(yields(x, y, far_x, cut), yields(x, cut, far_x, far_y))
        return frozenset(found)

    def joined(
        first: frozenset[tuple[int, ...]], second: frozenset[tuple[int, ...]]
    ) -> set[tuple[int, ...]]:
        sums = {tuple(a + b for a, b in zip(f, s, strict=True)) for f in first for s in second}
        return {c for c in sums if all(n <= m for n, m in zip(c, limits, strict=True))}

    return max(
        sum(n * item[3] for n, item in zip(counts, items, strict=True))
        for counts in yields(0, 0, length, width)
    )


def fewest_bars(length: int, pieces: Sequence[int]) -> int:
    """Fewest bars for the pieces, by trying every bar for every piece."""
    best = len(pieces)

    def place(index: int, rooms: tuple[int, ...]) -> None:
        nonlocal best
        if len(rooms) >= best:
            return
        if index == len(pieces):
            best = len(rooms)
            return
        for n in {room: n for n, room in enumerate(rooms)}.values():
            if rooms[n] >= pieces[index]:
                place(index + 1, (*rooms[:n], rooms[n] - pieces[index], *rooms[n + 1 :]))
        place(index + 1, (*rooms, length - pieces[index]))

    place(0, ())
    return best
