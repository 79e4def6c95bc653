"""The least price of boards that could hold all parts, whatever the layout: a bound to prove by.

Every part goes to one board; on each board, for each pair of conservative scales (`scales.py`), the
parts' scaled areas are at most the board's. A small integer program finds the cheapest such choice.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from furniture.shop.cutting.beds import Bed, FirstCut, Ground
from furniture.shop.cutting.blanks import Blank, narrowest_on
from furniture.shop.cutting.plan import BoundKind, Conflict
from furniture.shop.cutting.scales import heaviest_pairs
from furniture.shop.cutting.solving import solved
from furniture.shop.cutting.values import Board, CuttingRequest, names_by_kind
from furniture.shop.cutting.zones import (
    TOUCH,
    area_of_board,
    is_square,
    usable_frame,
)

MONEY, FINE, FINE_UP_TO = 10_000, 1_000_000, 10.0
"""Steps of the program to a unit of money, and to a share of a board; weights above so much, areas,
are whole already."""

MOST_PAIRS, FEWEST_PAIRS, MOST_WEIGHTS = 49, 4, 200_000
"""Pairs of scales that the program knows of a kind of board: fewer where they would be so many
weights in all. Own rule: a second."""

MOST_COLUMNS = 10_000
"""With more ways for a part to go to a kind of board the bound is by area alone. Own rule: as
above."""

_Row = tuple[dict[int, float], float, float]
"""What columns weigh in a rule, and the least and the most that it allows."""


@dataclass(frozen=True, slots=True)
class CoverBound:
    """No plan that places everything costs less than `price` [money].

    impossible: indices of blanks that lie on no board, even alone.
    conflicts: what rules out cheaper choices, when they were refuted board by board.
    """

    price: float
    kind: BoundKind
    impossible: tuple[int, ...]
    all_may_fit: bool
    conflicts: tuple[Conflict, ...] = ()


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
) -> CoverBound:
    """The bound for these blanks; found within about `seconds` [s] or weaker but still true.

    What is cut only if it pays may be left out at its worth. With more than `most_columns` ways for
    a part to go to a kind of board it is by area alone.
    """
    kinds = _kinds(request.boards, on_board)
    somewhere = set().union(*on_board) if on_board else set()
    nowhere = [i for i in range(len(blanks)) if i not in somewhere]
    impossible = tuple(i for i in nowhere if blanks[i].is_must)
    lost = sum(blanks[i].quantity * blanks[i].worth for i in nowhere)
    placeable = [i for i in range(len(blanks)) if i in somewhere]
    if not placeable:
        return CoverBound(lost, BoundKind.COUNT, impossible, not impossible)
    column: dict[tuple[int, int], int] = {}
    for k, kind in enumerate(kinds):
        for i in placeable:
            if i in kind.holds:
                column[i, k] = len(column)
    musts = [blanks[i] for i in placeable if blanks[i].is_must]
    wood = sum(each.length * each.least_width * each.quantity for each in musts)
    by_area = CoverBound(
        lost + _price_of_wood(kinds, wood), BoundKind.AREA, impossible, not impossible
    )
    if len(column) > most_columns:
        return by_area
    pairs = max(FEWEST_PAIRS, min(MOST_PAIRS, MOST_WEIGHTS // len(column)))
    y_from = len(column)
    out_from = y_from + len(kinds)
    extras = [i for i in placeable if not blanks[i].is_must]
    out = {i: out_from + n for n, i in enumerate(extras)}
    rows: list[_Row] = []
    for i in placeable:
        row = {column[i, k]: 1.0 for k in range(len(kinds)) if (i, k) in column}
        if i in out:
            row[out[i]] = 1.0
        rows.append((row, float(blanks[i].quantity), float(blanks[i].quantity)))
    for k, kind in enumerate(kinds):
        here = {i: column[i, k] for i in placeable if i in kind.holds}
        rows.extend(_kind_rows(request, blanks, kind.board, here, y_from + k, pairs))
    uppers = [float(blanks[i].quantity) for i, _ in column]
    uppers += [float(kind.count) for kind in kinds]
    uppers += [float(blanks[i].quantity) for i in extras]
    costs = [0.0] * y_from + [kind.board.price for kind in kinds]
    costs += [blanks[i].worth for i in extras]
    bound = _least_whole(costs, uppers, rows, max(0.05, seconds))
    if bound is None:
        return CoverBound(0.0, BoundKind.CONSERVATIVE_SCALES, impossible, False)
    by_scales = CoverBound(
        lost + max(0.0, bound), BoundKind.CONSERVATIVE_SCALES, impossible, not impossible
    )
    return by_scales if by_scales.price >= by_area.price - 1e-6 else by_area


def _price_of_wood(kinds: Sequence[_Kind], area: float) -> float:
    """What so much wood [mm^2] costs at least, off the boards that are cheapest by area [money]."""
    price = 0.0
    for kind in sorted(kinds, key=lambda each: each.board.price / area_of_board(each.board)):
        wood = area_of_board(kind.board) * kind.count
        price += kind.board.price * kind.count * min(1.0, max(0.0, area) / wood)
        area -= wood
    return price


def _least_whole(
    costs: Sequence[float], uppers: Sequence[float], rows: Sequence[_Row], seconds: float
) -> float | None:
    """A lower bound on the cost of whole numbers from 0 to `uppers`; None where there are none.

    The program knows whole numbers only: what columns weigh is rounded down and what a rule allows
    up, so that the bound still holds.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    columns = [model.new_int_var(0, round(upper), f"{n}") for n, upper in enumerate(uppers)]
    for row, low, high in rows:
        heaviest = max((abs(weight) for weight in row.values()), default=0.0)
        steps = FINE if heaviest <= FINE_UP_TO else 1
        weighed = sum(math.floor(w * steps + 1e-9) * columns[n] for n, w in row.items())
        if low > -math.inf:
            model.add(weighed >= math.floor(low * steps))
        model.add(weighed <= math.ceil(high * steps - 1e-9))
    money = [
        math.floor(cost * MONEY + 1e-6) * column
        for cost, column in zip(costs, columns, strict=True)
    ]
    model.minimize(sum(money))
    solver, status = solved(model, seconds, max(1.0, seconds))
    if status == cp_model.INFEASIBLE:
        return None
    bound = solver.best_objective_bound / MONEY
    return bound if math.isfinite(bound) else 0.0


