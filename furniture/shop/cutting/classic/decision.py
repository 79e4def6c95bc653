"""Whether all items can be cut from one board: a layout, a proof that none exists, or neither."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from enum import Enum
from threading import Event

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.beam import beam_of, layings_of
from furniture.shop.cutting.classic.limited import Fillings, IsOver, exact_price_bound
from furniture.shop.cutting.classic.perfect import is_exact_fill, perfect_layout
from furniture.shop.cutting.classic.scales import best_scales, least_boards
from furniture.shop.cutting.classic.values import BoundFrom, Item, Laying, Panel
from furniture.shop.cutting.strip_beam import BIASES

SLACK = 1e-5
"""Values are sums of areas or shares of them; closer than this they are equal."""
MANY_PIECES = 26
"""Pieces from which the beam gets most of the time, since an exhausted search is unlikely."""

TOO_MANY_PIECES = 60
"""Pieces from which an exhausted search is not to be hoped for at all."""
IN_HAND = 0.93
"""Share of the time given to the search: the last step may run a little past its end."""

Way = tuple[NDArray[np.float64], NDArray[np.float64]]
"""Values and prices of the items to search with."""
Ways = list[Way]
Found = tuple[list[Laying], bool]
"""The layings of the best board found, and whether nothing better can have been missed."""


class Verdict(Enum):
    """The three answers."""

    YES = "yes"
    NO = "no"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The verdict, the layout when yes, and what proves it."""

    verdict: Verdict
    layings: tuple[Laying, ...]
    proof: BoundFrom


def fits_one_board(panel: Panel, items: Sequence[Item], *, seconds: float = 10.0) -> Decision:
    """Whether every copy of every item can be cut from the panel by edge-to-edge cuts.

    seconds [s]: gives up as UNKNOWN. A NO always comes from a bound or an exhausted search.
    """
    started = time.monotonic()
    seconds *= IN_HAND
    deadline = started + seconds
    too_large = any(i.length > panel.length or i.width > panel.width for i in items)
    boards, source = least_boards(panel, items)
    if too_large or boards > 1:
        return Decision(verdict=Verdict.NO, layings=(), proof=source)
    pieces = sum(i.quantity or 0 for i in items)
    share = 0.6 if pieces > MANY_PIECES else 0.05
    if pieces > TOO_MANY_PIECES:
        share = 0.9
    look_until = started + share * seconds
    if is_exact_fill(panel, items):
        layout = perfect_layout(panel, items, look_until)
    else:
        layout = _by_beam(panel, items, look_until)
    if layout is not None:
        return Decision(verdict=Verdict.YES, layings=layout, proof=BoundFrom.SEARCH)
    search = Fillings(panel, items)
    wanted = np.array([i.quantity or 0 for i in items], np.int64)
    if (search.limits != wanted).any():
        return Decision(verdict=Verdict.NO, layings=(), proof=BoundFrom.AREA)
    ways = _weights(panel, items, wanted, deadline=started + 0.25 * seconds)
    if ways is None:
        return Decision(verdict=Verdict.NO, layings=(), proof=BoundFrom.PRICES)
    return _exhausted(panel, items, ways, deadline)


def _exhausted(panel: Panel, items: Sequence[Item], ways: Ways, deadline: float) -> Decision:
    """Two searches that may end with a proof, one on each core; the first answer stops the other.

    One keeps the fillings of the highest value, the other those that can still use every copy.
    """
    found = Event()

    def is_over() -> bool:
        return found.is_set() or time.monotonic() > deadline

    def lane(look: Callable[[Fillings, Way, int, IsOver], Found]) -> Decision | None:
        search = Fillings(panel, items)
        decision = _widened(search, ways, look, is_over)
        if decision is not None:
            found.set()
        return decision

    with ThreadPoolExecutor(max_workers=2) as pool:
        for decision in pool.map(lane, (_by_value, _by_copies)):
            if decision is not None:
                return decision
    return Decision(verdict=Verdict.UNKNOWN, layings=(), proof=BoundFrom.NOTHING)


def _widened(
    search: Fillings,
    ways: Ways,
    look: Callable[[Fillings, Way, int, IsOver], Found],
    is_over: IsOver,
) -> Decision | None:
    """The first proof, keeping four times as many fillings each round."""
    pieces = int(search.limits.sum())
    keep = 4
    while not is_over():
        keep = min(keep, search.most_kept)
        for way in ways:
            layings, exact = look(search, way, keep, is_over)
            if len(layings) == pieces:
                layout = tuple(layings)
                return Decision(verdict=Verdict.YES, layings=layout, proof=BoundFrom.SEARCH)
            if exact:
                return Decision(verdict=Verdict.NO, layings=(), proof=BoundFrom.SEARCH)
        if keep == search.most_kept:
            return None
        keep *= 4
    return None


def _by_value(search: Fillings, way: Way, keep: int, is_over: IsOver) -> Found:
    values, prices = way
    total = float(values @ search.limits)
    _, layings, exact = search.run(values, prices, total - SLACK, keep, is_over)
    return layings, exact


def _by_copies(search: Fillings, way: Way, keep: int, is_over: IsOver) -> Found:
    layings, exact = search.run_for_all(*way, keep, is_over)
    return layings or [], exact


def _by_beam(panel: Panel, items: Sequence[Item], deadline: float) -> tuple[Laying, ...] | None:
    beam = beam_of(panel, items, 1)
    width = 1
    while time.monotonic() < deadline and width <= 1 << 15:
        for rip_first in (True, False):
            for bias in BIASES:
                boards = beam.run(
                    width,
                    1,
                    rip_first=rip_first,
                    bias=bias,
                    noise=0.02 if width > 1 else 0.0,
                    deadline=deadline,
                )
                if boards is not None:
                    return layings_of(boards[0])
        width *= 4
    return None


def _weights(
    panel: Panel, items: Sequence[Item], wanted: NDArray[np.int64], deadline: float
) -> Ways | None:
    """Values and prices to search with, the tightest bound first; None when a bound says no."""
    board = float(panel.length * panel.width)
    areas = np.array([float(i.length * i.width) for i in items])
    starts = [shares * board for _, shares in best_scales(panel, items)[:2]]
    ways: list[tuple[float, NDArray[np.float64], NDArray[np.float64]]] = []
    for values in [areas, *starts[:1]]:
        total = float(values @ wanted)
        bound = exact_price_bound(panel, items, values, wanted, deadline=deadline)
        if bound.value < total - 1e-4:
            return None
        ways.append((bound.value - total, values, bound.prices))
        ways.append((board - total, values, np.zeros(len(items))))
    ways.sort(key=lambda way: way[0])
    return [(values, prices) for _, values, prices in ways]
