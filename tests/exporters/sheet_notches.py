"""Notches and finger notches: tools made from the words of a part's sheet."""

from __future__ import annotations

import re
from typing import Any

import cadquery as cq

from tests.exporters.sheet_values import ReadCallout, ReadFigure, ReadSheet
from tests.exporters.sheet_wood import (
    FACES,
    FIGURE,
    OVER_MM,
    Wood,
    mm_of,
    near,
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
