"""Screws as they are sold: by their thickness, or by a gauge number where one buys by the inch."""

from __future__ import annotations

import math
from collections.abc import Sequence

from furniture.builders.rules import DesignReader
from furniture.pieces import LongerScrews, gauge_mm
from furniture.units import Given, said

SOLD_MM = (12.0, 16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0)
SOLD_IN = (0.5, 0.625, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0)
"""Lengths in which wood screws are sold. Common practice, no source."""
USUAL_SCREW_MM, NUMBER_8_MM = 4.0, 4.17
"""The usual screw for cleats and brackets [mm]; a number 8 is 0.164 in. Common practice, memory."""
_GAUGES = (2, 3, 4, 5, 6, 8, 10, 12, 14)
_THICK_MM = (2.0, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 6.0)
"""How thick wood screws are sold. Common practice, no source."""
_SHORT_MM, _SHORT_IN = (6.0, 8.0, 10.0), (0.25, 0.3125, 0.375)
"""The lengths of the small ones besides. Common practice, no source."""
_SAME_MM = 1e-6


def longest_sold_mm(most_mm: float, is_inch: bool) -> float:
    """The longest wood screw that is sold up to a length [mm]; not-a-number when none is so short.

    Args:
        most_mm: the greatest length [mm].
        is_inch: whether the maker buys by the inch.
    """
    return max((each for each in sold_mm(is_inch) if each <= most_mm + 1e-6), default=math.nan)


def sold_mm(is_inch: bool) -> list[float]:
    """The lengths in which wood screws are sold, shortest first [mm].

    Args:
        is_inch: whether the maker buys by the inch.
    """
    return [each * 25.4 for each in SOLD_IN] if is_inch else list(SOLD_MM)


def short_and_sold_mm(is_inch: bool) -> list[float]:
    """The lengths in which small screws are sold too, shortest first [mm].

    Args:
        is_inch: whether the maker buys by the inch.
    """
    short = [each * 25.4 for each in _SHORT_IN] if is_inch else list(_SHORT_MM)
    return [*short, *sold_mm(is_inch)]


def read_screw_diameter(
    reader: DesignReader, parameter: str, given: Given, *, at_least: float, at_most: float, why: str
) -> float:
    """How thick a screw is [mm]; out of its limits, the nearest that has a number is named.

    Args:
        reader: keeps the problems.
        parameter: what messages call it.
        given: as written.
        at_least: the thinnest that does [mm].
        at_most: the thickest [mm].
        why: the reason.
    """
    fitting = [each for each in _diameters_mm(reader) if at_least <= each <= at_most]
    if given is None or not reader.shown.is_inch or not fitting:
        return reader.length(parameter, given, at_least=at_least, at_most=at_most, why=why)
    value = reader.length(parameter, given)
    if math.isnan(value) or at_least - _SAME_MM <= value <= at_most + _SAME_MM:
        return value
    ends = dict.fromkeys((fitting[0], fitting[-1]))
    allowed = " to ".join(f"{diameter_text(reader, each)}{_called(each)}" for each in ends)
    nearest = min(fitting, key=lambda each: abs(each - value))
    reader.refuse(
        parameter, said(given), allowed, why,
        f"make it {diameter_text(reader, nearest)}{_called(nearest)}",
    )  # fmt: skip
    return math.nan


def thickest_that_bites(
    reader: DesignReader, above: float, bite: float, most: float, thick: tuple[float, float]
) -> tuple[str, str, str] | None:
    """The thickest screw that is sold and still bites: diameter, length and gauge, as text.

    Args:
        reader: knows the unit.
        above: what of its length is in no wood [mm].
        bite: how far it bites, in its diameters.
        most: how long it may be [mm].
        thick: how thin and how thick it may be [mm].
    """
    is_inch = reader.shown.is_inch
    for wide in reversed(_diameters_mm(reader)):
        if not thick[0] <= wide <= thick[1]:
            continue
        for long in reversed(short_and_sold_mm(is_inch)):
            if above + bite * wide <= long + _SAME_MM and long <= most + _SAME_MM:
                length = reader.least(long) if is_inch else f"{long:g} mm"
                return diameter_text(reader, wide), length, _called(wide)
    return None


def longer_screws(
    reader: DesignReader, screw: float, above: float, most: float, thin: str
) -> LongerScrews:
    """What longer screws there are for the same holes.

    Args:
        reader: knows the unit.
        screw: how long those are that are meant [mm].
        above: what of their length is in no wood [mm].
        most: how long they may be before they come out of the wood [mm].
        thin: what wood they would come out of.
    """
    sold = short_and_sold_mm(reader.shown.is_inch)
    return LongerScrews(
        length_mm=screw, above_mm=above, most_mm=most, thin=thin,
        sold_mm=tuple(each for each in sold if each > screw + _SAME_MM),
    )  # fmt: skip


def diameter_text(reader: DesignReader, mm: float) -> str:
    """A diameter that is sold, as a script says it.

    Args:
        reader: knows the unit.
        mm: the diameter [mm].
    """
    return f"{mm / 25.4:.3f} in" if reader.shown.is_inch else f"{mm:g} mm"


def _called(mm: float) -> str:
    """The number of a thickness that has one."""
    numbers = (each for each in _GAUGES if abs(gauge_mm(each) - mm) < _SAME_MM)
    return "".join(f" (number {each})" for each in numbers)


def _diameters_mm(reader: DesignReader) -> Sequence[float]:
    return [gauge_mm(each) for each in _GAUGES] if reader.shown.is_inch else _THICK_MM
