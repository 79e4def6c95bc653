"""Limits as text, each rounded to the allowed side: what is read back is allowed.

The only place where a limit is made text. A lower limit is rounded up and an upper one down, to the
piece's step; where that would spoil a narrow range, to a finer one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from furniture.units.showing import (
    MM_PER_INCH,
    LengthUnit,
    Shown,
    figure_with_unit,
    shown_value_mm,
)

_SLACK_MM = 1e-6
_FINER_MM = (0.1, 0.01, 0.001)
_FINER_IN = (1 / 64, 1 / 128)
_DIAL_IN = (1e-3, 1e-4)
_KEPT_SHARE = 0.5
"""How much of a range must be left between the texts of its limits. Own rule."""


def limits_as_text(low_mm: float, high_mm: float, shown: Shown) -> tuple[str, str]:
    """The texts of two limits, which lie between them; no text for one that is not finite.

    Args:
        low_mm: least allowed [mm], or minus infinity.
        high_mm: greatest allowed [mm], or infinity.
        shown: the piece's unit.
    """
    is_range = math.isfinite(low_mm) and math.isfinite(high_mm)
    for finer in _finer(shown):
        step, slack = finer.step_mm, _SLACK_MM / finer.step_mm
        low = math.ceil(low_mm / step - slack) * step if math.isfinite(low_mm) else low_mm
        high = math.floor(high_mm / step + slack) * step if math.isfinite(high_mm) else high_mm
        if is_range and high - low < _KEPT_SHARE * (high_mm - low_mm) - _SLACK_MM:
            continue
        return _text(low, finer), _text(high, finer)
    # A single odd figure, such as stock measured in the other unit: no step shows it.
    return _plain_mm(low_mm), _plain_mm(high_mm)


def at_least_text(mm: float, shown: Shown) -> str:
    """A lower limit [mm] as text."""
    return limits_as_text(mm, math.inf, shown)[0]


def at_most_text(mm: float, shown: Shown) -> str:
    """An upper limit [mm] as text."""
    return limits_as_text(-math.inf, mm, shown)[1]


def range_as_text(low_mm: float, high_mm: float, shown: Shown) -> str:
    """What a length may be, in words."""
    low, high = limits_as_text(low_mm, high_mm, shown)
    if low and high:
        return low if low == high else f"{low} to {high}"
    if low or high:
        return f"at least {low}" if low else f"at most {high}"
    return "any length"


def nearest_as_text(mm: float, low_mm: float, high_mm: float, shown: Shown) -> str:
    """The text of the limit that a refused length [mm] lies beyond; the lower one where unknown."""
    low, high = limits_as_text(low_mm, high_mm, shown)
    return high if mm > high_mm or not low else low


def outside_as_text(mm: float, low_mm: float, high_mm: float, shown: Shown) -> str:
    """A refused length [mm] as text that does not read as one that is allowed."""
    text = ""
    for finer in _finer(shown):
        as_read = shown_value_mm(mm, finer)
        text = _text(as_read, finer)
        if as_read > high_mm + _SLACK_MM if mm > high_mm else as_read < low_mm - _SLACK_MM:
            break
    return text


def _finer(shown: Shown) -> Iterator[Shown]:
    """The piece's own step, then finer ones in the same unit."""
    yield shown
    if not shown.is_inch:
        for step in _FINER_MM:
            if step < shown.step_mm - 1e-9:
                yield Shown(unit=shown.unit, step_mm=step, tolerance_mm=shown.tolerance_mm)
        return
    if shown.unit is LengthUnit.INCH_FRACTION:
        for share in _FINER_IN:
            if share * MM_PER_INCH < shown.step_mm - 1e-9:
                yield Shown(
                    unit=shown.unit, step_mm=share * MM_PER_INCH, tolerance_mm=shown.tolerance_mm
                )
    for inch in _DIAL_IN:
        yield Shown(
            unit=LengthUnit.INCH_DECIMAL, step_mm=inch * MM_PER_INCH,
            tolerance_mm=shown.tolerance_mm,
        )  # fmt: skip


def _text(mm: float, shown: Shown) -> str:
    return figure_with_unit(mm, shown) if math.isfinite(mm) else ""


def _plain_mm(mm: float) -> str:
    return f"{mm:.6f}".rstrip("0").rstrip(".") + " mm"
