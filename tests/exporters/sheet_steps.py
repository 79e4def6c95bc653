"""Notches and rabbets: tools made from the dimension lines of a part's views, without a word.

Both figures of one meet in a point of the blank's outline where wood is gone: in a corner, both
are measured from there; in an edge, the length stands on it and the depth begins at its end.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Any

from tests.exporters.sheet_values import ReadCallout, ReadFigure, ReadSheet, ReadView
from tests.exporters.sheet_wood import (
    BOTH,
    FACES,
    OVER_MM,
    VIEW_AXES,
    Wood,
    box_between,
    count_of,
    near,
    radius_of,
    slab,
    stops_in,
)

_SAME_MM = 0.02
_SECTION = ((2, True), (1, False))
"""The part axis and its sense that lies level and upright in a section."""


@dataclass(frozen=True)
class _Step:
    """Two figures that meet on the outline, and at which of its sides: none, one or two."""

    level: ReadFigure
    upright: ReadFigure
    at: tuple[float, float]
    sides: tuple[int | None, int | None]
    """Low (0) or high (1) of the view, level and upright; none lies between."""


def _steps(view: ReadView, sizes: tuple[float, float]) -> Iterator[_Step]:
    """Every pair of plain figures that meet so.

    Args:
        view: as read.
        sizes: of the wood, level and upright in this view [mm].
    """
    box = _wood_in(view, sizes[0])
    level, upright = (
        [
            f for f in view.figures
            if not f.is_running and f.is_level is is_level and f.text[0] != "("
            and f.said_mm < size - _SAME_MM
        ]
        for is_level, size in zip((True, False), sizes, strict=True)
    )  # fmt: skip
    for one, other in product(level, upright):
        for at, end in product((one.start, one.end), (other.start, other.end)):
            if math.dist(at, end) > _SAME_MM:
                continue
            slack = 0.002 * (box[2] - box[0] + box[3] - box[1])
            sides = tuple(
                next((far for far in (0, 1) if abs(at[i] - box[i + 2 * far]) < slack), None)
                for i in (0, 1)
            )
            if sides != (None, None):
                yield _Step(one, other, at, (sides[0], sides[1]))


def _wood_in(view: ReadView, size: float) -> tuple[float, float, float, float]:
    """The outline's box; break lines stand out past it, the figure of its width does not."""
    left, low, right, high = view.box
    for figure in view.figures:
        if not figure.is_running and figure.is_level and abs(figure.said_mm - size) < _SAME_MM:
            left, right = sorted((figure.start[0], figure.end[0]))
    return left, low, right, high


def rabbets(sheet: ReadSheet, wood: Wood) -> list[Any]:
    """Steps at the corners of a section, and of the edge for those along an end."""
    tools = []
    for name, axes in (("section", _SECTION), ("face edge", VIEW_AXES["face edge"])):
        view = sheet.views.get(name)
        if view is None:
            continue
        for step in _steps(view, (wood.size[axes[0][0]], wood.size[axes[1][0]])):
            if None in step.sides:
                continue
            low, high = [-OVER_MM] * 3, [size + OVER_MM for size in wood.size]
            faces = []
            for figure, side, (axis, is_back) in zip(
                (step.level, step.upright), step.sides, axes, strict=True
            ):
                is_far = bool(side) != is_back
                faces.append((axis, is_far))
                one_low, one_high = slab(wood, axis, is_far, figure.said_mm)
                low[axis], high[axis] = one_low[axis], one_high[axis]
            _stop(low, high, faces, sheet, wood)
            tools.append(box_between(low, high))
    return tools


def _stop(
    low: list[float], high: list[float], faces: list[tuple[int, bool]], sheet: ReadSheet, wood: Wood
) -> None:
    """A rabbet's run, ended where words say that it stops and running figures say where."""
    names = {where: name for name, where in FACES.items()}
    edge, face = sorted((names[each] for each in faces), key=lambda name: "side" in name)
    for callout in sheet.callouts:
        if not re.match(r"rabbet stopped", callout.words):
            continue
        if f"along {edge}, on {face}" not in _one_by_one(callout.words):
            continue
        seen = face if face == "face side" else edge
        run = ({0, 1} - {FACES[edge][0]}).pop()
        across = FACES[edge][0] if seen == "face side" else 2
        band = (low[across], high[across])
        first, last = stops_in(callout.words, seen, run, (across, band), sheet, wood)
        low[run] = low[run] if first is None else first
        high[run] = high[run] if last is None else last


def _one_by_one(words: str) -> str:
    """Words with each of both ends or edges named."""
    for both, (one, other) in BOTH.items():
        if both in words:
            return words.replace(both, one) + words.replace(both, other)
    return words


def notches(sheet: ReadSheet, wood: Wood) -> list[Any]:
    """Steps in the outline of the face side, with the corners that words give."""
    view = sheet.views["face side"]
    tools = []
    rounded = [each for each in sheet.callouts if re.match(r"(\d+ )?notch", each.words)]
    for step in _steps(view, (wood.length, wood.width)):
        sizes = (step.level.said_mm, step.upright.said_mm)
        low, high = [-OVER_MM] * 3, [size + OVER_MM for size in wood.size]
        for axis, side in enumerate(step.sides):
            if side is not None:
                one_low, one_high = slab(wood, axis, bool(side), sizes[axis])
                low[axis], high[axis] = one_low[axis], one_high[axis]
                continue
            figure = (step.level, step.upright)[axis]
            running = view.running(axis == 0)
            ends = [(near(running, axis, at[axis]), at) for at in (figure.start, figure.end)]
            struck, _ = min(ends, key=lambda each: abs(each[0].end[axis] - each[1][axis]))
            low[axis] = struck.low_mm(wood.size[axis], sizes[axis])
            high[axis] = low[axis] + sizes[axis]
        tool = box_between(low, high)
        radius = _radius(step, rounded, sheet)
        if radius:
            tool = _rounded(tool, step, radius)
        tools.append(tool)
    return tools


def _radius(step: _Step, rounded: list[ReadCallout], sheet: ReadSheet) -> float:
    """What words say of the inner corners of the notch that their leader or letter stands at."""
    for callout in rounded:
        is_all = count_of(callout.words) > len(callout.targets)
        lines = (step.level, step.upright)
        for target in callout.targets:
            inside = all(
                min(f.start[i], f.end[i]) - _SAME_MM <= target[i] <= max(f.start[i], f.end[i])
                + _SAME_MM
                for i, f in enumerate(lines)
            )  # fmt: skip
            if inside or is_all:
                return radius_of(callout.words, sheet)
    return 0.0


def _rounded(tool: Any, step: _Step, radius: float) -> Any:
    """A notch with round corners inside the wood."""
    inner = "".join(
        f"and {'<' if side else '>'}{'XY'[axis]}"
        for axis, side in enumerate(step.sides)
        if side is not None
    ).removeprefix("and ")
    size = min(step.level.said_mm, step.upright.said_mm)
    if None in step.sides:
        size = (step.level, step.upright)[step.sides.index(None)].said_mm / 2
        return tool.faces(inner).edges("|Z").fillet(min(radius, size) - 1e-6)
    return tool.edges("|Z").edges(inner.split("and ")[0]).edges(inner.split("and ")[1]).fillet(
        min(radius, size) - 1e-6
    )  # fmt: skip
