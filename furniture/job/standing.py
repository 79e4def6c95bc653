"""Measured stands over designed: which figures of the design give, so that what is cut is right."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import dataclass, field

import numpy as np

from furniture.errors import DesignError, Problem
from furniture.job.choices import Choice, Gave, PassedOver
from furniture.job.contradictions import (
    contradiction,
    cut_contradiction,
    none_moves,
    other_free,
    takes_no_thickness,
)
from furniture.job.done import SAME_MM, CutMoved, Disturbed, Done, Moved, disturbed
from furniture.job.equations import Equation, Rooms, Why
from furniture.job.figures import THROUGH, Figure, designed_mm, plays_of, sizes_of, walls_of
from furniture.job.rooms import too_large, with_measured_rooms
from furniture.job.solving import (
    CLOSE_MM,
    LEAST_RATE,
    Buildable,
    Known,
    Met,
    Solver,
    takes_thicknesses,
)
from furniture.parts.part import Part, work_key
from furniture.pieces import Piece
from furniture.pieces.piece import placed_named
from furniture.rules import ShopRules
from furniture.rules.bench import FRAME_OFF

_MOST_TRIED = 6
_MOST_BRANCHES = 24
"""So many choices are gone on with before the first contradiction is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """The design as what is measured and done leaves it.

    Args:
        design: with the figures that gave.
        thicknesses: of instances that are not as thick as their stock [mm].
        piece: built from both.
        designed: the piece as the script has it.
        gave: for each figure that was measured, then for each done one that had to be held.
        as_they_stand: sizes of made parts that are drawn a little otherwise than they were made, by
            instance and part axis: as made and as drawn [mm]. What they frame was measured.
    """

    design: Buildable
    thicknesses: Mapping[str, float]
    piece: Piece
    designed: Piece
    gave: tuple[Gave, ...]
    as_they_stand: Mapping[tuple[str, int], tuple[float, float]] = field(default_factory=dict)


def stands(
    design: Buildable,
    measured: Mapping[Figure, float],
    done: Done,
    free: Mapping[str, str] | None = None,
    rules: ShopRules | None = None,
) -> Stands:
    """The design with every measured figure as it is, and done parts as they are.

    Args:
        design: as the script has it.
        measured: figures of the built piece [mm].
        done: what must stay.
        free: which parameter gives, by the key of what is measured or done.
        rules: the shop's own limits.

    Raises:
        DesignError: nothing moves what was measured, or what is measured and done contradict.
    """
    asked = _Search(design, measured, done, free or {}, rules)
    try:
        found = asked.found()
    except DesignError:
        found = None
        if not asked.has_rooms:
            raise
    if found is not None and (_is_true(found) or not asked.is_framed):
        return found
    try:
        return asked.by(Rooms.FRAME).found()
    except DesignError:
        return found or asked.found()


def _is_true(found: Stands) -> bool:
    """Whether every room is drawn as large as it was measured."""
    faces = (face for joining in found.piece.joinings for face in joining.faces)
    return not any(abs(face.drawn_off_mm) > SAME_MM for face in faces)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Option:
    """A choice for an equation, and what is met with it."""

    choice: Choice
    met: Met


