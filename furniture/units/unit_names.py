"""The units that a maker may write: those of the trade and of SI, and no others.

No general parser of units: in one, `pc` is a parsec and `Mm` a million metres. What is not in these
lists is refused with the nearest that is.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

_INCH = Fraction(254, 10)
_POUND = Fraction(45359237, 100_000_000)
_GRAVITY = Fraction(980665, 100_000)
"""In mm and kg, exact.

**Source:** the international yard and pound agreement of 1959 (from memory).
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitKind:
    """What is measured, and the units that it may be written in.

    Args:
        what: in words, such as `a length`.
        base: the unit that figures have inside the packages.
        units: what each is worth in `base`, by every name that it may be written by.
        looks: examples, the first the likeliest.
        few: the units to propose where an unknown one was written.
        spelled: how units of several words and signs are written, each beside its name in `units`.
    """

    what: str
    base: str
    units: Mapping[str, Fraction]
    looks: str
    few: str
    spelled: tuple[tuple[re.Pattern[str], str], ...] = ()

    def in_one_word(self, text: str) -> str:
        """The text with every unit of several words and signs as one word of `units`.

        Args:
            text: as written.
        """
        for looks, name in self.spelled:
            text = looks.sub(name, text)
        return text

    @property
    def allowed(self) -> str:
        """What may be written, in words and examples."""
        return f"{self.what}, such as {self.looks}"

    @property
    def example(self) -> str:
        """One way to write it, in quotes."""
        return self.looks.split(",")[0].split(" or ")[0]

    def worth(self, name: str) -> Fraction | None:
        """What a unit is worth in the base unit; nothing for one that is not known.

        Words may be written in any case; symbols only as they are, as `Mm` is no `mm`.

        Args:
            name: as written.
        """
        found = self.units.get(name)
        if found is None and len(name) > _LONGEST_SYMBOL:
            found = self.units.get(name.lower())
        return found


_LONGEST_SYMBOL = 2


def _named(*rows: tuple[str, Fraction]) -> dict[str, Fraction]:
    """Units by each of their names."""
    return {name: worth for names, worth in rows for name in names.split()}


