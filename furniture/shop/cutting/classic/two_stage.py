"""Boards of strips, their sections stacks of like pieces, by two knapsacks: for very large grids.

Source: P. C. Gilmore, R. E. Gomory, "Multistage cutting stock problems of two and more
dimensions", Operations Research 13 (1965), 94-120.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.bars import NO_TABLE, NO_WORTH
from furniture.shop.cutting.classic.values import Item, Laying, Panel


class TwoStageBoards:
    """Finds boards worth their price, like Fillings, but only strips of stacks of like pieces."""

    most_kept = 1

    def __init__(self, panel: Panel, items: Sequence[Item]) -> None:
        self.panel = panel
        self.lengths = np.array([item.length for item in items], np.int64)
        self.widths = np.array([item.width for item in items], np.int64)

    def best_boards(
        self,
        values: NDArray[np.float64],
        limits: NDArray[np.int64],
        target: float,
        keep: int,
        deadline: float,
    ) -> tuple[list[tuple[Laying, ...]], bool]:
        """Boards worth at least `target` by either first cut; never sure that none was missed.

        keep and deadline are there for the likeness only: both knapsacks take milliseconds.
        """
        boards = []
        for rip_first in (True, False):
            u, v = (self.lengths, self.widths) if rip_first else (self.widths, self.lengths)
            size_u, size_v = self.panel.length, self.panel.width
            if not rip_first:
                size_u, size_v = size_v, size_u
            board = _board(u, v, size_u, size_v, values, limits)
            if sum(values[item] for item, _, _ in board) >= target:
                boards.append(
                    tuple(
                        Laying(item=item, x=x if rip_first else y, y=y if rip_first else x)
                        for item, x, y in board
                    )
                )
        return boards, False


def _board(
    u: NDArray[np.int64],
    v: NDArray[np.int64],
    size_u: int,
    size_v: int,
    values: NDArray[np.float64],
    limits: NDArray[np.int64],
) -> list[tuple[int, int, int]]:
    from furniture.shop.cutting.classic.bars_kernels import best_filling

    left = limits.copy()
    laid: list[tuple[int, int, int]] = []
    top = 0
    while top < size_v and left.any():
        heights = np.unique(v[(left > 0) & (values > 0) & (v <= size_v - top) & (u <= size_u)])
        if heights.size == 0:
            break
        strips = np.zeros((heights.size, u.size), np.int64)
        stacks = np.zeros((heights.size, u.size), np.int64)
        columns = np.zeros((heights.size, u.size), np.int64)
        worth = np.zeros(heights.size)
        most = np.zeros(heights.size, np.int64)
        for n, height in enumerate(heights):
            stack = np.maximum(1, np.minimum(height // v, left))
            copies = np.where((v <= height) & (u <= size_u), left // stack, 0)
            best_filling(size_u, u, copies, values * stack, strips[n], NO_TABLE, NO_WORTH)
            stacks[n] = stack
            columns[n] = strips[n]
            strips[n] *= stack
            worth[n] = float(strips[n] @ values)
            used = strips[n] > 0
            most[n] = int((left[used] // strips[n][used]).min()) if used.any() else 0
        chosen = np.zeros(heights.size, np.int64)
        best_filling(size_v - top, heights, most, worth, chosen, NO_TABLE, NO_WORTH)
        if not chosen.any():
            break
        n = int(np.argmax(np.where(chosen > 0, worth / heights, -1.0)))
        while chosen[n] and (strips[n] <= left).all():
            along = 0
            for item in np.nonzero(strips[n])[0]:
                for _ in range(int(columns[n][item])):
                    for level in range(int(stacks[n][item])):
                        laid.append((int(item), along, top + level * int(v[item])))
                    along += int(u[item])
            left = left - strips[n]
            top += int(heights[n])
            chosen[n] -= 1
    return laid
