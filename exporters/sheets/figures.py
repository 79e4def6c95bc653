"""Dimensions as they are drawn: extension lines, arrowheads and text, in millimetres on paper.

Text from the model, place from the page. Linear figures stand above their line and are read from
the bottom or the right; running figures stand at the end of their extension line, and a line with
the ring of the origin and an arrow at each ties them (ISO 129-1, from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

from exporters.sheets.lettering import descent, text_width
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Drawn, Figure, FigureKind, Filled, Lettering, Stroke
from exporters.views.values import Arc, Line
from furniture.parts.vectors import Point2

_OVER_MM = 5.0
_RING_MM = 0.7


class Side(Enum):
    """A side of a view."""

    TOP = "top"
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"

    @property
    def is_level(self) -> bool:
        """Whether figures on this side measure along the sheet."""
        return self in (Side.TOP, Side.BOTTOM)

    @property
    def outward(self) -> float:
        """The sign of the way out of the view on this side."""
        return 1.0 if self in (Side.TOP, Side.RIGHT) else -1.0

    def edge_of(self, box: Box2) -> float:
        """Where a box ends on this side [mm]."""
        x, y = (box.right, box.top) if self.outward > 0 else (box.left, box.bottom)
        return y if self.is_level else x


class Beside(Enum):
    """Where the words of a level figure stand that are wider than what they measure."""

    AFTER = "to the right"
    BEFORE = "to the left"


def stroke(start: Point2, end: Point2, line_class: LineClass = LineClass.DIMENSION) -> Stroke:
    """A straight line of the sheet."""
    return Stroke(shape=Line(start=start, end=end), line_class=line_class)


def arrowhead(
    tip: Point2, direction: Point2, style: SheetStyle, line_class: LineClass = LineClass.DIMENSION
) -> Filled:
    """A filled arrowhead that points along `direction`.

    Args:
        tip: where it ends [mm].
        direction: a vector of any length.
        style: gives its size.
        line_class: the layer.
    """
    size = math.hypot(*direction)
    ux, uy = direction[0] / size, direction[1] / size
    back = (tip[0] - ux * style.arrow_length_mm, tip[1] - uy * style.arrow_length_mm)
    dx, dy = -uy * style.arrow_width_mm / 2, ux * style.arrow_width_mm / 2
    corners = (tip, (back[0] + dx, back[1] + dy), (back[0] - dx, back[1] - dy))
    return Filled(corners=corners, line_class=line_class)


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a figure says: its text and its length in the model [mm], and the view's factor."""

    text: str
    value_mm: float
    factor: float


def _turned(point: Point2, is_level: bool) -> Point2:
    return point if is_level else (point[1], point[0])


def _figure_text(text: str, middle: Point2, height: float, is_turned: bool) -> Lettering:
    """A figure round its middle [mm]; turned is read from the right."""
    x, y = middle
    down = height / 2
    return Lettering(
        text=text,
        at=(x + down, y) if is_turned else (x, y - down),
        height=height,
        anchor=Anchor.CENTRE,
        is_turned=is_turned,
        line_class=LineClass.DIMENSION,
    )


