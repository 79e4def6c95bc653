"""Mortises and tenons: tools made from the words and the running figures of a part's sheet."""

from __future__ import annotations

import math
import re
from typing import Any

from tests.exporters.sheet_housings import spanned
from tests.exporters.sheet_values import ReadCallout, ReadSheet
from tests.exporters.sheet_wood import (
    FACES,
    FIGURE,
    OVER_MM,
    VIEW_AXES,
    Wood,
    box_between,
    mm_of,
    places_of,
    radius_of,
    slab,
)


def _starts(sheet: ReadSheet, face: str, target: tuple[float, float] | None,
            sizes: dict[int, float], wood: Wood) -> dict[int, float]:  # fmt: skip
    """Where a block begins in the view of its face, by part axis, part frame [mm]."""
    face = sheet.drawn_for(face)
    view = sheet.views[face]
    left, low, right, high = view.box
    found = {}
    for is_level, (axis, is_back) in zip((True, False), VIEW_AXES[face], strict=True):
        figures = [f for f in view.figures if f.is_running and f.is_level == is_level and f.said_mm]
        # nothing is said of what begins at the datum: the face side, the face edge, the named end
        values = [f.low_mm(wood.size[axis], sizes[axis], is_back) for f in figures]
        values = values or [wood.thickness - sizes[axis] if axis == 2 else 0.0]
        found[axis] = values[0]
        if target is not None and len(values) > 1:
            start, end = (left, right) if is_level else (low, high)
            at = (target[not is_level] - start) / (end - start) * wood.size[axis]
            at = wood.size[axis] - at if is_back else at
            found[axis] = min(values, key=lambda each: abs(each + sizes[axis] / 2 - at))
    return found


def _each_start(
    sheet: ReadSheet, face: str, sizes: dict[int, float], wood: Wood
) -> list[dict[int, float]]:
    """Where each of several alike begins: running figures along and across that end at a corner."""
    face = sheet.drawn_for(face)
    view = sheet.views[face]
    (along, along_back), (across, across_back) = VIEW_AXES[face]
    level, upright = (
        [f for f in view.figures if f.is_running and f.is_level == is_level and f.said_mm]
        for is_level in (True, False)
    )
    # those that lie in one line share the figure of the other way
    pairs = [(one, min(upright, key=lambda f: math.dist(f.end, one.end))) for one in level]
    if len(upright) > len(level):
        pairs = [(min(level, key=lambda f: math.dist(f.end, one.end)), one) for one in upright]
    return [
        {
            along: one.low_mm(wood.size[along], sizes[along], along_back),
            across: other.low_mm(wood.size[across], sizes[across], across_back),
        }
        for one, other in pairs
    ]


def _targets(callout: ReadCallout, sheet: ReadSheet, face: str) -> list[tuple[float, float] | None]:
    left, low, right, high = sheet.views[sheet.drawn_for(face)].box
    inside = [t for t in callout.targets if left <= t[0] <= right and low <= t[1] <= high]
    return list(inside) or [None]


def mortises(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(rf"{FIGURE} x {FIGURE} x {FIGURE} deep", words)
    assert found, words
    first, second, deep = (mm_of(each, sheet) for each in found.groups())
    radius = radius_of(words, sheet)
    tools = []
    faces = re.findall(r"in ((?:face|back) (?:side|edge)|(?:named|far) end)", words)
    for face in faces:
        axis, is_far = FACES[face]
        sizes = dict(zip([a for a in range(3) if a != axis], (first, second), strict=True))
        count = re.match(r"(\d+) mortises", words)
        targets = _targets(callout, sheet, face)
        places = [_starts(sheet, face, target, sizes, wood) for target in targets]
        if count is not None and int(count[1]) > len(targets):  # one leader stands for all
            places = _each_start(sheet, face, sizes, wood)
            assert len(places) == int(count[1]), words
        for starts in places:
            low, high = slab(wood, axis, is_far, deep)
            for own, start in starts.items():
                low[own], high[own] = start, start + sizes[own]
            tool = box_between(low, high)
            tools.append(tool.edges(f"|{'XYZ'[axis]}").fillet(radius - 1e-6) if radius else tool)
    return tools


def gains(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    """Each where a dimension line tells its length, from the running figure at an end of that.

    Dimension lines of the section tell how wide and how deep they are, as they do of a rabbet.
    """
    words = callout.words
    found = re.search(r"on ([a-z]+ [a-z]+), towards ([a-z ]+)", words)
    assert found, words
    on, towards = FACES[found[1]], FACES[found[2]]
    (axis, is_far), (beside, at_far) = on, towards
    is_on_edge = axis == 1
    edge, face = (on, towards) if is_on_edge else (towards, on)
    deep, into = (spanned(sheet, wood, edge, face, is_on_edge is down) for down in (True, False))
    seen = sheet.drawn_for(found[1])
    view = sheet.views[seen]
    is_back = dict((VIEW_AXES[seen][0],))[0]
    told = [f for f in view.figures if not f.is_running and f.is_level and f.said_mm < wood.length]
    tools = []
    for length in told:
        ends = (length.start[0], length.end[0])
        start = min(view.running(True), key=lambda f: min(abs(f.end[0] - end) for end in ends))
        low, high = slab(wood, axis, is_far, deep)
        low[0] = start.low_mm(wood.length, length.said_mm, is_back)
        high[0] = low[0] + length.said_mm
        if at_far:
            low[beside] = wood.size[beside] - into
        else:
            high[beside] = into
        tools.append(box_between(low, high))
    return tools


def tenons(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(rf"{FIGURE} thick x {FIGURE} wide x {FIGURE} long", words)
    assert found, words
    thick, wide, long = (mm_of(each, sheet) for each in found.groups())
    tools = []
    for place in places_of(words) if ": " in words else _ends(words):
        end = re.search(r"(named|far) end", place)
        assert end, words
        low, high = slab(wood, *FACES[end[0]], long)
        start = _starts(sheet, end[0], None, {1: wide, 2: thick}, wood)
        inner_low, inner_high = [low[0] - OVER_MM, start[1], start[2]], [
            high[0] + OVER_MM, start[1] + wide, start[2] + thick
        ]  # fmt: skip
        tools.append(box_between(low, high).cut(box_between(inner_low, inner_high)))
    return tools


def _ends(words: str) -> list[str]:
    """The ends that are named."""
    return ["named end", "far end"] if "both ends" in words else re.findall(r"\w+ end", words)
