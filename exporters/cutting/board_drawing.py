"""One board with its parts, zones, kerfs and numbered cuts, drawn to scale on paper."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from exporters.cutting.cut_numbers import draw_kerfs, number_cuts
from exporters.cutting.datums import name_sides, name_widths
from exporters.cutting.draft import BoardTask, Detail, Draft
from exporters.cutting.hatching import hatched
from exporters.cutting.labels import (
    draw_parts,
    name_beside,
    name_offcuts,
    name_parts,
    name_zones,
)
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import Measured, Side, linear, stroke
from exporters.sheets.geometry import items_box
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Item
from furniture.parts.vectors import Point2
from furniture.shop.cutting.values import Board, Station
from furniture.shop.cutting.zones import outline_of
from furniture.units import figure

CLEAR_OF_HATCH_MM = 0.7
"""Between hatching and a text [mm on paper]. Own rule."""
HIDDEN_BY_TEXT_MM2 = 40.0
"""No text stands on a zone smaller than this [mm^2 on paper]. Own rule."""


_Add = Callable[[Draft], None]
_ORDERS: tuple[tuple[_Add, ...], ...] = (
    (name_parts, name_widths, name_offcuts, number_cuts, name_sides, name_beside, name_zones),
    (name_parts, name_widths, number_cuts, name_offcuts, name_zones, name_sides, name_beside),
    (name_zones, name_widths, name_parts, number_cuts, name_offcuts, name_sides, name_beside),
    (name_widths, number_cuts, name_zones, name_parts, name_beside, name_offcuts, name_sides),
    (name_parts, name_beside, name_widths, name_zones, number_cuts, name_offcuts, name_sides),
)
"""What is written in which order: the later, the less room. The first that works."""


_LEAST_ORDER: tuple[_Add, ...] = (
    name_parts, number_cuts, name_beside, name_sides, name_offcuts, name_widths, name_zones,
)  # fmt: skip
"""What is written first where not all finds room."""
_UNDER_TEXTS_MM = 5.0
"""From what is written below the board to the line of its length, whose figure stands on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardDrawing:
    """A board's drawing, its datum corner at 0, 0, and what found no room on it [mm]."""

    items: tuple[Item, ...]
    left_off: tuple[str, ...]


def board_drawings(task: BoardTask) -> Iterator[BoardDrawing]:
    """The board's drawing, written in one order after another: some come out lower than others.

    Raises:
        NoRoomError: in no order all finds room; never in the least of details.
    """
    is_drawn, why = False, "no room"
    for order in (_LEAST_ORDER,) if task.detail is Detail.LEAST else _ORDERS:
        if task.is_late and task.detail is not Detail.LEAST:
            break
        try:
            drawing = _drawn(task, order)
        except NoRoomError as error:
            why = str(error)
            continue
        is_drawn = True
        yield drawing
    if not is_drawn:
        raise NoRoomError(why)


def _drawn(task: BoardTask, order: Sequence[_Add]) -> BoardDrawing:
    draft = Draft(task)
    draft.draw_shape([draft.at(x, y) for x, y in outline_of(task.board)], LineClass.VISIBLE)
    _keep_dimensions_free(draft)
    _keep_small_zones_free(draft)
    draw_kerfs(draft)
    draw_parts(draft)
    for add in order:
        add(draft)
    _outside_figures(draft)
    return BoardDrawing(items=(*_zones(draft), *draft.items), left_off=tuple(draft.left_off))


def _zones(draft: Draft) -> list[Item]:
    """Hatching and outlines of the zones, kept off texts."""
    items: list[Item] = []
    clear = [box.grown(CLEAR_OF_HATCH_MM) for box in draft.ground.texts]
    for zone in draft.task.board.zones:
        corners = [draft.at(x, y) for x, y in zone.outline]
        items += hatched(corners, zone.kind, clear)
        items += _broken_outline(corners, clear)
    return items


def _broken_outline(corners: Sequence[Point2], clear: Sequence[Box2]) -> list[Item]:
    """The outline of a zone, left out where text stands."""
    from shapely.geometry import LineString, box

    line = LineString([*corners, corners[0]])
    for each in clear:
        line = line.difference(box(each.left, each.bottom, each.right, each.top))
    lines = list(line.geoms) if hasattr(line, "geoms") else [line]
    items: list[Item] = []
    for piece in lines:
        points = [(float(x), float(y)) for x, y in piece.coords]
        items += [stroke(a, b, LineClass.ZONE) for a, b in pairwise(points)]
    return items


def _keep_dimensions_free(draft: Draft) -> None:
    """Keep texts off the lines that the outside dimensions will run along."""
    board = draft.extent()
    first, last = (draft.at(0.0, s.width_mm)[1] for s in _end_stations(draft.task.board))
    far = 200.0
    lines = [((x, -0.5), (x, -far)) for x in (board.left, board.right)]
    lines += [((board.left - 0.5, y), (-far, y)) for y in (0.0, first)]
    lines += [((board.right + 0.5, y), (board.right + far, y)) for y in (0.0, last)]
    draft.ground.add_lines(lines)


def _keep_small_zones_free(draft: Draft) -> None:
    """Keep texts off zones so small that a text would hide them."""
    from shapely.geometry import Polygon

    for zone in draft.task.board.zones:
        corners = [draft.at(x, y) for x, y in zone.outline]
        if Polygon(corners).buffer(0).area < HIDDEN_BY_TEXT_MM2:
            draft.ground.add_lines(pairwise((*corners, corners[0])))


def _end_stations(board: Board) -> tuple[Station, Station]:
    stations = sorted(board.stations, key=lambda each: each.at_mm)
    return stations[0], stations[-1]


def _outside_figures(draft: Draft) -> None:
    """The length under the board, and its width at its ends."""
    task = draft.task
    board, style, shown = task.board, task.style, task.outcome.job.shown
    factor = task.scale.factor
    inside = items_box(draft.items)
    low = min(0.0, inside.bottom)
    end = draft.at(board.length_mm, 0.0)[0]
    line = min(-style.lane_mm, low - _UNDER_TEXTS_MM)
    draft.items.append(
        linear(
            (0.0, 0.0), (end, 0.0), line,
            Measured(text=figure(board.length_mm, shown), value_mm=board.length_mm, factor=factor),
            style, Side.BOTTOM,
        )
    )  # fmt: skip
    stations = sorted(board.stations, key=lambda each: each.at_mm)
    is_straight = max(s.width_mm for s in stations) - min(s.width_mm for s in stations) < 1e-6
    outer = [(stations[0], Side.LEFT, inside.left), (stations[-1], Side.RIGHT, inside.right)]
    for station, side, edge in outer[1:] if is_straight else outer:
        x = draft.at(0.0 if side is Side.LEFT else board.length_mm, 0.0)[0]
        top = draft.at(0.0, station.width_mm)[1]
        reach = edge + side.outward * style.lane_mm
        draft.items.append(
            linear(
                (x, 0.0), (x, top), reach,
                Measured(
                    text=figure(station.width_mm, shown), value_mm=station.width_mm, factor=factor
                ),
                style, side,
            )
        )  # fmt: skip
