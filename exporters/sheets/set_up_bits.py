"""What small pictures are put together from: rows of words, a dimension, and broken wood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from exporters.sheets.figures import arrowhead, stroke
from exporters.sheets.lettering import text_width, wrapped
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Item, Lettering, Stroke
from exporters.views.values import Polyline
from furniture.parts.vectors import Point2

WIDE_MM = 32.0
"""A picture is no wider than this but for its words. Own rule."""
BREAK_MM = 2.0
_MARGINS_MM = (9.0, 7.0, 5.0, 3.5, 2.0)
"""How much of the wood is drawn round a cut and at an end, the first that fits. Own rule."""
PITCH = 1.42
_APART_MM = 1.5
"""Between words in one row. Own rule."""
_ASIDE_MM = 14.0
"""Words stand no further than this from what they name. Own rule."""


@dataclass(slots=True)
class Rows:
    """Words in rows, each row with what stands in it: its middle [mm on paper] and the words."""

    low: float
    high: float
    rows: list[list[tuple[float, str]]] = field(default_factory=list)
    names_from: int = 0

    def put_figure(self, middle: float, text: str, height: float) -> None:
        """A figure in rows of its own, nearest to what it measures: no name is read with it."""
        for line in reversed(wrapped(text, height, self.high - self.low)):
            self.put(middle, line, height)
            self.names_from = len(self.rows)

    def put(self, middle: float, text: str, height: float) -> None:
        """Words as near as may be to a place, in the first row that has room for them there."""
        half = text_width(text, height) / 2
        at = max(min(middle, self.high - half), self.low + half)
        for row in self.rows[self.names_from :]:
            taken = [(x, half + text_width(said, height) / 2 + _APART_MM) for x, said in row]
            places = [at, *(x + side * wide for x, wide in taken for side in (-1.0, 1.0))]
            free = [
                place
                for place in places
                if abs(place - at) <= _ASIDE_MM
                and self.low + half - 1e-6 <= place <= self.high - half + 1e-6
                and all(abs(place - x) > wide - 1e-6 for x, wide in taken)
            ]
            if free:
                row.append((min(free, key=lambda place: abs(place - at)), text))
                return
        self.rows.append([(at, text)])

    def lettering(self, first: float, pitch: float, height: float) -> Iterator[Item]:
        """The rows from the first base line on."""
        for index, row in enumerate(self.rows):
            for x, text in row:
                at = (x, first + index * pitch)
                yield Lettering(text=text, at=at, height=height, anchor=Anchor.CENTRE)


def dimension(span: tuple[float, float], y: float, top: float, style: SheetStyle) -> Iterator[Item]:
    """A dimension line with its extension lines; narrow, its arrows stand outside."""
    (a, b), reach = span, 2 * style.arrow_length_mm
    for x in span:
        yield stroke((x, top + 0.4), (x, y + 0.5))
    if b - a >= reach:
        yield stroke((a, y), (b, y))
        yield arrowhead((a, y), (-1.0, 0.0), style)
        yield arrowhead((b, y), (1.0, 0.0), style)
    else:
        yield stroke((a - reach, y), (b + reach, y))
        yield arrowhead((a, y), (1.0, 0.0), style)
        yield arrowhead((b, y), (-1.0, 0.0), style)


Stretches = tuple[tuple[tuple[float, float], ...], tuple[float, ...]]


def kept_of(
    left: float,
    right: float,
    gone: tuple[float, float, float, float],
    factor: float,
    figure: tuple[tuple[float, float] | None, float],
) -> Stretches:
    """What is drawn of the wood's length [mm of the wood], and how wide the breaks are on paper.

    Its ends are drawn, and what lies round the cut; a break that `figure`, a span with how much
    room its words take [mm on paper], runs over is so wide.
    """
    most = WIDE_MM - 6.0
    if (right - left) * factor <= most:
        return ((left, right),), ()
    is_all_along = gone[2] - gone[0] > 0.5 * (right - left)
    middle = () if is_all_along else ((gone[0], gone[2]),)
    found: Stretches = (((left, right),), ())
    for margin in _MARGINS_MM:
        more = margin / factor
        zones = [(left, left + more), (right - more, right)]
        zones += [(max(left, a - more), min(right, b + more)) for a, b in middle]
        merged: list[tuple[float, float]] = []
        for low, high in sorted(zones):
            if merged and low <= merged[-1][1] + 2 * BREAK_MM / factor:
                merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
            else:
                merged.append((low, high))
        gaps = _gaps(merged, figure)
        found = (tuple(merged), gaps)
        if sum(high - low for low, high in merged) * factor + sum(gaps) <= most:
            break
    return found


def _gaps(
    kept: Sequence[tuple[float, float]], figure: tuple[tuple[float, float] | None, float]
) -> tuple[float, ...]:
    span, wide = figure
    gaps = [BREAK_MM] * (len(kept) - 1)
    for index, (first, second) in enumerate(pairwise(kept)):
        if span is not None and span[0] <= first[1] and second[0] <= span[1]:
            gaps[index] = wide
            break
    return tuple(gaps)


LEAST_SHOWN_MM = 0.8
"""A skin that comes off is drawn at least so thick. Own rule."""


def outlined(points: tuple[Point2, ...]) -> Stroke:
    """A line through points on paper [mm]."""
    return Stroke(shape=Polyline(points=points), line_class=LineClass.PICTURE)


def block(x: float, y: float, wide: float, high: float) -> Iterator[Item]:
    """A fence, a stop or a jig from its lower left corner."""
    yield outlined(((x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y)))
    yield stroke((x, y), (x + wide, y + high), LineClass.PICTURE)


def thickened(x0: float, y0: float, x1: float, y1: float) -> tuple[Point2, ...]:
    """The corners of a rectangle, no thinner than it can be seen [mm]."""
    half = LEAST_SHOWN_MM / 2
    (xm, ym) = (x0 + x1) / 2, (y0 + y1) / 2
    left, right = min(x0, xm - half), max(x1, xm + half)
    low, high = min(y0, ym - half), max(y1, ym + half)
    return ((left, low), (right, low), (right, high), (left, high))
