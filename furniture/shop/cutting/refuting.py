"""A bound board by board: every cheaper choice of boards and kept matches is refuted, or stands.

A small integer program picks the cheapest choice of boards, parts to boards, and matches to keep.
Each board of that choice is asked whether its parts can lie on it at all; a "cannot" is brought
down to the fewest parts that cannot, becomes a rule of the program, and it picks again. What it
picks costs no more than any plan, so it is a bound at every step; it is reached when a plan is as
cheap.

Source: J. N. Hooker, G. Ottosson, "Logic-based Benders decomposition", Mathematical Programming 96
(2003), 33-60: the method; from memory.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from furniture.shop.cutting.blanks import Blank, sequence_blank
from furniture.shop.cutting.conflicts import Tied, boxes_barred, cannot_lie_together
from furniture.shop.cutting.plan import Conflict, Rectangle
from furniture.shop.cutting.preferences import odd_name, zones_meant
from furniture.shop.cutting.values import CuttingRequest, MatchGroup, MatchRule
from furniture.shop.cutting.zones import area_of_board

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

MONEY = 10_000
"""Steps of the program to a unit of money: prices are rounded down to it, so the bound holds."""

MOST_QUESTIONS, MOST_EFFORT = 150, 0.15
"""Boards are asked so often at most, with so much effort of the solver. Own rule: a second."""

_EFFORT, _LONGEST_S = 0.1, 2.0
"""What one pick may take: the solver's own deterministic seconds, and real ones [s]."""


@dataclass(frozen=True, slots=True)
class RefutedBound:
    """No plan that places everything is cheaper [money]; none at all where it cannot be done."""

    price: float
    is_possible: bool
    conflicts: tuple[Conflict, ...]


@dataclass(frozen=True, slots=True)
class _Home:
    """One way to keep a match: on a board, and by a zone of it where the rule names one."""

    match: int
    board: int
    zone: Rectangle | None


@dataclass(frozen=True, slots=True)
class _Asked:
    """A copy that a choice puts on a board, and what in the choice puts it there.

    kinds: what it takes of each kind. home: the match kept that ties it. is_odd: it may stay out.
    """

    tied: Tied
    kinds: tuple[tuple[int, int], ...]
    home: _Home | None = None
    is_odd: bool = False


@dataclass(frozen=True, slots=True)
class _Choice:
    price: float
    is_possible: bool
    asked: dict[int, tuple[_Asked, ...]]


def refuted_bound(
    request: CuttingRequest,
    blanks: tuple[Blank, ...],
    on_board: Sequence[set[int]],
    enough: float,
    is_over: Callable[[], bool],
) -> RefutedBound:
    """The bound for these blanks, sought until it reaches `enough` [money] or time is over.

    Args:
        request: boards, matches and the saw.
        blanks: each part by itself; every one lies on some board alone.
        on_board: for each board the blanks that lie on it alone.
        enough: the price of the best plan known.
        is_over: whether to come back with what is proved so far.
    """
    program = _Program(request, blanks, on_board)
    asking = _Asking(request, is_over)
    conflicts: list[Conflict] = []
    price = 0.0
    while not asking.is_over():
        choice = program.choice()
        if choice is None:
            break
        if not choice.is_possible:
            return RefutedBound(math.inf, False, tuple(conflicts))
        price = max(price, choice.price)
        if price >= enough - 1e-6:
            break
        refuted = False
        for board, asked in choice.asked.items():
            if asking.cannot(board, asked):
                refuted = True
                least = asking.least(board, asked)
                program.forbid(board, least)
                conflicts.append(_conflict(request, board, least))
        if not refuted:
            break
    return RefutedBound(price, True, tuple(conflicts))


class _Asking:
    """Asks boards what cannot lie on them, until it has asked enough."""

    def __init__(self, request: CuttingRequest, is_over: Callable[[], bool]) -> None:
        self._request = request
        self._is_over = is_over
        self._questions = 0
        self._effort = 0.0
        self._barred: dict[tuple[int, str], tuple[Rectangle, ...]] = {}

    def is_over(self) -> bool:
        """Whether enough was asked, or time is over."""
        enough = self._questions >= MOST_QUESTIONS or self._effort >= MOST_EFFORT
        return enough or self._is_over()

    def cannot(self, board: int, asked: Sequence[_Asked]) -> bool:
        """Whether it is certain that these cannot lie together on the board."""
        if self.is_over():
            return False
        tied = [each.tied for each in asked]
        barred = [self._boxes(board, each.blank) for each in tied]
        whole, saw = self._request.boards[board], self._request.saw
        answer = cannot_lie_together(whole, tied, barred, saw)
        self._questions += 1
        self._effort += answer.effort
        return answer.cannot

    def _boxes(self, board: int, blank: Blank) -> tuple[Rectangle, ...]:
        key = (board, blank.name)
        if key not in self._barred:
            self._barred[key] = boxes_barred(self._request.boards[board], blank, self._request.saw)
        return self._barred[key]

    def least(self, board: int, asked: tuple[_Asked, ...]) -> tuple[_Asked, ...]:
        """The fewest of those asked for that still cannot; the smallest are left out first."""
        least = list(asked)
        for each in sorted(asked, key=lambda one: one.tied.blank.area):
            fewer = [other for other in least if other is not each]
            if fewer and self.cannot(board, fewer):
                least = fewer
        return tuple(least)


