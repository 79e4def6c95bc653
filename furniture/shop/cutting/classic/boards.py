"""Fewest equal boards for a whole order: beam first, then columns priced by good fillings.

Bound: area, conservative scales, and for any prices on the items their sum over the most that one
board can hold (Farley's bound). Plan: the strip beam, then dives through the columns with the
beam finishing what is left.

Source: A. A. Farley, "A note on bounding a class of linear programming problems, including
cutting stock problems", Operations Research 38 (1990), 922-923.
"""

from __future__ import annotations

import math
import random
import time
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.classic.beam import beam_of, layings_of
from furniture.shop.cutting.classic.limited import Fillings, counts_of
from furniture.shop.cutting.classic.master import CoveringMaster, cover_within
from furniture.shop.cutting.classic.scales import least_boards
from furniture.shop.cutting.classic.two_stage import TwoStageBoards
from furniture.shop.cutting.classic.unlimited import value_table
from furniture.shop.cutting.classic.values import Answer, BoundFrom, Item, Laying, Panel, Report
from furniture.shop.cutting.strip_beam import BIASES, StripBeam

QUICK_WIDTH = 256
"""Widest beam run before the columns are priced."""

COMPLEMENTS = 4
"""Boards added after the best one of a pricing."""
ENRICHING = 8
"""Prices tried to gather boards that are nearly worth it."""
FINISHING = 6
"""Boards left from which the beam tries to finish a dive."""
ENOUGH = 1 + 1e-6
"""What a board must be worth to be added."""
MOST_KEPT = 512
"""Most fillings kept per size when pricing."""

CROWDED = 15
"""Items a board from which the beam alone is better than columns. Own rule from trials."""
ALIKE = 4
"""Copies of a kind on average from which columns are better than the beam alone."""
VAST = 200_000_000
"""Steps of a pricing from which boards are priced in two stages only."""
HUGE = 2_500_000_000
"""Steps of a pricing from which it is not done at all."""
WIDEST = 1 << 15
"""Widest beam; memory grows with it."""

Board = tuple[Laying, ...]


@dataclass(slots=True)
class _Search:
    panel: Panel
    items: Sequence[Item]
    demand: NDArray[np.int64]
    beam: StripBeam
    fillings: Fillings | TwoStageBoards
    is_vast: bool
    full: Fillings | None
    deadline: float
    dice: random.Random
    best: list[Board]
    bound: int
    bound_from: BoundFrom
    layouts: dict[bytes, Board] = field(default_factory=dict)

    @property
    def is_over(self) -> bool:
        return len(self.best) <= self.bound or time.monotonic() > self.deadline


def fewest_boards(
    panel: Panel,
    items: Sequence[Item],
    *,
    seconds: float = 10.0,
    seed: int = 1,
    report: Report | None = None,
) -> Answer:
    """The fewest panels found that hold every copy of every item, with the best bound.

    Every item must fit the panel; seconds [s]: stops with the best so far.
    """
    started = time.monotonic()
    bound, source = least_boards(panel, items)
    demand = np.array([item.quantity or 0 for item in items], np.int64)
    beam = beam_of(panel, items, seed)
    fillings = Fillings(panel, items)
    rows, columns = fillings.ls.size, fillings.ws.size
    steps = rows * columns * (rows + columns)
    vast = steps > VAST
    state = _Search(
        panel=panel,
        items=items,
        demand=demand,
        beam=beam,
        fillings=TwoStageBoards(panel, items) if vast else fillings,
        is_vast=vast,
        full=fillings if vast and steps <= HUGE else None,
        deadline=started + seconds,
        dice=random.Random(seed),
        best=[(Laying(item=k, x=0, y=0),) for k in range(len(items)) for _ in range(demand[k])],
        bound=bound,
        bound_from=source,
    )
    width = 1
    pieces, kinds = int(demand.sum()), int((demand > 0).sum())
    crowded = pieces >= CROWDED * bound and pieces < ALIKE * kinds and not vast
    share = 0.9 if crowded else 0.15
    while not state.is_over and time.monotonic() - started < share * seconds:
        if width > (WIDEST if crowded else QUICK_WIDTH):
            break
        _beam_round(state, width, 0.0, started + 2 * share * seconds)
        width *= 2
    if not state.is_over and (report is None or report(len(state.best), state.bound, 0.0)):
        _columns(state, started, seconds, width, report)
    return Answer(
        boards=tuple(state.best),
        value=len(state.best),
        bound=min(state.bound, len(state.best)),
        bound_from=state.bound_from,
    )