def linear(
    start: Point2,
    end: Point2,
    line: float,
    measured: Measured,
    style: SheetStyle,
    side: Side,
    beside: Beside = Beside.AFTER,
    passed_at: Sequence[float] = (),
) -> Figure:
    """A dimension between two points with its line on one side of the view.

    Args:
        start: first point [mm].
        end: second point [mm].
        line: where the dimension line runs: y for a level figure, x for an upright one [mm].
        measured: what it says.
        style: pens and gaps.
        side: of the view.
        beside: where words stand that are wider than the span.
        passed_at: where along the measured way lines run out past it, which words over the line,
            or beside an upright one, keep off [mm].
    """
    is_level = side.is_level
    (a0, o0), (a1, o1) = sorted((_turned(start, is_level), _turned(end, is_level)))
    sign = side.outward
    drawn: list[Drawn] = []

    def put(a: float, o: float) -> Point2:
        return _turned((a, o), is_level)

    span, width = a1 - a0, text_width(measured.text, style.text_height_mm)
    arrow = style.arrow_length_mm
    fits_arrows = span >= 2.4 * arrow
    middle = _clear_of(passed_at, (a0 + a1) / 2, (width / 2, width / 2), style)
    room = min(middle - a0, a1 - middle) - width / 2
    fits_text = room >= style.text_gap_mm + 0.25
    # a text a little wider than its span stands over it: the extension lines end below it
    is_over = side is Side.TOP and fits_arrows and not fits_text and width <= span + _OVER_MM
    is_over = is_over and abs(middle - (a0 + a1) / 2) < 1e-6
    past = 0.2 if is_over else style.extension_past_mm
    for a, o in ((a0, o0), (a1, o1)):
        gap = style.extension_gap_mm * sign
        drawn.append(stroke(put(a, o + gap), put(a, line + past * sign)))
    if fits_arrows:
        drawn.append(stroke(put(a0, line), put(a1, line)))
        inward = 1.0
    else:
        drawn.append(stroke(put(a0 - 2 * arrow, line), put(a1 + 2 * arrow, line)))
        inward = -1.0
    ends = ((a0, -inward), (a1, inward))
    for a, way in ends:
        drawn.append(arrowhead(put(a, line), put(way, 0.0), style))
    height = style.text_height_mm
    hangs = descent(measured.text, height)
    lift = style.text_gap_mm + height / 2 + hangs
    if fits_text or is_over:
        text_at, turned = put(middle, line + (lift if is_level else -lift)), not is_level
    elif is_level:
        reach = (style.extension_past_mm if fits_arrows else 2 * arrow) + style.text_gap_mm
        is_after, way = beside is Beside.AFTER, 1.0 if beside is Beside.AFTER else -1.0
        own = a1 + reach + width / 2 if is_after else a0 - reach - width / 2
        at = _clear_beside(passed_at, own, width / 2, style, beside)
        if at != own:  # the line leads to its words
            to = at - way * (width / 2 + style.text_gap_mm)
            drawn.append(stroke(put(a1 if is_after else a0, line), put(to, line)))
        text_at, turned = (at, line), False
    else:
        middle = _clear_of(passed_at, (a0 + a1) / 2, (height / 2 + hangs, height / 2), style)
        text_at, turned = (line + sign * (style.text_gap_mm + 1.0 + width / 2), middle), False
        if not fits_arrows:
            text_at = (text_at[0] + sign * style.arrow_width_mm, middle)
    drawn.append(_figure_text(measured.text, text_at, height, turned))
    return Figure(
        kind=FigureKind.LEVEL if is_level else FigureKind.UPRIGHT,
        start=start,
        end=end,
        line_at=put(a1, line),
        text=measured.text,
        text_at=text_at,
        value_mm=measured.value_mm,
        factor=measured.factor,
        drawn=tuple(drawn),
    )


def _clear_of(
    lines: Sequence[float], wanted: float, half: tuple[float, float], style: SheetStyle
) -> float:
    """The middle of words, as near as can be to the one wanted, that no level line runs through.

    Args:
        lines: how high they run [mm].
        wanted: the middle [mm].
        half: how far the words reach below and above it [mm].
        style: gaps.
    """
    below, above = (reach + style.text_gap_mm for reach in half)
    slack = 1e-6
    places = [wanted, *(place for at in lines for place in (at + below, at - above))]
    free = [
        place
        for place in places
        if all(at <= place - below + slack or at >= place + above - slack for at in lines)
    ]
    return min(free, key=lambda place: abs(place - wanted))


def _clear_beside(
    lines: Sequence[float], own: float, half: float, style: SheetStyle, beside: Beside
) -> float:
    """The middle of words beside a span, moved away from it past all lines that run through them.

    Args:
        lines: where they cross the words' line [mm].
        own: the middle where nothing is in the way.
        half: of the words' width.
        style: gaps.
        beside: on which side of the span.
    """
    way = 1.0 if beside is Beside.AFTER else -1.0
    clear = half + style.text_gap_mm
    middle = own
    for at in sorted(lines, key=lambda each: way * each):
        if abs(at - middle) < clear - 1e-6:
            middle = at + way * clear
    return middle


@dataclass(frozen=True, slots=True, kw_only=True)
class RunningEntry:
    """One running figure before it is drawn: its feature on paper, and what it says."""

    feature: Point2
    measured: Measured


