"""Lengths, forces, masses and stresses in the words of the piece's units, and shop figures.

A piece shown in inches is told in pounds, pounds of force and pounds on a square inch as well.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from furniture.units.reading import registry
from furniture.units.showing import (
    MM_PER_INCH,
    Shown,
    decimal_figure,
    figure,
    fitted_with_unit,
    is_rounded,
    without_mark,
)

SMALL_MM = 3.0
"""Amounts below this are of the kind that a feeler gauge or a dial shows [mm]. Own rule."""
SHOP_STEPS_MM = ((25.0, 0.5), (100.0, 1.0), (math.inf, 5.0))
SHOP_STEPS_IN = ((1.0, 1.0 / 64.0), (4.0, 1.0 / 16.0), (math.inf, 1.0 / 4.0))
"""Up to which size a figure for the shop is rounded to which step: a rule's marks. Own rule."""
USUAL_FIGURES = 3
MASS_STEP = 0.1
"""The step of masses in advice [kg or lb]: a kitchen scale's."""
_ROUNDING = 1e-8


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """Puts amounts into the words of the piece's unit; called with a length [mm] it gives text.

    `figures` is how many figures count in what is no length; more than the usual three are for
    telling near amounts apart, and lengths are then decimals too.
    """

    shown: Shown
    figures: int = USUAL_FIGURES

    def __call__(self, mm: float) -> str:
        """The length as text; a small amount that the piece's step would spoil as a dial shows it.

        Args:
            mm: the length [mm]
        """
        if self.figures > USUAL_FIGURES:
            value = mm / MM_PER_INCH if self.shown.is_inch else mm
            return f"{value:.{self.figures - 2}f} {self.shown.unit.symbol}"
        text = figure(mm, self.shown)
        is_spoilt = is_rounded(text) or abs(mm) < self.shown.step_mm
        if 1e-9 < abs(mm) < SMALL_MM and is_spoilt:
            return f"{decimal_figure(mm, self.shown)} {self.shown.unit.symbol}"
        return f"{without_mark(text)} {self.shown.unit.symbol}"

    def dial(self, mm: float) -> str:
        """A length that is set on a dial, or that another part must fit, as the sheets have it.

        Args:
            mm: the length [mm]
        """
        return fitted_with_unit(mm, self.shown)

    def force(self, newtons: float) -> str:
        """The force as text, N or lbf."""
        return self._told(newtons, "newton", "force_pound", "N", "lbf")

    def mass(self, kilograms: float) -> str:
        """The mass as text, kg or lb."""
        return self._told(kilograms, "kilogram", "pound", "kg", "lb")

    def stress(self, megapascals: float) -> str:
        """The stress or pressure as text, MPa or psi."""
        return self._told(megapascals, "megapascal", "psi", "MPa", "psi")

    def area(self, square_mm: float) -> str:
        """The area as text, mm² or in²."""
        return self._told(square_mm, "millimeter ** 2", "inch ** 2", "mm²", "in²")

    def volume(self, cubic_mm: float) -> str:
        """The volume as text, in³; or cm³, and mm³ where it is less than one of them."""
        if not self.shown.is_inch and cubic_mm >= _MM3_IN_A_CM3:
            return f"{_figure(cubic_mm / _MM3_IN_A_CM3, self.figures)} cm³"
        return self._told(cubic_mm, "millimeter ** 3", "inch ** 3", "mm³", "in³")

    def surface(self, square_mm: float) -> str:
        """The area of wood or of a finish as text, m² or sq ft."""
        if self.shown.is_inch:
            return f"{square_mm * _factor('millimeter ** 2', 'foot ** 2'):.1f} sq ft"
        return f"{square_mm * _factor('millimeter ** 2', 'meter ** 2'):.2f} m²"

    def spoonful(self, grams: float) -> str:
        """A little more than is wanted of a glue, as a scale shows it, g or oz."""
        if self.shown.is_inch:
            ounces = grams * _factor("gram", "ounce")
            return f"{_up(ounces, 0.1 if ounces < 1.0 else 0.5)} oz"
        return f"{_up(grams, 1.0 if grams < 10.0 else 5.0)} g"

    def tinful(self, litres: float) -> str:
        """A little more than is wanted of a finish: ml or L; fl oz or, from a quart on, qt (US)."""
        if self.shown.is_inch:
            ounces = litres * _factor("liter", "fluid_ounce")
            if ounces < _FL_OZ_IN_A_QT:
                return f"{_up(ounces, 1.0)} fl oz"
            return f"{_up(ounces / _FL_OZ_IN_A_QT, 0.25)} qt"
        return f"{_up(litres * 1000.0, 10.0)} ml" if litres < 0.99 else f"{_up(litres, 0.1)} L"

    def temperature(self, celsius: float) -> str:
        """The temperature as text, °C or °F."""
        if self.shown.is_inch:
            return f"{celsius * 9.0 / 5.0 + 32.0:.0f} °F"
        return f"{celsius:.0f} °C"

    def of_unit(self, value: float, unit: str) -> str:
        """A value in one of the units of the checks as text.

        Args:
            value: the value, in `unit`
            unit: mm, N, kg, MPa, mm2, mm3, deg, or nothing
        """
        ways: dict[str, Callable[[float], str]] = {
            "mm": self, "N": self.force, "kg": self.mass, "MPa": self.stress, "mm2": self.area,
            "mm3": self.volume, "deg": lambda degrees: f"{_figure(degrees, self.figures)}°",
        }  # fmt: skip
        return (
            ways[unit](value) if unit in ways else f"{_figure(value, self.figures)} {unit}".strip()
        )

    def up(self, mm: float) -> float:
        """The next figure at or above a length [mm] that a rule in the shop shows."""
        step = self._step_mm(mm)
        return math.ceil(mm / step - _ROUNDING) * step

    def down(self, mm: float) -> float:
        """The next figure at or below a length [mm] that a rule in the shop shows."""
        step = self._step_mm(mm)
        return math.floor(mm / step + _ROUNDING) * step

    def mass_up(self, kilograms: float) -> float:
        """The next mass [kg] at or above this that a scale in the shop shows."""
        return math.ceil(kilograms / self._mass_step_kg - _ROUNDING) * self._mass_step_kg

    def mass_down(self, kilograms: float) -> float:
        """The next mass [kg] at or below this that a scale in the shop shows."""
        return math.floor(kilograms / self._mass_step_kg + _ROUNDING) * self._mass_step_kg

    @property
    def _mass_step_kg(self) -> float:
        return MASS_STEP / (_factor("kilogram", "pound") if self.shown.is_inch else 1.0)

    def _step_mm(self, mm: float) -> float:
        unit, steps = (MM_PER_INCH, SHOP_STEPS_IN) if self.shown.is_inch else (1.0, SHOP_STEPS_MM)
        size = abs(mm) / unit
        step = next(step for up_to, step in steps if size <= up_to + _ROUNDING) * unit
        return max(step, self.shown.step_mm)

    def _told(self, value: float, unit: str, inch_unit: str, symbol: str, inch_symbol: str) -> str:
        if self.shown.is_inch:
            return f"{_figure(value * _factor(unit, inch_unit), self.figures)} {inch_symbol}"
        return f"{_figure(value, self.figures)} {symbol}"


_MM3_IN_A_CM3 = 1000.0
_FL_OZ_IN_A_QT = 32.0


def _up(value: float, step: float) -> str:
    """The next step at or above a value."""
    return f"{step * math.ceil(value / step - _ROUNDING):.3g}"


@cache
def _factor(unit: str, other: str) -> float:
    return float(registry().Quantity(1.0, unit).to(other).magnitude)


def _figure(value: float, figures: int) -> str:
    """Three figures that count, whole numbers from a hundred up; or more of them."""
    if figures > USUAL_FIGURES:
        return f"{value:.{figures}g}"
    return f"{value:.0f}" if abs(value) >= 99.95 else f"{value:.3g}"