def _beam_round(state: _Search, width: int, noise: float, deadline: float) -> None:
    for rip_first in (True, False):
        for bias in BIASES:
            if state.is_over or time.monotonic() > deadline:
                return
            boards = state.beam.run(
                width,
                len(state.best) - 1,
                rip_first=rip_first,
                bias=bias,
                noise=noise,
                deadline=min(deadline, state.deadline),
            )
            if boards is not None:
                state.best = [layings_of(board) for board in boards]


def _columns(
    state: _Search, started: float, seconds: float, width: int, report: Report | None
) -> None:
    centre = None if state.is_vast else _unlimited_bound(state, started + 0.35 * seconds)
    master = CoveringMaster(state.demand)
    for column in master.columns:
        k = int(np.argmax(column))
        state.layouts[column.tobytes()] = (Laying(item=k, x=0, y=0),)
    for board in state.best:
        _add(state, master, board)
    _priced(state, master, state.demand, started + 0.5 * seconds, 10**6, centre)
    if state.is_vast and state.full is not None and not state.is_over:
        quick, state.fillings = state.fillings, state.full
        _priced(state, master, state.demand, started + 0.6 * seconds, 10**6)
        state.fillings = quick
    number = 0
    covered = 0
    while not state.is_over:
        if report is not None and not report(
            len(state.best), state.bound, time.monotonic() - started
        ):
            return
        if number % 6 == 2 and len(state.layouts) > covered:
            _enrich(state, master)
            covered = len(state.layouts)
            _cover(state, 0.15 * seconds)
        else:
            _dive(state, master, number)
        number += 1
        if number % 4 == 0 and width <= WIDEST:
            width *= 2
            _beam_round(state, width, 0.05, state.deadline)


def _enrich(state: _Search, master: CoveringMaster) -> None:
    """Add boards that are nearly worth it, under the prices and a little beside them."""
    value, prices = master.solve()
    spare = max(0.02, len(state.best) - 1 - value)
    for turn in range(ENRICHING):
        beside = prices
        if turn:
            beside = prices * np.array([state.dice.uniform(0.9, 1.1) for _ in state.items])
        boards, _ = state.fillings.best_boards(
            beside, state.demand, 1 - min(spare, 0.3), 24, state.deadline
        )
        for board in boards:
            _add(state, master, board)
        if time.monotonic() > state.deadline:
            return


def _cover(state: _Search, seconds: float) -> None:
    """Choose whole boards among all fillings seen, dropping what is cut too often."""
    layouts = list(state.layouts.items())
    columns = [np.frombuffer(mark, np.int64) for mark, _ in layouts]
    room = min(seconds, max(0.1, state.deadline - time.monotonic()))
    chosen = cover_within(columns, state.demand, len(state.best) - 1, room, 1)
    if chosen is None:
        return
    left = state.demand.copy()
    boards: list[Board] = []
    for index in chosen:
        kept = []
        for laying in layouts[index][1]:
            if left[laying.item] > 0:
                left[laying.item] -= 1
                kept.append(laying)
        boards.append(tuple(kept))
    state.best = [board for board in boards if board]


def _add(state: _Search, master: CoveringMaster, board: Board) -> bool:
    column = np.zeros(len(state.items), np.int64)
    for laying in board:
        column[laying.item] += 1
    state.layouts.setdefault(column.tobytes(), board)
    return master.add(column)


def _priced(
    state: _Search,
    master: CoveringMaster,
    left: NDArray[np.int64],
    deadline: float,
    rounds: int,
    centre: NDArray[np.float64] | None = None,
) -> None:
    """Add fillings worth more than a board until none is found, raising the bound on the way.

    centre: prices to stay near at first, which steadies the programme's.
    """
    whole = left is state.demand
    keep = 2
    pull = 0.7 if centre is not None else 0.0
    for _ in range(rounds):
        if time.monotonic() > deadline or (whole and state.is_over):
            return
        value, prices = master.solve()
        if whole:
            _raise_bound(state, prices, value)
        beside = prices if centre is None else pull * centre + (1 - pull) * prices
        boards, is_exact = state.fillings.best_boards(beside, left, ENOUGH, keep, deadline)
        grown = sum(_add(state, master, board) for board in boards)
        if grown:
            pull *= 0.85
            if whole and state.fillings is not state.full:
                _complements(state, master, beside, left, boards[0])
            continue
        if pull > 0.01:
            pull *= 0.4
            continue
        if is_exact and not boards:
            if whole:
                _keep_bound(state, float(beside @ state.demand) / ENOUGH)
            return
        keep *= 4
        if keep > MOST_KEPT or keep > state.fillings.most_kept or not whole:
            return