def running_row(
    entries: list[RunningEntry],
    datum: Point2,
    edge: float,
    straight: float,
    style: SheetStyle,
    side: Side,
) -> list[Figure]:
    """Running figures on one side of a view, their texts spread so that none touch.

    Args:
        entries: the features, the datum among them.
        datum: where all are measured from [mm].
        edge: the side of the view that the extension lines leave [mm].
        straight: how far past the edge they run straight [mm].
        style: pens and gaps.
        side: of the view.
    """
    is_level, sign = side.is_level, side.outward
    ordered = sorted(entries, key=lambda entry: _turned(entry.feature, is_level)[0])
    wanted = [_turned(entry.feature, is_level)[0] for entry in ordered]
    height = style.text_height_mm
    pitch = height + style.text_clearance_mm + 0.3
    spread = spread_out(wanted, pitch)
    jog = 3.0 if any(abs(a - b) > 1e-6 for a, b in zip(wanted, spread, strict=True)) else 0.0
    start = _turned(datum, is_level)[0]
    knee = edge + sign * straight
    shoulder = knee + sign * jog
    reach = shoulder + sign * 1.5
    figures = []
    reached = start
    nearest_first = sorted(
        zip(ordered, spread, strict=True),
        key=lambda pair: abs(_turned(pair[0].feature, is_level)[0] - start),
    )
    for entry, at in nearest_first:
        a, o = _turned(entry.feature, is_level)
        path = [(a, o + sign * style.extension_gap_mm), (a, knee), (at, shoulder), (at, reach)]
        drawn: list[Drawn] = [
            stroke(_turned(p, is_level), _turned(q, is_level))
            for p, q in pairwise(path)
            if math.dist(p, q) > 1e-6
        ]
        drawn += _from_datum(start, reached, a, knee, style, is_level)
        reached = a
        long = text_width(entry.measured.text, style.text_height_mm)
        text_at = _turned((at, reach + sign * (style.text_gap_mm + long / 2)), is_level)
        drawn.append(_figure_text(entry.measured.text, text_at, height, is_level))
        figures.append(
            Figure(
                kind=FigureKind.RUNNING_LEVEL if is_level else FigureKind.RUNNING_UPRIGHT,
                start=datum,
                end=entry.feature,
                line_at=_turned((at, reach), is_level),
                text=entry.measured.text,
                text_at=text_at,
                value_mm=entry.measured.value_mm,
                factor=entry.measured.factor,
                drawn=tuple(drawn),
            )
        )
    return figures


def _from_datum(
    start: float, reached: float, at: float, level: float, style: SheetStyle, is_level: bool
) -> list[Drawn]:
    """The line that runs on from the last figure to this one, its arrow away from the datum.

    At the datum it is the ring of an origin. **Source:** ISO 129-1, running dimensioning (from
    memory).
    """
    if abs(at - start) < 1e-6:
        ring = Arc(centre=_turned((at, level), is_level), radius=_RING_MM,
                   start_deg=0.0, end_deg=360.0)  # fmt: skip
        return [Stroke(shape=ring, line_class=LineClass.DIMENSION)]
    way = 1.0 if at > start else -1.0
    begun = reached + way * (_RING_MM if abs(reached - start) < 1e-6 else 0.0)
    if (at - begun) * way < 1e-6:
        return []
    drawn: list[Drawn] = [stroke(_turned((begun, level), is_level), _turned((at, level), is_level))]
    if (at - begun) * way > style.arrow_length_mm:
        drawn.append(
            arrowhead(_turned((at, level), is_level), _turned((way, 0.0), is_level), style)
        )
    return drawn


def spread_out(wanted: list[float], pitch: float) -> list[float]:
    """Places in the same order, at least `pitch` apart, as near as can be to those wanted [mm].

    Args:
        wanted: in rising order [mm].
        pitch: least distance between neighbours [mm].
    """
    # Least squares with a lower bound on the steps: pool neighbours that press on each other.
    pools: list[list[float]] = []  # [sum of (wanted - own offset), count]
    for index, value in enumerate(wanted):
        pools.append([value - index * pitch, 1.0])
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            total, count = pools.pop()
            pools[-1][0] += total
            pools[-1][1] += count
    places: list[float] = []
    for total, count in pools:
        for _ in range(int(count)):
            places.append(total / count + len(places) * pitch)
    return places
