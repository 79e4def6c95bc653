"""Figures set in type: an inch fraction has its numerator raised and its denominator lowered.

It is made of plain texts and one slanting line, so that every viewer and printer shows the same,
and its figures are as high as any other text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from exporters.sheets.lettering import text_width
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Anchor, Drawn, Lettering, Stroke
from exporters.views.values import Line
from furniture.parts.vectors import Point2

_FRACTION = re.compile(r"(\d+)/(\d+)")
_SHIFT_SHARE = 0.36
_SLASH_SHARE = 0.62
_SPACE_SHARE = 0.3


@dataclass(frozen=True, slots=True)
class _Run:
    """A text and where it starts along the line and above it [mm]; or a slash, without text."""

    text: str
    along: float
    above: float


def _runs(text: str, height: float) -> tuple[list[_Run], float]:
    """The runs of a figure and its whole length [mm]."""
    runs: list[_Run] = []
    along, at = 0.0, 0
    for match in _FRACTION.finditer(text):
        before = text[at : match.start()].rstrip(" ")
        if before:
            runs.append(_Run(before, along, 0.0))
            along += text_width(before, height) + _SPACE_SHARE * height
        shift = _SHIFT_SHARE * height
        runs.append(_Run(match[1], along, shift))
        along += text_width(match[1], height)
        runs.append(_Run("", along, 0.0))
        along += _SLASH_SHARE * height
        runs.append(_Run(match[2], along, -shift))
        along += text_width(match[2], height)
        at = match.end()
    rest = text[at:]
    if rest:
        runs.append(_Run(rest, along, 0.0))
        along += text_width(rest, height)
    return runs, along


def set_width(text: str, height: float) -> float:
    """The length of a set figure [mm] for capitals of this height [mm]."""
    return _runs(text, height)[1]


def set_overhang(text: str, height: float) -> float:
    """How far a set figure reaches past the height of a capital, each way [mm]."""
    return _SHIFT_SHARE * height if _FRACTION.search(text) else 0.0


def set_figure(text: str, middle: Point2, height: float, is_turned: bool) -> tuple[Drawn, ...]:
    """The letters and slashes of a figure round its middle.

    Args:
        text: such as `10 3/16` or `19.7`.
        middle: of the text [mm].
        height: of capitals [mm].
        is_turned: read from the right.
    """
    runs, whole = _runs(text, height)

    def put(along: float, above: float) -> Point2:
        a, b = along - whole / 2, above - height / 2
        return (middle[0] - b, middle[1] + a) if is_turned else (middle[0] + a, middle[1] + b)

    drawn: list[Drawn] = []
    for run in runs:
        if run.text:
            drawn.append(
                Lettering(
                    text=run.text,
                    at=put(run.along, run.above),
                    height=height,
                    anchor=Anchor.LEFT,
                    is_turned=is_turned,
                    line_class=LineClass.DIMENSION,
                )
            )
            continue
        reach = _SLASH_SHARE * height
        low = put(run.along + 0.12 * reach, -0.25 * height)
        high = put(run.along + 0.88 * reach, 1.25 * height)
        drawn.append(Stroke(shape=Line(start=low, end=high), line_class=LineClass.DIMENSION))
    return tuple(drawn)
