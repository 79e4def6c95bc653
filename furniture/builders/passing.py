"""What must pass an opening: a plug, cables or air; the size of the opening follows from it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import ClassVar

from furniture.builders.rules import DesignReader
from furniture.rules.building import PASS_PLAY
from furniture.units import REQUIRED, Given, Shown, figure_with_unit, parameters, said

BITS_MM = (
    *range(3, 13), 14, 15, 16, 18, 20, 22, 25, 26, 28, 30, 32, 35, 38, 40, 45, 50, 55, 60, 65, 70,
    75, 80,
)  # fmt: skip
BITS_IN = (
    *(sixteenth / 16 for sixteenth in range(2, 9)), 5 / 8, 3 / 4, 7 / 8, 1, 1.125, 1.25, 1.375, 1.5,
    1.625, 1.75, 1.875, 2, 2.125, 2.25, 2.5, 2.75, 3,
)  # fmt: skip
"""Sizes in which bits and hole saws are sold. Common practice, no source."""
INCH_MM = 25.4
MOST_CABLES = 7


@parameters
class Plug:
    """A plug that must go through, head on: its opening is as wide as its diagonal, and play.

    Args:
        width: of the plug's body.
        thickness: of the plug's body.
    """

    width: Given = REQUIRED
    thickness: Given = REQUIRED
    is_no_wood: ClassVar[bool] = True
    """None of its lengths is cut."""


@parameters
class Cable:
    """Cables that lie in an opening side by side, without their plugs.

    Args:
        diameter: of one.
        count: how many, 1 to 7.
    """

    diameter: Given = REQUIRED
    count: int = 1
    is_no_wood: ClassVar[bool] = True
    """None of its lengths is cut."""


@parameters
class Air:
    """Air that must pass: the free area of the opening, or of a whole row of vents.

    Args:
        area: such as `30 cm2` or `5 in2`.
    """

    area: Given = REQUIRED


def size_for(reader: DesignReader, parameter: str, passes: object) -> float:
    """The diameter of the opening that lets it pass, as bits are sold [mm].

    Not-a-number with the problem noted.

    Args:
        reader: keeps the problems.
        parameter: of what must pass.
        passes: a `Plug`, `Cable` or `Air`.

    **Source:** geometry: a rectangle's diagonal; the least circle round equal circles, 1 + 1 /
    sin(180 deg / n) times one of them for 2 to 6, and 3 for 7.
    """
    match passes:
        case Plug():
            reader.names(f"{parameter} ", passes)
            why = "the body of a plug"
            sides = [
                reader.length(f"{parameter} {name}", side, at_least=1.0, at_most=80.0, why=why)
                for name, side in (("width", passes.width), ("thickness", passes.thickness))
            ]
            return _bit_for(reader, parameter, passes, math.hypot(*sides) + reader.rules[PASS_PLAY])
        case Cable():
            reader.names(f"{parameter} ", passes)
            one = reader.length(
                f"{parameter} diameter", passes.diameter, at_least=0.5, at_most=40.0,
                why="a cable's own thickness",
            )  # fmt: skip
            count = read_count(reader, f"{parameter} count", passes.count, MOST_CABLES)
            return _bit_for(
                reader, parameter, passes, one * round_circles(count) + reader.rules[PASS_PLAY]
            )
        case Air():
            area = read_free_area(reader, parameter, passes)
            return _bit_for(reader, parameter, passes, math.sqrt(4.0 * area / math.pi))
        case _:
            reader.refuse(
                parameter, said(passes), "a Plug, a Cable or Air", "it says what must pass",
                f"write {reader.example('Plug')}, or leave it out and write size",
            )  # fmt: skip
            return math.nan


def read_free_area(reader: DesignReader, parameter: str, air: Air) -> float:
    """The free area [mm2], or not-a-number with the problem noted."""
    reader.names(f"{parameter} ", air)
    return reader.area(f"{parameter} area", air.area)


def read_count(reader: DesignReader, parameter: str, given: object, most: int) -> int:
    """A whole number from 1 up; 1 with the problem noted."""
    return reader.whole(parameter, given, 1, most, 1, "so many there may be") or 1


def round_circles(count: int) -> float:
    """The diameter of the least circle round so many equal ones, each 1 wide; 1 to 7."""
    if count == 1:
        return 1.0
    return 3.0 if count == MOST_CABLES else 1.0 + 1.0 / math.sin(math.pi / count)


def bit_within_mm(most: float, shown: Shown) -> float:
    """The widest bit that is sold and bores no wider [mm]; the narrowest where none does.

    Args:
        most: how wide the hole may be [mm].
        shown: in whose unit the maker buys bits.
    """
    sizes = _sold_mm(shown)
    return max((each for each in sizes if each <= most + 1e-6), default=min(sizes))


def _sold_mm(shown: Shown) -> Sequence[float]:
    return [each * INCH_MM for each in BITS_IN] if shown.is_inch else BITS_MM


def _bit_for(reader: DesignReader, parameter: str, passes: object, least: float) -> float:
    """The smallest bit that bores so wide [mm]."""
    if math.isnan(least):
        return math.nan
    sizes = _sold_mm(reader.shown)
    found = next((each for each in sizes if each >= least - 1e-6), None)
    if found is not None:
        return float(found)
    widest = figure_with_unit(max(sizes), reader.shown)
    reader.refuse(
        parameter, f"what needs {figure_with_unit(least, reader.shown)}", f"up to {widest}",
        "no wider bit or hole saw is usual, and a larger hole is a cut-out",
        "let less pass through one opening, or cut it out as a Notch or Slot of your own",
    )  # fmt: skip
    return math.nan
