"""Dados, grooves, rabbets: tools made from the words of a part's sheet."""

from __future__ import annotations

import re
from typing import Any

from tests.exporters.sheet_reader import ReadCallout, ReadSheet
from tests.exporters.sheet_wood import (
    FACES,
    FIGURE,
    OVER_MM,
    Wood,
    box_between,
    count_of,
    mm_of,
    places_of,
    radius_of,
    said_near,
    slab,
    stop_of,
    upright_scale,
)


def dados(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(rf"{FIGURE} wide x {FIGURE} deep, (.*), in (face side|back side)", words)
    assert found, words
    wide, deep = mm_of(found[1], sheet), mm_of(found[2], sheet)
    face = found[4]
    view = sheet.views[face]
    figures = view.running(True)
    shoulders = [f.said_mm for f in figures]
    everyone = [c for c in sheet.callouts if re.match(r"(\d+ )?dado", c.words) and face in c.words]
    if len(everyone) > 1 or len(shoulders) != count_of(words):
        half = wide / 2 * upright_scale(view, wood.width)
        shoulders = [said_near(figures, 0, target[0] - half) for target in callout.targets]
    low_stop = stop_of(words, "face edge", sheet)
    high_stop = stop_of(words, "back edge", sheet)
    radius = radius_of(words, sheet)
    tools = []
    for shoulder in shoulders:
        low, high = slab(wood, *FACES[face], deep)
        low[0], high[0] = shoulder, shoulder + wide
        low[1] = low_stop if low_stop else -OVER_MM
        high[1] = wood.width - high_stop if high_stop else wood.width + OVER_MM
        tool = box_between(low, high)
        if radius and low_stop:
            tool = tool.faces("<Y").edges("|Z").fillet(radius - 1e-6)
        if radius and high_stop:
            tool = tool.faces(">Y").edges("|Z").fillet(radius - 1e-6)
        tools.append(tool)
    return tools


def grooves(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(
        rf"{FIGURE} wide x {FIGURE} deep, along the grain, (.*), in ([a-z]+ [a-z]+)", words
    )
    assert found, words
    wide, deep = mm_of(found[1], sheet), mm_of(found[2], sheet)
    face = found[4]
    axis, is_far = FACES[face]
    view = sheet.views["section"]
    figures = view.running(axis == 1)
    target = callout.targets[0][0 if axis == 1 else 1]
    left, low_y, right, _ = view.box
    scale = (right - left) / wood.thickness
    # Level figures run from the face side, which stands to the left in the section.
    at = (target - (left if axis == 1 else low_y)) / scale
    offset = min((f.said_mm for f in figures), key=lambda v: abs(v + wide / 2 - at))
    low, high = slab(wood, axis, is_far, deep)
    if axis == 2:
        low[1], high[1] = offset, offset + wide
    else:
        low[2], high[2] = wood.thickness - offset - wide, wood.thickness - offset
    near, far = stop_of(words, "named end", sheet), stop_of(words, "far end", sheet)
    low[0] = near if near else -OVER_MM
    high[0] = wood.length - far if far else wood.length + OVER_MM
    tool = box_between(low, high)
    radius = radius_of(words, sheet)
    along = "|Z" if axis == 2 else "|Y"
    if radius and near:
        tool = tool.faces("<X").edges(along).fillet(radius - 1e-6)
    if radius and far:
        tool = tool.faces(">X").edges(along).fillet(radius - 1e-6)
    return [tool]


def rabbets(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    found = re.search(rf"{FIGURE} down x {FIGURE} into the thickness", callout.words)
    assert found, callout.words
    down, into = mm_of(found[1], sheet), mm_of(found[2], sheet)
    tools = []
    for place in places_of(callout.words):
        where = re.match(r"along ([a-z]+ [a-z]+), on ([a-z]+ [a-z]+)", place)
        assert where, place
        edge, face = FACES[where[1]], FACES[where[2]]
        low, high = slab(wood, *edge, down)
        other_low, other_high = slab(wood, *face, into)
        low[2], high[2] = other_low[2], other_high[2]
        run = 1 - edge[0]
        names = ("named end", "far end") if run == 0 else ("face edge", "back edge")
        first, last = (stop_of(callout.words, name, sheet) for name in names)
        low[run] = first if first else low[run]
        high[run] = wood.size[run] - last if last else high[run]
        tools.append(box_between(low, high))
    return tools
