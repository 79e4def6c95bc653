"""What a board is measured from, and the widths measured along it, on its drawing."""

from __future__ import annotations

from exporters.cutting.beside import MOST_LED_OUT, call_out
from exporters.cutting.draft import Draft, box_at
from exporters.cutting.ground import Spot
from exporters.cutting.kerfs import kerf_of
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Filled
from furniture.parts.vectors import Point2
from furniture.units import figure

_TRIANGLE_MM = 2.2


def name_widths(draft: Draft) -> None:
    """The widths measured between the ends of a tapering board, at their places.

    Raises:
        NoRoomError: there is no place for one.
    """
    shown = draft.task.outcome.job.shown
    board = draft.task.board
    inner = [each for each in board.stations if 1e-6 < each.at_mm < board.length_mm - 1e-6]
    for number, station in enumerate(inner):
        text = f"{figure(station.width_mm, shown)} wide at {figure(station.at_mm, shown)}"
        # from below to the edge below: a line right through the board would look like a cut
        edges = [draft.at(station.at_mm, across) for across in (station.width_mm, 0.0)]
        if number >= MOST_LED_OUT or not call_out(draft, [(text,)], edges):
            draft.leave_off(f"the width {text}")


def name_sides(draft: Draft) -> None:
    """The jointed edge and the end that the tape was hooked on, marked as what all is measured
    from.

    Raises:
        NoRoomError: there is no place for one.
    """
    board = draft.extent()
    wide, high = draft.size_of(("jointed edge",))
    tall = max(high, _TRIANGLE_MM)
    task = draft.task
    kerfs = [draft.box(kerf_of(cut, task.board)) for cut in task.plan.cuts]
    spots = []
    for step in range(80):
        x = board.left + step * board.width / 80
        for lift in (0.0, 0.8):
            box = Box2(
                left=x, right=x + _TRIANGLE_MM + 1.0 + wide, top=-0.75 - lift,
                bottom=-0.75 - lift - tall,
            )  # fmt: skip
            foot = Box2(left=x - 0.7, right=x + _TRIANGLE_MM + 0.7, bottom=-1.0, top=0.5)
            on_kerf = any(kerf.overlaps(foot) for kerf in kerfs)
            spots.append(Spot(x + lift + (30.0 if on_kerf else 0.0), box))
    spot = draft.ground.first_of(spots)
    if spot is None:
        if not call_out(draft, [("jointed edge",)], _edge_points(board), has_dot=True):
            draft.leave_off("the jointed edge, which is the lower one")
    else:
        x = spot.box.left + _TRIANGLE_MM / 2
        _triangle(draft, (x, 0.0), (0.0, -1.0))
        text = Box2(
            left=spot.box.left + _TRIANGLE_MM + 1.0, right=spot.box.right, top=spot.box.top,
            bottom=spot.box.top - high,
        )  # fmt: skip
        draft.write(("jointed edge",), text)
    _name_end(draft)


def _name_end(draft: Draft) -> None:
    board = draft.extent()
    name = "tape end"
    wide, high = draft.size_of((name,))
    middle = draft.task.board.stations[0].width_mm * draft.task.scale.factor / 2
    spots = []
    for step in range(-12, 13):
        y = middle + step * 0.05 * board.height
        for reach in (_TRIANGLE_MM + 1.0, _TRIANGLE_MM + 7.0):
            turned = box_at((-reach - high / 2, y), high, wide)
            level = box_at((-reach - wide / 2, y), wide, high)
            inside = turned.bottom >= 0.0 and turned.top <= board.height
            spots.append(Spot(abs(step) + reach + (0.0 if inside else 30.0), turned))
            spots.append(Spot(abs(step) + reach + 15.0, level))
    spot = draft.ground.first_of(spots)
    if spot is None:
        draft.leave_off("the tape end, which is the left one")
        return
    box = spot.box
    y = min(max(box.centre[1], _TRIANGLE_MM / 2), board.height - _TRIANGLE_MM / 2)
    _triangle(draft, (0.0, y), (-1.0, 0.0))
    if box.height > box.width:
        draft.write_turned(name, box)
    else:
        draft.write((name,), box)


def _edge_points(board: Box2) -> list[Point2]:
    return [(board.left + share * board.width, 0.0) for share in (0.1, 0.3, 0.5, 0.7, 0.9)]


def _triangle(draft: Draft, foot: Point2, way: Point2) -> None:
    """A datum's triangle standing on a side of the board."""
    half = _TRIANGLE_MM / 2
    x, y = foot
    tip = (x + way[0] * _TRIANGLE_MM * 0.85, y + way[1] * _TRIANGLE_MM * 0.85)
    first = (x + way[1] * half, y + way[0] * half)
    second = (x - way[1] * half, y - way[0] * half)
    draft.items.append(Filled(corners=(first, second, tip), line_class=LineClass.SYMBOL))
    draft.ground.add_lines([(first, tip), (second, tip)])
