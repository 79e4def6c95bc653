"""Dados and grooves: tools made from the words of a part's sheet."""

from __future__ import annotations

import math
import re
from typing import Any

from tests.exporters.sheet_values import ReadCallout, ReadFigure, ReadSheet, ReadView
from tests.exporters.sheet_wood import (
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
    stops_in,
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
    shoulders = [f.low_mm(wood.length, wide) for f in figures]
    everyone = [c for c in sheet.callouts if re.match(r"(\d+ )?dado", c.words) and face in c.words]
    if len(everyone) > 1 or len(shoulders) != count_of(words):
        half = wide / 2 * upright_scale(view, wood.width)
        half *= -1.0 if figures[0].end[0] < figures[0].start[0] else 1.0
        shoulders = [
            near(figures, 0, target[0] - half).low_mm(wood.length, wide)
            for target in callout.targets
        ]
    first, last = stops_in(
        words, face, 1, (0, (min(shoulders), max(shoulders) + wide)), sheet, wood
    )
    radius = radius_of(words, sheet)
    tools = []
    for shoulder in shoulders:
        low, high = slab(wood, *FACES[face], deep)
        low[0], high[0] = shoulder, shoulder + wide
        low[1] = -OVER_MM if first is None else first
        high[1] = wood.width + OVER_MM if last is None else last
        tool = box_between(low, high)
        if radius and first is not None:
            tool = tool.faces("<Y").edges("|Z").fillet(radius - 1e-6)
        if radius and last is not None:
            tool = tool.faces(">Y").edges("|Z").fillet(radius - 1e-6)
        tools.append(tool)
    return tools


def grooves(callout: ReadCallout, sheet: ReadSheet, wood: Wood) -> list[Any]:
    words = callout.words
    found = re.search(r"along the grain, (.*), in ([a-z]+ [a-z]+)", words)
    assert found, words
    face = found[2]
    axis, is_far = FACES[face]
    view = sheet.views["section"]
    wide, deep = _of_groove(view, axis, callout.targets[0])
    figures = view.running(axis == 1)
    target = callout.targets[0][0 if axis == 1 else 1]
    left, low_y, right, _ = view.box
    scale = (right - left) / wood.thickness
    # Level figures run from the face side, which stands to the left in the section.
    at = (target - (left if axis == 1 else low_y)) / scale
    size = wood.width if axis == 2 else wood.thickness
    found_at = [f.low_mm(size, wide) for f in figures] or [0.0]
    offset = min(found_at, key=lambda v: abs(v + wide / 2 - at))
    low, high = slab(wood, axis, is_far, deep)
    if axis == 2:
        low[1], high[1] = offset, offset + wide
    else:
        low[2], high[2] = wood.thickness - offset - wide, wood.thickness - offset
    across = 3 - axis
    first, last = stops_in(words, face, 0, (across, (low[across], high[across])), sheet, wood)
    low[0] = -OVER_MM if first is None else first
    high[0] = wood.length + OVER_MM if last is None else last
    tool = box_between(low, high)
    radius = radius_of(words, sheet)
    along = "|Z" if axis == 2 else "|Y"
    if radius and first is not None:
        tool = tool.faces("<X").edges(along).fillet(radius - 1e-6)
    if radius and last is not None:
        tool = tool.faces(">X").edges(along).fillet(radius - 1e-6)
    return [tool]


def _of_groove(view: ReadView, axis: int, at: tuple[float, float]) -> tuple[float, float]:
    """The width and the depth that dimension lines in the section tell of a groove [mm].

    A leader points at the middle of its floor: the width spans that point, the depth ends there. A
    letter stands beside it: the width is the nearest.
    """
    across, along = (0, 1) if axis == 1 else (1, 0)
    plain = [f for f in view.figures if not f.is_running and f.text[0] != "("]

    def off(figure: ReadFigure) -> tuple[float, float]:
        low, high = sorted((figure.start[across], figure.end[across]))
        return max(low - at[across], at[across] - high, 0.0), figure.measured_mm

    wide = min((f for f in plain if f.is_level == (across == 0)), key=off)
    depths = [f for f in plain if f.is_level == (along == 0)]

    def away(figure: ReadFigure) -> float:
        floor = min(abs(end[along] - at[along]) for end in (figure.start, figure.end))
        walls = (wide.start[across], wide.end[across])
        return floor + min(abs(figure.start[across] - wall) for wall in walls)

    return wide.said_mm, min(depths, key=away).said_mm


_LOOKS = {"section": {1: (False, False), 2: (True, True)},
          "face edge": {0: (True, False), 2: (False, False)}}  # fmt: skip
"""For each part axis whether it lies level in a view, and whether it is drawn backwards."""


def spanned(
    sheet: ReadSheet, wood: Wood, edge: tuple[int, bool], face: tuple[int, bool], is_down: bool
) -> float:
    """The size of a rabbet that a dimension line tells in the view that shows its step [mm].

    It begins at the edge, or at the face, and lies on the other one's side.
    """
    name = "face edge" if edge[0] == 0 else "section"
    view, looks = sheet.views[name], _LOOKS[name]

    def side(of: tuple[int, bool]) -> tuple[int, float]:
        is_level, is_back = looks[of[0]]
        at = 0 if is_level else 1
        return at, view.box[at + 2 if of[1] != is_back else at]

    (own, begins), (other, beside) = (
        (side(edge), side(face)) if is_down else (side(face), side(edge))
    )
    size = view.box[own + 2] - view.box[own]
    if not is_down and name == "section":  # break lines stand out past the wood, figures do not
        across = max(
            (f for f in view.figures if not f.is_running and f.is_level == (own == 0)),
            key=lambda f: f.measured_mm,
        )
        ends = sorted((across.start[own], across.end[own]))
        begins = ends[begins > sum(ends) / 2]
        size = ends[1] - ends[0]
    longest = math.inf if is_down else wood.thickness
    found = [
        f for f in view.figures
        if not f.is_running and f.is_level == (own == 0) and f.said_mm < longest - 1e-6
        and min(abs(f.start[own] - begins), abs(f.end[own] - begins)) < 0.15 * size
    ]  # fmt: skip
    return min(found, key=lambda f: abs(f.start[other] - beside)).said_mm