def _kinds(boards: Sequence[Board], on_board: Sequence[set[int]]) -> list[_Kind]:
    """Boards that are alike as one kind: what holds of one holds of the sum of several."""
    holds = {board.name: on for board, on in zip(boards, on_board, strict=True)}
    alike = names_by_kind(boards)
    return [_Kind(kind, len(names), holds[names[0]]) for kind, names in alike.items()]


def _kind_rows(
    request: CuttingRequest,
    blanks: tuple[Blank, ...],
    board: Board,
    column: dict[int, int],
    begun: int,
    pairs: int,
) -> list[_Row]:
    """What the boards begun of one kind hold at most.

    Args:
        column: of each blank that lies on it, by its index.
        begun: column of how many are begun.
        pairs: of scales at most.
    """
    kerf = request.saw.kerf_mm
    frame = usable_frame(board, request.saw)
    here = {i: narrowest_on(board, blanks[i], request.saw) for i in column}
    rows: list[_Row] = []
    for i, blank in here.items():
        rows.append(({column[i]: 1.0, begun: -float(blank.quantity)}, -math.inf, 0.0))
    area = {column[i]: blank.area for i, blank in here.items()}
    rows.append(({**area, begun: -area_of_board(board)}, -math.inf, TOUCH))
    shares = {
        i: (
            (blank.length + kerf) / (frame.length + kerf),
            (blank.width + kerf) / (frame.width + kerf),
        )
        for i, blank in here.items()
        if not blank.may_turn
    }
    straight = list(shares)
    lengths, widths = (np.array([shares[i][n] for i in straight]) for n in (0, 1))
    wanted = np.array([here[i].quantity for i in straight], float)
    for weights in heaviest_pairs(lengths, widths, wanted, pairs):
        mass = {column[i]: float(w) for i, w in zip(straight, weights, strict=True) if w > 0}
        if mass:
            rows.append(({**mass, begun: -1.0}, -math.inf, 1e-7))
    return rows
