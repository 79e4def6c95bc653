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

from furniture.shop.cutting.classic.limited import Fillings, counts_of
from furniture.shop.cutting.classic.master import CoveringMaster
from furniture.shop.cutting.classic.scales import least_boards
from furniture.shop.cutting.classic.strips import BIASES, StripBeam
from furniture.shop.cutting.classic.unlimited import value_table
from furniture.shop.cutting.classic.values import Answer, BoundFrom, Item, Laying, Panel, Report

QUICK_WIDTH = 256
"""Widest beam run before the columns are priced."""

ENOUGH = 1 + 1e-6
"""What a board must be worth to be added."""
MOST_KEPT = 512
"""Most fillings kept per size when pricing."""

Board = tuple[Laying, ...]


@dataclass(slots=True)
class _Search:
    panel: Panel
    items: Sequence[Item]
    demand: NDArray[np.int64]
    beam: StripBeam
    fillings: Fillings
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
    beam = StripBeam(panel, items, seed)
    state = _Search(
        panel=panel,
        items=items,
        demand=demand,
        beam=beam,
        fillings=Fillings(panel, items),
        deadline=started + seconds,
        dice=random.Random(seed),
        best=[(Laying(item=k, x=0, y=0),) for k in range(len(items)) for _ in range(demand[k])],
        bound=bound,
        bound_from=source,
    )
    width = 1
    while not state.is_over and width <= QUICK_WIDTH:
        _beam_round(state, width, 0.0, started + 0.3 * seconds)
        width *= 2
        if time.monotonic() - started > 0.15 * seconds:
            break
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
                state.best = [tuple(board) for board in boards]


def _columns(
    state: _Search, started: float, seconds: float, width: int, report: Report | None
) -> None:
    _unlimited_bound(state, started + 0.35 * seconds)
    master = CoveringMaster(state.demand)
    for column in master.columns:
        k = int(np.argmax(column))
        state.layouts[column.tobytes()] = (Laying(item=k, x=0, y=0),)
    for board in state.best:
        _add(state, master, board)
    _priced(state, master, state.demand, started + 0.5 * seconds, 10**6)
    number = 0
    while not state.is_over:
        if report is not None and not report(
            len(state.best), state.bound, time.monotonic() - started
        ):
            return
        _dive(state, master, number)
        number += 1
        if number % 4 == 0:
            width *= 2
            _beam_round(state, width, 0.05, state.deadline)


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
) -> None:
    """Add fillings worth more than a board until none is found, raising the bound on the way."""
    whole = left is state.demand
    keep = 2
    for _ in range(rounds):
        if time.monotonic() > deadline or (whole and state.is_over):
            return
        value, prices = master.solve()
        if whole:
            _raise_bound(state, prices, value)
        grown = 0
        boards, is_exact = state.fillings.best_boards(prices, left, ENOUGH, keep)
        for board in boards:
            grown += _add(state, master, board)
        if grown:
            continue
        if is_exact and not boards:
            if whole:
                _keep_bound(state, float(prices @ state.demand) / ENOUGH)
            return
        keep *= 4
        if keep > MOST_KEPT or keep > state.fillings.most_kept or not whole:
            return


def _raise_bound(state: _Search, prices: NDArray[np.float64], value: float) -> None:
    if math.ceil(value - 1e-6) <= state.bound:
        return
    table = value_table(state.panel, state.items, prices)
    worth = float(table.best[-1, -1])
    _keep_bound(state, float(prices @ state.demand) / max(worth, 1e-9))


def _unlimited_bound(state: _Search, deadline: float) -> None:
    """Raise the bound by pricing boards whose copies are not limited: quick, a little weaker."""
    master = CoveringMaster(state.demand)
    while time.monotonic() < deadline and not state.is_over:
        value, prices = master.solve()
        if math.ceil(value - 1e-6) <= state.bound:
            return
        table = value_table(state.panel, state.items, prices)
        worth = float(table.best[-1, -1])
        _keep_bound(state, value / max(worth, 1e-9))
        column = counts_of(table, state.panel, state.items, prices)
        if worth <= ENOUGH or not master.add(column):
            return


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
        if _finished(state, fixed, left):
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
                state.best = [*fixed, *(tuple(board) for board in boards)]
                return True
    return False
