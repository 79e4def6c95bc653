"""Views that say where parts are glued that no cut locates, dimensioned from edges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from exporters.sheets.blocks import Block, heading, view_block
from exporters.sheets.callouts import NoRoomError, place_callout
from exporters.sheets.figures import Measured, RunningEntry, Side, linear, running_row
from exporters.sheets.geometry import points_box
from exporters.sheets.lanes import all_free
from exporters.sheets.paper import Box2, Scale
from exporters.sheets.pens import SheetStyle
from exporters.sheets.positions import GluedOn, Position
from exporters.sheets.space import Space
from exporters.sheets.tables import Table, references_table
from exporters.sheets.values import Figure, Item
from exporters.views.frames import standard_frame
from exporters.views.project import project_placed
from exporters.views.values import EdgeClass
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Point2, Vector, dot
from furniture.pieces.piece import Piece, placed_named
from furniture.units import figure

_ROUND_MM = 40.0
"""Room round a view in which names may stand. Own rule."""
_MOST_LANES = 6
_STRAIGHT_MM = 2.0
_NEAR_MM = 1.0
"""Nearer to the plane that parts are glued to than this, glue may reach what lies there. Own
rule."""
NOTE = "What shows no figure is flush with the edge, or in line with a part that has one."


def position_blocks(
    piece: Piece, groups: Sequence[GluedOn], scale: Scale, style: SheetStyle
) -> list[Block]:
    """A view from each side that parts are glued on, with their names and places.

    Args:
        piece: that they are of.
        groups: the parts and their places.
        scale: of the views.
        style: pens and heights.

    Raises:
        NoRoomError: too many figures or names stand round one view.
    """
    made = []
    for group in groups:
        block = _block(piece, group, scale, style)
        space = Space(block.box.grown(_ROUND_MM))
        space.add(block.items)
        core = block.core
        for name in group.parts:
            target = _rectangle(piece, name, block).centre
            block = block.with_items(place_callout(name, target, space, style, [core]))
        made.append(block)
    return made


def positions_table(piece: Piece, groups: Sequence[GluedOn]) -> Table:
    """The places in words, for a piece that has too many to draw.

    Args:
        piece: that they are of.
        groups: the parts and their places.
    """
    return references_table(piece, tuple(_rows(groups)))


def _rows(groups: Sequence[GluedOn]) -> Iterator[tuple[str, float]]:
    """The places in words, for a piece that has too many to draw."""
    sides = (("left", "right"), ("front", "back"), ("lower", "upper"))
    for group in groups:
        for each in group.positions:
            side = sides[each.axis][0 if each.edge >= each.datum else 1]
            yield (
                f"{each.instance}: {side} edge in from that of {each.carrier}",
                each.length_mm,
            )


def _block(piece: Piece, group: GluedOn, scale: Scale, style: SheetStyle) -> Block:
    """The view of what carries the parts and of them, with their figures and its heading."""
    names = (*group.carriers, *group.parts)
    under = {each.instance for each in _under(piece, group)}
    placed = [each for each in piece.placed if each.instance in names or each.instance in under]
    view = project_placed(placed, standard_frame(group.look))
    block = view_block(view, scale.factor, classes=(EdgeClass.VISIBLE,))
    told = {
        (each.axis, round(each.datum, 3), round(each.edge, 3)): each
        for each in sorted(group.positions, key=lambda each: (each.axis, each.length_mm))
        if each.length_mm >= 1e-3
    }
    block = block.with_items(_figures(piece, list(told.values()), block, style))
    middle = (block.core.left + block.core.right) / 2
    return block.with_items([heading(group.words, middle, block.box.bottom, style)])


def _under(piece: Piece, group: GluedOn) -> Iterator[Placed]:
    """What lies under the parts that are glued on beside what carries them: glue must miss it."""
    frame = standard_frame(group.look)

    def out_to(each: Placed) -> float:
        return max(dot(corner, frame.towards_eye) for corner in _corners(each))

    def outline(each: Placed) -> Box2:
        return points_box(frame.to_paper(corner) for corner in _corners(each))

    glued = [outline(placed_named(piece, name)) for name in group.parts]
    plane = max(out_to(placed_named(piece, name)) for name in group.carriers)
    for each in piece.placed:
        is_other = each.instance not in (*group.carriers, *group.parts)
        is_near = plane - _NEAR_MM <= out_to(each) <= plane + _NEAR_MM
        if is_other and is_near and any(outline(each).overlaps(box) for box in glued):
            yield each


def _corners(each: Placed) -> tuple[Vector, Vector]:
    return box_of(each.part.blank, each.placement)


def _figures(piece: Piece, told: Sequence[Position], block: Block, style: SheetStyle) -> list[Item]:
    """All figures of one view: each with a line of its own, else in rows from their datums.

    Words of a short figure stand in the way of every line further out, whichever is placed first:
    so all are placed together. Where three of one way are short, no places serve, and rows spread
    their words.

    Raises:
        NoRoomError: there is no room for all.
    """
    ways = sorted({each.axis for each in told})
    lines = {each: list(_places(piece, each, block, style)) for each in told}
    for in_rows in ((), *((each,) for each in ways), tuple(ways)):
        rows = [figure for axis in in_rows for figure in _rows_of(piece, told, axis, block, style)]
        lots = [lines[each] for each in told if each.axis not in in_rows]
        found = all_free(lots, style, rows)
        if found is not None:
            return [*rows, *found]
    raise NoRoomError("too many dimension lines beside one view")


def _rows_of(
    piece: Piece, told: Sequence[Position], axis: int, block: Block, style: SheetStyle
) -> Iterator[Figure]:
    """The figures of one way as running ones: a row beside the view for either datum."""
    is_level = abs(block.frame.right[axis]) > 0.5
    sides = (Side.BOTTOM, Side.TOP) if is_level else (Side.LEFT, Side.RIGHT)
    own = {each.edge: each for each in told if each.axis == axis}
    datums = sorted({each.datum for each in own.values()})
    for datum, side in zip(datums, sides, strict=False):
        start, edge = _beside(block.core, side, block.to_paper(_point(axis, datum)))
        entries = [RunningEntry(feature=start, measured=_says(piece, 0.0, block))]
        for each in own.values():
            if each.datum == datum:
                at = block.to_paper(_point(axis, each.edge))
                feature, _ = _beside(_rectangle(piece, each.instance, block), side, at)
                measured = _says(piece, each.length_mm, block)
                entries.append(RunningEntry(feature=feature, measured=measured))
        yield from running_row(entries, start, edge, _STRAIGHT_MM, style, side)


def _beside(outline: Box2, side: Side, at: Point2) -> tuple[Point2, float]:
    """Where a plane through `at` meets one side of an outline, and where that side lies [mm]."""
    edge = {
        Side.TOP: outline.top,
        Side.BOTTOM: outline.bottom,
        Side.LEFT: outline.left,
        Side.RIGHT: outline.right,
    }[side]
    return ((at[0], edge) if side.is_level else (edge, at[1])), edge


def _says(piece: Piece, length: float, block: Block) -> Measured:
    """What a figure of this length [mm] says."""
    return Measured(text=figure(length, piece.shown), value_mm=length, factor=block.factor)


def _places(piece: Piece, position: Position, block: Block, style: SheetStyle) -> Iterator[Figure]:
    """The dimension in each lane, on the side nearest to its part first."""
    core, part = block.core, _rectangle(piece, position.instance, block)
    is_level = abs(block.frame.right[position.axis]) > 0.5
    (dx, dy), (ex, ey) = (
        block.to_paper(_point(position.axis, at)) for at in (position.datum, position.edge)
    )
    nearest, other = (
        ((Side.TOP, core.top, part.top), (Side.BOTTOM, core.bottom, part.bottom))
        if is_level
        else ((Side.LEFT, core.left, part.left), (Side.RIGHT, core.right, part.right))
    )
    if abs(other[1] - other[2]) < abs(nearest[1] - nearest[2]):
        nearest, other = other, nearest
    measured = _says(piece, position.length_mm, block)
    for (side, edge, near), lane in product((nearest, other), range(_MOST_LANES)):
        line = edge + side.outward * (style.first_lane_mm + lane * style.lane_mm)
        start, end = ((dx, edge), (ex, near)) if is_level else ((edge, dy), (near, ey))
        yield linear(start, end, line, measured, style, side)


def _point(axis: int, at: float) -> Vector:
    point = [0.0, 0.0, 0.0]
    point[axis] = at
    return (point[0], point[1], point[2])


def _rectangle(piece: Piece, name: str, block: Block) -> Box2:
    """A part's outline on paper: it stands square to the view."""
    placed = placed_named(piece, name)
    return points_box(block.to_paper(corner) for corner in _corners(placed))
