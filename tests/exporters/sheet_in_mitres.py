"""Slots for keys and grooves for splines: tools made from what a part's sheet says of them."""

from __future__ import annotations

import math
import re
from typing import Any

import cadquery as cq

from tests.exporters.sheet_values import ReadCallout, ReadSheet
from tests.exporters.sheet_wood import FACES, FIGURE, OVER_MM, Wood, count_of, mm_of, places_of


def in_mitres(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    """Every one of them, in the mitre of its own end."""
    words = callout.words
    ends = re.findall(r"named end|far end|both ends", words)
    ends = ["named end", "far end"] if "both ends" in ends else list(dict.fromkeys(ends))
    slopes = _long_points(sheet)
    key = re.search(rf"{FIGURE} wide x {FIGURE} deep from the outside corner", words)
    groove = re.search(rf"{FIGURE} wide x {FIGURE} deep x {FIGURE} long", words)
    down = re.search(rf"{FIGURE} down the mitre", words)
    tools = []
    for end in ends:
        angle, face = slopes[end]
        if key:
            wide, deep = mm_of(key[1], sheet), mm_of(key[2], sheet)
            flat = (-OVER_MM, deep, -deep / math.tan(angle) - OVER_MM)
            run, count = wide, count_of(words) // len(ends)
        else:
            assert groove, words
            assert down, words
            first, wide = mm_of(down[1], sheet), mm_of(groove[1], sheet)
            flat = (first, first + wide, -mm_of(groove[2], sheet))
            run, count = mm_of(groove[3], sheet), 1
        starts = _starts(sheet, wood, run, count)
        tools += [_tool(wood, end, face, angle, flat, (at, at + run)) for at in starts]
    return tools


def _long_points(sheet: ReadSheet) -> dict[str, tuple[float, str]]:
    """The angle of the mitre at each end, from square, and the face of its long point."""
    found = {}
    for callout in sheet.callouts:
        angle = re.match(r"mitre ([\d.]+)°", callout.words)
        for place in places_of(callout.words) if angle else []:
            where = re.match(r"([a-z]+ end), long point on ([a-z]+ [a-z]+)", place)
            assert angle, callout.words
            assert where, place
            found[where[1]] = (math.radians(float(angle[1])), where[2])
    return found


def _starts(sheet: ReadSheet, wood: Wood, run: float, count: int) -> list[float]:
    """Where they begin along the sharp line, from the face edge; at it where no figure says so."""
    told = sheet.views["face side"].running(False)
    starts = sorted({round(each.low_mm(wood.width, run), 4) for each in told}) or [0.0]
    assert len(starts) == count, (starts, count)
    return starts


def _tool(
    wood: Wood,
    end: str,
    face: str,
    angle: float,
    flat: tuple[float, float, float],
    span: tuple[float, float],
) -> Any:
    """What lies between two places down the slope and to a depth below it."""
    (along, is_far), (rise, is_high) = FACES[end], FACES[face]
    first, last, floor = flat
    corners = []
    for down, out in ((first, floor), (last, floor), (last, OVER_MM), (first, OVER_MM)):
        inward = down * math.sin(angle) - out * math.cos(angle)
        deep = down * math.cos(angle) + out * math.sin(angle)
        point = [0.0, 0.0, 0.0]
        point[along] = wood.size[along] - inward if is_far else inward
        point[rise] = wood.size[rise] - deep if is_high else deep
        point[3 - along - rise] = span[0]
        corners.append(cq.Vector(*point))
    way = [0.0, 0.0, 0.0]
    way[3 - along - rise] = span[1] - span[0]
    wire = cq.Wire.makePolygon([*corners, corners[0]])
    return cq.Workplane(cq.Solid.extrudeLinear(wire, [], cq.Vector(*way)))
