"""Conservative scales: sizes made larger or smaller so that what lies together still does.

A scale gives every share of a board's length (or width) another share, such that shares that sum to
at most one still do. Whatever the layout, scaled lengths times scaled widths sum to at most one
board.

Source: S. P. Fekete, J. Schepers, "A general framework for bounds for higher-dimensional
orthogonal packing problems", Mathematical Methods of Operations Research 60 (2004), 311-329:
u(k) and U(epsilon); J. Carlier, F. Clautiaux, A. Moukrim, "New reduction procedures and lower
bounds for the two-dimensional bin packing problem with fixed orientation", Computers & Operations
Research 34 (2007), 2223-2250: the third, from memory.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

MOST_THRESHOLDS = 60
"""Tried along one axis at most. Own rule: those of the largest sizes say most."""

MOST_ROUNDINGS = 7
"""u(k) is tried up to this k. Own rule."""

_NEAR, _BESIDE = 1e-9, 1e-7
"""Shares so near are the same; a threshold lies so far beside the size that it is taken from."""

Shares = NDArray[np.float64]


def scaled_shares(shares: Shares) -> Shares:
    """The shares under every scale worth trying, a row for each; the first row is the shares."""
    rows = [shares, *(_rounded(shares, k) for k in range(1, MOST_ROUNDINGS + 1))]
    for threshold in _thresholds(shares):
        rows += [_cut_off(shares, threshold), _counted(shares, threshold)]
    return np.unique(np.array(rows), axis=0) if len(rows) > 1 else np.array(rows)


def heaviest_pairs(
    lengths: Shares, widths: Shares, wanted: Shares, most: int
) -> tuple[NDArray[np.float64], ...]:
    """What every piece weighs, in boards, under the pairs of scales that weigh most in all.

    Args:
        lengths, widths: of each piece, as shares of the board's.
        most: so many pairs at most.
    """
    if not lengths.size:
        return ()
    along, across = scaled_shares(lengths), scaled_shares(widths)
    totals = (along * wanted) @ across.T
    order = np.argsort(-totals, axis=None, kind="stable")[:most]
    rows, columns = np.unravel_index(order, totals.shape)
    return tuple(along[a] * across[b] for a, b in zip(rows, columns, strict=True))


def _thresholds(shares: Shares) -> list[float]:
    """Sizes up to half a board, and what larger ones leave: just beside them, the largest first."""
    small = shares[shares <= 0.5] - _BESIDE
    beside = 1.0 - shares[shares > 0.5] + _BESIDE
    found = np.unique(np.concatenate([small, beside]))
    return [float(t) for t in found[(found > _BESIDE) & (found <= 0.5)][-MOST_THRESHOLDS:]]


def _rounded(shares: Shares, k: int) -> Shares:
    """u(k): rounded down to k-ths, except exact (k+1)-ths."""
    times = (k + 1) * shares
    is_exact = np.abs(times - np.round(times)) < _NEAR
    return np.where(is_exact, shares, np.floor(times) / k)


def _cut_off(shares: Shares, threshold: float) -> Shares:
    """U(epsilon): above 1 - epsilon a whole board, below epsilon nothing."""
    kept = np.where(shares < threshold - _NEAR, 0.0, shares)
    return np.where(shares > 1.0 - threshold + _NEAR, 1.0, kept)


def _counted(shares: Shares, threshold: float) -> Shares:
    """In whole thresholds: small shares rounded down, large ones by what they leave, rounded up."""
    most = np.floor(1.0 / threshold)
    small = 2.0 * np.floor(shares / threshold)
    large = 2.0 * (most - np.floor((1.0 - shares) / threshold))
    halves = np.where(np.abs(shares - 0.5) < _NEAR, most, np.where(shares > 0.5, large, small))
    return halves / (2.0 * most)
