"""Strips that are glued up to one part, as a small picture from above: order, marks and clamps."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate, pairwise
from typing import assert_never

from exporters.sheets.figures import stroke
from exporters.sheets.geometry import items_box, moved_item
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.set_up_bits import PITCH, outlined
from exporters.sheets.set_up_picture import WORDS_MM, Picture, set_up_picture
from exporters.sheets.values import Anchor, Item, Lettering
from exporters.work.set_up_shown import SetUpShown
from exporters.work.strips_shown import StripsShown

_LONG_MM, _WIDE_MM, _LEAST_MM = 34.0, 20.0, 4.5
"""How long and how wide the strips are drawn, and how wide each at least. Own rule."""
_CAUL_MM, _CAUL_FROM_END_MM, _BEYOND_MM = 1.6, 2.0, 1.5
_JAW_MM = 1.6
_CLAMPED = (0.22, 0.94)
"""From where to where along the strips clamps are drawn, right of the numbers. Own rule."""


def picture_of(
    shown: SetUpShown | StripsShown, style: SheetStyle, words_mm: float = WORDS_MM[0]
) -> Picture | None:
    """The small picture beside a tick; None where a pass is not told by a setting.

    Args:
        shown: what it shows.
        style: pens and heights.
        words_mm: how wide its rows of words may be.
    """
    match shown:
        case SetUpShown():
            return set_up_picture(shown, style, words_mm)
        case StripsShown():
            items = [*_drawn(shown, style), *_named(shown, style)]
            around = items_box(items)
            return Picture(
                items=tuple(moved_item(item, -around.left, -around.bottom) for item in items),
                width=around.width,
                height=around.height,
            )
        case _:
            assert_never(shown)


def _marks_mm(shown: StripsShown) -> list[float]:
    """Where strips meet on paper, strip 1 at the bottom: true to scale, but none too thin."""
    scale = _WIDE_MM / sum(shown.widths_mm)
    return list(accumulate((max(_LEAST_MM, each * scale) for each in shown.widths_mm), initial=0.0))


def _drawn(shown: StripsShown, style: SheetStyle) -> Iterator[Item]:
    marks = _marks_mm(shown)
    top, height = marks[-1], style.text_height_mm
    for number, (low, high) in enumerate(pairwise(marks), start=1):
        corners = ((0.0, low), (_LONG_MM, low), (_LONG_MM, high), (0.0, high), (0.0, low))
        yield outlined(corners)
        y = (low + high - height) / 2
        yield Lettering(text=str(number), at=(4.6, y), height=height, anchor=Anchor.CENTRE)
    for at in _cauls_mm(shown.cauls):
        left, right = at - _CAUL_MM / 2, at + _CAUL_MM / 2
        low, high = -_BEYOND_MM, top + _BEYOND_MM
        yield outlined(((left, low), (right, low), (right, high), (left, high), (left, low)))
    yield stroke((_LONG_MM * 0.30, 0.0), (_LONG_MM * 0.60, top), LineClass.CENTRE)
    yield stroke((_LONG_MM * 0.90, 0.0), (_LONG_MM * 0.60, top), LineClass.CENTRE)
    first, last = (_LONG_MM * share for share in _CLAMPED)
    step = (last - 3.0 - first) / max(1, shown.clamps - 1)
    for number in range(shown.clamps):
        x = first + number * step
        kind = LineClass.HIDDEN if number % 2 else LineClass.VISIBLE
        yield stroke((x, -_BEYOND_MM), (x, top + _BEYOND_MM), kind)
        for y in (-_BEYOND_MM, top + _BEYOND_MM):
            yield stroke((x - _JAW_MM / 2, y), (x + _JAW_MM / 2, y), LineClass.VISIBLE)


def _cauls_mm(count: int) -> list[float]:
    """Where cauls lie along the strips, one at each end and the others between [mm on paper]."""
    first, apart = _CAUL_FROM_END_MM, _LONG_MM - 2 * _CAUL_FROM_END_MM
    return [first + apart * each / max(1, count - 1) for each in range(count)]


def _named(shown: StripsShown, style: SheetStyle) -> Iterator[Item]:
    """The widths beside the strips, the edge that strip 1 has below it, and the part above."""
    height = style.text_height_mm
    marks = _marks_mm(shown)
    for text, (low, high) in zip(shown.widths, pairwise(marks), strict=True):
        yield Lettering(text=text, at=(_LONG_MM + 1.2, (low + high - height) / 2), height=height)
    below = -_BEYOND_MM - 0.8 - height
    yield Lettering(
        text=shown.first_edge, at=(_LONG_MM / 2, below), height=height, anchor=Anchor.CENTRE
    )
    above = marks[-1] + _BEYOND_MM + (PITCH - 1.0) * height
    yield Lettering(text=shown.of, at=(_LONG_MM / 2, above), height=height, anchor=Anchor.CENTRE)
