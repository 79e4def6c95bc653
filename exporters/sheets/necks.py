"""What two notches leave between them: the width that must pass what stands in the notches."""

from __future__ import annotations

from itertools import combinations

from exporters.sheets.annotation import Bench, Look, SpanShown
from furniture.parts.cuts import Bite, shapes_of
from furniture.parts.cuts.left import put
from furniture.parts.cuts.shapes import level_of
from furniture.parts.faces import face_on
from furniture.parts.part import Part
from furniture.parts.vectors import Vector

_NEAR_MM = 1e-6


def necks_of(part: Part, bench: Bench) -> list[SpanShown]:
    """The necks between notches at both corners of an edge, or in both ends or edges, in brackets.

    Args:
        part: with its notches.
        bench: its wood and the unit.
    """
    found: list[SpanShown] = []
    for one, two in combinations(shapes_of(part.cuts, part.blank, Bite), 2):
        neck = _at_corners(part, one, two) or _across(part, one, two)
        if neck is not None:
            start, end = neck
            size = sum(abs(a - b) for a, b in zip(start, end, strict=True))
            text = f"({bench.dial(size)})"
            found.append(
                SpanShown(text=text, value_mm=size, start=start, end=end, look=Look.FACE_SIDE)
            )
    return found


def _at_corners(part: Part, one: Bite, two: Bite) -> tuple[Vector, Vector] | None:
    """Between two notches out of one edge, each open at a corner of it."""
    blank, run = part.blank, 1 - one.edge.axis
    if one.edge is not two.edge:
        return None
    low, high = sorted((one, two), key=lambda each: each.span)
    if low.span[0] > _NEAR_MM or high.span[1] < blank.size[run] - _NEAR_MM:
        return None
    corner = put(put((0.0, 0.0, blank.thickness_mm), one.edge.axis, level_of(one.edge, blank)),
                 run, low.span[1])  # fmt: skip
    return corner, put(corner, run, high.span[0])


def _across(part: Part, one: Bite, two: Bite) -> tuple[Vector, Vector] | None:
    """Between notches that face each other from opposite ends or edges."""
    blank, axis = part.blank, one.edge.axis
    low, high = max(one.span[0], two.span[0]), min(one.span[1], two.span[1])
    if one.edge is not two.edge.opposite or high - low < _NEAR_MM:
        return None
    near, far = (one, two) if two.edge.is_far else (two, one)
    at = put((0.0, 0.0, blank.thickness_mm), 1 - axis, (low + high) / 2)
    return (
        put(at, axis, level_of(face_on(axis, False), blank) + near.depth_mm),
        put(at, axis, level_of(face_on(axis, True), blank) - far.depth_mm),
    )
