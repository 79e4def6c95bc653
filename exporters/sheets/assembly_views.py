"""The views of the whole piece with its overall figures and references."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise

from exporters.hardware import Thing, things_of
from exporters.sheets.blocks import Block, picture_of, view_block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import Beside, Measured, RunningEntry, Side, linear, running_row
from exporters.sheets.geometry import items_box, lettering_box, shape_points
from exporters.sheets.lanes import all_free
from exporters.sheets.paper import Projection
from exporters.sheets.pens import SheetStyle
from exporters.sheets.space import crosses_box
from exporters.sheets.values import Figure, Item, Lettering, Stroke
from exporters.views.frames import StandardView, standard_frame
from exporters.views.project import project_placed
from exporters.views.values import EdgeClass
from furniture.making.glue_ups.flush import proud_of
from furniture.parts.placement import box_of
from furniture.parts.vectors import UP
from furniture.pieces.piece import Piece, Reference, extents_of, placed_named
from furniture.units import figure

MOST_LANES = 8
"""More dimension lines than this beside one view cannot be told apart. Own rule."""
_RIGHT_OVER_MM = (5.5, 6.5, 7.5)
"""How far over its feature a level figure's line runs on the view itself. Own rule."""
_SAME_MM = 1e-3


class WholeLook(Enum):
    """A view of the whole piece; the value is its heading."""

    FRONT = "front"
    SIDE = "side"
    TOP = "top"
    ISOMETRIC = "isometric"


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeViews:
    """The blocks of the general arrangement, and the figures that found no lane."""

    blocks: dict[WholeLook, Block]
    left_over: tuple[Reference, ...]


def side_view(projection: Projection) -> StandardView:
    """The side that stands to the right of the front view in this projection."""
    is_third = projection is Projection.THIRD_ANGLE
    return StandardView.RIGHT if is_third else StandardView.LEFT


class OnViews(Enum):
    """Which figures stand on the views, from the most to the least; the rest are left over."""

    ALL = "all"
    HEIGHTS = "heights and overall sizes"
    OVERALL = "overall sizes"


def whole_views(
    piece: Piece,
    factor: float,
    projection: Projection,
    style: SheetStyle,
    on_views: OnViews,
) -> WholeViews:
    """Front, side and top with their figures, each with its origin at 0, 0.

    Args:
        piece: what to draw.
        factor: paper length of one mm of the piece.
        projection: decides which side is shown.
        style: pens and gaps.
        on_views: which figures are drawn.

    Raises:
        NoRoomError: there are more dimension lines beside one view than can be told apart.
    """
    frames = {
        WholeLook.FRONT: StandardView.FRONT,
        WholeLook.SIDE: side_view(projection),
        WholeLook.TOP: StandardView.TOP,
    }
    seen = _seen(piece)
    blocks = {
        look: view_block(
            project_placed(piece.placed, standard_frame(which), seen),
            factor,
            classes=(EdgeClass.VISIBLE,),
        )
        for look, which in frames.items()
    }
    left_over: list[Reference] = []
    overall = _overall(piece)
    references = _without_repeats([*overall, *piece.references])
    for look, axis in ((WholeLook.FRONT, 2), (WholeLook.FRONT, 0), (WholeLook.SIDE, 1)):
        along = [each for each in references if axis_of(each) == axis]
        drawn = [each for each in along if each in overall or _is_drawn(axis, on_views)]
        left_over += [each for each in along if each not in drawn]
        finished = _without_repeats(_as_finished(piece, drawn))
        blocks[look] = _dimensioned(piece, blocks[look], finished, axis, style)
    return WholeViews(blocks=blocks, left_over=tuple(left_over))


def isometric_block(piece: Piece, factor: float) -> Block:
    """The piece as a picture, its origin at 0, 0.

    Args:
        piece: what to draw.
        factor: paper length of one mm of the piece.
    """
    frame = standard_frame(StandardView.ISOMETRIC_RIGHT)
    view = project_placed(piece.placed, frame, _seen(piece))
    return picture_of(view, factor)


def _seen(piece: Piece) -> tuple[Thing, ...]:
    """What stands out of the wood and is no part."""
    return tuple(each for each in things_of(piece) if each.stands_out)


def _is_drawn(axis: int, on_views: OnViews) -> bool:
    """Whether a figure that is no overall size is drawn."""
    return on_views is OnViews.ALL or (on_views is OnViews.HEIGHTS and axis == 2)


def axis_of(reference: Reference) -> int:
    """The axis of the piece that a reference runs along."""
    spans = [abs(b - a) for a, b in zip(reference.start, reference.end, strict=True)]
    return spans.index(max(spans))


def length_of(reference: Reference) -> float:
    """What the reference measures [mm]."""
    axis = axis_of(reference)
    return abs(reference.end[axis] - reference.start[axis])


def _overall(piece: Piece) -> list[Reference]:
    """The three overall sizes."""
    low, high = extents_of(piece)
    return [
        Reference(what="overall width", start=low, end=(high[0], low[1], low[2])),
        Reference(what="overall depth", start=low, end=(low[0], high[1], low[2])),
        Reference(
            what="overall height",
            start=(_left_of_top(piece, high[2]), low[1], low[2]),
            end=(_left_of_top(piece, high[2]), low[1], high[2]),
        ),
    ]


def _without_repeats(references: Iterable[Reference]) -> list[Reference]:
    """The references, of those between the same places the first alone."""
    kept: dict[tuple[int, float, float], Reference] = {}
    for each in references:
        axis = axis_of(each)
        ends = sorted((round(each.start[axis], 4), round(each.end[axis], 4)))
        kept.setdefault((axis, ends[0], ends[1]), each)
    return list(kept.values())


