"""Fewest equal clear boards by a compiled beam of strips, sections and columns.

Source: F. Fontan, L. Libralesso, "An anytime tree search algorithm for two-dimensional two- and
three-staged guillotine packing problems" (2020), arXiv:2004.02603: the tree and its guides.
"""

from __future__ import annotations

import time
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.unit_boards import Spot, UnitBoard

BIASES = (0.0, 1.0, 0.5)
"""How strongly large items are taken first, tried in turn. Own rule from trials."""


class StripBeam:
    """The beam for one order, run with growing widths."""

    def __init__(self, board: UnitBoard, wanted: Sequence[int], seed: int, stages: int = 3) -> None:
        """Of boards alike.

        Args:
            board: one of them, clear.
            wanted: how many of each of its shapes.
        """
        self._board, self._stages = (board.length, board.width), stages
        self._demand = np.array(wanted, np.int16)
        self._lengths = np.array([shape.length for shape in board.shapes], np.int64)
        self._widths = np.array([shape.width for shape in board.shapes], np.int64)
        source = np.random.default_rng(seed)
        self._random_marks = source.integers(1, 2**62, len(board.shapes)).astype(np.uint64)

    def run(
        self,
        width: int,
        most_boards: int,
        *,
        rip_first: bool,
        bias: float,
        deadline: float,
        demand: NDArray[np.int16] | None = None,
    ) -> list[list[Spot]] | None:
        """Boards, at most `most_boards`, that hold the whole demand; None when none was found."""
        from furniture.shop.cutting.strip_kernels import keep_best, step

        wanted = self._demand if demand is None else demand
        u, v = (self._lengths, self._widths) if rip_first else (self._widths, self._lengths)
        size_u, size_v = self._board
        if not rip_first:
            size_u, size_v = size_v, size_u
        total = int((wanted * self._lengths * self._widths).sum())
        allowed = most_boards * size_u * size_v - total
        if allowed < 0:
            return None
        kinds = int((wanted > 0).sum())
        states = np.zeros((1, 8), np.int64)
        left = wanted[None, :].astype(np.int16)
        marks = np.zeros(1, np.uint64)
        levels: list[NDArray[np.int32]] = []
        room = width * kinds * 4 + 16
        guides = np.empty(room)
        children = np.empty((room, 10), np.int64)
        child_marks = np.empty(room, np.uint64)
        table = np.zeros(1 << max(6, (4 * width).bit_length()), np.uint64)
        for placed in range(int(wanted.sum())):
            states[:, 7] = placed
            count = step(
                states,
                left,
                marks,
                u,
                v,
                self._random_marks,
                size_u,
                size_v,
                allowed,
                bias,
                self._stages,
                guides,
                children,
                child_marks,
            )
            if count == 0:
                return None
            most = min(count, 3 * width)
            if most < count:
                part = np.argpartition(guides[:count], most - 1)[:most]
                order = part[np.argsort(guides[part], kind="stable")]
            else:
                order = np.argsort(guides[:count], kind="stable")
            new_states = np.empty((width, 8), np.int64)
            new_left = np.empty((width, wanted.size), np.int16)
            new_marks = np.empty(width, np.uint64)
            trail = np.empty((width, 6), np.int32)
            kept = keep_best(
                order, children, child_marks, left, width,
                new_states, new_left, new_marks, trail, table,
            )  # fmt: skip
            states, left, marks = new_states[:kept], new_left[:kept], new_marks[:kept]
            levels.append(trail[:kept])
            if time.monotonic() > deadline:
                return None
        return self._boards(levels, v, rip_first)

    def _boards(
        self, levels: list[NDArray[np.int32]], v: NDArray[np.int64], rip_first: bool
    ) -> list[list[Spot]]:
        boards: dict[int, list[Spot]] = {}
        row = 0
        for trail in reversed(levels):
            parent, item, _, board, section, front = (int(n) for n in trail[row])
            low = front - int(v[item])
            x, y = (section, low) if rip_first else (low, section)
            boards.setdefault(board, []).append(Spot(item, x, y))
            row = parent
        return [boards[number] for number in sorted(boards)]
