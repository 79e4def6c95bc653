"""The font that sheets are set in, as the page writer knows it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

rl_config.useA85 = 0
"""Streams are kept as bytes: as letters they are a quarter larger and cost seconds to encode."""

DEFAULT_FONT = "DejaVuSans"
_BOLD_FONT = "DejaVuSans-Bold"
MISSING = "\ufffd"
"""Drawn for a letter that the fonts have not, such as a pictograph; they have this one."""


@cache
def font_named(file_name: str) -> str:
    """The name under which the page writer knows a font file; the default one if it has no such.

    Args:
        file_name: of a TrueType font, as a text style names it.
    """
    path = _folder() / Path(file_name).name
    if not (path.suffix.lower() == ".ttf" and path.is_file()):
        path = _folder() / f"{DEFAULT_FONT}.ttf"
    pdfmetrics.registerFont(TTFont(path.stem, str(path)))
    return path.stem


@cache
def em_of_capital(font: str) -> float:
    """The font size over the height of its capitals, which is what a drawing's text height is.

    Args:
        font: a name that `font_named` gave.
    """
    from fontTools.ttLib import TTFont as FontFile

    file = FontFile(_folder() / f"{font}.ttf", lazy=True)
    return float(file["head"].unitsPerEm) / float(file["glyf"]["H"].yMax)


def drawable(text: str) -> str:
    """The text as it can be drawn: letters that the fonts have not are shown as `MISSING`.

    Args:
        text: any, in one line or several.
    """
    if text.isascii():
        return text
    known = _letters()
    return "".join(each if ord(each) in known or each.isspace() else MISSING for each in text)


@cache
def _letters() -> frozenset[int]:
    from fontTools.ttLib import TTFont as FontFile

    upright, bold = (
        frozenset(FontFile(_folder() / f"{font}.ttf", lazy=True).getBestCmap())
        for font in (DEFAULT_FONT, _BOLD_FONT)
    )
    return upright & bold


def text_width(text: str, font: str, capital: float) -> float:
    """The length of a line of text, in the unit of its height.

    Args:
        text: one line.
        font: a name that `font_named` gave.
        capital: height of capitals.
    """
    return float(pdfmetrics.stringWidth(text, font, capital * em_of_capital(font)))


def _folder() -> Path:
    import matplotlib

    return Path(matplotlib.get_data_path()) / "fonts" / "ttf"