LENGTH = UnitKind(
    what="a length",
    base="mm",
    units=_named(
        ("mm millimetre millimetres millimeter millimeters", Fraction(1)),
        ("cm centimetre centimetres centimeter centimeters", Fraction(10)),
        ("dm decimetre decimetres decimeter decimeters", Fraction(100)),
        ("m metre metres meter meters", Fraction(1000)),
        ("µm μm um micrometre micrometres micrometer micrometers micron microns",
         Fraction(1, 1000)),
        ("in inch inches \" ″ ” '' ′′ ’’", _INCH),
        ("ft foot feet ' ′ ’", 12 * _INCH),
        ("yd yard yards", 36 * _INCH),
        ("thou", _INCH / 1000),
    ),
    looks="'260 mm', '26 cm', '10 1/4 in' or '3/4\"'",
    few="use mm, cm, m, in or ft",
)  # fmt: skip
MASS = UnitKind(
    what="a mass",
    base="kg",
    units=_named(
        ("kg kilogram kilograms kilogramme kilogrammes kilo kilos", Fraction(1)),
        ("g gram grams gramme grammes", Fraction(1, 1000)),
        ("t tonne tonnes", Fraction(1000)),
        ("lb lbs pound pounds", _POUND),
        ("oz ounce ounces", _POUND / 16),
    ),
    looks="'0.9 kg', '450 g' or '2 lb'",
    few="use kg, g, lb or oz",
)
ANGLE = UnitKind(
    what="an angle",
    base="degree",
    units=_named(
        ("deg degree degrees °", Fraction(1)),
        ("rad radian radians", Fraction(180 / math.pi)),
        ("gon gons", Fraction(9, 10)),
        ("turn turns", Fraction(360)),
    ),
    looks="'45 deg' or '0.5 rad'",
    few="use deg or rad",
)
PERCENT = UnitKind(
    what="a percentage",
    base="percent",
    units=_named(("% ％ percent", Fraction(1))),
    looks="'8 %'",
    few="write a number and a per cent sign",
)
FORCE = UnitKind(
    what="a force",
    base="newton",
    units=_named(
        ("N newton newtons", Fraction(1)),
        ("kN", Fraction(1000)),
        ("lbf", _POUND * _GRAVITY),
        ("kgf kp", _GRAVITY),
    ),
    looks="'20 N' or '5 lbf'",
    few="use N, kgf or lbf",
)
_CUBIC_FOOT = (12 * _INCH / 1000) ** 3  # m3
DENSITY = UnitKind(
    what="a density",
    base="kg/m**3",
    units=_named(
        ("kilogrampercubicmetre", Fraction(1)),
        ("grampercubiccentimetre", Fraction(1000)),
        ("pcf poundpercubicfoot", _POUND / _CUBIC_FOOT),
    ),
    looks="'650 kg/m3', '0.65 g/cm3' or '41 lb/ft3'",
    few="use kg/m3, g/cm3 or lb/ft3",
    spelled=tuple(
        (re.compile(looks), name)
        for looks, name in (
            (r"\bkg ?/ ?m(?:3|³|\^3|\*\*3)", "kilogrampercubicmetre"),
            (r"\bg ?/ ?(?:cm(?:3|³|\^3|\*\*3)|cc|ml)\b", "grampercubiccentimetre"),
            (r"\blbs? ?/ ?(?:ft(?:3|³|\^3|\*\*3)|cu\.? ?ft)", "poundpercubicfoot"),
        )
    ),
)
_PSI = _POUND * _GRAVITY / _INCH**2
"""A pound-force on a square inch [MPa], exact."""
STRESS = UnitKind(
    what="a stress",
    base="MPa",
    units=_named(
        ("MPa megapascal megapascals newtonpersquaremillimetre", Fraction(1)),
        ("GPa gigapascal gigapascals", Fraction(1000)),
        ("kPa kilopascal kilopascals", Fraction(1, 1000)),
        ("psi", _PSI),
        ("ksi", 1000 * _PSI),
        ("Msi", 1_000_000 * _PSI),
        ("kilogrampersquarecentimetre", _GRAVITY / 100),
    ),
    looks="'85 MPa', '85 N/mm2' or '12000 psi'",
    few="use MPa, GPa, N/mm2 or psi",
    spelled=tuple(
        (re.compile(looks), name)
        for looks, name in (
            (r"\bN ?/ ?mm(?:2|²|\^2|\*\*2)", "newtonpersquaremillimetre"),
            (r"\bkgf? ?/ ?cm(?:2|²|\^2|\*\*2)", "kilogrampersquarecentimetre"),
        )
    ),
)
AREA = UnitKind(
    what="an area",
    base="mm**2",
    units=_named(
        ("squaremillimetre", Fraction(1)),
        ("squarecentimetre", Fraction(100)),
        ("squareinch", _INCH**2),
    ),
    looks="'30 cm2', '3000 mm2' or '5 in2'",
    few="use cm2, mm2 or in2",
    spelled=tuple(
        (re.compile(looks), name)
        for looks, name in (
            (r"\bmm(?:2|²|\^2|\*\*2)|\bsq\.? ?mm\b", "squaremillimetre"),
            (r"\bcm(?:2|²|\^2|\*\*2)|\bsq\.? ?cm\b", "squarecentimetre"),
            (r"\bin(?:2|²|\^2|\*\*2)|\bsq\.? ?in(?:ch|ches)?\b", "squareinch"),
        )
    ),
)
ALL_KINDS = (LENGTH, MASS, ANGLE, FORCE, PERCENT, DENSITY, STRESS, AREA)
INCHES_LOOK_LIKE = "'10 1/4 in', '3/4\"' or '1 ft 3 in'"
"""Examples of a length for a maker who works in inches."""
