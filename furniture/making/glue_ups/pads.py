"""Where the heads of a clamp bear: a line of force ends where the wood does that passes it on."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from furniture.assembly.seen import Floats, Sheet, turn_of
from furniture.making.glue_ups.looked import Looked, Rigid
from furniture.making.glue_ups.values import Caul, Pad
from furniture.parts.vectors import Vector, add, dot, scaled
from furniture.rules.bench import GLUE_LINE

CLOSING = 0.1
"""A clamp presses a face whose normal has this share along the way in; less is a wall. Own rule."""
LEVEL_MM = 0.1
"""Wood that lies so little below the highest bears too: the head and the wood give. Own rule."""
_SQUARE = 1e-3
_SLANTS = math.tan(math.radians(15.0))
"""A flat face that leans by more lets a head slip. Own rule."""
FINE = 4
_WHOLE = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """Of a clamp: how wide and how deep [mm], and what goes below it.

    bears: what share of it must bear square without a caul; least_block_mm: the narrowest block
    that lifts it; slender: how many times as high as wide that is at most; bar_mm: thickness of the
    clamp's bar.
    """

    wide_mm: float
    deep_mm: float
    bears: float
    least_block_mm: float
    slender: float
    bar_mm: float


_RANKS = {Caul.BLOCK: 1, Caul.NO_ROOM: 2}


def best_pads(
    looked: Looked, whole: Rigid, way: Vector, points: Iterable[Vector], head: Head
) -> Iterable[tuple[Pad, Pad]]:
    """The pads at either end of a line of force, or none where it is in no wood.

    Args:
        looked: the piece.
        whole: all that stands in the stage, rows.
        way: unit vector of the line.
        points: where it may run, the best first: the next is taken where a head has no room.
        head: of a clamp.
    """
    best: tuple[int, tuple[Pad, Pad]] | None = None
    bearing = _bearing_pairs(looked, way)
    for point in points:
        for pads in _pads(looked, whole, (way, point), bearing, head):
            rank = sum(_RANKS.get(pad.caul, 0) for pad in pads)
            if best is None or rank < best[0]:
                best = (rank, pads)
        if best is not None and best[0] == 0:
            break
    if best is not None:
        yield best[1]


def _bearing_pairs(looked: Looked, way: Vector) -> frozenset[tuple[int, int]]:
    """Rows of parts that bear on each other along a way, wherever they meet: not across play."""
    return frozenset(
        pair
        for each in looked.joinings
        if any(
            abs(dot(face.normal, way)) > CLOSING and face.play_mm <= GLUE_LINE.value
            for face in each.faces
        )
        for first, second in [looked.ends_of(each)]
        for pair in ((first, second), (second, first))
    )


def _pads(
    looked: Looked, whole: Rigid, line: tuple[Vector, Vector],
    bearing: frozenset[tuple[int, int]], head: Head,
) -> Iterable[tuple[Pad, Pad]]:  # fmt: skip
    """Where the line through a point comes out of the wood on either side."""
    backs, fronts = looked.scene.seen(line[0])
    rows = sorted(whole)
    both = (
        backs.only(np.isin(backs.owner, rows)),
        fronts.only(np.isin(fronts.owner, rows)),
    )
    near = _pad(looked, both, line, -1.0, bearing, head)
    far = _pad(looked, both[::-1], line, 1.0, bearing, head)
    if near is not None and far is not None:
        yield near, far


def _pad(
    looked: Looked, sheets: tuple[Sheet, Sheet], line: tuple[Vector, Vector], sign: float,
    bearing: frozenset[tuple[int, int]], head: Head,
) -> Pad | None:  # fmt: skip
    """The pad on the side that `sign` names: 1 along the way, -1 against it.

    `sheets` are what looks out on that side, and what looks the other way.
    """
    sheet, under = sheets
    way, middle = line
    turn = turn_of(way)
    u, v, depth = (turn @ np.array(middle)).tolist()
    point = shapely.Point(u, v)
    area = point.buffer(head.wide_mm / 2, quad_segs=FINE)
    sheet = sheet.only(_boxes_meet(sheet, area.bounds))
    outs = _passed(sheet, point, sign)
    first = _wood_ends(outs, _passed(under, point, sign), sign * depth, bearing)
    if first is None:
        return None
    level, facet, _ = outs[first]
    out = sign * level
    outer = sheet.farthest if sign > 0.0 else -sheet.nearest
    inner = sheet.nearest if sign > 0.0 else -sheet.farthest
    below = sheet.only((outer > level - head.wide_mm) & (inner < level + LEVEL_MM))
    pad = Pad(
        instance=looked.parts[int(sheet.owner[facet])].name,
        at=add(middle, scaled(way, out - depth)),
        push=scaled(way, -sign),
        share=1.0,
        caul=Caul.NONE,
    )
    others = sheet.only(np.arange(len(sheet.owner)) != facet)
    rise, free = _rising((others, under), (area, head.deep_mm), sign, level)
    if rise > LEVEL_MM:
        is_level = float(np.hypot(*sheet.plane[facet, :2])) < _SQUARE  # a block tips on a slope
        is_held = is_level and free >= head.least_block_mm and rise <= head.slender * free
        share = min(1.0, free / head.wide_mm) ** 2
        caul = Caul.BLOCK if is_held else Caul.NO_ROOM
        return replace(pad, share=share, caul=caul, rise_mm=rise, free_mm=free)
    share, slants = _bearing(below, area, sign)
    square = Caul.NONE if share >= head.bears else Caul.SQUARE
    return replace(pad, share=share, caul=Caul.MITRE_CUT if slants > share else square)


def _passed(sheet: Sheet, point: shapely.Point, sign: float) -> list[tuple[float, int, int]]:
    """The facets that a line passes, as height outwards [mm], facet and owner, lowest first."""
    hit = np.flatnonzero(shapely.intersects(sheet.outline, point))
    heights = sign * (sheet.plane[hit] @ np.array([point.x, point.y, 1.0]))
    owners = sheet.owner[hit]
    return sorted(zip(heights.tolist(), hit.tolist(), owners.tolist(), strict=True))


def _wood_ends(
    outs: Sequence[tuple[float, int, int]],
    ins: Sequence[tuple[float, int, int]],
    start: float,
    bearing: frozenset[tuple[int, int]],
) -> int | None:
    """The facet by which a line leaves the wood that passes the force on, as an index of `outs`.

    What stands beyond a gap presses nothing, but a part that bears on the one before it elsewhere.
    """
    last: int | None = None
    for index, (height, _, owner) in enumerate(outs):
        if height < start - GLUE_LINE.value - _SAME_MM:
            continue
        last = index
        later = [each for each in ins if each[0] > height - GLUE_LINE.value - _SAME_MM]
        goes_on = any(
            each[0] < height + GLUE_LINE.value + _SAME_MM
            or each[2] == owner
            or (owner, each[2]) in bearing
            for each in later
        )
        if not goes_on:
            break
    return last


def _rising(
    sheets: tuple[Sheet, Sheet], head: tuple[shapely.Polygon, float], sign: float, level: float
) -> tuple[float, float]:
    """How far wood stands up into a head above a level, and how wide the space beside it is.

    What begins above the head is not in its way.
    """
    (sheet, below), (area, deep) = sheets, head
    under = np.flatnonzero(shapely.intersects(sheet.outline, area))
    regions = shapely.intersection(sheet.outline[under], area)
    rising: dict[int, list[tuple[float, shapely.Geometry]]] = {}
    for owner, region, plane in zip(
        sheet.owner[under].tolist(), regions, sheet.plane[under], strict=True
    ):
        if region.is_empty:
            continue
        rise = _highest(region, plane, sign) - level
        begins = _begins(below, region.representative_point(), sign, level + rise)
        if rise > LEVEL_MM and begins < level + deep:
            rising.setdefault(owner, []).append((rise, region))
    found = [  # a round wall is many facets, each of them but a speck
        each
        for several in rising.values()
        if shapely.union_all([region for _, region in several]).area > _SPECK_MM2
        for each in several
    ]
    if not found:
        return 0.0, 0.0
    free = min(region.distance(area.centroid) for _, region in found)
    return max(rise for rise, _ in found), 2.0 * free


def _begins(below: Sheet, point: shapely.Point, sign: float, top: float) -> float:
    """How high the wood begins that ends at a height above a point."""
    hit = np.flatnonzero(shapely.intersects(below.outline, point))
    depths = sign * (below.plane[hit] @ np.array([point.x, point.y, 1.0]))
    lower = depths[depths < top - _SAME_MM]
    return float(lower.max()) if lower.size else -math.inf


_SAME_MM = 1e-3
_SPECK_MM2 = 0.5
"""A head gives way to so little. Own rule."""


def _boxes_meet(sheet: Sheet, bounds: tuple[float, float, float, float]) -> NDArray[np.bool_]:
    """Quickly, which facets may lie below a head at all."""
    low_u, low_v, high_u, high_v = bounds
    box = shapely.bounds(sheet.outline)
    found: NDArray[np.bool_] = (
        (box[:, 0] <= high_u) & (box[:, 2] >= low_u) & (box[:, 1] <= high_v) & (box[:, 3] >= low_v)
    )
    return found


def _bearing(sheet: Sheet, head: shapely.Polygon, sign: float) -> tuple[float, float]:
    """What shares of a head lie square on the highest wood below it, and over a slope."""
    under = np.flatnonzero(shapely.intersects(sheet.outline, head))
    regions = shapely.intersection(sheet.outline[under], head)
    tops = np.array([
        _highest(region, plane, sign)
        for region, plane in zip(regions, sheet.plane[under], strict=True)
    ])  # fmt: skip
    order = np.argsort(-tops)
    level, covered, square, slanting = float(tops.max()), shapely.Polygon(), 0.0, 0.0
    for index in order:
        if covered.area > _WHOLE * head.area:
            break
        seen = shapely.difference(regions[index], covered).area
        covered = shapely.union(covered, regions[index])
        slope = float(np.hypot(*sheet.plane[under[index], :2]))
        is_curved = sheet.face_slack[under[index]] > 0.0
        if slope < _SQUARE and tops[index] > level - LEVEL_MM:
            square += seen
        elif slope > _SLANTS and not is_curved:
            slanting += seen
    return square / head.area, slanting / head.area


def _highest(region: shapely.Geometry, plane: Floats, sign: float) -> float:
    points = shapely.get_coordinates(region)
    return float((sign * (points @ plane[:2] + plane[2])).max())
