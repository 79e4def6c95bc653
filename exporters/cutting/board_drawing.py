"""One board with its parts, zones, kerfs and numbered cuts, drawn to scale on paper."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from exporters.cutting.cut_numbers import add_cuts
from exporters.cutting.draft import BoardTask, Draft, kerf_of
from exporters.cutting.hatching import hatched
from exporters.cutting.part_labels import add_offcuts, add_part
from exporters.sheets.figures import Measured, Side, linear, stroke
from exporters.sheets.geometry import items_box
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Item
from furniture.parts.vectors import Point2
from furniture.units import figure

CLEAR_OF_HATCH_MM = 0.4
"""Between hatching and a text [mm on paper]. Own rule."""


def board_drawing(task: BoardTask) -> tuple[Item, ...]:
    """The board's drawing, its datum corner at 0, 0: everything but tables and legend [mm].

    Args:
        task: what to draw.
    """
    draft = Draft(task)
    for cut in task.plan.cuts:
        draft.taken.append(draft.box(kerf_of(cut, task.board)))
    add_cuts(draft)
    for key, placement in enumerate(task.plan.placements, start=1):
        add_part(draft, key, placement)
    add_offcuts(draft)
    _outside_figures(draft)
    zones: list[Item] = []
    clear = [box.grown(CLEAR_OF_HATCH_MM) for box in draft.texts]
    for zone in task.board.zones:
        corners = [draft.at(x, y) for x, y in zone.outline]
        zones += hatched(corners, zone.kind, clear)
        zones += _broken_outline(corners, clear)
    return (*zones, *draft.items)


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


def _outside_figures(draft: Draft) -> None:
    """The length under the board, and its width where it was measured."""
    task = draft.task
    board, style, shown = task.board, task.style, task.outcome.job.shown
    factor = task.scale.factor
    inside = items_box(draft.items)
    low = min(0.0, inside.bottom)
    end = draft.at(board.length, 0.0)[0]
    line = low - style.lane_mm
    draft.items.append(
        linear(
            (0.0, 0.0), (end, 0.0), line,
            Measured(text=figure(board.length, shown), value_mm=board.length, factor=factor),
            style, Side.BOTTOM,
        )
    )  # fmt: skip
    stations = sorted(board.stations, key=lambda each: each.at)
    is_straight = max(s.width for s in stations) - min(s.width for s in stations) < 1e-6
    outer = [(stations[0], Side.LEFT, inside.left), (stations[-1], Side.RIGHT, inside.right)]
    for station, side, edge in outer[1:] if is_straight else outer:
        x = draft.at(0.0 if side is Side.LEFT else board.length, 0.0)[0]
        top = draft.at(0.0, station.width)[1]
        reach = edge + side.outward * style.lane_mm
        draft.items.append(
            linear(
                (x, 0.0), (x, top), reach,
                Measured(
                    text=figure(station.width, shown), value_mm=station.width, factor=factor
                ),
                style, side,
            )
        )  # fmt: skip
