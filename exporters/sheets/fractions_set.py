"""Figures set in type, as plain texts that every viewer and printer shows the same."""

from __future__ import annotations

from exporters.sheets.lettering import text_width
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Anchor, Drawn, Lettering
from furniture.parts.vectors import Point2


def set_width(text: str, height: float) -> float:
    """The length of a set figure [mm] for capitals of this height [mm]."""
    return text_width(text, height)


def set_figure(text: str, middle: Point2, height: float, is_turned: bool) -> tuple[Drawn, ...]:
    """The letters of a figure round its middle.

    Args:
        text: such as `10 3/16` or `19.7`.
        middle: of the text [mm].
        height: of capitals [mm].
        is_turned: read from the right.
    """
    x, y = middle
    at = (x + height / 2, y) if is_turned else (x, y - height / 2)
    return (
        Lettering(
            text=text,
            at=at,
            height=height,
            anchor=Anchor.CENTRE,
            is_turned=is_turned,
            line_class=LineClass.DIMENSION,
        ),
    )
