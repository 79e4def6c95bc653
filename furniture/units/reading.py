"""Text or a quantity in, a float out: the door where units come in and stay out.

Inside the packages a length is a float in millimetres, a mass in kilograms, an angle in degrees.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from functools import cache
from itertools import pairwise
from numbers import Real
from typing import Any, Protocol

from furniture.units.grammar import LONGEST_TEXT, NoNumber, Term, plain, terms_of
from furniture.units.unit_names import (
    ALL_KINDS,
    ANGLE,
    AREA,
    DENSITY,
    FORCE,
    INCHES_LOOK_LIKE,
    LENGTH,
    MASS,
    PERCENT,
    STRESS,
    UnitKind,
)
from furniture.units.words import nearest_word


class Measured(Protocol):
    """A quantity with units, as pint makes it."""

    @property
    def magnitude(self) -> Any: ...
    @property
    def units(self) -> Any: ...


Given = str | Measured
"""What a maker may write for a measured figure: text with a unit, or a pint quantity."""

_COMMA = re.compile(r"([0-9]+),([0-9]+)(?![0-9])")
_UNFINISHED = re.compile(r"([0-9]+) */ *(?![0-9 ])")
_POWER = re.compile(r"[0-9][eE][+-]?[0-9]{3,}")
_UNIT = re.compile(r"[^\W\d_]|[\"'″”′’°%％]")


_UNIT_ALIKE = 0.75
"""What share of the letters of a unit agrees with those of the one that was meant: `smoot` is no
foot. Own rule."""


class ReadingError(ValueError):
    """A figure that cannot be read, with what would be allowed and the change that would do."""

    def __init__(self, allowed: str, why: str, remedy: str) -> None:
        super().__init__(f"{why}; write it as {allowed}")
        self.allowed = allowed
        self.why = why
        self.remedy = remedy


@cache
def registry() -> Any:
    """The project's one unit registry (pint's application registry)."""
    import pint

    return pint.get_application_registry()  # type: ignore[no-untyped-call]


def quantity(value: float, unit: str) -> Any:
    """A quantity such as `Q(26, "cm")`, for makers who prefer quantities to text."""
    return registry().Quantity(value, unit)


def read_length(given: object, usual_unit: str = "mm") -> float:
    """The length in millimetres.

    Args:
        given: text such as `260 mm`, `10 1/4 in`, `1 ft 3 1/2 in`, `3/4"`, or a quantity.
        usual_unit: the unit to offer for a bare number.

    Raises:
        ReadingError: a bare number, an unknown unit, not a length, or not finite.
    """
    kind = replace(LENGTH, looks=INCHES_LOOK_LIKE) if usual_unit == "in" else LENGTH
    return _read(given, kind, usual_unit)


def read_mass(given: object) -> float:
    """The mass in kilograms, from text such as `0.9 kg` or `2 lb`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not a mass, or not finite.
    """
    return _read(given, MASS, "kg")


def read_angle(given: object) -> float:
    """The angle in degrees, from text such as `45 deg`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not an angle, or not finite.
    """
    return _read(given, ANGLE, "deg")


def read_force(given: object) -> float:
    """The force in newtons, from text such as `20 N` or `5 lbf`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not a force, or not finite.
    """
    return _read(given, FORCE, "N")


def read_percent(given: object) -> float:
    """The percentage, from text such as `8 %`, or a quantity.

    Raises:
        ReadingError: anything but a number followed by a per cent sign.
    """
    return _read(given, PERCENT, "%")


def read_area(given: object) -> float:
    """The area in square millimetres, from text such as `30 cm2` or `5 in2`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not an area, or not finite.
    """
    return _read(given, AREA, "cm2")


def read_density(given: object) -> float:
    """The density [kg/m3], from text such as `650 kg/m3` or `41 lb/ft3`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not a density, or not finite.
    """
    return _read(given, DENSITY, "kg/m3")


def read_stiffness(given: object) -> float:
    """The modulus of elasticity [MPa], from text such as `11.5 GPa`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not a stress, or not finite.
    """
    looks = "'11.5 GPa', '11500 N/mm2' or '1.67e6 psi'"
    return _read(given, replace(STRESS, what="a stiffness", looks=looks), "GPa")


def read_stress(given: object) -> float:
    """The strength or stress [MPa], from text such as `85 MPa` or `12300 psi`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not a stress, or not finite.
    """
    return _read(given, STRESS, "MPa")


def in_other_units(given: object, kind: UnitKind, units: tuple[str, ...]) -> Iterator[str]:
    """The same number in other units, as text: what a maker may have meant by a slip of the unit.

    Nothing where it is no text with one number.

    Args:
        given: what was written, and could be read.
        kind: what is measured.
        units: those to try.
    """
    found = terms_of(plain(given)) if isinstance(given, str) else None
    if found is None or len(found[1]) != 1 or found[0] < 0:
        return
    written = plain(str(given))
    figures = written[: written.rindex(found[1][0].unit)].strip(" +")
    for unit in units:
        if kind.worth(unit) != kind.worth(found[1][0].unit):
            yield f"{figures} {unit}"


def _read(given: object, kind: UnitKind, usual: str) -> float:
    looks, one = kind.allowed, f"write it like {kind.example}"
    if given is None:
        raise ReadingError(looks, "it must be given", one)
    if isinstance(given, bool):
        raise ReadingError(looks, f"this is not {kind.what}", one)
    if isinstance(given, (Real, Decimal)):
        text = str(given) if _is_short(given) else ""
        meant = f"write '{text} {usual}' if you mean it" if text else one
        why = "a bare number could be any unit"
        if kind is PERCENT:
            why, meant = "a share needs its per cent sign", f"write '{text or 8} %'"
        raise ReadingError(looks, why, meant)
    value = _of_text(given, kind, usual) if isinstance(given, str) else _of_quantity(given, kind)
    if not math.isfinite(value):
        raise ReadingError(looks, f"{kind.what} must be a finite number", one)
    return value


def _is_short(number: object) -> bool:
    """Whether a number is finite and of the size that a figure in a design may have."""
    try:
        return abs(float(number)) < 1e15  # type: ignore[arg-type]
    except (OverflowError, ValueError):
        return False


def _of_quantity(given: object, kind: UnitKind) -> float:
    import pint

    error = ReadingError(
        kind.allowed, f"this cannot be read as {kind.what}", f"write it like {kind.example}"
    )
    if not isinstance(given, pint.Quantity):
        raise error
    try:
        magnitude = given.to(kind.base).magnitude
    except pint.DimensionalityError as other:
        why = f"this is not {kind.what}"
        raise ReadingError(kind.allowed, why, f"write it like {kind.example}") from other
    except Exception as other:  # the magnitude may be anything: a text, an array, one's own class
        raise error from other
    if isinstance(magnitude, bool) or not isinstance(magnitude, (Real, Decimal)):
        raise error
    try:
        return round(float(magnitude), 9)
    except (OverflowError, ValueError):
        return math.inf


def _of_text(text: str, kind: UnitKind, usual: str) -> float:
    looks, one = kind.allowed, f"write it like {kind.example}"
    if len(text) > LONGEST_TEXT:
        why = f"this text is not {kind.what}: it has {len(text)} letters"
        raise ReadingError(looks, why, f"write it like {kind.example}")
    tidy = kind.in_one_word(plain(text).replace("per cent", "percent"))
    _refuse_slips(tidy, kind, usual)
    try:
        found = terms_of(tidy)
    except NoNumber as error:
        raise ReadingError(
            looks, f"'{error}' is not a number", "write a whole number or a fraction"
        ) from error
    if found is None:
        raise ReadingError(looks, f"this text is not {kind.what}", _without_dirt(tidy, kind))
    if _POWER.search(tidy):
        why = f"this text is not {kind.what}: its power of ten is too large"
        raise ReadingError(looks, why, f"write it like {kind.example}")
    sign, terms = found
    total = Fraction(0)
    last: Fraction | None = None
    for term in terms:
        if not term.unit and len(terms) > 1:
            why = f"one of these figures has no unit, and {kind.what} is one figure"
            inches = f'{tidy}"'
            meant = f"write '{inches}' if you mean it" if _is_read(inches, kind) else one
            raise ReadingError(looks, why, meant)
        worth = _worth(term, tidy, kind, usual)
        if last is not None and worth >= last:
            why = f"these are several figures, and {kind.what} is one"
            raise ReadingError(looks, why, f"write it like {kind.example}")
        total, last = total + term.number * worth, worth
    return round(float(sign * total), 9)


def _worth(term: Term, text: str, kind: UnitKind, usual: str) -> Fraction:
    """What the unit of a term is worth in the kind's base unit."""
    if not term.unit:
        if kind is PERCENT:
            why = "a share is written with a decimal point and its per cent sign"
            raise ReadingError(kind.allowed, why, f"write '{text} %'")
        why = "a bare number could be any unit"
        raise ReadingError(kind.allowed, why, f"write '{text} {usual}' if you mean it")
    worth = kind.worth(term.unit)
    if worth is not None:
        return worth
    if any(other.worth(term.unit) is not None for other in ALL_KINDS):
        raise ReadingError(
            kind.allowed, f"this is not {kind.what}", f"write it like {kind.example}"
        )
    near = nearest_word(term.unit, [name for name in kind.units if name.isalpha()], _UNIT_ALIKE)
    meant = text.replace(term.unit, near or usual)
    raise ReadingError(
        kind.allowed,
        f"'{term.unit}' is not a unit that is known",
        f"write '{meant}'" + ("" if near else f" if you mean it, or {kind.few}")
        if _is_read(meant, kind)
        else kind.few,
    )


