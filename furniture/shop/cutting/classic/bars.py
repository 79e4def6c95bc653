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
            _best_filling(int(room - size[first]), size, left, prices, counts)
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


NO_TABLE = np.zeros((0, 0), np.int64)
NO_WORTH = np.zeros(0)
DIVE_PRICINGS = 4
"""Pricings at each step of a dive. Own rule: the last digits of the prices do not matter there."""
MANY = 60
"""Columns taken from one pricing at most. Own rule: fewer rounds against a larger programme."""


def _best_filling(
    length: int,
    size: NDArray[np.int64],
    copies: NDArray[np.int64],
    prices: NDArray[np.float64],
    counts: NDArray[np.int64],
) -> float:
    from furniture.shop.cutting.classic.bars_kernels import best_filling

    return float(best_filling(length, size, copies, prices, counts, NO_TABLE, NO_WORTH))


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
    rounds: int = 10**6,
) -> float | None:
    """The programme's value once no filling is worth more than 1; None when time ran out.

    After `rounds` pricings it is only what the columns so far give, no bound.
    """
    from furniture.shop.cutting.classic.bars_kernels import best_filling

    counts = np.zeros(size.size, np.int64)
    with_each = np.zeros((size.size, size.size), np.int64)
    worth_each = np.zeros(size.size)
    for number in range(rounds + 1):
        if time.monotonic() > deadline:
            return None
        value, prices = master.solve()
        if number == rounds:
            return value
        worth = best_filling(length, size, left, prices, counts, with_each, worth_each)
        if worth <= 1 + 1e-7:
            return value
        if math.ceil(value / worth - 1e-6) == math.ceil(value - 1e-6) and worth < 1 + 1e-3:
            return value / float(worth)
        master.add(counts.copy())
        for k in np.argsort(-worth_each, kind="stable")[:MANY]:
            if worth_each[k] > 1 + 1e-6:
                master.add(with_each[k].copy())
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
    """Round the programme's fillings to whole bars step by step, pricing again for the rest.

    Goes on past a first improvement while the bars still to come may make a better one.
    """
    best: tuple[Filling, ...] | None = None
    left = demand.copy()
    bars: list[Filling] = []
    columns = master.useful()
    while left.any():
        local = CoveringMaster(left)
        for column in columns:
            if (column <= left).all():
                local.add(column)
        if _priced_out(local, length, size, left, deadline, DIVE_PRICINGS) is None:
            return best
        shares = local.shares()
        if dive:
            shares = shares * np.array([dice.uniform(0.8, 1.2) for _ in range(shares.size)])
        columns = local.useful()
        taken = 0
        for index in np.argsort(-shares, kind="stable"):
            whole = int(shares[index] + 1e-6)
            if taken and whole == 0:
                break
            column = local.columns[index]
            for _ in range(max(1, whole)):
                if (column <= left).all():
                    bars.append(tuple(int(c) for c in column))
                    left = left - column
                    taken += 1
        rest = _greedy(length, size, left, True) if left.any() else ()
        if len(bars) + len(rest) < to_beat:
            best = tuple(bars) + rest
            to_beat = len(best)
        if len(bars) + int((size * left).sum()) / length > to_beat - 1 + 1e-9:
            return best
    return best
