"""Patterns that are alike, or as in a mirror, printed once: paper can be turned over and pricked
through."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from exporters.patterns.pattern import Pattern
from exporters.sheets.geometry import shape_points
from furniture.parts.vectors import Point2

_DIGITS = 2
"""Places that differ by less are the same: a hundredth of a millimetre."""

_Flips = tuple[float, float]
_AS_DRAWN: _Flips = (1.0, 1.0)
_HALF_ROUND: _Flips = (-1.0, -1.0)
_OVER: tuple[_Flips, ...] = ((1.0, -1.0), (-1.0, 1.0))

_Content = frozenset[tuple[object, ...]]


def each_once(patterns: Sequence[Pattern]) -> list[Pattern]:
    """The patterns without those that another one serves for, which says so.

    Words are compared with the places that they stand for: what is named otherwise is kept.

    Args:
        patterns: at true size, in order.
    """
    kept: list[Pattern] = []
    for pattern in patterns:
        own = _content(pattern, _AS_DRAWN)
        for index, other in enumerate(kept):
            if own in {_content(other, flips) for flips in (_AS_DRAWN, _HALF_ROUND)}:
                kept[index] = replace(other, more=f"{other.more}; the same for {pattern.shows}")
                break
            if own in {_content(other, flips) for flips in _OVER}:
                kept[index] = replace(other, more=f"{other.more}; turned over for {pattern.shows}")
                break
        else:
            kept.append(pattern)
    return kept


def _content(pattern: Pattern, flips: _Flips) -> _Content:
    """All that is drawn and told, seen from the middle of the pattern."""
    middle = pattern.core.centre

    def seen(points: Iterable[Point2]) -> frozenset[Point2]:
        return frozenset(
            (
                round(flips[0] * (x - middle[0]), _DIGITS) + 0.0,
                round(flips[1] * (y - middle[1]), _DIGITS) + 0.0,
            )
            for x, y in points
        )

    lines = {(each.line_class, seen(shape_points(each.shape))) for each in pattern.strokes}
    notes = {(each.text, seen(each.points)) for each in pattern.notes}
    named = {(each.text, seen((each.start, each.end))) for each in pattern.named}
    return frozenset((*lines, *notes, *named))