def _without_dirt(text: str, kind: UnitKind) -> str:
    """The remedy for a text that would be read without a letter that means nothing in it."""
    clean = re.sub(r"[^\w\s./\"'″”′’°%+-]|\x00", "", text).strip()
    without_words = re.sub(r"^[^\W\d]+\s+(?=\d)", "", clean)
    joined = re.sub(r"(?<=[^\W\d]) (?=[^\W\d])", "", clean)
    for each in (clean, without_words, joined):
        if _is_read(each, kind):
            return f"write '{each}'"
    return f"write it like {kind.example}"


def _is_read(text: str, kind: UnitKind) -> bool:
    """Whether a text is taken as it is written, so that it may be proposed."""
    try:
        found = terms_of(text)
    except NoNumber:
        return False
    worths = [kind.worth(term.unit) for term in found[1]] if found else [None]
    known = [each for each in worths if each is not None]
    return len(known) == len(worths) and all(a > b for a, b in pairwise(known))


def _refuse_slips(text: str, kind: UnitKind, usual: str) -> None:
    """A decimal comma and a fraction without its lower figure are told with what was meant."""
    looks = kind.allowed
    unit = "" if _UNIT.search(text) else f" {usual}"
    comma = _COMMA.search(text)
    if comma is not None:
        why = "a figure is written with a decimal point, not a comma"
        pointed = [_COMMA.sub(_with_point, text) + unit]
        if len(comma[2]) == 3 and comma[1] != "0":
            pointed.append(text.replace(",", "") + unit)
        try:
            for each in pointed:
                _of_text(each, kind, usual)
        except ReadingError as other:  # more is wrong than the comma
            raise ReadingError(looks, f"{why}, and {other.why}", other.remedy) from other
        thousands = f", or '{pointed[1]}' if the comma parts thousands" if pointed[1:] else ""
        raise ReadingError(looks, why, f"write '{pointed[0]}'{thousands}")
    slash = _UNFINISHED.search(text)
    if slash is not None:
        top = int(slash[1])
        lower = next((each for each in (2, 4, 8, 16, 32, 64) if each > top), 2 * top + 2)
        finished = f"{text[: slash.start()]}{top}/{lower} {text[slash.end() :]}".rstrip()
        raise ReadingError(
            looks, "this fraction is not finished", f"write it whole, such as '{finished}{unit}'"
        )


def _with_point(comma: re.Match[str]) -> str:
    return f"{comma[1]}.{comma[2]}"
