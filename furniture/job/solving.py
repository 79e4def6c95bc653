"""The figures of a design's lengths at which its built piece has the sizes that it must have."""

from __future__ import annotations

import inspect
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from furniture.errors import DesignError
from furniture.job.equations import Equation
from furniture.job.figures import Sizes, rooms_of, sizes_of
from furniture.job.levers import Lever, levers_of, with_lever
from furniture.pieces import Piece
from furniture.rules import ShopRules

PROBE_MM = 0.1
"""How far a length is moved to see what it moves [mm]."""
CLOSE_MM = 1e-6
"""How near a solved design comes to what was measured [mm]."""
LEAST_RATE = 1e-3
"""A size that goes with a length by less than this does not go with it [mm a mm]."""
_MOST_ROUNDS = 12


class Buildable(Protocol):
    """A design that can be built; one that knows measured thicknesses takes those too."""

    def build(self, rules: ShopRules | None = None) -> Piece: ...


Rates = Mapping[str, Mapping[tuple[str, int], float]]
"""How fast every size goes with every lever that moves one, by the lever's name [mm a mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """A built design, the sizes of its parts, and its openings and gaps [mm]."""

    piece: Piece
    sizes: Sizes


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """Equations that are met, each by a lever of its own.

    Args:
        equations: that are met.
        levers: one for each.
        values: their figures [mm].
        design: with them.
        known: built from it.
    """

    equations: tuple[Equation, ...] = ()
    levers: tuple[Lever, ...] = ()
    values: tuple[float, ...] = ()
    design: Buildable
    known: Known


class Solver:
    """A design whose lengths may give.

    `refused` says of each lever that was tried why the design cannot be built with it.
    """

    def __init__(
        self, design: Buildable, rules: ShopRules | None, thicknesses: Mapping[str, float]
    ) -> None:
        self._design, self._rules, self._thicknesses = design, rules, thicknesses
        self.start = Met(design=design, known=self._built(design))
        self.levers = {each.name: each for each in levers_of(design)}
        self.refused: dict[str, str] = {}
        self._rates: dict[str, dict[tuple[str, int], float]] = {}

    def _built(self, design: Buildable) -> Known:
        if not self._thicknesses:
            piece = design.build(self._rules)
        else:
            piece = design.build(self._rules, thicknesses=self._thicknesses)  # type: ignore[call-arg]
        return Known(piece=piece, sizes={**sizes_of(piece), **rooms_of(piece)})

    def with_equation(self, met: Met, equation: Equation, lever: Lever) -> Met | None:
        """All that is met and one more, by Newton's method; None where there is no way.

        Args:
            met: what is met already.
            equation: besides.
            lever: that gives for it.
        """
        equations, levers = (*met.equations, equation), (*met.levers, lever)
        slopes = self._slopes(equations, levers)
        values = np.array([*met.values, lever.value_mm])
        targets = np.array([each.target_mm for each in equations])
        last: tuple[np.ndarray, np.ndarray] | None = None
        for _ in range(_MOST_ROUNDS):
            tried = self._with(levers, values)
            if tried is None:
                return None
            design, known = tried
            if any(each.at not in known.sizes for each in equations):
                return None
            missing = targets - [known.sizes[each.at] for each in equations]
            if np.abs(missing).max() <= CLOSE_MM:
                return Met(
                    equations=equations,
                    levers=levers,
                    values=tuple(float(each) for each in values),
                    design=design,
                    known=known,
                )
            if last is not None:  # Broyden: the slopes agree with what the last step really did
                step, before = last
                off = (before - missing) - slopes @ step
                slopes = slopes + np.outer(off, step) / float(step @ step)
            if np.linalg.matrix_rank(slopes, tol=LEAST_RATE) < len(values):
                return None
            step = np.linalg.solve(slopes, missing)
            last, values = (step, missing), values + step
        return None

    def _slopes(self, equations: Sequence[Equation], levers: Sequence[Lever]) -> np.ndarray:
        rates = self.rates
        return np.array(
            [[rates[lever.name].get(each.at, 0.0) for lever in levers] for each in equations]
        )

    def _with(self, levers: Sequence[Lever], values: np.ndarray) -> tuple[Buildable, Known] | None:
        design = self._design
        pairs = zip(levers, values, strict=True)
        # A rule gives before one of those that it is for, which is then stated by itself.
        for lever, value in sorted(pairs, key=lambda pair: len(pair[0].paths[0])):
            if value <= 0 < lever.value_mm:
                return None
            design = with_lever(design, lever, float(value))
        try:
            return design, self._built(design)
        except DesignError as error:
            first = error.problems[0]
            self.refused[levers[-1].name] = f"{first.parameter}: {first.why}"
            return None

    @property
    def rates(self) -> Rates:
        """How fast every size goes with every lever that moves one."""
        if not self._rates:
            for name, lever in self.levers.items():
                for by in (PROBE_MM, -PROBE_MM):
                    found = self._probed(lever, by)
                    if found is not None:
                        self._rates[name] = found
                        break
        return self._rates

    def _probed(self, lever: Lever, by: float) -> dict[tuple[str, int], float] | None:
        was = self.start.known.sizes
        try:
            sizes = self._built(with_lever(self._design, lever, lever.value_mm + by)).sizes
        except DesignError:
            return None
        return {
            at: (size - was[at]) / by
            for at, size in sizes.items()
            if at in was and abs(size - was[at]) > LEAST_RATE * PROBE_MM
        }


def takes_thicknesses(design: Buildable) -> bool:
    """Whether a design's builder takes the thickness of one part alone."""
    return "thicknesses" in inspect.signature(design.build).parameters
