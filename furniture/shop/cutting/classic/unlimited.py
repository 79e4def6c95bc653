"""Best value of one board when every item may be cut any number of times: exact, faults or none.

Source: J. E. Beasley, "Algorithms for unconstrained two-dimensional guillotine cutting", Journal
of the Operational Research Society 36 (1985), 297-306: the recursion over reachable sums. With
faults, cut positions are also sums from the far edge of every fault: V. Afsharian, A. Niknejad,
G. Waescher, OR Spectrum 36 (2014), 971-999.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.values import Answer, BoundFrom, Item, Laying, Panel


@dataclass(frozen=True, slots=True)
class ValueTable:
    """Best values of every size: best[i, j] for ls[i] x ws[j]; below_*: index of size floored."""

    ls: NDArray[np.int64]
    ws: NDArray[np.int64]
    below_l: NDArray[np.int64]
    below_w: NDArray[np.int64]
    best: NDArray[np.generic]


def reachable(sizes: Sequence[int], limit: int, origins: Sequence[int] = (0,)) -> NDArray[np.int64]:
    """Sums of sizes from any of the origins, up to the limit, ascending."""
    bits = 0
    mask = (1 << (limit + 1)) - 1
    for origin in origins:
        if 0 <= origin <= limit:
            bits |= 1 << origin
    for size in sorted({size for size in sizes if size <= limit}):
        shift = size
        while shift <= limit:
            grown = (bits | bits << shift) & mask
            shift *= 2
            if grown == bits:
                break
            bits = grown
    return np.array([n for n, bit in enumerate(reversed(bin(bits)[2:])) if bit == "1"], np.int64)


def reachable_limited(sizes: Sequence[tuple[int, int]], limit: int) -> NDArray[np.int64]:
    """Sums of sizes from 0 up to the limit with each (size, copies) used that often at most."""
    bits = 1
    mask = (1 << (limit + 1)) - 1
    for size, copies in sizes:
        for _ in range(min(copies, limit // size if size else 0)):
            grown = (bits | bits << size) & mask
            if grown == bits:
                break
            bits = grown
    return np.array([n for n, bit in enumerate(reversed(bin(bits)[2:])) if bit == "1"], np.int64)


def floors(points: NDArray[np.int64], limit: int) -> NDArray[np.int64]:
    """For every size 0..limit the index of the greatest point that is no greater."""
    return (np.searchsorted(points, np.arange(limit + 1), side="right") - 1).astype(np.int64)


def value_table(
    panel: Panel, items: Sequence[Item], prices: NDArray[np.float64] | None = None
) -> ValueTable:
    """Best values of all sizes up to the panel, by item value or by the prices given."""
    from furniture.shop.cutting.classic.unlimited_kernels import best_values

    ls = reachable([item.length for item in items], panel.length)
    ws = reachable([item.width for item in items], panel.width)
    below_l, below_w = floors(ls, panel.length), floors(ws, panel.width)
    kept = [
        index
        for index, item in enumerate(items)
        if item.length <= panel.length and item.width <= panel.width
    ]
    item_l = np.array([items[k].length for k in kept], np.int64)
    item_w = np.array([items[k].width for k in kept], np.int64)
    value: NDArray[np.generic]
    if prices is None:
        highest = max((items[k].value for k in kept), default=0)
        small = highest * (panel.length * panel.width) < 2**31
        area = all(items[k].value <= items[k].length * items[k].width for k in kept)
        kind = np.int32 if small or (area and panel.length * panel.width < 2**31) else np.int64
        value = np.array([items[k].value for k in kept], kind)
    else:
        value = prices[kept]
    best = np.zeros((ls.size, ws.size), value.dtype)
    best_values(ls, ws, below_l, below_w, item_l, item_w, value, best)
    return ValueTable(ls, ws, below_l, below_w, best)


def layings_from_table(
    table: ValueTable,
    items: Sequence[Item],
    values: Sequence[float],
    length: int,
    width: int,
    x: int = 0,
    y: int = 0,
) -> list[Laying]:
    """The layout behind the table's value of a clear length x width at (x, y)."""
    layings: list[Laying] = []
    stack = [(length, width, x, y)]
    best, below_l, below_w = table.best, table.below_l, table.below_w
    order = sorted(range(len(items)), key=lambda k: -values[k])
    while stack:
        span, height, x0, y0 = stack.pop()
        i, j = int(below_l[span]), int(below_w[height])
        target = best[i, j]
        if target <= 1e-12:
            continue
        i = int(np.searchsorted(best[:, j], target))
        j = int(np.searchsorted(best[i], target))
        span, height = int(table.ls[i]), int(table.ws[j])
        single = next(
            (k for k in order if items[k].length <= span and items[k].width <= height), None
        )
        gains: list[tuple[float, int]] = []
        if single is not None:
            gains.append((values[single], -1))
        for axis, points, size in ((0, table.ls, span), (1, table.ws, height)):
            cuts = points[(points > 0) & (2 * points <= size)]
            if cuts.size == 0:
                continue
            if axis == 0:
                totals = best[below_l[cuts], j] + best[below_l[size - cuts], j]
            else:
                totals = best[i, below_w[cuts]] + best[i, below_w[size - cuts]]
            at = int(np.argmax(totals))
            gains.append((float(totals[at]), 2 * int(cuts[at]) + axis))
        choice = max(gains)[1]
        if choice == -1 and single is not None:
            layings.append(Laying(item=single, x=x0, y=y0))
            continue
        cut, axis = divmod(choice, 2)
        if axis == 0:
            stack += [(cut, height, x0, y0), (span - cut, height, x0 + cut, y0)]
        else:
            stack += [(span, cut, x0, y0), (span, height - cut, x0, y0 + cut)]
    return layings


