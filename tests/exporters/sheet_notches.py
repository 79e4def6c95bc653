"""Notches and finger notches: tools made from the words of a part's sheet."""

from __future__ import annotations

import re
from typing import Any

import cadquery as cq

from tests.exporters.sheet_values import ReadCallout, ReadFigure, ReadSheet
from tests.exporters.sheet_wood import (
    BOTH,
    FACES,
    FIGURE,
    OVER_MM,
    Wood,
    box_between,
    count_of,
    mm_of,
    near,
    radius_of,
    slab,
    upright_scale,
)


def _along_edge(sheet: ReadSheet, wood: Wood, edge: str) -> list[ReadFigure]:
    """Running figures along an edge or an end."""
    axis, _ = FACES[edge]
    is_level = axis == 1
    view = sheet.views["face side"]
    figures = [f for f in view.figures if f.is_running and f.is_level == is_level]
    edge_at = {
        "named end": view.box[0], "far end": view.box[2],
        "face edge": view.box[1], "back edge": view.box[3],
    }[edge]  # fmt: skip
    others = [f for f in figures if abs(f.end[is_level] - edge_at) < 0.02 * wood.length]
    return others or figures


def notches(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(rf"{FIGURE} long x {FIGURE} deep(.*), from ([a-z]+ [a-z]+)", callout.words)
    assert found, callout.words
    long, deep = mm_of(found[1], sheet), mm_of(found[2], sheet)
    edges = BOTH.get(found[4], (found[4],))
    run = 1 - FACES[edges[0]][0]
    view = sheet.views["face side"]
    half = long / 2 * upright_scale(view, wood.width)
    of_holes = [centre[run] for centre in view.circles]
    figures = [
        figure
        for edge in edges
        for figure in _along_edge(sheet, wood, edge)
        if not any(abs(figure.end[run] - at) < 0.02 for at in of_holes)
    ]
    size = wood.size[run]
    is_far = any(f.end[run] < f.start[run] for f in figures)
    half *= -1.0 if is_far else 1.0
    # nothing is said of one that begins at the datum
    open_at = _open_side(sheet, wood, callout, run, long)
    if figures:
        open_at = size - long if is_far else 0.0

    def start_of(figure: ReadFigure) -> float:
        """One open at the datum's corner is struck by its wall, which lies its own length off."""
        low = figure.low_mm(size, long)
        return 0.0 if abs(low - long) < 0.02 else low

    starts = [
        start_of(near(figures, run, target[run] - half)) if figures else open_at
        for target in callout.targets
    ]
    if len(starts) * len(edges) < count_of(callout.words):  # alone in its view: all are its own
        starts = list(dict.fromkeys(start_of(f) for f in figures if f.said_mm > 0))
        starts += [open_at] * (count_of(callout.words) // len(edges) - len(starts))
    radius = radius_of(callout.words, sheet)
    return [_bite(wood, edge, (start, long, deep), radius) for edge in edges for start in starts]


def _open_side(sheet: ReadSheet, wood: Wood, callout: ReadCallout, run: int, long: float) -> float:
    """Where a notch begins that is open at a corner: at whichever its leader points nearer to."""
    box = sheet.views["face side"].box
    share = (callout.targets[0][run] - box[run]) / (box[run + 2] - box[run])
    return 0.0 if share < 0.5 else wood.size[run] - long


def _bite(wood: Wood, edge: str, cut: tuple[float, float, float], radius: float) -> Any:
    """A notch of this start, length and depth [mm] out of one edge or end."""
    start, long, deep = cut
    axis, is_far = FACES[edge]
    run = 1 - axis
    low, high = slab(wood, axis, is_far, deep)
    low[run] = start if start > 1e-9 else -OVER_MM
    ends_inside = start + long < wood.size[run] - 0.2
    high[run] = start + long if ends_inside else wood.size[run] + OVER_MM
    tool = box_between(low, high)
    if radius:
        corners = tool.faces(f"{'<' if is_far else '>'}{'XY'[axis]}").edges("|Z")
        tool = corners.fillet(min(radius, long / 2) - 1e-6)  # of a round bottom they meet
    return tool


def finger_notches(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(rf"R{FIGURE}, half round, centred on ([a-z]+ [a-z]+)", callout.words)
    assert found, callout.words
    radius, edge = mm_of(found[1], sheet), found[2]
    axis, is_far = FACES[edge]
    run = 1 - axis
    figures = _along_edge(sheet, wood, edge)
    tools = []
    for target in callout.targets:
        centre = [0.0, 0.0, -OVER_MM]
        centre[run] = near(figures, run, target[run]).low_mm(wood.size[run])
        centre[axis] = wood.size[axis] if is_far else 0.0
        tools.append(
            cq.Workplane(
                cq.Solid.makeCylinder(
                    radius, wood.thickness + 2 * OVER_MM, cq.Vector(*centre), cq.Vector(0, 0, 1)
                )
            )
        )
    return tools
