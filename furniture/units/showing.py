"""Millimetres in, text out: the only place where a figure is rounded.

A length that is measured with a rule is shown to the piece's own step (`figure`). One that is set
on a dial or by a stop, or that another part must fit, is shown as finely as a dial is read
(`dialled`): the widths and depths of housings and where their shoulders lie, tenons, thicknesses.
A half step goes away from nought, for both.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, replace
from enum import Enum
from fractions import Fraction

from furniture.errors import DesignError, Problem
from furniture.units.texts import said

MM_PER_INCH = 25.4
"""Exact by definition (international inch, 1959)."""

OVER_MARK, UNDER_MARK = " +", " -"
"""Stand after a shown figure that is off by more than the tolerance: the length is a little over
that mark of the rule, or a little under it. Common practice, no source.
"""
OVER_AMONG_WORDS, UNDER_AMONG_WORDS = " (+)", " (-)"
"""The same within a sentence, where they would read as plus and minus."""
_ROUNDED = re.compile(r"(?:\d|mm|in) (?:\([+-]\)|[+-](?=$|[,;)]| (?!\d)))")
DIAL_MM = 0.01
DIAL_IN = 0.001
"""What the dial of a caliper or of a machine's stop is read to. Common practice, no source."""
_DUST_MM = 1e-5
"""A length this little short of half a step is meant to be at it: sums of floats fall short."""


class LengthUnit(Enum):
    """The unit that a piece shows its lengths in."""

    MILLIMETRE = "mm"
    INCH_FRACTION = "in"
    INCH_DECIMAL = "in, decimal"

    @property
    def symbol(self) -> str:
        """The unit's symbol after a figure."""
        return "mm" if self is LengthUnit.MILLIMETRE else "in"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How lengths are shown: unit, step [mm], and how far off a figure may be unmarked [mm].

    Make one with `millimetres`, `inches` or `decimal_inches`.
    """

    unit: LengthUnit
    step_mm: float
    tolerance_mm: float

    @property
    def is_inch(self) -> bool:
        """Whether figures are inches."""
        return self.unit is not LengthUnit.MILLIMETRE


def millimetres(step: float = 0.1, tolerance: float = 0.05) -> Shown:
    """Lengths in millimetres, rounded to `step` [mm].

    Raises:
        DesignError: a step that is not 1, 0.5, 0.1, 0.05 or 0.01 mm.
    """
    _refuse_others("millimetres", step, (1.0, 0.5, 0.1, 0.05, 0.01), 0.1)
    return Shown(unit=LengthUnit.MILLIMETRE, step_mm=float(step), tolerance_mm=tolerance)


def _refuse_others(name: str, given: object, allowed: tuple[float, ...], usual: float) -> None:
    if given in allowed:
        return
    is_number = isinstance(given, int | float) and not isinstance(given, bool)
    nearest = min(allowed, key=lambda each: abs(each - given)) if is_number else usual  # type: ignore[operator]
    raise DesignError([Problem(
        parameter="shown", given=f"{name}({said(given)})",
        allowed=f"{name}() of {', '.join(map(str, allowed))}",
        why="figures are shown to marks that a rule or a caliper has",
        remedy=f"write {name}({nearest})",
    )])  # fmt: skip


def inches(denominator: int = 64, tolerance: float = 0.1) -> Shown:
    """Lengths in inches as fractions to 1/denominator; `tolerance` in millimetres.

    Raises:
        DesignError: a denominator that is not 2, 4, 8, 16, 32, 64 or 128.
    """
    _refuse_others("inches", denominator, (2, 4, 8, 16, 32, 64, 128), 64)
    step = MM_PER_INCH / denominator
    return Shown(unit=LengthUnit.INCH_FRACTION, step_mm=step, tolerance_mm=tolerance)


def decimal_inches(places: int = 3, tolerance: float = 0.02) -> Shown:
    """Lengths in decimal inches to this many places; `tolerance` in millimetres.

    Raises:
        DesignError: places outside 1 to 4.
    """
    _refuse_others("decimal_inches", places, (1, 2, 3, 4), 3)
    step = MM_PER_INCH * 10.0**-places
    return Shown(unit=LengthUnit.INCH_DECIMAL, step_mm=step, tolerance_mm=tolerance)


def figure(mm: float, shown: Shown) -> str:
    """The length as text without its unit, marked when the rounding is beyond the tolerance.

    Args:
        mm: the length [mm], finite.
        shown: how to show it.
    """
    return _as_text(steps_of(mm, shown.step_mm), mm, shown)


def figure_among_words(mm: float, shown: Shown) -> str:
    """The length as text within a sentence, its mark in brackets: before a word it would read as
    plus or minus.

    Args:
        mm: the length [mm], finite.
        shown: how to show it.
    """
    return _as_text(steps_of(mm, shown.step_mm), mm, shown, OVER_AMONG_WORDS, UNDER_AMONG_WORDS)


def is_rounded(text: str) -> bool:
    """Whether a text carries the mark of a figure that is off by more than the tolerance.

    Args:
        text: a figure, or words with figures in them.
    """
    return _ROUNDED.search(text) is not None


def without_mark(text: str) -> str:
    """A figure without the mark that it is a little over or under.

    Args:
        text: one figure.
    """
    return text.removesuffix(OVER_MARK).removesuffix(UNDER_MARK)


def figure_with_unit(mm: float, shown: Shown) -> str:
    """The length as text with its unit, such as `9.8 mm` or `3 1/4 in`."""
    return _with_unit(figure(mm, shown), shown)


def _with_unit(text: str, shown: Shown) -> str:
    plain = without_mark(text)
    return f"{plain} {shown.unit.symbol}{text.removeprefix(plain)}"


def shown_value_mm(mm: float, shown: Shown) -> float:
    """The length that the shown text stands for [mm]: what its reader would cut."""
    return steps_of(mm, shown.step_mm) * shown.step_mm


def steps_of(mm: float, step_mm: float) -> int:
    """The whole number of steps nearest to a length; a half step goes away from nought.

    Args:
        mm: the length [mm], finite.
        step_mm: the step [mm].
    """
    steps = math.floor((abs(mm) + _DUST_MM) / step_mm + 0.5)
    return -steps if mm < 0.0 else steps


def decimal_figure(mm: float, shown: Shown) -> str:
    """The length to a dial's precision, without its unit: 0.01 mm or 0.001 in."""
    return figure(mm, _dial(shown))