def best_unlimited(panel: Panel, items: Sequence[Item]) -> Answer:
    """The most valuable way to cut the panel, proven; quantities are not looked at."""
    if not panel.faults:
        table = value_table(panel, items)
        values = [float(item.value) for item in items]
        value = int(table.best[-1, -1])
        layings = layings_from_table(table, items, values, panel.length, panel.width)
    else:
        value, layings = _with_faults(panel, items)
    return Answer(boards=(tuple(layings),), value=value, bound=value, bound_from=BoundFrom.EXACT)


def _with_faults(panel: Panel, items: Sequence[Item]) -> tuple[int, list[Laying]]:
    from furniture.shop.cutting.classic.unlimited_kernels import faulty_values

    far_x = [0, *(fault.x + fault.length for fault in panel.faults)]
    far_y = [0, *(fault.y + fault.width for fault in panel.faults)]
    lengths = [item.length for item in items]
    widths = [item.width for item in items]
    xs = np.union1d(reachable(lengths, panel.length, far_x), [panel.length]).astype(np.int64)
    ys = np.union1d(reachable(widths, panel.width, far_y), [panel.width]).astype(np.int64)
    faults = np.array([(f.x, f.y, f.x + f.length, f.y + f.width) for f in panel.faults], np.int64)
    item_l, item_w = np.array(lengths, np.int64), np.array(widths, np.int64)
    value = np.array([item.value for item in items], np.int32)
    row_of = np.zeros((xs.size, xs.size), np.int64)
    upper = np.triu_indices(xs.size, 1)
    row_of[upper] = np.arange(upper[0].size)
    heights = np.arange(ys.size - 1, -1, -1)
    start_of = np.concatenate([[0], np.cumsum(heights + 1)[:-1]]).astype(np.int64)
    best = np.zeros((max(1, upper[0].size), int((heights + 1).sum())), np.int32)
    faulty_values(xs, ys, faults, item_l, item_w, value, row_of, start_of, best)
    table = _FaultyTable(xs, ys, row_of, start_of, best, faults)
    layings = table.layings(items)
    return table.value(0, xs.size - 1, 0, ys.size - 1), layings


@dataclass(frozen=True, slots=True)
class _FaultyTable:
    xs: NDArray[np.int64]
    ys: NDArray[np.int64]
    row_of: NDArray[np.int64]
    start_of: NDArray[np.int64]
    best: NDArray[np.int32]
    faults: NDArray[np.int64]

    def value(self, a: int, b: int, c: int, d: int) -> int:
        if a >= b or c >= d:
            return 0
        return int(self.best[self.row_of[a, b], self.start_of[c] + d - c])

    def layings(self, items: Sequence[Item]) -> list[Laying]:
        """The layout behind the whole board's value, found by asking which choice gives it."""
        layings: list[Laying] = []
        stack = [(0, self.xs.size - 1, 0, self.ys.size - 1)]
        while stack:
            a, b, c, d = stack.pop()
            target = self.value(a, b, c, d)
            if target == 0:
                continue
            item = self._item(items, a, b, c, d, target)
            if item is not None:
                layings.append(Laying(item=item, x=int(self.xs[a]), y=int(self.ys[c])))
                continue
            stack += self._halves(a, b, c, d, target)
        return layings

    def _item(
        self, items: Sequence[Item], a: int, b: int, c: int, d: int, target: int
    ) -> int | None:
        x, y = int(self.xs[a]), int(self.ys[c])
        for k, item in enumerate(items):
            if item.value != target or item.length > self.xs[b] - x or item.width > self.ys[d] - y:
                continue
            right, top = x + item.length, y + item.width
            if not any(f[0] < right and f[2] > x and f[1] < top and f[3] > y for f in self.faults):
                return k
        return None

    def _halves(
        self, a: int, b: int, c: int, d: int, target: int
    ) -> list[tuple[int, int, int, int]]:
        for p in range(a + 1, b):
            if self.value(a, p, c, d) + self.value(p, b, c, d) == target:
                return [(a, p, c, d), (p, b, c, d)]
        for q in range(c + 1, d):
            if self.value(a, b, c, q) + self.value(a, b, q, d) == target:
                return [(a, b, c, q), (a, b, q, d)]
        raise AssertionError("a value without a layout")
