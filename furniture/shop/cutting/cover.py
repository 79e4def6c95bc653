"""The least price of boards that could hold all parts, whatever the layout: a bound to prove by.

Every part goes to one board; on each board, for each pair of conservative scales (`scales.py`), the
parts' scaled areas are at most the board's. A small integer program finds the cheapest such choice.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from furniture.shop.cutting.beds import Bed, FirstCut, Ground
from furniture.shop.cutting.blanks import Blank, narrowest_on
from furniture.shop.cutting.plan import Bound, BoundKind
from furniture.shop.cutting.scales import heaviest_pairs
from furniture.shop.cutting.solving import MONEY, in_steps, solved
from furniture.shop.cutting.values import Board, CuttingRequest, names_by_kind
from furniture.shop.cutting.zones import (
    area_of_board,
    is_square,
    usable_frame,
)

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

FINE = 1_000_000
"""Steps of the program to a share of a board."""

MOST_PAIRS, FEWEST_PAIRS, MOST_WEIGHTS = 49, 4, 200_000
"""Pairs of scales that the program knows of a kind of board: fewer where they would be so many
weights in all. Own rule: a second."""

MOST_COLUMNS = 10_000
"""With more ways for a part to go to a kind of board the bound is by area alone. Own rule: as
above."""


@dataclass(frozen=True, slots=True)
class _Kind:
    """Boards alike in all but name: one of them, how many, and the blanks that lie on it alone."""

    board: Board
    count: int
    holds: set[int]


def fits_alone(
    request: CuttingRequest,
    blanks: tuple[Blank, ...],
    is_over: Callable[[], bool] = lambda: False,
) -> list[set[int]]:
    """For each board the blanks that lie on it somewhere, when they have it to themselves.

    Slanting zones are left out, so that "nowhere" is certain and "somewhere" is hopeful; once time
    is over every blank is hoped to lie on every board.
    """
    known: dict[Board, set[int]] = {}
    fitting: list[set[int]] = []
    for index, whole in enumerate(request.boards):
        wood = whole.wood
        if wood in known:
            fitting.append(known[wood])
            continue
        if is_over():
            fitting.append(set(range(len(blanks))))
            continue
        zones = tuple(z for z in whole.zones if is_square(z.outline))
        board = replace(whole, zones=zones)
        bed = Bed(board=index, frame=usable_frame(board, request.saw))
        ground = Ground(bed, board, blanks, request.saw, FirstCut.RIP)
        on: set[int] = set()
        for pose in ground.poses:
            if pose.blank not in on and ground.lies_somewhere(pose):
                on.add(pose.blank)
        known[wood] = on
        fitting.append(on)
    return fitting


def cheapest_cover(
    request: CuttingRequest,
    blanks: tuple[Blank, ...],
    on_board: list[set[int]],
    seconds: float,
    most_columns: float = MOST_COLUMNS,
) -> Bound:
    """The bound for these blanks; found within about `seconds` [s] or weaker but still true.

    What is cut only if it pays may be left out at its worth. With more than `most_columns` ways for
    a part to go to a kind of board it is by area alone.
    """
    kinds = _kinds(request.boards, on_board)
    somewhere = set().union(*on_board)
    nowhere = [i for i in range(len(blanks)) if i not in somewhere]
    impossible = tuple(i for i in nowhere if blanks[i].is_must)
    lost = sum(blanks[i].quantity * blanks[i].worth for i in nowhere)
    by_area = Bound(
        lost + _price_of_wood(kinds, sum(_least_area(blanks[i]) for i in somewhere)),
        BoundKind.AREA if somewhere else BoundKind.COUNT, not impossible, impossible,
    )  # fmt: skip
    if not 0 < sum(len(kind.holds) for kind in kinds) <= most_columns:
        return by_area
    price = _Cover(request, blanks, kinds).least_price(max(0.05, seconds))
    if price is None:
        return Bound(0.0, BoundKind.CONSERVATIVE_SCALES, False, impossible)
    if lost + price < by_area.price - 1e-6:
        return by_area
    return replace(by_area, price=lost + price, kind=BoundKind.CONSERVATIVE_SCALES)


def _least_area(blank: Blank) -> float:
    """The wood of all copies that must have a place, at their least width [mm^2]."""
    return blank.length_mm * blank.least_width * blank.quantity if blank.is_must else 0.0


def _price_of_wood(kinds: Sequence[_Kind], area: float) -> float:
    """What so much wood [mm^2] costs at least, off the boards that are cheapest by area [money]."""
    price = 0.0
    for kind in sorted(kinds, key=lambda each: each.board.price / area_of_board(each.board)):
        wood = area_of_board(kind.board) * kind.count
        price += kind.board.price * kind.count * min(1.0, max(0.0, area) / wood)
        area -= wood
    return price


def _kinds(boards: Sequence[Board], on_board: Sequence[set[int]]) -> list[_Kind]:
    """Boards that are alike as one kind: what holds of one holds of the sum of several."""
    holds = {board.name: on for board, on in zip(boards, on_board, strict=True)}
    alike = names_by_kind(boards)
    return [_Kind(kind, len(names), holds[names[0]]) for kind, names in alike.items()]


class _Cover:
    """How many of each blank go to each kind of board, and how many boards of each are begun.

    The program knows whole numbers only: what weighs on a board is rounded down and what it holds
    up, so that the bound still holds.
    """

    def __init__(
        self, request: CuttingRequest, blanks: tuple[Blank, ...], kinds: Sequence[_Kind]
    ) -> None:
        from ortools.sat.python import cp_model

        self._request, self._blanks = request, blanks
        self._model = cp_model.CpModel()
        ways = [(i, k) for k, kind in enumerate(kinds) for i in sorted(kind.holds)]
        self._laid = {way: self._whole(blanks[way[0]].quantity) for way in ways}
        begun = [self._whole(kind.count) for kind in kinds]
        costs = [in_steps(kind.board.price) * each for kind, each in zip(kinds, begun, strict=True)]
        for i in sorted({i for i, _ in ways}):
            copies: list[cp_model.LinearExpr] = [self._laid[way] for way in ways if way[0] == i]
            if not blanks[i].is_must:
                left_out = self._whole(blanks[i].quantity)
                copies.append(left_out)
                costs.append(in_steps(blanks[i].worth) * left_out)
            self._model.add(sum(copies) == blanks[i].quantity)
        pairs = max(FEWEST_PAIRS, min(MOST_PAIRS, MOST_WEIGHTS // len(ways)))
        for k, kind in enumerate(kinds):
            self._hold_no_more(k, kind, begun[k], pairs)
        self._model.minimize(sum(costs))

    def _whole(self, most: int) -> cp_model.IntVar:
        return self._model.new_int_var(0, most, "")

    def _hold_no_more(self, k: int, kind: _Kind, begun: cp_model.IntVar, pairs: int) -> None:
        """States what the boards begun of a kind hold at most, by so many pairs of scales."""
        saw = self._request.saw
        kerf, frame = saw.kerf_mm, usable_frame(kind.board, saw)
        here = {i: narrowest_on(kind.board, self._blanks[i], saw) for i in sorted(kind.holds)}
        for i, blank in here.items():
            self._model.add(self._laid[i, k] <= blank.quantity * begun)
        area = sum(math.floor(blank.area_mm2) * self._laid[i, k] for i, blank in here.items())
        self._model.add(area <= math.ceil(area_of_board(kind.board)) * begun)
        straight = [i for i, blank in here.items() if not blank.may_turn]
        lengths = np.array([here[i].length_mm + kerf for i in straight]) / (frame.length_mm + kerf)
        widths = np.array([here[i].width_mm + kerf for i in straight]) / (frame.width_mm + kerf)
        wanted = np.array([here[i].quantity for i in straight], float)
        for weights in heaviest_pairs(lengths, widths, wanted, pairs):
            mass = [math.floor(weight * FINE + 1e-9) for weight in weights]
            if any(mass):
                laid = [self._laid[i, k] for i in straight]
                weighed = sum(w * each for w, each in zip(mass, laid, strict=True) if w)
                self._model.add(weighed <= FINE * begun + 1)

    def least_price(self, seconds: float) -> float | None:
        """What boards and copies left out cost at least [money]; None where nothing holds all."""
        from ortools.sat.python import cp_model

        solver, status = solved(self._model, seconds, max(1.0, seconds))
        if status == cp_model.INFEASIBLE:
            return None
        bound = solver.best_objective_bound / MONEY
        return max(0.0, bound) if math.isfinite(bound) else 0.0
