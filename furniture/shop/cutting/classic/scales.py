"""The least number of equal boards by area and by pairs of conservative scales, in whole numbers.

Source: S. P. Fekete, J. Schepers, "A general framework for bounds for higher-dimensional
orthogonal packing problems", Mathematical Methods of Operations Research 60 (2004), 311-329:
u(k) and U(epsilon).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.values import BoundFrom, Item, Panel

MOST_SCALES = 60
"""Thresholds tried per axis at most; the largest sizes matter most."""


def scaled_sizes(sizes: NDArray[np.int64], limit: int) -> list[tuple[NDArray[np.int64], int]]:
    """The sizes under every scale, each with what the limit becomes."""
    found = [(sizes, limit)]
    for k in (1, 2, 3, 4):
        exact = ((k + 1) * sizes) % limit == 0
        found.append((np.where(exact, k * sizes, (k + 1) * sizes // limit * limit), k * limit))
    edges = np.unique(sizes[2 * sizes <= limit])
    halves = np.unique(limit - sizes[2 * sizes > limit] + 1)
    for epsilon in np.unique(np.concatenate([edges, halves]))[-MOST_SCALES:]:
        if not 1 <= epsilon <= limit / 2:
            continue
        scaled = np.where(sizes > limit - epsilon, limit, np.where(sizes >= epsilon, sizes, 0))
        found.append((scaled, limit))
    return found


def best_scales(panel: Panel, items: Sequence[Item]) -> list[tuple[float, NDArray[np.float64]]]:
    """Boards needed under every pair of scales, most first, with the items' shares of a board."""
    lengths = np.array([item.length for item in items], np.int64)
    widths = np.array([item.width for item in items], np.int64)
    demand = np.array([item.quantity or 0 for item in items], np.int64)
    found: list[tuple[float, NDArray[np.float64]]] = []
    for scaled_l, limit_l in scaled_sizes(lengths, panel.length):
        for scaled_w, limit_w in scaled_sizes(widths, panel.width):
            shares = scaled_l * scaled_w / (limit_l * limit_w)
            found.append((float(shares @ demand), shares))
    found.sort(key=lambda entry: -entry[0])
    return found


def least_boards(panel: Panel, items: Sequence[Item]) -> tuple[int, BoundFrom]:
    """A number of equal boards that no plan can beat, and where it comes from."""
    lengths = np.array([item.length for item in items], np.int64)
    widths = np.array([item.width for item in items], np.int64)
    demand = np.array([item.quantity or 0 for item in items], np.int64)
    best, source = 0, BoundFrom.AREA
    all_widths = scaled_sizes(widths, panel.width)
    for n, (scaled_l, limit_l) in enumerate(scaled_sizes(lengths, panel.length)):
        for m, (scaled_w, limit_w) in enumerate(all_widths):
            total = int((scaled_l * scaled_w * demand).sum())
            boards = -(-total // (limit_l * limit_w))
            if boards > best:
                best = boards
                source = BoundFrom.AREA if n == m == 0 else BoundFrom.SCALES
    return best, source
