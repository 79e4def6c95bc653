"""Boards as they were cut in any packing found, chosen anew together: the best of all of them.

A pattern is one board cut up: which pieces come off a board of its kind, and where they lie.
Whatever packing it came from, it can be sawn. A small integer program covers what is wanted by the
cheapest patterns, no kind of board more often than it is there; what would be cut too often is left
uncut on its board.

Source: M. Monaci, P. Toth, "A set-covering-based heuristic approach for bin-packing problems",
INFORMS Journal on Computing 18 (2006), 71-85: the method; from memory.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from furniture.shop.cutting.plan import Placement, by_board
from furniture.shop.cutting.solving import solved
from furniture.shop.cutting.values import CuttingRequest, names_by_kind

MONEY = 1000
"""Steps of the program to a unit of money."""

MOST_PATTERNS = 4000
"""More patterns are not kept: those that hold most are. Own rule."""

_EFFORT = 1.0
"""What one choice may take: the solver's own deterministic seconds."""

Piece = tuple[str, int]
"""A part's name and its strip."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """A board cut up: its kind, how often each piece comes off it, and where [mm]."""

    kind: int
    counts: tuple[tuple[Piece, int], ...]
    placements: tuple[Placement, ...]
    area: float


class Patterns:
    """The patterns seen so far for one request, and the choice among them."""

    def __init__(self, request: CuttingRequest) -> None:
        self._request = request
        kinds = names_by_kind(request.boards)
        self._names = list(kinds.values())
        self._prices = [kind.price for kind in kinds]
        self._kind_of = {name: k for k, names in enumerate(self._names) for name in names}
        self._wanted = {
            (part.name, strip): part.quantity for part in request.parts for strip, _ in part.pieces
        }
        self._worths = {
            part.name: (part.worth, part.quantity)
            for part in request.parts
            if part.worth is not None
        }
        self._seen: dict[tuple[int, tuple[tuple[Piece, int], ...]], Pattern] = {}
        self._chosen_from = 0

    def add(self, placements: Iterable[Placement]) -> None:
        """Note every board of a packing that can be sawn."""
        for name, here in by_board(placements).items():
            counts = Counter((each.part, each.strip) for each in here)
            kind, key = self._kind_of[name], tuple(sorted(counts.items()))
            if (kind, key) not in self._seen:
                area = sum(each.place.area_mm2 for each in here)
                self._seen[kind, key] = Pattern(kind, key, tuple(here), area)

    @property
    def boards(self) -> Iterator[tuple[Placement, ...]]:
        """Every board noted so far, as it is cut up."""
        return (each.placements for each in self._seen.values())

    @property
    def is_grown(self) -> bool:
        """Whether patterns came in since the last choice."""
        return len(self._seen) > self._chosen_from

    def choice(self, under: float, seconds: float) -> tuple[Placement, ...] | None:
        """The cheapest cover of all that is wanted for less than a price; None where none is found.

        Args:
            under: what its boards, and copies that it leaves out, have to cost less than [money].
            seconds: to look for it at most [s].
        """
        from ortools.sat.python import cp_model

        self._chosen_from = len(self._seen)
        patterns = sorted(self._seen.values(), key=lambda each: -each.area)[:MOST_PATTERNS]
        model = cp_model.CpModel()
        times = [
            model.new_int_var(0, len(self._names[each.kind]), f"{n}")
            for n, each in enumerate(patterns)
        ]
        holding: dict[Piece, list[cp_model.LinearExpr]] = defaultdict(list)
        of_kind: dict[int, list[cp_model.IntVar]] = defaultdict(list)
        for each, often in zip(patterns, times, strict=True):
            of_kind[each.kind].append(often)
            for piece, count in each.counts:
                holding[piece].append(count * often)
        left = {
            name: model.new_int_var(0, quantity, f"left out {name}")
            for name, (_, quantity) in self._worths.items()
        }
        for piece, quantity in self._wanted.items():
            if not holding[piece] and piece[0] not in left:
                return None
            model.add(sum(holding[piece]) + left.get(piece[0], 0) >= quantity)
        for kind, some in of_kind.items():
            model.add(sum(some) <= len(self._names[kind]))
        price = sum(
            round(self._prices[each.kind] * MONEY) * often
            for each, often in zip(patterns, times, strict=True)
        ) + sum(round(self._worths[name][0] * MONEY) * copies for name, copies in left.items())
        model.add(price <= math.ceil(under * MONEY - 1e-6) - 1)
        model.minimize(price)
        solver, status = solved(model, _EFFORT, max(0.1, seconds))
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return None
        chosen = [
            each
            for each, often in zip(patterns, times, strict=True)
            for _ in range(solver.value(often))
        ]
        return self._laid(chosen)

    def _laid(self, chosen: Sequence[Pattern]) -> tuple[Placement, ...]:
        """The chosen patterns on boards of their kinds, without what is cut too often."""
        free = [list(names) for names in self._names]
        left = dict(self._wanted)
        placements = []
        for pattern in sorted(chosen, key=lambda each: -each.area):
            name = free[pattern.kind].pop(0)
            for each in pattern.placements:
                piece = (each.part, each.strip)
                if left[piece] > 0:
                    left[piece] -= 1
                    placements.append(replace(each, board=name))
        return tuple(placements)
