"""Fewest bars of one length for all sizes: column generation, then diving to whole numbers.

Source: P. C. Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock problem",
Operations Research 9 (1961), 849-859; the bound is the programme's value rounded up.
"""

from __future__ import annotations

import math
import random
import time
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.master import CoveringMaster
from furniture.shop.cutting.classic.values import BoundFrom, Report

Filling = tuple[int, ...]


def fewest_bars(
    length: int,
    sizes: Sequence[int],
    copies: Sequence[int],
    *,
    seconds: float = 10.0,
    seed: int = 1,
    report: Report | None = None,
) -> tuple[tuple[Filling, ...], int, BoundFrom]:
    """Fillings (copies of each size, bar by bar), the bound, and where it comes from.

    Every size must be between 1 and `length`, whole numbers of any unit; `seconds` [s].
    """
    started = time.monotonic()
    size = np.array(sizes, np.int64)
    demand = np.array(copies, np.int64)
    best = min((_greedy(length, size, demand, full) for full in (False, True)), key=len)
    bound = math.ceil(int((size * demand).sum()) / length)
    source = BoundFrom.AREA
    scaled = _scaled_bound(length, size, demand)
    if scaled > bound:
        bound, source = scaled, BoundFrom.SCALES
    if len(best) == bound:
        return best, bound, source
    master = CoveringMaster(demand)
    for filling in dict.fromkeys(best):
        master.add(np.array(filling))
    value = _priced_out(master, length, size, demand, started + seconds)
    if value is not None and math.ceil(value - 1e-6) > bound:
        bound, source = math.ceil(value - 1e-6), BoundFrom.PRICES
    dice = random.Random(seed)
    dive = 0
    while len(best) > bound and time.monotonic() - started < seconds:
        if report is not None and not report(len(best), bound, time.monotonic() - started):
            break
        found = _dive(master, length, size, demand, len(best), dice, dive, started + seconds)
        if found is not None and len(found) < len(best):
            best = found
        dive += 1
    return best, bound, source


def _greedy(
    length: int, size: NDArray[np.int64], demand: NDArray[np.int64], full: bool
) -> tuple[Filling, ...]:
    """Bars filled one after the other: largest first, or each as full as can be."""
    from furniture.shop.cutting.classic.bars_kernels import best_filling

    left = demand.copy()
    bars: list[Filling] = []
    order = np.argsort(-size, kind="stable")
    while left.any():
        counts = np.zeros(size.size, np.int64)
        room = length
        if full:
            first = next(int(k) for k in order if left[k])
            left[first] -= 1
            prices = size.astype(np.float64)
            best_filling(int(room - size[first]), size, left, prices, counts)
            left -= counts
            counts[first] += 1
        else:
            for k in order:
                take = min(int(left[k]), room // int(size[k]))
                counts[k] += take
                room -= take * int(size[k])
            left -= counts
        bars.append(tuple(int(c) for c in counts))
    return tuple(bars)


def _scaled_bound(length: int, size: NDArray[np.int64], demand: NDArray[np.int64]) -> int:
    best = 0
    for epsilon in np.unique(size[2 * size <= length]):
        scaled = np.where(size > length - epsilon, length, np.where(size >= epsilon, size, 0))
        best = max(best, math.ceil(int((scaled * demand).sum()) / length))
    for k in range(1, 21):
        exact = ((k + 1) * size) % length == 0
        scaled_k = np.where(exact, k * size, (k + 1) * size // length * length)
        best = max(best, math.ceil(int((scaled_k * demand).sum()) / (k * length)))
    return best


def _priced_out(
    master: CoveringMaster,
    length: int,
    size: NDArray[np.int64],
    left: NDArray[np.int64],
    deadline: float,
) -> float | None:
    """The programme's value once no filling is worth more than 1; None when time ran out."""
    from furniture.shop.cutting.classic.bars_kernels import best_filling

    counts = np.zeros(size.size, np.int64)
    while time.monotonic() < deadline:
        value, prices = master.solve()
        worth = best_filling(length, size, left, prices, counts)
        if worth <= 1 + 1e-7:
            return value
        if math.ceil(value / worth - 1e-6) == math.ceil(value - 1e-6) and worth < 1 + 1e-3:
            return value / worth
        master.add(counts.copy())
        remaining = left - counts
        spare = np.where(remaining > 0, prices, 0.0)
        for _ in range(3):
            if not (counts.any() and spare.any()):
                break
            extra = np.zeros(size.size, np.int64)
            if best_filling(length, size, np.maximum(remaining, 0), spare, extra) <= 1 + 1e-7:
                break
            master.add(extra.copy())
            remaining = remaining - extra
            spare = np.where(remaining > 0, prices, 0.0)
    return None


def _dive(
    master: CoveringMaster,
    length: int,
    size: NDArray[np.int64],
    demand: NDArray[np.int64],
    to_beat: int,
    dice: random.Random,
    dive: int,
    deadline: float,
) -> tuple[Filling, ...] | None:
    """Round the programme's fillings to whole bars step by step, pricing again for the rest."""
    left = demand.copy()
    bars: list[Filling] = []
    columns = list(master.columns)
    while left.any():
        local = CoveringMaster(left)
        for column in columns:
            local.add(np.minimum(column, left))
        value = _priced_out(local, length, size, left, deadline)
        if value is None or len(bars) + math.ceil(value - 1e-6) >= to_beat:
            return None
        local.solve()
        shares = local.shares()
        columns = list(local.columns)
        taken = 0
        for index in np.argsort(-shares, kind="stable"):
            share = shares[index]
            whole = int(share + 1e-6)
            if whole == 0 and taken:
                break
            if whole == 0 and dive and dice.random() < 0.4 and shares.size > 1:
                continue
            column = columns[index]
            for _ in range(max(1, whole)):
                used = np.minimum(column, left)
                if not used.any():
                    break
                bars.append(tuple(int(c) for c in used))
                left = left - used
                taken += 1
        if not taken:
            used = np.minimum(columns[int(np.argmax(shares))], left)
            bars.append(tuple(int(c) for c in used))
            left = left - used
        rest = _greedy(length, size, left, True) if left.any() else ()
        if len(bars) + len(rest) < to_beat:
            return tuple(bars) + rest
    return tuple(bars) if len(bars) < to_beat else None