@dataclass(frozen=True, slots=True)
class Dialled:
    """A length as it is set on a dial: as printed, so that sums of printed figures are printed.

    Args:
        mm: in the model [mm].
        steps: as printed, one number for each way that the piece shows it.
        shown: how the piece shows lengths.
    """

    mm: float
    steps: tuple[int, ...]
    shown: Shown

    def __add__(self, other: Dialled) -> Dialled:
        """What lies that much farther on, such as the upper shoulder of a trench."""
        steps = tuple(a + b for a, b in zip(self.steps, other.steps, strict=True))
        return replace(self, mm=self.mm + other.mm, steps=steps)

    def __sub__(self, other: Dialled) -> Dialled:
        """What is left, such as the wood behind a trench."""
        steps = tuple(a - b for a, b in zip(self.steps, other.steps, strict=True))
        return replace(self, mm=self.mm - other.mm, steps=steps)

    @property
    def figures(self) -> tuple[str, ...]:
        """One figure; or an inch fraction and its decimal, where the two differ on the dial."""
        ways = _dial_ways(self.shown)
        texts = [_as_text(n, self.mm, way) for n, way in zip(self.steps, ways, strict=True)]
        fraction_mm, dial = self.steps[0] * ways[0].step_mm, ways[-1].step_mm
        return tuple(texts[:1] if steps_of(fraction_mm, dial) == self.steps[-1] else texts)

    def __str__(self) -> str:
        """The figure without its unit, a decimal of a fraction in brackets."""
        first, *decimal = self.figures
        return f"{first} ({decimal[0]})" if decimal else first

    @property
    def with_unit(self) -> str:
        """The figure with its unit."""
        return f"{self} {self.shown.unit.symbol}"


def dialled(mm: float, shown: Shown) -> Dialled:
    """A length that is set on a dial or by a stop, or that another part must fit.

    Args:
        mm: the length [mm], finite.
        shown: how the piece shows lengths.
    """
    steps = tuple(steps_of(mm, way.step_mm) for way in _dial_ways(shown))
    return Dialled(mm, steps, shown)


def fitted(mm: float, shown: Shown) -> str:
    """A thickness in a list: as finely as a dial is read, but an inch fraction without its decimal.

    Args:
        mm: the thickness [mm].
        shown: how the piece shows lengths.
    """
    return dialled(mm, shown).figures[0]


def fitted_with_unit(mm: float, shown: Shown) -> str:
    """The same with its unit, such as `13.43 mm`."""
    return _with_unit(fitted(mm, shown), shown)


def finished_size(size_mm: tuple[float, float, float], shown: Shown) -> str:
    """Length, width and thickness of a part with crosses between them, without the unit.

    Args:
        size_mm: the three [mm].
        shown: how the piece shows lengths.
    """
    length, width, thickness = size_mm
    return f"{figure(length, shown)} x {figure(width, shown)} x {fitted(thickness, shown)}"


def _dial_ways(shown: Shown) -> tuple[Shown, ...]:
    """How a length on a dial is shown; an inch fraction by its decimal as well."""
    if shown.unit is LengthUnit.INCH_FRACTION:
        return (shown, _dial(shown))
    step = min(shown.step_mm, _dial(shown).step_mm)
    return (replace(shown, step_mm=step),)


def _dial(shown: Shown) -> Shown:
    """The steps of a dial in the piece's unit; nothing is marked as rounded there."""
    if shown.is_inch:
        step = DIAL_IN * MM_PER_INCH
        return Shown(unit=LengthUnit.INCH_DECIMAL, step_mm=step, tolerance_mm=step)
    return Shown(unit=shown.unit, step_mm=DIAL_MM, tolerance_mm=DIAL_MM)


def _as_text(
    steps: int, mm: float, shown: Shown, over: str = OVER_MARK, under: str = UNDER_MARK
) -> str:
    off = abs(mm) - abs(steps) * shown.step_mm
    mark = over if off > 0 else under
    sign = "-" if steps < 0 else ""
    is_off = abs(off) > shown.tolerance_mm + _DUST_MM
    return f"{sign}{_plain_figure(abs(steps), shown)}{mark if is_off else ''}"


def _plain_figure(steps: int, shown: Shown) -> str:
    if shown.unit is LengthUnit.INCH_FRACTION:
        fraction = Fraction(steps, round(MM_PER_INCH / shown.step_mm))
        whole, rest = divmod(fraction, 1)
        if not rest:
            return str(whole)
        part = f"{rest.numerator}/{rest.denominator}"
        return f"{whole} {part}" if whole else part
    if shown.unit is LengthUnit.INCH_DECIMAL:
        places = round(-math.log10(shown.step_mm / MM_PER_INCH))
        return f"{steps * 10.0**-places:.{places}f}"
    places = max(0, -math.floor(math.log10(shown.step_mm) + 1e-9))
    return _trimmed(f"{steps * shown.step_mm:.{places}f}")


def _trimmed(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text