def _conflict(request: CuttingRequest, board: int, least: Sequence[_Asked]) -> Conflict:
    parts = Counter(member.part.name for each in least for member in each.tied.blank.members)
    homes = {each.home.match for each in least if each.home is not None}
    return Conflict(
        board=request.boards[board].name,
        parts=tuple(parts.items()),
        matches=tuple(request.matches[index].name for index in sorted(homes)),
    )


class _Program:
    """Picks the cheapest choice that no conflict found so far forbids."""

    def __init__(
        self, request: CuttingRequest, blanks: tuple[Blank, ...], on_board: Sequence[set[int]]
    ) -> None:
        from ortools.sat.python import cp_model

        self._request = request
        self._model = cp_model.CpModel()
        self._kinds, self._fits = _kinds(blanks, on_board)
        self._index = {_label(kind): number for number, kind in enumerate(self._kinds)}
        self._counts: dict[tuple[int, int], cp_model.IntVar] = {}
        self._at_least: dict[tuple[int, int, int], cp_model.IntVar] = {}
        self._homes: dict[_Home, cp_model.IntVar] = {}
        self._odd_out: dict[int, cp_model.IntVar] = {}
        self._alike = _alike(request)
        self._state()

    def _state(self) -> None:
        model, boards = self._model, self._request.boards
        begun = [model.new_bool_var(f"begun {b}") for b in range(len(boards))]
        for number, kind in enumerate(self._kinds):
            for b in self._fits[number]:
                count = model.new_int_var(0, kind.quantity, f"{number} on {b}")
                self._counts[number, b] = count
                model.add(count <= kind.quantity * begun[b])
            here = [self._counts[number, b] for b in self._fits[number]]
            model.add(sum(here) == kind.quantity)
        for b, board in enumerate(boards):
            area = [
                int(self._kinds[k].area) * count
                for (k, at), count in self._counts.items()
                if at == b
            ]
            if area:
                model.add(sum(area) <= math.ceil(area_of_board(board)))
        cost = [int(board.price * MONEY) * begun[b] for b, board in enumerate(boards)]
        for index, match in enumerate(self._request.matches):
            kept = self._keeping(index, match)
            if kept is None:
                continue
            if match.price is None:
                model.add(kept == 1)
            else:
                cost.append(int(match.price * MONEY) * (1 - kept))
        model.minimize(sum(cost))

    def _keeping(self, index: int, match: MatchGroup) -> cp_model.IntVar | None:
        """Whether the match is kept; None where nothing is asked of the places."""
        model, request = self._model, self._request
        fixed = match.rule in (MatchRule.CENTRED_ON_FIGURE, MatchRule.EQUAL_PALE_EDGES)
        if fixed and len(match.members) > 1:
            return None
        parts = {part.name: part for part in request.parts}
        odd = odd_name(match, parts) if len(match.members) > 1 else None
        sequence = match.rule is MatchRule.IN_SEQUENCE
        kept = model.new_bool_var(f"kept {index}")
        out = model.new_bool_var(f"odd out {index}")
        if odd is None or sequence:
            model.add(out == 0)
        self._odd_out[index] = out
        homes = []
        for b, board in enumerate(request.boards):
            zones: list[Rectangle | None] = [None]
            if match.rule in (MatchRule.SAME_ZONE, MatchRule.CENTRED_ON_FIGURE):
                zones = [zone for _, zone in zones_meant(match, board)]
            for zone in dict.fromkeys(zones):
                counts = Counter(match.members)
                members = {name: self._of_part(name) for name in counts}
                elsewhere = any(b not in self._fits[kind] for kind in members.values())
                if elsewhere and (odd is None or sequence):
                    continue
                home = model.new_bool_var(f"home {index} {b}")
                self._homes[_Home(index, b, zone)] = home
                homes.append(home)
                for name, count in counts.items():
                    here = self._counts.get((members[name], b), 0)
                    spared = out if name == odd else 0
                    model.add(here + spared >= count).only_enforce_if(home)
        model.add(sum(homes) == kept)
        return kept

    def _of_part(self, name: str) -> int:
        return next(n for n, k in enumerate(self._kinds) if k.members[0].part.name == name)

    def choice(self) -> _Choice | None:
        """The cheapest choice; None when it is not known to be the cheapest."""
        from ortools.sat.python import cp_model

        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = _EFFORT
        solver.parameters.max_time_in_seconds = _LONGEST_S
        status = solver.solve(self._model)
        if status == cp_model.INFEASIBLE:
            return _Choice(math.inf, False, {})
        if status != cp_model.OPTIMAL:
            return None
        kept = [home for home, variable in self._homes.items() if solver.boolean_value(variable)]
        asked: dict[int, tuple[_Asked, ...]] = {}
        for b in range(len(self._request.boards)):
            counts = Counter(
                {k: solver.value(count) for (k, at), count in self._counts.items() if at == b}
            )
            if sum(counts.values()):
                homes = [home for home in kept if home.board == b]
                out = {m: bool(solver.value(variable)) for m, variable in self._odd_out.items()}
                asked[b] = self._asked(counts, homes, out)
        return _Choice(solver.objective_value / MONEY, True, asked)

    def _asked(
        self, counts: Counter[int], homes: Sequence[_Home], out: dict[int, bool]
    ) -> tuple[_Asked, ...]:
        """Every copy on a board once: sequences whole, those a zone ties, then the rest."""
        left, asked = Counter(counts), []
        for home in homes:
            match = self._request.matches[home.match]
            members = Counter(self._of_part(name) for name in match.members)
            if match.rule is MatchRule.IN_SEQUENCE:
                if members - left:
                    continue
                left -= members
                whole = self._sequence(match)
                asked.append(_Asked(Tied(whole), tuple(members.items()), home))
            elif home.zone is not None:
                asked += self._tied(home, match, left, out[home.match])
        for kind, count in left.items():
            asked += [_Asked(Tied(self._kinds[kind]), ((kind, 1),))] * count
        return tuple(asked)

    def _tied(
        self, home: _Home, match: MatchGroup, left: Counter[int], is_out: bool
    ) -> list[_Asked]:
        parts = {part.name: part for part in self._request.parts}
        odd = odd_name(match, parts) if len(match.members) > 1 else None
        asked, zone = [], home.zone
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
            corner = _corner(match, zone, blank)
            asked.append(_Asked(Tied(blank, corner), ((kind, 1),), home, is_odd=name == odd))
        return asked

    def _sequence(self, match: MatchGroup) -> Blank:
        return sequence_blank(
            match, {part.name: part for part in self._request.parts}, self._request.saw.kerf
        )

    def forbid(self, board: int, least: Sequence[_Asked]) -> None:
        """No later choice puts all of these on the board, or on another like it."""
        counts: Counter[int] = Counter()
        for each in least:
            counts.update(dict(each.kinds))
        for b in self._alike[board]:
            literals = [~self._reaches(kind, b, count) for kind, count in counts.items()]
            for each in least:
                if each.home is not None:
                    home = _Home(each.home.match, b, each.home.zone)
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


