"""The cheapest choice of boards, of parts to boards and of matches to keep, as a small program."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from furniture.shop.cutting.blanks import Blank, narrowest_on, sequence_blank, single_pieces
from furniture.shop.cutting.conflicts import LEAST_S, Confined
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.preferences import odd_name, zones_meant
from furniture.shop.cutting.solving import MONEY, in_steps, solved
from furniture.shop.cutting.values import CuttingRequest, MatchGroup, MatchRule
from furniture.shop.cutting.zones import area_of_board

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

_EFFORT, _LONGEST_S = 0.1, 2.0
"""What one choice may take: the solver's own deterministic seconds, and real ones [s]."""


@dataclass(frozen=True, slots=True)
class MatchHome:
    """One way to keep a match: on a board, and by a zone of it where the rule names one."""

    match: int
    board: int
    zone: Rectangle | None


@dataclass(frozen=True, slots=True)
class Demand:
    """A copy that a choice puts on a board, and what in the choice puts it there.

    kinds: what it takes of each kind. home: the match kept that ties it. is_odd: it may stay out.
    """

    confined: Confined
    kinds: tuple[tuple[int, int], ...]
    home: MatchHome | None = None
    is_odd: bool = False


@dataclass(frozen=True, slots=True)
class Choice:
    """What it costs [money], whether there is any, and what each board is asked to hold."""

    price: float
    is_possible: bool
    demands: dict[int, tuple[Demand, ...]]


