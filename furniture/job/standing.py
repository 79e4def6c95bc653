"""Measured stands over designed: which figures of the design give, so that what is cut is right."""

from __future__ import annotations

import inspect
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Protocol

import numpy as np

from furniture.errors import DesignError, Problem
from furniture.job.contradictions import contradiction, cut_contradiction, none_moves, other_free
from furniture.job.done import CutMoved, Disturbed, Done, Moved, disturbed
from furniture.job.equations import Equation, Why
from furniture.job.figures import Figure, Sizes, designed_mm, play_of_openings, sizes_of
from furniture.job.levers import Lever, levers_of, with_lever
from furniture.pieces import Piece
from furniture.pieces.piece import placed_named
from furniture.rules import ShopRules

PROBE_MM = 0.1
"""How far a length is moved to see what it moves [mm]."""
CLOSE_MM = 1e-6
"""How near a solved design comes to what was measured [mm]."""
_MOST_ROUNDS = 12
_MOST_TRIED = 6
_LEAST_RATE = 1e-3


class Buildable(Protocol):
    """A design that can be built; one that knows measured thicknesses takes those too."""

    def build(self, rules: ShopRules | None = None) -> Piece: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """A length that could give for an equation: its new figure, what it changes and what breaks.

    Args:
        lever: the parameter.
        to_mm: its new figure [mm].
        changed: parts that come out otherwise than designed.
        broken: done parts among them that would not be right any more.
    """

    lever: Lever
    to_mm: float
    changed: tuple[str, ...]
    broken: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gave:
    """What gave for one equation, and what else could have.

    Args:
        equation: that is met.
        choice: that was taken; None where it took nothing, or the part alone has that thickness.
        others: that would have done, the least disturbing first.
    """

    equation: Equation
    choice: Choice | None
    others: tuple[Choice, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stands:
    """The design as what is measured and done leaves it.

    Args:
        design: with the figures that gave.
        thicknesses: of instances that are not as thick as their stock [mm].
        piece: built from both.
        designed: the piece as the script has it.
        gave: for each figure that was measured, then for each done one that had to be held.
    """

    design: Buildable
    thicknesses: Mapping[str, float]
    piece: Piece
    designed: Piece
    gave: tuple[Gave, ...]


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
    return _Search(design, measured, done, free or {}, rules).found()


@dataclass(slots=True)
class _Known:
    """A built design and its figures."""

    piece: Piece
    sizes: Sizes


@dataclass(slots=True)
class _Taken:
    """Equations with the lever of each, and the figures that meet them all."""

    equations: list[Equation] = field(default_factory=list)
    levers: list[Lever] = field(default_factory=list)
    values: list[float] = field(default_factory=list)


class _Search:
    def __init__(
        self,
        design: Buildable,
        measured: Mapping[Figure, float],
        done: Done,
        free: Mapping[str, str],
        rules: ShopRules | None,
    ) -> None:
        self._design, self._done, self._free, self._rules = design, done, free, rules
        self._thicknesses: dict[str, float] = {}
        self._designed = self._built(design)
        self._plays = play_of_openings(self._designed.piece)
        self._given = dict(measured)
        self._measured = {
            (figure.instance, figure.axis): value - self._play(figure)
            for figure, value in measured.items()
        }
        self._thicknesses = self._own_thicknesses()
        self._start = self._built(design) if self._thicknesses else self._designed
        self._levers = {each.name: each for each in levers_of(design)}
        self._refused: dict[str, str] = {}
        self._rates: dict[str, dict[tuple[str, int], float]] = {}

    def _play(self, figure: Figure) -> float:
        return self._plays[figure.instance, figure.axis] if figure.is_opening else 0.0

    def _built(self, design: Buildable) -> _Known:
        if not self._thicknesses:
            piece = design.build(self._rules)
        else:
            piece = design.build(self._rules, thicknesses=self._thicknesses)  # type: ignore[call-arg]
        return _Known(piece, sizes_of(piece))

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
            told = {name: self._measured[name, 2] for name in names if (name, 2) in self._measured}
            if len(told) < len(names) or max(told.values()) - min(told.values()) > CLOSE_MM:
                own |= told
        takes = "thicknesses" in inspect.signature(self._design.build).parameters
        if own and not takes:
            raise DesignError(_takes_no_thickness(name, self._designed.sizes) for name in own)
        return own

    def found(self) -> Stands:
        gave: list[Gave] = []
        taken, now = _Taken(), self._start
        design = self._design
        waiting = [
            Equation(figure=figure, target_mm=self._measured[figure.instance, figure.axis],
                     given_mm=value, why=Why.MEASURED)
            for figure, value in self._given.items()
        ]  # fmt: skip
        for each in list(waiting):
            if each.figure.axis == 2 and each.figure.instance in self._thicknesses:
                waiting.remove(each)
                gave.append(Gave(equation=each, choice=None))
        while True:
            for each in list(waiting):
                if abs(now.sizes[each.at] - each.target_mm) <= CLOSE_MM:
                    waiting.remove(each)
                    gave.append(Gave(equation=each, choice=None))
            if not waiting:
                waiting = self._to_hold(now, taken)
                if not waiting:
                    break
            equation = waiting.pop(0)
            taken, now, design, told = self._met(equation, taken, now)
            gave.append(told)
        self._refuse_missed(now)
        return Stands(
            design=design,
            thicknesses=dict(self._thicknesses),
            piece=now.piece,
            designed=self._designed.piece,
            gave=tuple(gave),
        )

    def _refuse_missed(self, now: _Known) -> None:
        """What a later equation has moved away again contradicts it."""
        for (instance, axis), target in self._measured.items():
            if abs(now.sizes[instance, axis] - target) > 10 * CLOSE_MM:
                figure = next(f for f in self._given if (f.instance, f.axis) == (instance, axis))
                raise DesignError([none_moves(figure, self._given[figure],
                                              self._designed_mm(figure), self._shown)])  # fmt: skip

    @property
    def _shown(self):  # type: ignore[no-untyped-def]
        return self._designed.piece.shown

    def _designed_mm(self, figure: Figure) -> float:
        return designed_mm(figure, self._designed.sizes, self._plays)

    def _broken(self, now: _Known) -> tuple[Disturbed, ...]:
        return disturbed(self._done, self._designed.piece, now.piece, self._measured)

    def _to_hold(self, now: _Known, taken: _Taken) -> list[Equation]:
        """A done size that has to be held, the first of them.

        Raises:
            DesignError: a done cut is not right any more, and no size is there to be held.
        """
        broken = self._broken(now)
        held = {each.at for each in taken.equations}
        for each in broken:
            if isinstance(each, Moved) and (each.instance, each.axis) not in held:
                figure = Figure(instance=each.instance, axis=each.axis)
                return [Equation(figure=figure, target_mm=each.was_mm, given_mm=each.was_mm,
                                 why=Why.DONE)]  # fmt: skip
        cuts = [each for each in broken if isinstance(each, CutMoved)]
        if cuts:
            raise DesignError([cut_contradiction(cuts, self._too_much(cuts), self._shown)])
        return []

    def _too_much(self, cuts: Sequence[CutMoved]) -> list[tuple[Figure, float, float]]:
        """The measured figures without which fewer cuts would be wrong, given and designed."""
        found = []
        for figure, given in self._given.items():
            rest = {each: value for each, value in self._given.items() if each != figure}
            alone = _Search(self._design, rest, {}, self._free, self._rules)
            try:
                now = alone.found().piece
            except DesignError:
                continue
            known = _Known(now, sizes_of(now))
            if not set(cuts) <= set(self._broken(known)):
                found.append((figure, given, self._designed_mm(figure)))
        if not found:
            found = [
                (f, v, self._designed_mm(f))
                for f, v in self._given.items()
                if abs(v - self._designed_mm(f)) > CLOSE_MM
            ]
        return found

    def _met(
        self, equation: Equation, taken: _Taken, now: _Known
    ) -> tuple[_Taken, _Known, Buildable, Gave]:
        """The equation met besides those that are, by the lever that disturbs least."""
        rates = self._probed()
        moving = {
            name: rate
            for name, moves in rates.items()
            if abs(rate := moves.get(equation.at, 0.0)) > _LEAST_RATE
            and name not in {lever.name for lever in taken.levers}
        }
        wanted = self._free.get(equation.figure.key)
        if wanted is not None and wanted not in moving:
            raise DesignError([other_free(equation, wanted, list(moving), list(self._levers))])
        names = [wanted] if wanted is not None else sorted(
            moving, key=lambda name: abs(abs(moving[name]) - 1.0)
        )[:_MOST_TRIED]  # fmt: skip
        self._refused = {}
        tried = [each for name in names if (each := self._tried(equation, taken, name)) is not None]
        if not tried:
            if not taken.equations and equation.why is Why.MEASURED and not moving:
                was = self._designed_mm(equation.figure)
                raise DesignError(
                    [none_moves(equation.figure, equation.given_mm, was, self._shown)]
                )
            raise DesignError([self._contradiction(equation, taken, now)])
        tried.sort(key=lambda each: (len(each[3].broken), len(each[3].changed)))
        found, known, design, choice = tried[0]
        others = tuple(each[3] for each in tried[1:])
        return found, known, design, Gave(equation=equation, choice=choice, others=others)

    def _contradiction(self, equation: Equation, taken: _Taken, now: _Known) -> Problem:
        rows = {
            each.at: np.array([moves.get(each.at, 0.0) for moves in self._probed().values()])
            for each in (equation, *taken.equations)
        }
        others = [
            Equation(figure=figure, target_mm=value, given_mm=value, why=Why.DONE)
            for name, of in self._done.items()
            for axis in sorted(of.axes)
            for figure in [Figure(instance=name, axis=axis)]
            for value in [placed_named(self._designed.piece, name).part.blank.size[axis]]
            if (name, axis) not in rows and (name, axis) not in self._measured
        ]
        rows |= {
            each.at: np.array([moves.get(each.at, 0.0) for moves in self._probed().values()])
            for each in others
        }
        return contradiction(
            equation, taken.equations, others, rows, self._start.sizes, self._shown, self._refused
        )

    def _tried(
        self, equation: Equation, taken: _Taken, name: str
    ) -> tuple[_Taken, _Known, Buildable, Choice] | None:
        lever = self._levers[name]
        asked = _Taken(
            equations=[*taken.equations, equation],
            levers=[*taken.levers, lever],
            values=[*taken.values, lever.value_mm],
        )
        solved = self._solved(asked)
        if solved is None:
            return None
        found, known, design = solved
        broken = self._broken(known)
        was = self._designed
        changed = tuple(
            each.instance
            for each in was.piece.placed
            if not _is_equal(each.part, placed_named(known.piece, each.instance).part)
        )
        choice = Choice(
            lever=lever,
            to_mm=found.values[-1],
            changed=changed,
            broken=tuple(dict.fromkeys(each.instance for each in broken)),
        )
        return found, known, design, choice

    def _solved(self, asked: _Taken) -> tuple[_Taken, _Known, Buildable] | None:
        """Newton's method with the rates of the probe, made better by each step; None: no way."""
        rates = self._probed()
        slopes = np.array(
            [[rates[lever.name].get(each.at, 0.0) for lever in asked.levers]
             for each in asked.equations]
        )  # fmt: skip
        values = np.array(asked.values)
        targets = np.array([each.target_mm for each in asked.equations])
        last: tuple[np.ndarray, np.ndarray] | None = None
        for _ in range(_MOST_ROUNDS):
            design = self._design
            for lever, value in zip(asked.levers, values, strict=True):
                if value <= 0 < lever.value_mm:
                    return None
                design = with_lever(design, lever, float(value))
            try:
                known = self._built(design)
                missing = targets - [known.sizes[each.at] for each in asked.equations]
            except DesignError as error:
                first = error.problems[0]
                self._refused[asked.levers[-1].name] = f"{first.parameter}: {first.why}"
                return None
            except KeyError:
                return None
            if np.abs(missing).max() <= CLOSE_MM:
                return replace_values(asked, values), known, design
            if last is not None:  # Broyden: the slopes agree with what the last step really did
                step, before = last
                off = (before - missing) - slopes @ step
                slopes = slopes + np.outer(off, step) / float(step @ step)
            if np.linalg.matrix_rank(slopes, tol=_LEAST_RATE) < len(values):
                return None
            step = np.linalg.solve(slopes, missing)
            last, values = (step, missing), values + step
        return None

    def _probed(self) -> Mapping[str, Mapping[tuple[str, int], float]]:
        """How fast every size goes with every lever that moves one."""
        if not self._rates:
            for name, lever in self._levers.items():
                for by in (PROBE_MM, -PROBE_MM):
                    try:
                        moved = with_lever(self._design, lever, lever.value_mm + by)
                        sizes = self._built(moved).sizes
                    except DesignError:
                        continue
                    self._rates[name] = {
                        at: (size - self._start.sizes[at]) / by
                        for at, size in sizes.items()
                        if at in self._start.sizes
                        and abs(size - self._start.sizes[at]) > _LEAST_RATE * PROBE_MM
                    }
                    break
        return self._rates


def replace_values(asked: _Taken, values: np.ndarray) -> _Taken:
    """The same with its levers' figures."""
    return replace(asked, values=[float(each) for each in values])


def _is_equal(one, two) -> bool:  # type: ignore[no-untyped-def]
    from furniture.parts.part import work_key

    return work_key(one)[3:] == work_key(two)[3:]


def _takes_no_thickness(name: str, sizes: Sizes) -> Problem:
    return Problem(
        parameter=f"measured '{name}.thickness'",
        given="a thickness of its own",
        allowed="that of its stock, measured on all its parts",
        why="this design's builder takes no thickness of one part alone",
        remedy=f"plane it to {sizes[name, 2]:g} mm, or give it a stock of its own in the script",
    )
