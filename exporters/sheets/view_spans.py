"""Sizes of cuts that a part's view carries as dimension lines, and where those lines run."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from exporters.sheets.annotation import Look, SpanShown
from exporters.sheets.blocks import Block
from exporters.sheets.figures import Beside, Measured, Side, linear
from exporters.sheets.geometry import items_box, lettering_box, shape_points
from exporters.sheets.necks import necks_of
from exporters.sheets.part_views import PartViews
from exporters.sheets.pens import SheetStyle
from exporters.sheets.space import crosses_box
from exporters.sheets.values import Figure, Lettering, Stroke
from furniture.parts.vectors import Point2

_AT_SIDE_MM = 1.0
"""What lies further inside a view is dimensioned where it is. Own rule."""
_INSIDE_MM = (3.0, 6.0, 9.0)
"""How far beside what it measures a dimension line inside a view may run [mm]. Own rule."""


def with_spans(
    views: PartViews,
    look: Look,
    block: Block,
    out: float,
    passed: Mapping[Side, Sequence[Point2]],
    style: SheetStyle,
) -> Block:
    """The view with the sizes of cuts that it shows, and what notches leave between them.

    Each stands on the side that it lies nearer to, past what is in its way there already, its words
    off the extension lines of the running figures that will stand further out. What lies inside the
    face side is told beside it, where the wood is bare: no extension line crosses the view.

    Args:
        views: the part and what is said about it.
        look: which view.
        block: it.
        out: how far off the view the first of them stands [mm].
        passed: what running figures strike, by the side where they stand [mm].
        style: pens and gaps.
    """
    own = [each for note in views.annotations for each in note.spans if each.look is look]
    necks = necks_of(views.part, views.bench) if look is Look.FACE_SIDE else []
    told: set[tuple[object, ...]] = set()
    for span in (*own, *necks):
        start, end = block.to_paper(span.start), block.to_paper(span.end)
        is_level = abs(start[0] - end[0]) > abs(start[1] - end[1])
        other = 1 if is_level else 0
        is_high = start[other] > block.core.centre[other]
        side = ((Side.BOTTOM, Side.TOP) if is_level else (Side.LEFT, Side.RIGHT))[is_high]
        low, high = sorted((start[1 - other], end[1 - other]))
        key = (side, round(low, 3), round(high, 3))
        if key in told:
            continue
        told.add(key)
        measured = _measured(span, high - low)
        is_inside = abs(start[other] - side.edge_of(block.core)) > _AT_SIDE_MM
        if look is Look.FACE_SIDE and is_inside and span not in necks:
            figure = _inside(block, (start, end), measured, style)
            if figure is not None:
                block = block.with_items([figure])
                continue
        lines = (side.edge_of(box) + side.outward * out for box in (block.core, block.box))
        passed_at = [feature[1 - other] for feature in passed.get(side, [])]
        near, far = (
            linear(start, end, line, measured, style, side, passed_at=passed_at) for line in lines
        )
        block = block.with_items([far if _is_in_the_way(block, near) else near])
    return block


def _measured(span: SpanShown, drawn: float) -> Measured:
    return Measured(text=span.text, value_mm=span.value_mm, factor=drawn / span.value_mm)


def _inside(
    block: Block, ends: tuple[Point2, Point2], measured: Measured, style: SheetStyle
) -> Figure | None:
    """A dimension beside what it measures, in the bare wood; none where there is none.

    Args:
        block: the view.
        ends: where the wood begins, as at a notch's floor, and where it would have [mm].
        measured: what it says.
        style: pens and gaps.
    """
    (floor, mouth), core = ends, block.core
    is_level = abs(floor[0] - mouth[0]) > abs(floor[1] - mouth[1])
    at, along = (1, 0) if is_level else (0, 1)
    # words that find no room between the arrowheads stand at the end that lies in the wood
    beside = Beside.AFTER if floor[along] > mouth[along] else Beside.BEFORE
    span = abs(floor[along] - mouth[along])
    out = mouth[along] + (mouth[along] - floor[along]) / span * style.text_height_mm
    sides = (Side.TOP, Side.BOTTOM) if is_level else (Side.RIGHT, Side.LEFT)
    lines = [
        line
        for item in block.items
        for each in (item.drawn if isinstance(item, Figure) else [item])
        if isinstance(each, Stroke)
        for line in pairwise(shape_points(each.shape))
    ]
    words = [lettering_box(each) for item in block.items if isinstance(item, Figure)
             for each in item.drawn if isinstance(each, Lettering)]  # fmt: skip
    for away in _INSIDE_MM:
        for side in sides:
            figure = linear(
                *ends, floor[at] + side.outward * away, measured, style, side, beside,
                passed_at=() if is_level else (floor[along], mouth[along], out),
            )  # fmt: skip
            text = items_box([each for each in figure.drawn if isinstance(each, Lettering)])
            own = text.grown(style.text_clearance_mm / 2)
            drawn = [pairwise(shape_points(each.shape)) for each in figure.drawn
                     if isinstance(each, Stroke)]  # fmt: skip
            if (
                core.holds(own)
                and not any(crosses_box(*line, own) for line in lines)
                and not any(own.overlaps(other) for other in words)
                and not any(crosses_box(*line, box) for box in words for each in drawn
                            for line in each)
            ):  # fmt: skip
                return figure
    return None


def _is_in_the_way(block: Block, figure: Figure) -> bool:
    """Whether a dimension would run into one that stands beside the view already."""
    own = items_box([figure]).grown(1.0)
    figures = [item for item in block.items if isinstance(item, Figure)]
    return any(own.overlaps(items_box([other])) for other in figures)
