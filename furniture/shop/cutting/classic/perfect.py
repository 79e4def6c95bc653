"""A layout of one board that wastes nothing: rooms cut off and filled, the smallest room first.

An item is laid in the corner of a room, and two edge-to-edge cuts leave at most two rooms. Since
nothing may be wasted, sums of the sizes left must reach both sides of every room; a state that
cannot is dropped. A beam keeps the states that have used the most awkward items in the fewest
rooms, and equal states (the same rooms, the same items left) are kept once.

Own rule: large items first, thin rooms count against a state; tried on guillotine layouts.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.values import Item, Laying, Panel

MOST_ROOMS = 24
"""Rooms open at a time; a state with more is dropped."""
MOST_CANDIDATES = 4_000_000
"""Ways to go on that are looked at for one item."""
WIDEST = 1 << 15
"""States kept at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taste:
    """What a beam prefers: how much more a large item counts, and what an open room costs."""

    power: float
    room_cost: float


TASTES = (
    Taste(power=1.0, room_cost=0.01),
    Taste(power=1.0, room_cost=0.003),
    Taste(power=0.7, room_cost=0.01),
    Taste(power=1.5, room_cost=0.005),
)
"""Own rule: found by trial on boards of 16 to 200 items; no one of them is best on all."""


def is_exact_fill(panel: Panel, items: Sequence[Item]) -> bool:
    """Whether the items' area is the board's, so that nothing may be wasted."""
    area = sum(item.length * item.width * (item.quantity or 0) for item in items)
    return area == panel.length * panel.width


def perfect_layout(
    panel: Panel, items: Sequence[Item], deadline: float
) -> tuple[Laying, ...] | None:
    """A layout of every item, looked for with wider and wider beams until the deadline [s].

    Two tastes at a time, one on each core; the first taste that finds one gives the layout.
    None proves nothing.
    """
    beam = PerfectBeam(panel, items)
    width = 250
    with ThreadPoolExecutor(max_workers=2) as pool:
        while width <= WIDEST:
            for pair in (TASTES[:2], TASTES[2:]):
                if time.monotonic() > deadline:
                    return None
                runs = [pool.submit(beam.run, width, taste, deadline) for taste in pair]
                found = [run.result() for run in runs]
                layout = next((layings for layings in found if layings is not None), None)
                if layout is not None:
                    return layout
            width *= 3
    return None


class PerfectBeam:
    """The search of one board that its items fill exactly."""

    def __init__(self, panel: Panel, items: Sequence[Item]) -> None:
        self._panel = panel
        self._left = np.array([item.quantity or 0 for item in items], np.uint16)
        self._l = np.array([item.length for item in items], np.int64)
        self._w = np.array([item.width for item in items], np.int64)
        marks = np.random.default_rng(1).integers(1, 2**63, len(items), np.int64)
        self._marks = marks.astype(np.uint64)

    def run(self, width: int, taste: Taste, deadline: float) -> tuple[Laying, ...] | None:
        """A layout of every item, if the beam of `width` states comes on one."""
        from furniture.shop.cutting.classic.perfect_kernels import candidates, kept_states

        panel, n_types = self._panel, self._l.size
        board = float(panel.length * panel.width)
        item_worth = (self._l * self._w / board) ** taste.power
        item_worth /= float((item_worth * self._left).sum())
        sides = np.arange(1, max(panel.length, panel.width) + 2)
        room_cost = taste.room_cost * np.concatenate([[0.0], 1.0 + 3.0 / sides])
        left = self._left[None, :].copy()
        rooms = np.zeros((1, MOST_ROOMS, 4), np.int32)
        rooms[0, 0] = (0, 0, panel.length, panel.width)
        n_rooms, marks, worth = np.ones(1, np.int32), np.ones(1, np.uint64), np.zeros(1)
        size = min(MOST_CANDIDATES, 2 * width * n_types)
        score, mark = np.zeros(size), np.zeros(size, np.uint64)
        origin, what = np.zeros(size, np.int32), np.zeros((size, 3), np.int32)
        trail: list[_Step] = []
        for _ in range(int(self._left.sum())):
            n = candidates(
                left.shape[0], left, rooms, n_rooms, marks, worth, self._l, self._w, self._marks,
                item_worth, room_cost, score, mark, origin, what,
            )  # fmt: skip
            if n == 0 or time.monotonic() > deadline:
                return None
            order = np.argsort(-score[:n], kind="stable")
            seen = np.zeros(1 << int(2 * n).bit_length(), np.uint64)
            new_left = np.zeros((width, n_types), np.uint16)
            new_rooms = np.zeros((width, MOST_ROOMS, 4), np.int32)
            new_n, new_marks = np.zeros(width, np.int32), np.zeros(width, np.uint64)
            new_worth, chosen = np.zeros(width), np.zeros(width, np.int64)
            made = kept_states(
                order, mark, origin, what, left, rooms, n_rooms, worth, self._l, self._w,
                item_worth, seen, new_left, new_rooms, new_n, new_marks, new_worth, chosen,
            )  # fmt: skip
            if made == 0:
                return None
            taken = chosen[:made]
            corner = rooms[origin[taken], what[taken, 1], :2]
            trail.append(_Step(origin[taken], what[taken, 0], corner))
            left, rooms, n_rooms = new_left[:made], new_rooms[:made], new_n[:made]
            marks, worth = new_marks[:made], new_worth[:made]
        return _layings(trail)


@dataclass(frozen=True, slots=True)
class _Step:
    """For every state kept: the state before it, the item laid, and where."""

    origin: NDArray[np.int32]
    item: NDArray[np.int32]
    corner: NDArray[np.int32]


def _layings(trail: list[_Step]) -> tuple[Laying, ...]:
    layings: list[Laying] = []
    at = 0
    for step in reversed(trail):
        x, y = (int(v) for v in step.corner[at])
        layings.append(Laying(item=int(step.item[at]), x=x, y=y))
        at = int(step.origin[at])
    return tuple(reversed(layings))
