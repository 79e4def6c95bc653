"""Bores and slots: tools made from the words of a part's sheet."""

from __future__ import annotations

import math
import re
from functools import partial
from itertools import combinations
from typing import Any

import cadquery as cq

from tests.exporters.sheet_values import ReadCallout, ReadSheet, ReadView
from tests.exporters.sheet_wood import (
    BOTH,
    FACES,
    FIGURE,
    OVER_MM,
    VIEW_AXES,
    Wood,
    box_between,
    count_of,
    mm_of,
    slab,
    upright_scale,
)


def _centres(
    callout: ReadCallout, sheet: ReadSheet, wood: Wood, face: str
) -> list[dict[int, float]]:
    """For every target of a callout, the two running figures that place it, by part axis [mm].

    Where one view says that another face is alike, that has the same figures.
    """
    face = sheet.drawn_for(face)
    view = sheet.views[face]
    (level_axis, level_back), (upright_axis, upright_back) = VIEW_AXES[face]
    targets = callout.targets
    if len(targets) < count_of(callout.words):
        radius = float("nan")
        size = re.search(rf"countersunk dia {FIGURE}|dia {FIGURE}", callout.words)
        if size:
            radius = mm_of(size[1] or size[2], sheet) / 2
        scale = upright_scale(view, wood.size[upright_axis])
        # a printed size is rounded: those that come nearest to it, as many as are counted; what no
        # figures of this sheet run to is told on another one, and drawn here all the same
        circles = sorted(
            (circle for circle in view.circles if _is_struck(circle, view, 0.05 * scale)),
            key=lambda circle: abs(circle[2] / scale - radius),
        )
        targets = [(x, y) for x, y, _ in circles[: count_of(callout.words)]]
        if not size:
            targets = _middles_of_slots(callout, sheet, view.arcs, scale)
    elif " long x " in callout.words:  # a letter stands beside the slot that it means
        scale = upright_scale(view, wood.size[upright_axis])
        middles = _middles_of_slots(callout, sheet, view.arcs, scale)
        if len(middles) == len(targets):
            targets = [min(middles, key=partial(math.dist, target)) for target in targets]
    found = []
    for target in targets:
        place = {}
        for is_level, axis, is_back in (
            (True, level_axis, level_back), (False, upright_axis, upright_back),
        ):  # fmt: skip
            figures = [f for f in view.figures if f.is_running and f.is_level == is_level]
            best = min(figures, key=lambda f: abs(f.end[not is_level] - target[not is_level]))
            place[axis] = best.low_mm(wood.size[axis], is_back=is_back)
        found.append(place)
    return found


def _is_struck(circle: tuple[float, float, float], view: ReadView, slack: float) -> bool:
    """Whether running figures end at a circle's middle both ways."""
    return all(
        any(
            f.is_running and f.is_level != axis and abs(f.end[axis] - circle[axis]) < slack
            for f in view.figures
        )
        for axis in (0, 1)
    )


def _middles_of_slots(
    callout: ReadCallout, sheet: ReadSheet, arcs: list[tuple[float, float, float]], scale: float
) -> list[tuple[float, float]]:
    """Halfway between the round ends of every slot of the callout's size, on paper."""
    size = re.search(rf"{FIGURE} long x {FIGURE} wide", callout.words)
    assert size, callout.words
    long, wide = (mm_of(text, sheet) * scale for text in (size[1], size[2]))
    middles: dict[tuple[float, float], float] = {}
    for (ax, ay, a), (bx, by, b) in combinations(arcs, 2):
        off = abs(a - wide / 2) + abs(b - wide / 2)
        off += abs(math.dist((ax, ay), (bx, by)) - (long - wide))
        if min(abs(ax - bx), abs(ay - by)) < 0.05 * scale and off < scale:
            middle = (round((ax + bx) / 2, 3), round((ay + by) / 2, 3))
            middles[middle] = min(off, middles.get(middle, off))
    return sorted(middles, key=lambda each: middles[each])[: count_of(callout.words)]


def bores(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(rf"dia {FIGURE}, (through|{FIGURE} deep)(.*), from ([a-z ;]+)$", words)
    assert found, words
    radius = mm_of(found[1], sheet) / 2
    sink = re.search(rf"countersunk dia {FIGURE}", words)
    tools = []
    faces = [name for place in found[5].split("; ") for name in BOTH.get(place, (place,))]
    placed = [(face, at) for face in faces for at in _centres(callout, sheet, wood, face)]
    for face, place in placed:
        axis, is_far = FACES[face]
        deep = wood.size[axis] + OVER_MM if found[2] == "through" else mm_of(found[3], sheet)
        start = [place.get(other, 0.0) for other in range(3)]
        start[axis] = wood.size[axis] if is_far else 0.0
        way = [0.0, 0.0, 0.0]
        way[axis] = -1.0 if is_far else 1.0
        tools.append(
            cq.Workplane(cq.Solid.makeCylinder(radius, deep, cq.Vector(*start), cq.Vector(*way)))
        )
        if sink:
            mouth = mm_of(sink[1], sheet) / 2
            tools.append(
                cq.Workplane(
                    cq.Solid.makeCone(
                        mouth, radius, mouth - radius, cq.Vector(*start), cq.Vector(*way)
                    )
                )
            )
    return tools


def slots(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(
        rf"{FIGURE} long x {FIGURE} wide, round ends, (along|across) the grain, "
        rf"(through|{FIGURE} deep), from ([a-z]+ [a-z]+)", words,
    )  # fmt: skip
    assert found, words
    long, wide = mm_of(found[1], sheet), mm_of(found[2], sheet)
    face = found[6]
    deep = wood.thickness + OVER_MM if found[4] == "through" else mm_of(found[5], sheet)
    tools = []
    for place in _centres(callout, sheet, wood, face):
        half = (long / 2, wide / 2) if found[3] == "along" else (wide / 2, long / 2)
        low, high = slab(wood, *FACES[face], deep)
        for axis in (0, 1):
            low[axis], high[axis] = place[axis] - half[axis], place[axis] + half[axis]
        tools.append(box_between(low, high).edges("|Z").fillet(wide / 2 - 1e-6))
    return tools
