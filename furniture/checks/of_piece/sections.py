"""The wood that is left of a part, section by section: what its cuts take off, as boxes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from furniture.checks.sections import Rectangle, Stretch
from furniture.parts.cuts import Cut
from furniture.parts.lines import bounds_of
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import UP, Vector, cross, dot

LEAST_WOOD_MM = 0.1
"""What a section is taken to have at least, so that a stress can be told at all [mm]."""
WHOLE = 0.999
"""A cut that takes this share of the width counts as across the whole of it [-]."""

Reach = tuple[float, float]
"""From where to where along a direction [mm]."""


def taken_from(placed: Placed, cuts: Iterable[Cut]) -> list[Box]:
    """The boxes round what each cut takes from a part, piece frame [mm].

    A round-over counts as the square of its radius and a bore as the square round it: more than
    they take, so that a section made of these is a cautious one.

    Args:
        placed: the part in its place
        cuts: which of its cuts
    """
    blank = placed.part.blank
    found = []
    for cut in cuts:
        for tool in cut.tools(blank):
            least, greatest = bounds_of(tool)
            low = [max(0.0, each) for each in least]
            high = [min(size, each) for size, each in zip(blank.size, greatest, strict=True)]
            if all(top - bottom > 1e-6 for bottom, top in zip(low, high, strict=True)):
                ends = [
                    placed.placement.to_piece((low[0], low[1], low[2])),
                    placed.placement.to_piece((high[0], high[1], high[2])),
                ]
                found.append(
                    (
                        _vector(min(a, b) for a, b in zip(*ends, strict=True)),
                        _vector(max(a, b) for a, b in zip(*ends, strict=True)),
                    )
                )
    return found


def stretches_of(
    placed: Placed, along: Vector, start_mm: float, length_mm: float, strip: Reach, flat: float
) -> tuple[Stretch, ...]:
    """The true section of a level part from a place on along a direction, within a strip.

    A cut across the whole strip takes from the thickness, any other from the width.

    Args:
        placed: the level part
        along: the direction in which it spans, level, away from what holds it
        start_mm: where the span begins, along that direction [mm]
        length_mm: of the span [mm]
        strip: from where to where it is counted on, across the direction [mm]
        flat: its thickness [mm]

    **Source:** own rule: a section of the boxes round its cuts, a cautious one.
    """
    across = cross(along, UP)
    boxes = []
    for box in taken_from(placed, placed.part.cuts):
        run, side, up = (reach_along(box, each) for each in (along, across, UP))
        run = (max(0.0, run[0] - start_mm), min(length_mm, run[1] - start_mm))
        side = (max(strip[0], side[0]), min(strip[1], side[1]))
        if run[1] - run[0] > 1e-6 and side[1] - side[0] > 1e-6:
            boxes.append((run, side, up[1] - up[0]))
    places = sorted({0.0, length_mm, *(each for run, _, _ in boxes for each in run)})
    found = []
    for low, high in pairwise(places):
        here = [box for box in boxes if box[0][0] < high - 1e-9 and box[0][1] > low + 1e-9]
        if here:
            section = _left(here, strip[1] - strip[0], flat)
            found.append(Stretch(from_mm=low, to_mm=high, section=section))
    return tuple(found)


def reach_along(box: Box, direction: Vector) -> Reach:
    """From where to where a box reaches along a direction [mm].

    Args:
        box: piece frame
        direction: a unit vector along one of its axes
    """
    ends = (dot(box[0], direction), dot(box[1], direction))
    return (min(ends), max(ends))


def covered_mm(reaches: Iterable[Reach]) -> float:
    """How much of a line some stretches cover together [mm].

    Args:
        reaches: from where to where each goes [mm], overlaps counted once
    """
    covered, end = 0.0, float("-inf")
    for low, high in sorted(reaches):
        covered += max(0.0, high - max(low, end))
        end = max(end, high)
    return covered


def _left(boxes: Sequence[tuple[Reach, Reach, float]], width: float, flat: float) -> Rectangle:
    across = [deep for _, side, deep in boxes if side[1] - side[0] >= WHOLE * width]
    partly = [side for _, side, deep in boxes if side[1] - side[0] < WHOLE * width]
    return Rectangle(
        width_mm=max(LEAST_WOOD_MM, width - covered_mm(partly)),
        thickness_mm=max(LEAST_WOOD_MM, flat - sum(across)),
    )


def _vector(values: Iterable[float]) -> Vector:
    x, y, z = values
    return (x, y, z)