def _left_of_top(piece: Piece, top: float) -> float:
    boxes = [box_of(each.part.blank, each.placement) for each in piece.placed]
    return min(low[0] for low, high in boxes if high[2] > top - 1e-6)


def _dimensioned(
    piece: Piece, block: Block, references: list[Reference], axis: int, style: SheetStyle
) -> Block:
    """The view with the figures along one axis; those with one datum run, the others stack."""
    starts: dict[float, list[Reference]] = {}
    for each in references:
        starts.setdefault(round(each.start[axis], 4), []).append(each)
    running = max(starts.values(), key=len, default=[])
    if len(running) < 2 or axis == 0:
        running = []
    stacked = [each for each in references if each not in running]
    is_level = abs(block.frame.right[axis]) > 0.5
    if running:
        side = Side.TOP if is_level else Side.LEFT
        block = block.with_items(list(_running(piece, block, running, axis, side, style)))
    stacked.sort(key=length_of)
    side = _stack_side(axis, running, is_level)
    if len(stacked) > MOST_LANES:
        raise NoRoomError("too many dimension lines beside one view")
    return _stack(piece, block, stacked, side, style)


def _stack_side(axis: int, running: list[Reference], is_level: bool) -> Side:
    if axis == 0:
        return Side.TOP
    if is_level:
        return Side.BOTTOM
    return Side.RIGHT if running else Side.LEFT


def _measured(piece: Piece, reference: Reference, factor: float) -> Measured:
    mm = length_of(reference)
    return Measured(text=figure(mm, piece.shown), value_mm=mm, factor=factor)


def _as_finished(piece: Piece, references: Iterable[Reference]) -> Iterator[Reference]:
    """The same, where one ends at a top that is planed off later to what is left then.

    How high it is as cut stands on the part's own sheet, and at the section.
    """
    planed = list(_planed_tops(piece))
    for each in references:
        ends = [list(each.start), list(each.end)]
        top = max(ends, key=lambda end: end[2])
        if axis_of(each) == 2:
            top[2] = next((low for high, low in planed if abs(top[2] - high) < _SAME_MM), top[2])
        (x0, y0, z0), (x1, y1, z1) = ends
        yield replace(each, start=(x0, y0, z0), end=(x1, y1, z1))


def _planed_tops(piece: Piece) -> Iterator[tuple[float, float]]:
    """Heights of tops that stand a little proud of a joined part's, and of that part's top."""
    for each in proud_of(piece):
        if each.side == UP:
            high = placed_named(piece, each.high)
            top = box_of(high.part.blank, high.placement)[1][2]
            yield top, top - each.by_mm


def _running(
    piece: Piece,
    block: Block,
    references: list[Reference],
    axis: int,
    side: Side,
    style: SheetStyle,
) -> list[Item]:
    edge = block.box.top if side is Side.TOP else block.box.left
    entries = [
        RunningEntry(
            feature=block.to_paper(each.end),
            measured=_measured(piece, each, block.factor),
        )
        for each in references
    ]
    origin = list(references[0].end)
    origin[axis] = references[0].start[axis]
    x, y = block.to_paper((origin[0], origin[1], origin[2]))
    core = block.core
    datum = (x, core.top) if side is Side.TOP else (core.left, y)
    start = (x, y) if side is Side.TOP else datum
    zero = Measured(text=figure(0.0, piece.shown), value_mm=0.0, factor=block.factor)
    entries.append(RunningEntry(feature=start, measured=zero))
    return list(running_row(entries, datum, edge, 2.0, style, side))


def _stack(
    piece: Piece, block: Block, references: list[Reference], side: Side, style: SheetStyle
) -> Block:
    """Dimension lines in lanes, the shortest nearest where no line runs through a figure then.

    Raises:
        NoRoomError: no lanes were found in which every figure is clear of the others.
    """
    box = block.box
    edge = {
        Side.TOP: box.top,
        Side.BOTTOM: box.bottom,
        Side.LEFT: box.left,
        Side.RIGHT: box.right,
    }[side]
    figures = all_free(
        [tuple(_in_lanes(piece, block, each, edge, side, style)) for each in references], style
    )
    if figures is None:
        raise NoRoomError("dimension lines beside one view run through one another's figures")
    return block.with_items(list(figures))


def _in_lanes(
    piece: Piece, block: Block, reference: Reference, edge: float, side: Side, style: SheetStyle
) -> Iterator[Figure]:
    """The figure in each lane, from the nearest to the view outwards, its words either side."""
    measured = _measured(piece, reference, block.factor)
    ends = block.to_paper(reference.start), block.to_paper(reference.end)
    is_whole = math.dist(*ends) > block.core.width - _SAME_MM  # such a line would halve the view
    if side is Side.TOP and not is_whole:  # right over it, where nothing runs through its words
        own = max(y for _, y in ends)
        for over in _RIGHT_OVER_MM:
            made = linear(*ends, own + over, measured, style, side)
            if own + over < edge and _is_clear(made, block):
                yield made
    for lane in range(MOST_LANES):
        line = edge + side.outward * (style.first_lane_mm + lane * style.lane_mm)
        for beside in Beside:
            yield linear(*ends, line, measured, style, side, beside)


def _is_clear(made: Figure, block: Block) -> bool:
    """Whether no line and no word of the view comes near the words of a figure."""
    words = items_box(each for each in made.drawn if isinstance(each, Lettering)).grown(0.5)
    for item in block.items:
        drawn = item.drawn if isinstance(item, Figure) else (item,)
        for each in drawn:
            if isinstance(each, Lettering) and words.overlaps(lettering_box(each)):
                return False
            if isinstance(each, Stroke) and any(
                crosses_box(start, end, words) for start, end in pairwise(shape_points(each.shape))
            ):
                return False
    return True
