"""How the report is set: its fonts, sizes, greys and pens."""

from __future__ import annotations

from functools import cache

from reportlab.lib.colors import Color
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle

from exporters.pdf.fonts import font_named

MM = 72.0 / 25.4
BLACK, MIDDLE, LIGHT, PALE = (Color(grey, grey, grey) for grey in (0.0, 0.45, 0.78, 0.93))
FINE_PT, THIN_PT, BOLD_PT = 0.4, 0.7, 1.4
SMALL_SIZE, TEXT_SIZE, HEAD_SIZE, TITLE_SIZE = 6.8, 7.9, 9.6, 15.0


def plain() -> str:
    """The upright font."""
    return font_named("DejaVuSans.ttf")


def bold() -> str:
    """The bold font."""
    return font_named("DejaVuSans-Bold.ttf")


@cache
def styles() -> dict[str, ParagraphStyle]:
    """The paragraph styles by what they are for."""
    text = ParagraphStyle(
        "text", fontName=plain(), fontSize=TEXT_SIZE, leading=TEXT_SIZE * 1.2, alignment=TA_LEFT
    )
    small = ParagraphStyle("small", parent=text, fontSize=SMALL_SIZE, leading=SMALL_SIZE * 1.18)
    return {
        "text": text,
        "small": small,
        "strong": ParagraphStyle("strong", parent=text, fontName=bold()),
        "small strong": ParagraphStyle("small strong", parent=small, fontName=bold()),
        "item": ParagraphStyle("item", parent=text, leftIndent=4 * MM, spaceBefore=0.7 * MM),
        "change": ParagraphStyle(
            "change", parent=text, leftIndent=8 * MM, textColor=Color(0.25, 0.25, 0.25)
        ),
        "head": ParagraphStyle(
            "head", parent=text, fontName=bold(), fontSize=HEAD_SIZE, leading=HEAD_SIZE * 1.3,
            spaceBefore=1.8 * MM, spaceAfter=0.4 * MM,
        ),
        "title": ParagraphStyle(
            "title", parent=text, fontName=bold(), fontSize=TITLE_SIZE, leading=TITLE_SIZE * 1.3
        ),
    }  # fmt: skip