class Program:
    """Picks the cheapest choice that no conflict found so far forbids."""

    def __init__(
        self, request: CuttingRequest, blanks: tuple[Blank, ...], on_board: Sequence[set[int]]
    ) -> None:
        from ortools.sat.python import cp_model

        self._request = request
        self._model = cp_model.CpModel()
        self._kinds = single_pieces(blanks)
        fits = {
            _label(blank): [b for b, on in enumerate(on_board) if index in on]
            for index, blank in enumerate(blanks)
        }
        self._fits = [fits[_label(kind)] for kind in self._kinds]
        self._index = {_label(kind): number for number, kind in enumerate(self._kinds)}
        self._counts: dict[tuple[int, int], cp_model.IntVar] = {}
        self._at_least: dict[tuple[int, int, int], cp_model.IntVar] = {}
        self._homes: dict[MatchHome, cp_model.IntVar] = {}
        self._odd_out: dict[int, cp_model.IntVar] = {}
        self._alike = _alike(request)
        self._state()

    def _state(self) -> None:
        model, boards = self._model, self._request.boards
        begun = [model.new_bool_var(f"begun {b}") for b in range(len(boards))]
        left_out: list[cp_model.LinearExpr] = []
        for number, kind in enumerate(self._kinds):
            for b in self._fits[number]:
                count = model.new_int_var(0, kind.quantity, f"{number} on {b}")
                self._counts[number, b] = count
                model.add(count <= kind.quantity * begun[b])
            here = [self._counts[number, b] for b in self._fits[number]]
            if kind.is_must:
                model.add(sum(here) == kind.quantity)
            else:
                out = model.new_int_var(0, kind.quantity, f"{number} left out")
                model.add(sum(here) + out == kind.quantity)
                left_out.append(in_steps(kind.worth) * out)
        for b, board in enumerate(boards):
            area = [
                int(narrowest_on(board, self._kinds[k], self._request.saw).area_mm2) * count
                for (k, at), count in self._counts.items()
                if at == b
            ]
            if area:
                model.add(sum(area) <= math.ceil(area_of_board(board)))
        cost = [in_steps(board.price) * begun[b] for b, board in enumerate(boards)] + left_out
        for index, match in enumerate(self._request.matches):
            kept = self._keeping(index, match)
            if kept is None:
                continue
            if match.price is None:
                model.add(kept == 1)
            else:
                cost.append(in_steps(match.price) * (1 - kept))
        model.minimize(sum(cost))

    def _keeping(self, index: int, match: MatchGroup) -> cp_model.IntVar | None:
        """Whether the match is kept; None where nothing is asked of the places."""
        model, request = self._model, self._request
        if match.rule.fixes_place and len(match.members) > 1:
            return None
        odd = odd_name(match, request.part_named)
        sequence = match.rule is MatchRule.IN_SEQUENCE
        kept = model.new_bool_var(f"kept {index}")
        out = model.new_bool_var(f"odd out {index}")
        if odd is None or sequence:
            model.add(out == 0)
        self._odd_out[index] = out
        homes = []
        for b, board in enumerate(request.boards):
            zones: list[Rectangle | None] = [None]
            if match.rule.asks_for_zone:
                zones = [zone for _, zone in zones_meant(match, board)]
            for zone in dict.fromkeys(zones):
                counts = Counter(match.members)
                members = {name: self._of_part(name) for name in counts}
                elsewhere = any(b not in self._fits[kind] for kind in members.values())
                if elsewhere and (odd is None or sequence):
                    continue
                home = model.new_bool_var(f"home {index} {b}")
                self._homes[MatchHome(index, b, zone)] = home
                homes.append(home)
                for name, count in counts.items():
                    here = self._counts.get((members[name], b), 0)
                    spared = out if name == odd else 0
                    model.add(here + spared >= count).only_enforce_if(home)
        model.add(sum(homes) == kept)
        return kept

    def _of_part(self, name: str) -> int:
        return next(n for n, k in enumerate(self._kinds) if k.members[0].part.name == name)

    def choice(self, seconds: float) -> Choice | None:
        """The cheapest choice within so many seconds; None when none is known to be it."""
        from ortools.sat.python import cp_model

        longest = min(_LONGEST_S, max(LEAST_S, seconds))
        solver, status = solved(self._model, _EFFORT, longest)
        if status == cp_model.INFEASIBLE:
            return Choice(math.inf, False, {})
        if status != cp_model.OPTIMAL:
            return None
        kept = [home for home, variable in self._homes.items() if solver.boolean_value(variable)]
        demands: dict[int, tuple[Demand, ...]] = {}
        for b in range(len(self._request.boards)):
            counts = Counter(
                {k: solver.value(count) for (k, at), count in self._counts.items() if at == b}
            )
            if sum(counts.values()):
                homes = [home for home in kept if home.board == b]
                out = {m: bool(solver.value(variable)) for m, variable in self._odd_out.items()}
                demands[b] = self._demands(counts, homes, out)
        return Choice(solver.objective_value / MONEY, True, demands)

    def _demands(
        self, counts: Counter[int], homes: Sequence[MatchHome], out: dict[int, bool]
    ) -> tuple[Demand, ...]:
        """Every copy on a board once: sequences whole, those a zone ties, then the rest."""
        left, demands = Counter(counts), []
        for home in homes:
            match = self._request.matches[home.match]
            members = Counter(self._of_part(name) for name in match.members)
            if match.rule is MatchRule.IN_SEQUENCE:
                if members - left:
                    continue
                left -= members
                whole = self._sequence(match)
                demands.append(Demand(Confined(whole), tuple(members.items()), home))
            elif home.zone is not None:
                demands += self._in_zone(home, match, left, out[home.match])
        for kind, count in left.items():
            demands += [Demand(Confined(self._kinds[kind]), ((kind, 1),))] * count
        return tuple(demands)

    def _in_zone(
        self, home: MatchHome, match: MatchGroup, left: Counter[int], is_out: bool
    ) -> list[Demand]:
        odd = odd_name(match, self._request.part_named)
        demands, zone = [], home.zone
        spared = 1 if is_out else 0
        for name in match.members:
            kind = self._of_part(name)
            blank = self._kinds[kind]
            if name == odd and spared:
                spared = 0
                continue
            if blank.may_turn or zone is None or left[kind] <= 0:
                continue
            left[kind] -= 1
            board = self._request.boards[home.board]
            corner = _corner(match, zone, narrowest_on(board, blank, self._request.saw))
            demands.append(Demand(Confined(blank, corner), ((kind, 1),), home, is_odd=name == odd))
        return demands

    def _sequence(self, match: MatchGroup) -> Blank:
        return sequence_blank(match, self._request.part_named, self._request.saw.kerf_mm)

    def forbid(self, board: int, least: Sequence[Demand]) -> None:
        """No later choice puts all of these on the board, or on another like it."""
        counts: Counter[int] = Counter()
        for each in least:
            counts.update(dict(each.kinds))
        for b in self._alike[board]:
            literals = [~self._reaches(kind, b, count) for kind, count in counts.items()]
            for each in least:
                if each.home is not None:
                    home = MatchHome(each.home.match, b, each.home.zone)
                    literals.append(~self._homes[home])
                if each.is_odd and each.home is not None:
                    literals.append(self._odd_out[each.home.match])
            self._model.add_bool_or(literals)

    def _reaches(self, kind: int, board: int, count: int) -> cp_model.IntVar:
        key = (kind, board, count)
        if key not in self._at_least:
            literal = self._model.new_bool_var(f"{kind} on {board} {count} times")
            self._model.add(self._counts[kind, board] >= count).only_enforce_if(literal)
            self._model.add(self._counts[kind, board] < count).only_enforce_if(~literal)
            self._at_least[key] = literal
        return self._at_least[key]


def _label(blank: Blank) -> tuple[str, int]:
    return blank.members[0].part.name, blank.members[0].strip


def _alike(request: CuttingRequest) -> list[list[int]]:
    """For each board the boards that are like it in all but name and price."""
    woods = [board.wood for board in request.boards]
    return [[b for b, other in enumerate(woods) if other == wood] for wood in woods]


def _corner(match: MatchGroup, zone: Rectangle, blank: Blank) -> Rectangle:
    """Where the near corner of the blank may be for the match [mm]; inside out if nowhere."""
    if match.rule is MatchRule.CENTRED_ON_FIGURE:
        reach = match.tolerance_mm
        return Rectangle(
            x_mm=zone.x_mm + (zone.length_mm - blank.length_mm) / 2 - reach,
            y_mm=zone.y_mm + (zone.width_mm - blank.width_mm) / 2 - reach,
            length_mm=2 * reach,
            width_mm=2 * reach,
        )
    return Rectangle(
        x_mm=zone.x_mm,
        y_mm=zone.y_mm,
        length_mm=zone.length_mm - blank.length_mm,
        width_mm=zone.width_mm - blank.width_mm,
    )