def _complements(
    state: _Search,
    master: CoveringMaster,
    prices: NDArray[np.float64],
    left: NDArray[np.int64],
    first: Board,
) -> int:
    """Add boards from what the first board leaves, then from what those leave."""
    remaining = left.copy()
    board = first
    grown = 0
    for _ in range(COMPLEMENTS):
        for laying in board:
            remaining[laying.item] -= 1
        boards, _ = state.fillings.best_boards(prices, remaining, 0.9, 1, state.deadline)
        if not boards:
            break
        board = boards[0]
        grown += _add(state, master, board)
    return grown


def _raise_bound(state: _Search, prices: NDArray[np.float64], value: float) -> None:
    if state.is_vast or math.ceil(value - 1e-6) <= state.bound:
        return
    table = value_table(state.panel, state.items, prices)
    worth = float(table.best[-1, -1])
    _keep_bound(state, float(prices @ state.demand) / max(worth, 1e-9))


def _unlimited_bound(state: _Search, deadline: float) -> NDArray[np.float64]:
    """Raise the bound by pricing boards whose copies are not limited: quick, a little weaker.

    Returns the last prices.
    """
    prices = np.zeros(len(state.items))
    master = CoveringMaster(state.demand)
    while time.monotonic() < deadline and not state.is_over:
        value, prices = master.solve()
        table = value_table(state.panel, state.items, prices)
        worth = float(table.best[-1, -1])
        _keep_bound(state, value / max(worth, 1e-9))
        column = counts_of(table, state.panel, state.items, prices)
        if worth <= 1 + 1e-3 or not master.add(column):
            break
    return prices


def _keep_bound(state: _Search, boards: float) -> None:
    if math.ceil(boards - 1e-6) > state.bound:
        state.bound = math.ceil(boards - 1e-6)
        state.bound_from = BoundFrom.PRICES


def _dive(state: _Search, master: CoveringMaster, number: int) -> None:
    """Fix columns one after the other, pricing again, the beam trying to finish the rest."""
    left = state.demand.copy()
    fixed: list[Board] = []
    columns = master.useful()
    while left.any() and not state.is_over:
        to_beat = len(state.best)
        local = CoveringMaster(left)
        for column in columns:
            if (column <= left).all():
                local.add(column)
        for column in local.columns:
            state.layouts.setdefault(
                column.tobytes(), (Laying(item=int(np.argmax(column)), x=0, y=0),)
            )
        _priced(state, local, left, state.deadline, 3 if fixed else 1)
        value, _ = local.solve()
        if len(fixed) + math.ceil(value - 1e-6) >= to_beat + (number % 3 == 2):
            return
        shares = local.shares()
        weights = shares * np.array([state.dice.uniform(0.7, 1.3) for _ in range(shares.size)])
        if number == 0:
            weights = shares
        columns = local.useful()
        taken = False
        for index in np.argsort(-weights, kind="stable"):
            column = local.columns[index]
            if taken and shares[index] < 0.999:
                break
            if (column <= left).all():
                fixed.append(state.layouts[column.tobytes()])
                left = left - column
                taken = True
        if len(fixed) >= to_beat - 1 and left.any():
            return
        if not left.any():
            if len(fixed) < to_beat:
                state.best = list(fixed)
            return
        if to_beat - 1 - len(fixed) <= FINISHING and _finished(state, fixed, left):
            return


def _finished(state: _Search, fixed: list[Board], left: NDArray[np.int64]) -> bool:
    room = len(state.best) - 1 - len(fixed)
    for rip_first in (True, False):
        for bias in BIASES[:2]:
            boards = state.beam.run(
                16,
                room,
                rip_first=rip_first,
                bias=bias,
                noise=0.0,
                deadline=state.deadline,
                demand=left.astype(np.int16),
            )
            if boards is not None:
                state.best = [*fixed, *(layings_of(board) for board in boards)]
                return True
    return False
