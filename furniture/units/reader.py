"""Reads the figures of a design and keeps every problem, so that all are reported together.

A figure that cannot be read becomes not-a-number. Comparisons with it are false, so the rules that
follow stay silent about it and still speak of every other figure.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import TypeVar

from furniture.errors import Problem
from furniture.examples import example_of
from furniture.units.amounts import Amounts
from furniture.units.limits import (
    at_least_text,
    at_most_text,
    nearest_as_text,
    outside_as_text,
    range_as_text,
)
from furniture.units.name_reader import NameReader
from furniture.units.reading import (
    ReadingError,
    in_other_units,
    read_angle,
    read_area,
    read_force,
    read_length,
    read_mass,
    read_percent,
)
from furniture.units.showing import Shown, millimetres
from furniture.units.texts import said
from furniture.units.unit_names import LENGTH, MASS, UnitKind
from furniture.units.words import counted, number_meant

_Kind = TypeVar("_Kind")

_SLACK_MM = 1e-6
FAR_OUT = 2.0
"""How many times beyond a limit a figure is taken for a slip of the unit. Own rule."""
HEAVIEST_KG = 300.0
"""The heaviest thing that stands on such a piece [kg]: three people. Own rule; beyond, the unit is
mistaken."""
LIGHTEST_KG = 0.005
"""The lightest thing that counts on a piece [kg]. Own rule."""
_EXAMPLE_MM = 100.0
"""A length to show how one is written where there is no range to choose from [mm]."""


class Reader(NameReader):
    """Collects the problems of one design while its figures are read."""

    def __init__(self, shown: Shown | None = None) -> None:
        super().__init__()
        self.shown = shown or millimetres(0.01)
        self._needs: dict[str, tuple[float, Problem]] = {}
        self._named: dict[str, tuple[str, object]] = {}

    def example(self, name: str) -> str:
        """How one of this class is written, whole, in the unit that is shown."""
        return example_of(name, self.shown.is_inch)

    def each_of(
        self, parameter: str, given: object, kind: type[_Kind], called: str, why: str, by: str = ""
    ) -> Iterator[tuple[str, _Kind]]:
        """Each entry of a parameter that holds several, with what messages call it.

        One of another kind is noted, and so is every name in it that it does not have.

        Args:
            parameter: its name.
            given: what was written.
            kind: what each entry is.
            called: an entry, before its number.
            why: each entry is of that kind.
            by: which of its own parameters tells it from others, too.
        """
        like = self.example(kind.__name__)
        for index, each in enumerate(self.several(parameter, given, kind, like)):
            where = counted(called, index, getattr(each, by, None) if by else None)
            if isinstance(each, kind):
                self.names(f"{where} ", each)
                yield where, each
            else:
                self.refuse(where, said(each), f"a {kind.__name__}", why, f"write {like}")

    def length(
        self,
        parameter: str,
        given: object,
        *,
        at_least: float = -math.inf,
        at_most: float = math.inf,
        why: str = "",
        instead: str = "",
    ) -> float:
        """A length [mm] within [at_least, at_most] [mm], or not-a-number with the problem noted.

        Args:
            parameter: its name.
            given: what was written; None where nothing was.
            at_least: least allowed [mm].
            at_most: greatest allowed [mm].
            why: the reason for the limits.
            instead: what may be given in its place, where nothing was.
        """
        if given is None:
            self._missing(parameter, at_least, at_most, why, instead)
            return math.nan
        value = self._read(lambda text: read_length(text, self.shown.unit.symbol), parameter, given)
        return self.limit(
            parameter, value, at_least=at_least, at_most=at_most, why=why, given=given
        )

    def _missing(
        self, parameter: str, at_least: float, at_most: float, why: str, instead: str
    ) -> None:
        """Note a length that must be given, with one that lies in its range."""
        if parameter in self._meant:
            return  # the misspelt name is told already
        because = f"it must be given: {why}" if why else "it must be given"
        is_open = math.isinf(at_least) and math.isinf(at_most)
        allowed = (
            "a length with its unit" if is_open else range_as_text(at_least, at_most, self.shown)
        )
        example = self._example(at_least, at_most)
        range_or_so = "" if is_open else " or another length in that range"
        remedy = f"write '{example}'{range_or_so}" + (f", or {instead}" if instead else "")
        self.refuse(parameter, "nothing", allowed, because, remedy)

    def _example(self, at_least: float, at_most: float) -> str:
        """A length within the limits that a rule shows, near neither of them."""
        middle = _EXAMPLE_MM
        if at_least > 0 and math.isfinite(at_most):
            middle = math.sqrt(at_least * max(at_most, at_least))
        elif at_least > 0:
            middle = 2 * at_least
        elif math.isfinite(at_most):
            middle = min(middle, at_most / 2)
        amounts = Amounts(shown=self.shown)
        for each in (amounts.down(middle), amounts.up(middle)):
            if at_least <= each <= at_most:
                return at_most_text(each, self.shown)
        return nearest_as_text(-math.inf, at_least, at_most, self.shown)

    def peek(self, given: object) -> float:
        """A length [mm] read ahead of its turn, or not-a-number; nothing is noted."""
        try:
            return read_length(given)
        except ReadingError:
            return math.nan

    def earlier(self, name: str, value: object, parameter: str) -> tuple[str, object] | None:
        """What this name stood for when it was first met, where that is something else.

        Args:
            name: of a stock, say.
            value: what it stands for here.
            parameter: where that was given.
        """
        first = self._named.setdefault(name, (parameter, value))
        return None if first[1] == value else first

    def mass(self, parameter: str, given: object) -> float:
        """A mass [kg] of something on a piece, or not-a-number with the problem noted."""
        value = self._read(read_mass, parameter, given)
        if math.isnan(value) or LIGHTEST_KG <= value <= HEAVIEST_KG:
            return value
        amounts = Amounts(shown=self.shown)
        low, high = (amounts.mass(each) for each in (LIGHTEST_KG, HEAVIEST_KG))
        why = "a load has mass, and such a piece carries three people at most (own rule)"
        remedy = "leave it out" if value <= LIGHTEST_KG else f"make it {high}"
        meant = self._meant_unit(given, MASS, value, LIGHTEST_KG, HEAVIEST_KG)
        self.refuse(parameter, said(given), f"{low} to {high}", why, f"{meant}{remedy}")
        return math.nan

    def whole(
        self, parameter: str, given: object, least: int, most: int, usual: int, why: str
    ) -> int | None:
        """A whole number from `least` to `most`, or None with the problem noted.

        Args:
            parameter: its name.
            given: what was written.
            least: least allowed.
            most: greatest allowed.
            usual: what to propose where no number can be told.
            why: the reason for the limits.
        """
        is_whole = isinstance(given, int) and not isinstance(given, bool)
        if is_whole and least <= given <= most:  # type: ignore[operator]
            return given  # type: ignore[return-value]
        meant = number_meant(given)
        nearest = min(max(usual if meant is None else meant, least), most)
        self.refuse(
            parameter, said(given), f"a whole number from {least} to {most}", why,
            f"make it {nearest}",
        )  # fmt: skip
        return None

    def angle(self, parameter: str, given: object) -> float:
        """An angle [deg], or not-a-number with the problem noted."""
        return self._read(read_angle, parameter, given)

    def area(self, parameter: str, given: object) -> float:
        """An area [mm2] above 0, or not-a-number with the problem noted."""
        value = self._read(read_area, parameter, given)
        if value <= 0:
            self.refuse(parameter, said(given), "more than 0 cm2", "it is free", "leave it out")
            return math.nan
        return value

    def force(self, parameter: str, given: object) -> float:
        """A force [N] above 0, or not-a-number with the problem noted."""
        value = self._read(read_force, parameter, given)
        if value <= 0:
            self.refuse(parameter, repr(given), "more than 0 N", "a force pushes", "leave it out")
            return math.nan
        return value

    def percent(self, parameter: str, given: object, low: float, high: float, why: str) -> float:
        """A percentage within [low, high], or not-a-number with the problem noted."""
        value = self._read(read_percent, parameter, given)
        if value < low or value > high:
            nearest = min(max(value, low), high)
            allowed = f"{low:g} % to {high:g} %"
            self.refuse(parameter, said(given), allowed, why, f"write '{nearest:g} %'")
            return math.nan
        return value

    def limit(
        self,
        parameter: str,
        value: float,
        *,
        at_least: float = -math.inf,
        at_most: float = math.inf,
        why: str,
        given: object = None,
        remedy: Callable[[float], str] | None = None,
    ) -> float:
        """The length when it lies within [at_least, at_most] [mm], else not-a-number, noted.

        Args:
            parameter: the parameter to name.
            value: the length [mm].
            at_least: least allowed [mm].
            at_most: greatest allowed [mm].
            why: the reason for the limit.
            given: what was written, when it was not worked out.
            remedy: says the change for the nearest allowed length [mm]; else one that names it.
        """
        # A limit that hangs on a figure which could not be read limits nothing.
        at_least = -math.inf if math.isnan(at_least) else at_least
        at_most = math.inf if math.isnan(at_most) else at_most
        if math.isnan(value) or at_least - _SLACK_MM <= value <= at_most + _SLACK_MM:
            return value
        nearest = at_least if value < at_least else at_most
        nearest = min(max(nearest, at_least), at_most)
        self.refuse(
            parameter,
            outside_as_text(value, at_least, at_most, self.shown) if given is None else said(given),
            range_as_text(at_least, at_most, self.shown),
            why,
            remedy(nearest)
            if remedy
            else self._meant_unit(given, LENGTH, value, at_least, at_most)
            + f"make it {nearest_as_text(value, at_least, at_most, self.shown)}",
        )
        return math.nan

    def _meant_unit(
        self, given: object, kind: UnitKind, value: float, low: float, high: float
    ) -> str:
        """The question whether another unit was meant, or no minus, where the figure says so."""
        if value < 0.0 <= low <= -value <= high and isinstance(given, str):
            return f"did you mean '{given.strip().lstrip('-−').strip()}'? else "
        if not (value > FAR_OUT * high or value < low / FAR_OUT):
            return ""
        units = {
            ("mm", False): ("mm", "cm", "m", "in"), ("mm", True): ("in", "mm", "ft"),
            ("kg", False): ("kg", "g", "lb"), ("kg", True): ("lb", "oz", "kg"),
        }[kind.base, self.shown.is_inch]  # fmt: skip
        read = read_length if kind is LENGTH else read_mass
        for meant in in_other_units(given, kind, units):
            if low <= read(meant) <= high:
                return f"did you mean '{meant}'? else "
        return ""

    def need(
        self, parameter: str, value: float, least: float, why: str, remedy: Callable[[str], str]
    ) -> None:
        """Note a figure that is too small; where it is so for two reasons, the greater need.

        Args:
            parameter: its name.
            value: as it is [mm].
            least: what it would have to be [mm].
            why: the reason.
            remedy: says the change, given the least length as text.
        """
        earlier = self._needs.get(parameter)
        if earlier is not None:
            if least <= earlier[0]:
                return
            self._problems.remove(earlier[1])
            why = f"{earlier[1].why}; and {why}"
        text = at_least_text(least, self.shown)
        problem = Problem(
            parameter=parameter,
            given=outside_as_text(value, least, math.inf, self.shown),
            allowed=f"at least {text}",
            why=why,
            remedy=remedy(text),
        )
        self._needs[parameter] = (least, problem)
        self._problems.append(problem)

    def safe_figure(self, nearest: float, value: float) -> str:
        """The nearest allowed length [mm] to one that is not, as text on the allowed side."""
        if value < nearest:
            return at_least_text(nearest, self.shown)
        return at_most_text(nearest, self.shown)

    def least(self, mm: float) -> str:
        """A least length [mm] for a sentence, in the piece's unit."""
        return at_least_text(mm, self.shown)

    def _read(self, read: Callable[[object], float], parameter: str, given: object) -> float:
        try:
            return read(given)
        except ReadingError as error:
            if given is None and parameter in self._meant:
                return math.nan  # the misspelt name is told already
            shown = "nothing" if given is None else said(given)
            self.refuse(parameter, shown, error.allowed, error.why, error.remedy)
            return math.nan
