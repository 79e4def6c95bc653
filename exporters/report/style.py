"""How the report is set: its fonts, sizes, greys and pens."""

from __future__ import annotations

from functools import cache
from html import escape

from reportlab.lib.colors import Color
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph

from exporters.pdf.fonts import drawable, font_named
from exporters.report.unbroken import unbroken

MM = 72.0 / 25.4
BLACK, MIDDLE, LIGHT, PALE = (Color(grey, grey, grey) for grey in (0.0, 0.45, 0.78, 0.93))
FINE_PT, THIN_PT, BOLD_PT = 0.4, 0.7, 1.4
SMALL_SIZE, HEAD_SIZE, TITLE_SIZE = 6.8, 9.6, 15.0
TEXT_SIZES = (7.9, 7.4, 6.9)
"""Of words beside a table's letters [pt]: the largest that costs no page. Own rule."""


def plain() -> str:
    """The upright font."""
    return font_named("DejaVuSans.ttf")


def bold() -> str:
    """The bold font."""
    return font_named("DejaVuSans-Bold.ttf")


@cache
def styles(text_pt: float = TEXT_SIZES[0]) -> dict[str, ParagraphStyle]:
    """The paragraph styles by what they are for.

    Args:
        text_pt: how large words are set that stand in no table [pt].
    """
    text = ParagraphStyle(
        "text", fontName=plain(), fontSize=text_pt, leading=text_pt * 1.2, alignment=TA_LEFT
    )
    small = ParagraphStyle("small", parent=text, fontSize=SMALL_SIZE, leading=SMALL_SIZE * 1.14)
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
        "headed": ParagraphStyle("headed", parent=small, spaceBefore=2.2 * MM, spaceAfter=0.5 * MM),
        "title": ParagraphStyle(
            "title", parent=text, fontName=bold(), fontSize=TITLE_SIZE, leading=TITLE_SIZE * 1.2
        ),
    }  # fmt: skip


def headed(head: str, text: str) -> Paragraph:
    """Words in table letters that go on behind their heading, in its line.

    Args:
        head: large and bold.
        text: after it.
    """
    loud = f'<font name="{bold()}" size="{HEAD_SIZE}">{escape(head)}</font>'
    return Paragraph(f"{loud}&nbsp; {escape(drawable(unbroken(text)))}", styles()["headed"])