def _kinds(
    blanks: tuple[Blank, ...], on_board: Sequence[set[int]]
) -> tuple[list[Blank], list[list[int]]]:
    """Blanks of one part and strip as one, and the boards that each lies on alone."""
    kinds: dict[tuple[str, int], Blank] = {}
    fits: dict[tuple[str, int], list[int]] = {}
    for index, blank in enumerate(blanks):
        label = _label(blank)
        before = kinds[label].quantity if label in kinds else 0
        kinds[label] = replace(blank, quantity=before + blank.quantity, groups=())
        fits[label] = [b for b, on in enumerate(on_board) if index in on]
    return list(kinds.values()), list(fits.values())


def _alike(request: CuttingRequest) -> list[list[int]]:
    """For each board the boards that are like it in all but name and price."""
    bare = [replace(board, name="", price=0.0, description="") for board in request.boards]
    return [[b for b, other in enumerate(bare) if other == board] for board in bare]


def _corner(match: MatchGroup, zone: Rectangle, blank: Blank) -> Rectangle:
    """Where the near corner of the blank may be for the match [mm]; inside out if nowhere."""
    if match.rule is MatchRule.CENTRED_ON_FIGURE:
        reach = match.tolerance
        return Rectangle(
            x=zone.x + (zone.length - blank.length) / 2 - reach,
            y=zone.y + (zone.width - blank.width) / 2 - reach,
            length=2 * reach,
            width=2 * reach,
        )
    return Rectangle(
        x=zone.x, y=zone.y, length=zone.length - blank.length, width=zone.width - blank.width
    )
