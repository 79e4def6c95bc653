"""What was given, as a message can show it: in one line, not too long, and always printable."""

from __future__ import annotations

import unicodedata
from enum import Enum

LONGEST_SHOWN = 240
"""Letters of what was given that a message shows. Own rule."""
_NOT_PRINTED = ("Cc", "Cs", "Co", "Cn", "Zl", "Zp")
"""Unicode's classes of control characters, halves of pairs, private ones, and breaks of a line."""


def said(given: object) -> str:
    """What was given, as a script would hold it; text in quotes.

    Args:
        given: anything at all.
    """
    try:
        if given is None:
            text = "nothing"
        elif isinstance(given, str) and given.isprintable():
            text = f"'{given}'"
        elif isinstance(given, Enum):
            text = str(given) if isinstance(given, str) else f"{type(given).__name__}.{given.name}"
        else:
            text = str(given) if hasattr(given, "magnitude") else repr(given)
    except Exception:  # the maker's own class, or a number of more digits than are ever written out
        text = f"a {type(given).__name__}"
    return in_print(text)


def in_print(text: str) -> str:
    """Text in one line, short, and without letters that cannot be printed.

    Args:
        text: of a message.
    """
    line = " ".join(text.split())
    short = line if len(line) <= LONGEST_SHOWN else f"{line[: LONGEST_SHOWN - 4]} ..."
    return "".join(
        ascii(letter)[1:-1] if unicodedata.category(letter) in _NOT_PRINTED else letter
        for letter in short
    )


def odd_letters(text: str) -> tuple[str, ...]:
    """The letters of a name that no sheet or file can hold, each once.

    Args:
        text: the name.
    """
    return tuple(dict.fromkeys(each for each in text if unicodedata.category(each) in _NOT_PRINTED))
