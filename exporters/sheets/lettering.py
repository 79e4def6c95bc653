"""How long and how high a text comes out, measured on the font that the sheets are set in."""

from __future__ import annotations

import importlib.util
import re
from collections.abc import Iterable
from functools import cache
from itertools import repeat
from pathlib import Path

from exporters.no_break import NO_BREAK, with_spaces

FONT_FILE = "DejaVuSans.ttf"
DESCENT_SHARE = 0.32
"""How far the lowest letters hang below the line, as a share of the height of a capital."""


@cache
def font_path() -> Path:
    """Where the font lies on this machine: it comes with matplotlib.

    Raises:
        FileNotFoundError: matplotlib is not installed whole.
    """
    spec = importlib.util.find_spec("matplotlib")
    places = spec.submodule_search_locations if spec is not None else None
    for place in places or ():
        path = Path(place) / "mpl-data" / "fonts" / "ttf" / FONT_FILE
        if path.is_file():
            return path
    raise FileNotFoundError(f"{FONT_FILE} comes with matplotlib and was not found there")


@cache
def _advances() -> tuple[dict[str, float], float]:
    """Advance width of each letter as a share of a capital's height, and that of a missing one."""
    from fontTools.ttLib import TTFont

    font = TTFont(font_path(), lazy=True)
    metrics, names = font["hmtx"], font.getBestCmap()
    capital = float(font["glyf"]["H"].yMax)
    shares = {chr(code): metrics[name][0] / capital for code, name in names.items()}
    return shares, metrics[".notdef"][0] / capital


_HANGING = frozenset("gjpqy,;()[]{}Q@_|/")


def descent(text: str, height: float) -> float:
    """How far the text hangs below its base line [mm]: figures and most letters do not.

    Args:
        text: one line.
        height: of capitals [mm].
    """
    return height * DESCENT_SHARE if _HANGING.intersection(text) else 0.0


@cache
def text_width(text: str, height: float) -> float:
    """The length of a line of text [mm], for capitals of this height [mm]."""
    shares, missing = _advances()
    return height * sum(shares.get(letter, missing) for letter in text)


_SPACE = rf"[^\S{NO_BREAK}]+"
_GAP = re.compile(rf"(?<!\d){_SPACE}|{_SPACE}(?!\d+/\d|mm\b|in\b|[+-](?: |$))")
"""Where a line may end: never inside `9 31/32` or between a figure and its unit."""


def widest_word(text: str, height: float) -> float:
    """The least width that a text needs when it is broken wherever it may be [mm].

    Args:
        text: one paragraph.
        height: of capitals [mm].
    """
    return max((text_width(word, height) for word in _GAP.split(text.strip())), default=0.0)


def wrapped(text: str, height: float, width: float) -> tuple[str, ...]:
    """The text broken at spaces into lines no longer than `width` [mm], where words allow.

    Args:
        text: one paragraph.
        height: of capitals [mm].
        width: to fit [mm].
    """
    return wrapped_round(text, height, repeat(width))


def wrapped_round(text: str, height: float, widths: Iterable[float]) -> tuple[str, ...]:
    """The text broken at spaces into lines each no longer than its own width, where words allow.

    Args:
        text: one paragraph.
        height: of capitals [mm].
        widths: to fit, one for each line and without end [mm].
    """
    rooms = iter(widths)
    room = next(rooms)
    lines: list[str] = []
    line = ""
    for word in filter(None, _GAP.split(text.strip())):
        longer = f"{line} {word}" if line else word
        if line and text_width(longer, height) > room:
            lines.append(line)
            line, room = word, next(rooms)
        else:
            line = longer
    return tuple(map(with_spaces, (*lines, line) if line else lines))
