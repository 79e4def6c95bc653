"""The exploded view: every part drawn back along the way it goes in, numbered as in the list."""

from __future__ import annotations

from dataclasses import dataclass, replace

from exporters.sheets.assembly_sheet import Framed, WholeTask, framed
from exporters.sheets.balloons import outline_of, place_balloon, seen_spot
from exporters.sheets.blocks import Block, view_block
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.geometry import scaled_shape
from exporters.sheets.paper import Box2, Orientation, Scale, frame_of, scales_for
from exporters.sheets.parts_list import Table, table_items, table_size
from exporters.sheets.pens import LineClass
from exporters.sheets.space import Space
from exporters.sheets.values import Item, Sheet, Stroke
from exporters.views.explode import exploded, middle_of, shifts_against_assembly, trails
from exporters.views.frames import StandardView, standard_frame
from exporters.views.project import project_placed
from exporters.views.values import EdgeClass, ViewFrame
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector
from furniture.pieces.piece import Piece, distinct_parts, extents_of

_MARGIN_MM = 16.0
_HIDDEN = "A dashed leader points at a part that stands hidden behind others."
_NO_NUMBERS = "There are too many parts to number on this view: see the parts list."
_OPENING_SHARES = (0.35, 0.5, 0.65, 0.8, 1.0)
"""How far joints may be drawn open, as shares of the piece's middle extent. Own rule."""


def exploded_sheet(task: WholeTask, table: Table | None) -> tuple[Sheet, Table | None]:
    """The exploded view with balloons, and the parts list when it did not fit on it either.

    Args:
        task: what to draw.
        table: a parts list that still looks for a sheet.

    Raises:
        NoRoomError: it does not fit at any standard scale.
    """
    reason = ""
    opened = _opened(task.piece)
    unnumbered = replace(opened, spots={})
    tries = [(opened, table), (opened, None), (unnumbered, None)]
    for shown, wanted in tries if table else tries[1:]:
        for scale in scales_for(task.piece.shown.is_inch):
            if scale.reduction < 1:
                continue
            for orientation in (Orientation.PORTRAIT, Orientation.LANDSCAPE):
                try:
                    sheet = _drawn(task, shown, wanted, scale, orientation)
                except NoRoomError as error:
                    reason = str(error)
                    continue
                return sheet, table if wanted is None else None
    raise NoRoomError(f"the exploded view does not fit on {task.paper.title}: {reason}")


def _drawn(
    task: WholeTask,
    opened: _Opened,
    table: Table | None,
    scale: Scale,
    orientation: Orientation,
) -> Sheet:
    hidden = _hidden_spots(task.piece, opened) if opened.spots else {}
    note = _NO_NUMBERS if not opened.spots else _HIDDEN
    task = replace(task, notes=(note,))
    begun = framed(task, orientation, scale, not opened.spots or bool(hidden))
    items, region = _with_table(task, begun, table)
    block = _exploded_block(task.piece, opened, scale)
    room = region.grown(-_MARGIN_MM)
    box = block.box
    if box.width > room.width or box.height > room.height:
        raise NoRoomError("the exploded view is too large")
    dx, dy = room.centre[0] - box.centre[0], room.centre[1] - box.centre[1]
    block = block.moved(dx, dy)
    frame = frame_of(task.paper, orientation)
    space = Space(frame)
    items += block.items
    space.add(items)
    over = outline_of(opened.moved, block.to_paper)
    for number, spot in sorted((opened.spots | hidden).items()):
        target = block.to_paper(spot)
        leader = LineClass.HIDDEN if number in hidden else LineClass.LEADER
        items += place_balloon(number, target, space, task.style, begun.title, over, leader)
    return Sheet(
        name=task.name,
        title=task.fields.title,
        paper=task.paper,
        orientation=orientation,
        scale=scale,
        style=task.style,
        frame=frame,
        items=tuple(items),
    )


def _with_table(task: WholeTask, begun: Framed, table: Table | None) -> tuple[list[Item], Box2]:
    items = list(begun.items)
    region = begun.region
    if table is not None:
        wide, high = table_size(table, task.style)
        if wide > region.width or high > 0.5 * region.height:
            raise NoRoomError("the parts list does not fit beside the view")
        drawn, box = table_items(table, begun.title.right, begun.title.top, task.style)
        items += drawn
        region = Box2(left=region.left, bottom=box.top, right=region.right, top=region.top)
    return items, region


@dataclass(frozen=True, slots=True, kw_only=True)
class _Opened:
    """The parts moved apart, and for each number of the list a spot of it that can be seen."""

    frame: ViewFrame
    shifts: dict[str, Vector]
    moved: tuple[Placed, ...]
    spots: dict[int, Vector]


def _opened(piece: Piece) -> _Opened:
    """The least opening, from the side, that shows every part; else the one that shows most."""
    low, high = extents_of(piece)
    middle_size = sorted(b - a for a, b in zip(low, high, strict=True))[1]
    best: _Opened | None = None
    wanted = len(distinct_parts(piece))
    for share in _OPENING_SHARES:
        for which in (StandardView.ISOMETRIC_RIGHT, StandardView.ISOMETRIC_LEFT):
            frame = standard_frame(which)
            shifts = shifts_against_assembly(piece.placed, piece.joinings, share * middle_size)
            moved = exploded(piece.placed, shifts)
            spots = _spots(piece, moved, frame)
            made = _Opened(frame=frame, shifts=shifts, moved=moved, spots=spots)
            if best is None or len(made.spots) > len(best.spots):
                best = made
            if len(best.spots) == wanted:
                return best
    assert best is not None
    return best


def _spots(piece: Piece, moved: tuple[Placed, ...], frame: ViewFrame) -> dict[int, Vector]:
    names = [each.instance for each in moved]
    found = {}
    for number, each in enumerate(distinct_parts(piece), start=1):
        for name in each.instances:
            spot = seen_spot(moved, names.index(name), frame.towards_eye)
            if spot is not None:
                found[number] = spot
                break
    return found


def _hidden_spots(piece: Piece, opened: _Opened) -> dict[int, Vector]:
    """The middles of the parts that no opening brings to light, by their number."""
    moved = {each.instance: each for each in opened.moved}
    return {
        number: middle_of(moved[each.instances[0]])
        for number, each in enumerate(distinct_parts(piece), start=1)
        if number not in opened.spots
    }


def _exploded_block(piece: Piece, opened: _Opened, scale: Scale) -> Block:
    view = project_placed(opened.moved, opened.frame)
    block = view_block(view, scale.factor, classes=(EdgeClass.VISIBLE, EdgeClass.SMOOTH))
    return block.with_items(
        [
            Stroke(shape=scaled_shape(line, scale.factor), line_class=LineClass.CENTRE)
            for line in trails(piece.placed, opened.shifts, opened.frame)
        ]
    )
