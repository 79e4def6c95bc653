"""How a figure with its unit is written: numbers and units, read off text one after the other.

Decimals, fractions with any slash, whole numbers with a fraction, and the marks of feet and inches.
Everything else is no figure: nothing is passed over, so that nothing is read as what it is not.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

LONGEST_TEXT = 60
"""Letters of a figure; a longer text is no figure that a maker would write. Own rule."""

_POWER = r"(?:[eE][+-]?[0-9]{1,2}(?![0-9]))?"
_NUMBER = (
    r"(?:[0-9]+(?:-| +)[0-9]+ ?/ ?[0-9]+|[0-9]+ ?/ ?[0-9]+"
    rf"|[0-9]*\.[0-9]+{_POWER}|[0-9]+\.?{_POWER})"
)
_TERM = re.compile(
    rf" *(?P<number>{_NUMBER}) *(?P<unit>''|′′|’’|[\"″”'′’°%％]|[^\W\d_]+(?:\.(?= |,|$))?|)"
    r"(?: *,(?= *[0-9]))? *"
)
_ALIKE = {
    **dict.fromkeys("⁄∕／", "/"),
    **dict.fromkeys("‐‑–−", "-"),
    **dict.fromkeys("\t\r\n", " "),
}
"""Letters that stand for others: fraction slashes, hyphens and minus signs, breaks of a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A number and the unit behind it; the unit is empty where none was written."""

    number: Fraction
    unit: str


class NoNumber(ValueError):  # noqa: N818 - says what is so
    """A number with nothing under its fraction line, which is worth nothing; the text is it."""


def terms_of(text: str) -> tuple[int, tuple[Term, ...]] | None:
    """Sign and terms of a figure such as `-3 mm` or `1 ft 3 1/2 in`; nothing when it is none.

    Args:
        text: as `plain` gives it.

    Raises:
        NoNumber: a fraction over 0.
    """
    if len(text) > LONGEST_TEXT:
        return None
    sign = -1 if text.startswith("-") else 1
    rest = text[1:].lstrip(" ") if text[:1] in ("-", "+") else text
    found: list[Term] = []
    position = 0
    while position < len(rest):
        match = _TERM.match(rest, position)
        if match is None:
            return None
        unit = match["unit"].removesuffix(".")
        found.append(Term(number=_number(match["number"]), unit=unit))
        position = match.end()
    return (sign, tuple(found)) if found else None


def plain(text: str) -> str:
    """The text with letters that look alike made one, vulgar fractions opened out (`2¼`: `2 1/4`).

    Args:
        text: as written.
    """
    letters = []
    for letter in text[: 4 * LONGEST_TEXT]:
        opened = _opened(letter)
        if opened:
            letters.append(f" {opened} ")
        elif unicodedata.category(letter) == "Zs":
            letters.append(" ")
        else:
            letters.append(_ALIKE.get(letter, letter))
    return "".join(letters).strip(" ")


def _opened(letter: str) -> str:
    """A vulgar fraction character as figures; nothing for any other, such as `²` or `①`."""
    kind, *codes = unicodedata.decomposition(letter).split() or [""]
    if kind != "<fraction>" or len(codes) < 3:
        return ""
    figures = "".join(chr(int(code, 16)) for code in codes).replace("⁄", "/")
    return "" if figures.endswith("/") else figures


def _number(text: str) -> Fraction:
    parts = re.split(r"(?:-| +)(?=[0-9]+ ?/)", text)
    try:
        return sum((Fraction(part.replace(" ", "")) for part in parts), Fraction(0))
    except ZeroDivisionError as error:
        raise NoNumber(text) from error