class _Search:
    """Takes the equations one by one, each by the choice that disturbs least; where that comes to
    a contradiction later, by the next."""

    def __init__(
        self,
        design: Buildable,
        measured: Mapping[Figure, float],
        done: Done,
        free: Mapping[str, str],
        rules: ShopRules | None,
        rooms: Rooms = Rooms.PART,
    ) -> None:
        self._design, self._done, self._free, self._rules = design, done, free, rules
        self._rooms = rooms
        whole = Solver(design, rules, {})
        self._designed = whole.start.known
        self._shown = self._designed.piece.shown
        self._plays = plays_of(self._designed.piece)
        self._given = dict(measured)
        own = {(each.instance, each.axis): value for each, value in measured.items()
               if not each.is_room}  # fmt: skip
        self._cut_to = frozenset(
            figure
            for figure in measured
            if (figure.instance, figure.axis) not in own and not self._is_made(figure)
        )
        self._own = own
        self._thicknesses = self._own_thicknesses()
        self._solver = Solver(design, rules, self._thicknesses) if self._thicknesses else whole
        self._branches = 0

    @property
    def has_rooms(self) -> bool:
        """Whether an opening or a gap was measured."""
        return any(each.is_room for each in self._given)

    @property
    def is_framed(self) -> bool:
        """Whether all that stands round the measured rooms is made."""
        rooms = {(each.instance, each.axis) for each in self._given if each.is_room}
        walls = walls_of(self._designed.piece)
        return {each.other for each in walls if (each.instance, each.axis) in rooms} <= (
            self._done.keys()
        )

    def by(self, rooms: Rooms) -> _Search:
        """The same search with rooms met so; what was built is not built again."""
        other = copy(self)
        other._rooms, other._branches = rooms, 0
        return other

    @property
    def _measured(self) -> Mapping[tuple[str, int], float]:
        """Sizes that are as they are [mm]: measured on the part, or in what it is cut to."""
        if self._rooms is Rooms.FRAME:
            return self._own
        return self._own | {
            (figure.instance, figure.axis): self._given[figure] - self._play(figure)
            for figure in self._cut_to
            if figure.is_room
        }

    def _play(self, figure: Figure) -> float:
        return self._plays[figure.instance, figure.axis] if figure.is_room else 0.0

    def _is_made(self, figure: Figure) -> bool:
        """Whether what goes into a room has its size there already: it stays, with other play."""
        of = self._done.get(figure.instance)
        return figure.is_room and of is not None and figure.axis in of.axes

    def _own_thicknesses(self) -> dict[str, float]:
        """Thicknesses of parts alone: not those that all parts of a stock have in common.

        Raises:
            DesignError: the builder takes none.
        """
        by_stock: dict[str, list[str]] = {}
        for each in self._designed.piece.placed:
            by_stock.setdefault(each.part.timber.name, []).append(each.instance)
        own: dict[str, float] = {}
        for names in by_stock.values():
            told = {name: self._own[name, 2] for name in names if (name, 2) in self._own}
            if len(told) < len(names) or max(told.values()) - min(told.values()) > CLOSE_MM:
                own |= told
        if own and not takes_thicknesses(self._design):
            raise DesignError(takes_no_thickness(name, self._designed.sizes) for name in own)
        return own

    def found(self) -> Stands:
        made = {f: value for f, value in self._given.items() if f.is_room and f not in self._cut_to}
        sizes = {**self._designed.sizes, **self._measured}
        problems = too_large(made, sizes, self._shown)
        if problems:
            raise DesignError(problems)
        met, gave = self._onward(self._solver.start, ())
        told = {each.equation.figure: each for each in gave if each.equation.why is Why.MEASURED}
        measured = tuple(
            told.get(each.figure) or Gave(equation=each, choice=None) for each in self._equations()
        )
        held = tuple(each for each in gave if each.equation.why is Why.DONE)
        return Stands(
            design=met.design,
            thicknesses=dict(self._thicknesses),
            piece=with_measured_rooms(met.known.piece, self._given),
            designed=self._designed.piece,
            gave=(*measured, *held),
            as_they_stand={
                (each.instance, each.axis): (each.was_mm, each.now_mm)
                for each in self._off(met.known)
                if isinstance(each, Moved)
            },
        )

    def _onward(self, met: Met, gave: tuple[Gave, ...]) -> tuple[Met, tuple[Gave, ...]]:
        """Everything met, from what is met so far.

        Raises:
            DesignError: no choice leads there; it tells the first contradiction.
        """
        equation = self._next(met)
        if equation is None:
            return met, gave
        options = self._options(equation, met)
        first: DesignError | None = None
        passed: list[PassedOver] = []
        for index, each in enumerate(options):
            if first is not None and self._branches >= _MOST_BRANCHES:
                break
            self._branches += 1
            told = Gave(
                equation=equation,
                choice=each.choice,
                others=tuple(other.choice for other in options[index + 1 :]),
                passed_over=tuple(passed),
            )
            try:
                return self._onward(each.met, (*gave, told))
            except DesignError as error:
                first = first or error
                passed.append(PassedOver(choice=each.choice, why=error.problems[0].why))
        assert first is not None, "there is an option, or it was refused before"
        raise first

    def _equations(self) -> list[Equation]:
        """Of what is measured: the sizes of parts, and rooms, or what is cut to them."""
        found = []
        for figure, value in self._given.items():
            is_of_room = figure.is_room and self._rooms is Rooms.FRAME
            if figure.is_room and not is_of_room and figure not in self._cut_to:
                continue
            at = (figure.instance, figure.axis)
            target = value if is_of_room else self._measured[at]
            found.append(Equation(figure=figure, target_mm=target, given_mm=value,
                                  why=Why.MEASURED, is_of_room=is_of_room))  # fmt: skip
        return found

    def _next(self, met: Met) -> Equation | None:
        """What is not as measured, the first of it; else a done size that has to be held.

        What may stand off for a room's sake stands right for all else: rooms come last there.

        Raises:
            DesignError: a done cut is not right any more, and no size is there to be held.
        """
        unmet = [
            each for each in self._equations()
            if abs(met.known.sizes.get(each.at, math.inf) - each.target_mm) > 10 * CLOSE_MM
        ]  # fmt: skip
        if self._rooms is Rooms.PART:
            return next(iter(unmet), None) or self._to_hold(met, self._broken(met.known))
        sizes = [each for each in unmet if not each.is_of_room]
        if sizes:
            return sizes[0]
        if any(each.is_of_room for each in met.equations):
            return next(iter(unmet), None) or self._to_hold(met, self._spoilt(met.known))
        return self._to_hold(met, self._broken(met.known)) or next(iter(unmet), None)

    def _to_hold(self, met: Met, broken: Sequence[Disturbed]) -> Equation | None:
        held = {each.at for each in met.equations}
        for moved in broken:
            if isinstance(moved, Moved) and (moved.instance, moved.axis) not in held:
                figure = Figure(instance=moved.instance, axis=moved.axis)
                return Equation(
                    figure=figure, target_mm=moved.was_mm, given_mm=moved.was_mm, why=Why.DONE
                )
        cuts = [each for each in broken if isinstance(each, CutMoved)]
        if cuts:
            raise DesignError([cut_contradiction(cuts, self._too_much(cuts), self._shown)])
        return None

    def _designed_mm(self, figure: Figure) -> float:
        return designed_mm(figure, self._designed.sizes, self._plays)

    def _broken(self, now: Known) -> tuple[Disturbed, ...]:
        return disturbed(self._done, self._designed.piece, now.piece, self._measured)

    def _spoilt(self, now: Known) -> tuple[Disturbed, ...]:
        """What is broken beyond what may stand off its drawing."""
        return tuple(each for each in self._broken(now) if not self._may_stand_off(each))

    def _off(self, now: Known) -> tuple[Disturbed, ...]:
        """What stands off its drawing, as far as that is allowed."""
        return tuple(each for each in self._broken(now) if self._may_stand_off(each))

    def _may_stand_off(self, each: Disturbed) -> bool:
        """Whether it is of a frame, along or across, and no more off than a glued frame comes out;
        what goes into a measured room is as it was made, and so is how deep a channel is."""
        rooms = {figure.instance for figure in self._given if figure.is_room}
        if self._rooms is Rooms.PART or each.instance in rooms:
            return False
        most = self._designed.piece.rules[FRAME_OFF]
        if isinstance(each, Moved):
            return each.axis != THROUGH and abs(each.now_mm - each.was_mm) <= most
        is_deeper = abs(each.deeper_mm) > SAME_MM  # however a frame comes out, it stays so
        return (
            bool(each.figures)
            and not is_deeper
            and all(abs(now - was) <= most for _, was, now in each.figures)
        )

    def _too_much(self, cuts: Sequence[CutMoved]) -> list[tuple[Figure, float, float]]:
        """The measured figures without which fewer cuts would be wrong, given and designed."""
        found = []
        for figure, given in self._given.items():
            rest = {each: value for each, value in self._given.items() if each != figure}
            try:
                alone = _Search(self._design, rest, {}, self._free, self._rules).found()
            except DesignError:
                continue
            known = Known(piece=alone.piece, sizes=sizes_of(alone.piece))
            if not set(cuts) <= set(self._broken(known)):
                found.append((figure, given, self._designed_mm(figure)))
        return found or [
            (figure, given, self._designed_mm(figure))
            for figure, given in self._given.items()
            if abs(given - self._designed_mm(figure)) > CLOSE_MM
        ]

    def _options(self, equation: Equation, met: Met) -> list[_Option]:
        """What could give for an equation besides what has given, the least disturbing first.

        Raises:
            DesignError: nothing could.
        """
        taken = {lever.name for lever in met.levers}
        moving = {
            name: rate
            for name, moves in self._solver.rates.items()
            if abs(rate := moves.get(equation.at, 0.0)) > LEAST_RATE and name not in taken
        }
        wanted = self._free.get(equation.figure.key)
        if wanted is not None and wanted not in moving:
            known = list(self._solver.levers)
            raise DesignError([other_free(equation, wanted, list(moving), known)])
        nearest = sorted(moving, key=lambda name: abs(abs(moving[name]) - 1.0))[:_MOST_TRIED]
        self._solver.refused.clear()
        found = [
            option
            for name in ([wanted] if wanted is not None else nearest)
            if (option := self._tried(equation, met, name)) is not None
        ]
        if not found:
            if not met.equations and equation.why is Why.MEASURED and not moving:
                was = self._designed_mm(equation.figure)
                raise DesignError(
                    [none_moves(equation.figure, equation.given_mm, was, self._shown)]
                )
            raise DesignError([self._contradiction(equation, met)])
        return sorted(found, key=lambda each: (len(each.choice.broken), len(each.choice.changed)))

    def _tried(self, equation: Equation, met: Met, name: str) -> _Option | None:
        found = self._solver.with_equation(met, equation, self._solver.levers[name])
        if found is None:
            return None
        was, now = self._designed.piece, found.known.piece
        changed = tuple(
            each.instance
            for each in was.placed
            if not _is_equal(each.part, placed_named(now, each.instance).part)
        )
        moved = self._spoilt if equation.is_of_room else self._broken
        broken = tuple(dict.fromkeys(each.instance for each in moved(found.known)))
        choice = Choice(
            lever=self._solver.levers[name],
            to_mm=found.values[-1],
            changed=changed,
            broken=broken,
        )
        return _Option(choice=choice, met=found)

    def _contradiction(self, equation: Equation, met: Met) -> Problem:
        there = (equation, *met.equations)
        others = [
            Equation(figure=figure, target_mm=value, given_mm=value, why=Why.DONE)
            for name, of in self._done.items()
            for axis in sorted(of.axes)
            for figure in [Figure(instance=name, axis=axis)]
            for value in [placed_named(self._designed.piece, name).part.blank.size[axis]]
            if figure not in {each.figure for each in there} and (name, axis) not in self._measured
        ]
        rows = {
            each.at: np.array([moves.get(each.at, 0.0) for moves in self._solver.rates.values()])
            for each in (*there, *others)
        }
        return contradiction(
            equation, met.equations, others, rows, self._solver.start.known.sizes, self._shown,
            self._solver.refused,
        )  # fmt: skip


def _is_equal(one: Part, two: Part) -> bool:
    """Whether two parts are worked alike, whatever they are called."""
    return work_key(one)[3:] == work_key(two)[3:]
