"""Millimetres in, text out: the only place where a figure is rounded."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

MM_PER_INCH = 25.4
"""Exact by definition (international inch, 1959)."""

ROUNDED_MARK = "~"
"""Stands before a shown figure that differs from the model by more than the tolerance."""


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
        ValueError: a step that is not 1, 0.5, 0.1, 0.05 or 0.01 mm.
    """
    if step not in (1.0, 0.5, 0.1, 0.05, 0.01):
        raise ValueError(f"a step of {step} mm: choose 1, 0.5, 0.1, 0.05 or 0.01")
    return Shown(unit=LengthUnit.MILLIMETRE, step_mm=float(step), tolerance_mm=tolerance)


def inches(denominator: int = 64, tolerance: float = 0.1) -> Shown:
    """Lengths in inches as fractions to 1/denominator; `tolerance` in millimetres.

    Raises:
        ValueError: a denominator that is not 2, 4, 8, 16, 32, 64 or 128.
    """
    if denominator not in (2, 4, 8, 16, 32, 64, 128):
        raise ValueError(f"a denominator of {denominator}: choose 2, 4, 8, 16, 32, 64 or 128")
    step = MM_PER_INCH / denominator
    return Shown(unit=LengthUnit.INCH_FRACTION, step_mm=step, tolerance_mm=tolerance)


def decimal_inches(places: int = 3, tolerance: float = 0.02) -> Shown:
    """Lengths in decimal inches to this many places; `tolerance` in millimetres.

    Raises:
        ValueError: places outside 1 to 4.
    """
    if not 1 <= places <= 4:
        raise ValueError(f"{places} places: choose 1 to 4")
    step = MM_PER_INCH * 10.0**-places
    return Shown(unit=LengthUnit.INCH_DECIMAL, step_mm=step, tolerance_mm=tolerance)


def figure(mm: float, shown: Shown) -> str:
    """The length as text without its unit, marked when the rounding is beyond the tolerance.

    Args:
        mm: the length [mm], finite.
        shown: how to show it.
    """
    steps = round(mm / shown.step_mm)
    mark = ROUNDED_MARK if abs(steps * shown.step_mm - mm) > shown.tolerance_mm + 1e-9 else ""
    sign = "-" if steps < 0 else ""
    return f"{mark}{sign}{_plain_figure(abs(steps), shown)}"


def figure_with_unit(mm: float, shown: Shown) -> str:
    """The length as text with its unit, such as `9.8 mm` or `3 1/4 in`."""
    return f"{figure(mm, shown)} {shown.unit.symbol}"


def shown_value_mm(mm: float, shown: Shown) -> float:
    """The length that the shown text stands for [mm]: what its reader would cut."""
    return round(mm / shown.step_mm) * shown.step_mm


def decimal_figure(mm: float, shown: Shown) -> str:
    """The length to a dial's precision, without its unit: 0.01 mm or 0.001 in."""
    if shown.is_inch:
        return f"{mm / MM_PER_INCH:.3f}"
    return _trimmed(f"{mm:.2f}")


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
