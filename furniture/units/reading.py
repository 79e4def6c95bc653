"""Text or a quantity in, a float out: the door where units come in and stay out.

Inside the packages a length is a float in millimetres, a mass in kilograms, an angle in degrees.
"""

from __future__ import annotations

import math
import re
import unicodedata
from fractions import Fraction
from functools import cache
from typing import Any, Protocol


class Measured(Protocol):
    """A quantity with units, as pint makes it."""

    @property
    def magnitude(self) -> Any: ...
    @property
    def units(self) -> Any: ...


Given = str | Measured
"""What a maker may write for a measured figure: text with a unit, or a pint quantity."""

LENGTHS_LOOK_LIKE = "'260 mm', '26 cm', '10 1/4 in' or '3/4\"'"
INCHES_LOOK_LIKE = "'10 1/4 in', '3/4\"' or '1 ft 3 in'"
"""Examples of a length, the first in the unit that the maker works in."""
_POWER = r"(?:[eE][+-]?\d+)?"
_NUMBER = (
    r"(?:\d+\s*[- ]\s*\d+\s*/\s*\d+|\d+\s*/\s*\d+"
    rf"|\d*\.\d+{_POWER}|\d+\.?{_POWER})"
)
_TERM = re.compile(rf"\s*({_NUMBER})\s*([^\d\s/.,+-]*)\s*,?")
_COMMA = re.compile(r"(\d+),(\d+)(?=\D|$)")
_UNFINISHED = re.compile(r"(\d+)\s*/\s*(?!\s*\d)")
_MARKS = {
    '"': "inch",
    "″": "inch",
    "”": "inch",
    "''": "inch",
    "'": "foot",
    "′": "foot",
    "’": "foot",
}


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
    looks = INCHES_LOOK_LIKE if usual_unit == "in" else LENGTHS_LOOK_LIKE
    return _read(given, "mm", "a length", looks, usual_unit)


def read_mass(given: object) -> float:
    """The mass in kilograms, from text such as `0.9 kg` or `2 lb`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not a mass, or not finite.
    """
    return _read(given, "kg", "a mass", "'0.9 kg', '450 g' or '2 lb'")


def read_angle(given: object) -> float:
    """The angle in degrees, from text such as `45 deg`, or a quantity.

    Raises:
        ReadingError: a bare number, an unknown unit, not an angle, or not finite.
    """
    return _read(given, "degree", "an angle", "'45 deg' or '0.5 rad'")


def read_percent(given: object) -> float:
    """The percentage, from text such as `8 %`.

    Raises:
        ReadingError: anything but a number followed by a per cent sign.
    """
    looks = "'8 %'"
    if not isinstance(given, str):
        raise ReadingError(looks, "a share needs its per cent sign", f"write '{given} %'")
    pointed = _COMMA.sub(_with_point, given).strip()
    match = re.fullmatch(r"(-?\d*\.?\d+)\s*(%|percent|per cent)?", pointed)
    if match is None:
        raise ReadingError(looks, "this is not a percentage", "write a number and a per cent sign")
    if match[2] is None or pointed != given.strip():
        why = "a share is written with a decimal point and its per cent sign"
        raise ReadingError(looks, why, f"write '{match[1]} %'")
    return float(match[1])


def _read(given: object, unit: str, what: str, looks: str, usual: str | None = None) -> float:
    if isinstance(given, bool) or given is None:
        raise ReadingError(looks, f"this is not {what}", f"write {looks.split(',')[0]}")
    if isinstance(given, (int, float, Fraction)):
        example = f"'{given} {usual or unit}'" if math.isfinite(given) else looks.split(",")[0]
        raise ReadingError(
            looks, "a bare number could be any unit", f"write {example} if you mean it"
        )
    if isinstance(given, str):
        value = _read_text(given, unit, what, looks, usual or unit)
    else:
        value = _in_unit(given, unit, what, looks)
    if not math.isfinite(value):
        raise ReadingError(looks, f"{what} must be a finite number", f"write {looks.split(',')[0]}")
    return value


def _in_unit(given: object, unit: str, what: str, looks: str) -> float:
    import pint

    try:
        converted = registry().Quantity(given.magnitude, str(given.units)).to(unit)  # type: ignore[attr-defined]
        return round(float(converted.magnitude), 9)
    except pint.DimensionalityError as error:
        raise ReadingError(looks, f"this is not {what}", f"write {looks.split(',')[0]}") from error
    except (AttributeError, TypeError, ValueError, pint.errors.PintError) as error:
        raise ReadingError(looks, f"this cannot be read as {what}", f"write {looks}") from error


def _read_text(text: str, unit: str, what: str, looks: str, usual: str) -> float:
    plain = _plain(text)
    _refuse_slips(plain, unit, what, looks, usual)
    sign = 1.0
    if plain.startswith(("-", "+")):
        sign = -1.0 if plain[0] == "-" else 1.0
        plain = plain[1:].strip()
    total, position, terms = 0.0, 0, 0
    while position < len(plain):
        match = _TERM.match(plain, position)
        if match is None or match.end() == position:
            raise ReadingError(looks, f"this text is not {what}", f"write {looks.split(',')[0]}")
        number, name = _number(match[1], looks), match[2]
        if not name:
            raise ReadingError(
                looks,
                "a bare number could be any unit",
                f"write '{text.strip()} {usual}' if you mean it",
            )
        total += _in_unit(_quantity(number, name, what, looks), unit, what, looks)
        position, terms = match.end(), terms + 1
    if terms == 0:
        raise ReadingError(looks, f"this text is not {what}", f"write {looks.split(',')[0]}")
    return sign * total


def _refuse_slips(text: str, base: str, what: str, looks: str, usual: str) -> None:
    """A decimal comma and a fraction without its lower figure are told with what was meant."""
    unit = "" if re.search(r"[^\W\d_]|[\"'″”′’]", text) else f" {usual}"
    comma = _COMMA.search(text)
    if comma is not None:
        why = "a figure is written with a decimal point, not a comma"
        pointed = [_COMMA.sub(_with_point, text) + unit]
        if len(comma[2]) == 3 and comma[1] != "0":
            pointed.append(text.replace(",", "") + unit)
        try:
            for each in pointed:
                _read_text(each, base, what, looks, usual)
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


def _quantity(number: float, name: str, what: str, looks: str) -> Any:
    import pint

    try:
        return registry().Quantity(number, _MARKS.get(name, name))
    except (pint.errors.PintError, ValueError, TypeError, AttributeError) as error:
        raise ReadingError(
            looks,
            f"'{name}' is not a unit that is known",
            "use mm, cm, m, in or ft" if what == "a length" else f"write {looks}",
        ) from error


def _number(text: str, looks: str) -> float:
    parts = re.split(r"[\s-]+(?=\d+\s*/)", text.strip())
    try:
        return float(sum(Fraction(part.replace(" ", "")) for part in parts))
    except (ValueError, ZeroDivisionError) as error:
        raise ReadingError(
            looks, f"'{text}' is not a number", "write a whole number or a fraction"
        ) from error


def _plain(text: str) -> str:
    """Vulgar fraction characters opened out (`2¼` to `2 1/4`), outer spaces dropped."""
    letters = []
    for letter in text:
        if unicodedata.category(letter) == "No":
            value = Fraction(unicodedata.numeric(letter)).limit_denominator(64)
            letters.append(f" {value.numerator}/{value.denominator}")
        else:
            letters.append(letter)
    return "".join(letters).replace("''", '"').strip()
