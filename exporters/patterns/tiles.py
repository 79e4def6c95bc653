"""A pattern shared out over pages that overlap, with crosses that both neighbours show."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import product

from exporters.patterns.pattern import Pattern
from exporters.sheets.figures import stroke
from exporters.sheets.letters import letter_of
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Stroke
from exporters.views.values import Arc
from furniture.parts.vectors import Point2

OVERLAP_MM = 14.0
"""How far neighbouring pages show the same. Own rule: room for a cross and for paste."""
MARGIN_MM = 16.0
"""Round the wood, for crosses outside it. Own rule."""
_TIGHT_MM = 2.0
"""Round wood that goes on one page: no more paper for the sake of the crosses. Own rule."""
MOST_PAGES = 12
"""A part that takes more is measured, not traced. Own rule."""
_ARM_MM, _RING_MM = 4.0, 2.5
_INSIDE_MM = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cross:
    """A registration mark: where it lies on the pattern [mm], and its letter."""

    at: Point2
    letter: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiling:
    """How a pattern is shared out: the window of every page, row by row from the top, and crosses.

    Windows and crosses lie in the pattern's own plane [mm].
    """

    columns: int
    rows: int
    windows: tuple[Box2, ...]
    crosses: tuple[Cross, ...]


def tiling_of(
    pattern: Pattern,
    wide: float,
    high: float,
    *,
    ends_mm: float = MARGIN_MM,
    sides_mm: float = MARGIN_MM,
) -> Tiling:
    """The pages that hold the pattern and the room round it.

    Args:
        pattern: at true size.
        wide: of a page's window [mm].
        high: of a page's window [mm].
        ends_mm: room left and right of the wood [mm]; crosses need all of the margin, where pages
            join above one another.
        sides_mm: room above and below the wood [mm]; crosses that stand there need it.
    """
    tight, core = pattern.core.grown(_TIGHT_MM), pattern.core
    area = replace(core.grown(sides_mm), left=core.left - ends_mm, right=core.right + ends_mm)
    columns, rows = _count(area.width, wide), _count(area.height, high)
    if tight.width <= wide and tight.height <= high:
        columns, rows = 1, 1
    left = _first(area.left, area.width, wide, columns)
    bottom = _first(area.bottom, area.height, high, rows)
    step_x, step_y = wide - OVERLAP_MM, high - OVERLAP_MM
    windows = tuple(
        Box2(
            left=left + column * step_x,
            bottom=bottom + row * step_y,
            right=left + column * step_x + wide,
            top=bottom + row * step_y + high,
        )
        for row, column in product(reversed(range(rows)), range(columns))
    )
    seams_x = [left + column * step_x + OVERLAP_MM / 2 for column in range(1, columns)]
    seams_y = [bottom + row * step_y + OVERLAP_MM / 2 for row in range(1, rows)]
    inside = min(_INSIDE_MM, sides_mm / 2)
    places = sorted(
        {
            *product(seams_x, (area.bottom + inside, *seams_y, area.top - inside)),
            *product((area.left + _INSIDE_MM, *seams_x, area.right - _INSIDE_MM), seams_y),
        },
        key=lambda at: (at[0], -at[1]),
    )
    crosses = tuple(Cross(at=at, letter=letter_of(index)) for index, at in enumerate(places))
    return Tiling(columns=columns, rows=rows, windows=windows, crosses=crosses)


def _count(extent: float, window: float) -> int:
    return max(1, math.ceil((extent - OVERLAP_MM) / (window - OVERLAP_MM) - 1e-9))


def _first(low: float, extent: float, window: float, count: int) -> float:
    """Where the first window begins [mm]: what stands in the middle of a part misses the seams."""
    return low if count > 1 else low - (window - extent) / 2


def cross_strokes(at: Point2) -> tuple[Stroke, ...]:
    """The lines of a registration mark: a cross in a ring.

    Args:
        at: its middle [mm].
    """
    x, y = at
    return (
        stroke((x - _ARM_MM, y), (x + _ARM_MM, y), LineClass.SYMBOL),
        stroke((x, y - _ARM_MM), (x, y + _ARM_MM), LineClass.SYMBOL),
        Stroke(
            shape=Arc(centre=at, radius=_RING_MM, start_deg=0.0, end_deg=360.0),
            line_class=LineClass.SYMBOL,
        ),
    )
