"""Which part stands in whose way along a direction: exact for flat faces, by projection.

Moving A along d, however far, meets B when some line along d has wood of B beyond wood of A. The
farthest wood of B on a line lies on a facet that looks along d, the nearest of A on one that looks
back. So it is enough to lay every such pair of facets over each other, seen along d: where they
overlap, the gap between two planes is linear, and A is blocked where it is positive. Nothing is
sampled along the way, so nothing thin can be jumped over, and faces that touch or slide without
clearance have no gap or no overlap and do not block.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from furniture.assembly.body import Body
from furniture.parts.vectors import Vector, cross, unit

PLAY_MM = 1e-5
"""Less than this in depth or across is rounding, not wood in the way [mm]. Own rule: a thousandth
of what the tightest fit leaves. Facets of curved faces add their own slack to it."""

_EDGE_ON = 1e-6

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class _Sheet:
    """Facets seen along a direction, as arrays: outlines, and depth = a u + b v + c."""

    owner: Indices
    outline: Any
    plane: Floats
    nearest: Floats
    farthest: Floats
    edge_slack: Floats
    face_slack: Floats


def blocked_along(bodies: Sequence[Body], direction: Vector) -> NDArray[np.bool_]:
    """A table: row A, column B is true when A, moved along `direction`, would meet B.

    Moved the other way, B is met by A just when the table says so with rows and columns exchanged.

    Args:
        bodies: the parts in their places; no two overlap.
        direction: unit vector, piece frame.
    """
    table = np.zeros((len(bodies), len(bodies)), dtype=np.bool_)
    trailing, leading = _sheets(bodies, direction)
    if not trailing.owner.size or not leading.owner.size:
        return table
    back, front = shapely.STRtree(leading.outline).query(trailing.outline)
    is_candidate = trailing.owner[back] != leading.owner[front]
    is_candidate &= leading.farthest[front] > trailing.nearest[back] + PLAY_MM
    back, front = back[is_candidate], front[is_candidate]
    pair = trailing.owner[back] * len(bodies) + leading.owner[front]
    # The widest overlap of each pair of parts settles most pairs by itself.
    size = _box_overlap(trailing.outline[back], leading.outline[front])
    order = np.lexsort((-size, pair))
    back, front, pair = back[order], front[order], pair[order]
    is_first = np.ones(len(pair), dtype=np.bool_)
    is_first[1:] = pair[1:] != pair[:-1]
    blocked = _blocking_pairs(trailing, leading, back[is_first], front[is_first], pair[is_first])
    is_open = ~np.isin(pair, blocked)
    more = _blocking_pairs(trailing, leading, back[is_open], front[is_open], pair[is_open])
    for found in (blocked, more):
        table[found // len(bodies), found % len(bodies)] = True
    return table


def blocked_within(
    bodies: Sequence[Body], direction: Vector, distance_mm: float
) -> NDArray[np.bool_]:
    """A table: row A, column B is true when A, moved so far along `direction`, would meet B.

    On a line along the way, wood of A ends on a facet that looks along it and wood of B begins on
    one that looks back; A meets B when the gap from the one to the other is less than the distance.

    Args:
        bodies: the parts in their places; no two overlap.
        direction: unit vector, piece frame.
        distance_mm: how far [mm].
    """
    table = np.zeros((len(bodies), len(bodies)), dtype=np.bool_)
    begins, ends = _sheets(bodies, direction)
    if not begins.owner.size or not ends.owner.size:
        return table
    end, begin = shapely.STRtree(begins.outline).query(ends.outline)
    is_candidate = ends.owner[end] != begins.owner[begin]
    is_candidate &= begins.nearest[begin] < ends.farthest[end] + distance_mm
    regions: dict[tuple[int, int], list[Any]] = {}
    for a, b in zip(end[is_candidate], begin[is_candidate], strict=True):
        pair = (int(ends.owner[a]), int(begins.owner[b]))
        if table[pair]:
            continue
        plane = begins.plane[b] - ends.plane[a]
        slack = PLAY_MM + ends.face_slack[a] + begins.face_slack[b]
        common = shapely.intersection(ends.outline[a], begins.outline[b])
        common = _where_at_least(common, plane, -slack)
        common = _where_at_least(common, -plane, PLAY_MM - distance_mm)
        if common.is_empty or common.area <= 0.0:
            continue
        play = PLAY_MM + ends.edge_slack[a] + begins.edge_slack[b]
        regions.setdefault(pair, []).append(common)
        whole = shapely.union_all(regions[pair])
        table[pair] = not _narrowed(whole, play).is_empty
    return table


def _where_at_least(region: Any, plane: Floats, level: float) -> Any:
    """The part of a region where a u + b v + c is at least a level."""
    if region.is_empty or region.area <= 0.0:
        return region
    points = shapely.get_coordinates(region)
    values = points @ plane[:2] + plane[2]
    if values.min() >= level:
        return region
    if values.max() <= level:
        return shapely.Polygon()
    return _where_over(region, plane, level)


def _sheets(bodies: Sequence[Body], direction: Vector) -> tuple[_Sheet, _Sheet]:
    """The facets that look back against the direction, and those that look along it."""
    helper: Vector = (1.0, 0.0, 0.0) if abs(direction[0]) < 0.9 else (0.0, 1.0, 0.0)
    u_axis = unit(cross(direction, helper))
    turn = np.array([u_axis, cross(direction, u_axis), direction])
    sides: tuple[list[Any], list[Any]] = ([], [])
    for owner, body in enumerate(bodies):
        for facet in body.facets:
            normal = turn @ np.array(facet.normal)
            lean = float(normal[2])
            if abs(lean) < _EDGE_ON:
                continue
            rings = [np.array(ring) @ turn.T for ring in (facet.outer, *facet.holes)]
            outline = shapely.Polygon(rings[0][:, :2], [ring[:, :2] for ring in rings[1:]])
            level = float(normal @ rings[0][0])
            plane = (-normal[0] / lean, -normal[1] / lean, level / lean)
            depth = rings[0][:, 2]
            slack = facet.face_slack_mm / abs(lean)
            sides[lean > 0].append(
                (owner, outline, plane, depth.min(), depth.max(), facet.edge_slack_mm, slack)
            )
    return (_sheet(sides[0]), _sheet(sides[1]))


def _sheet(rows: list[Any]) -> _Sheet:
    owner, outline, plane, nearest, farthest, edge, face = (
        zip(*rows, strict=True) if rows else (((),) * 7)
    )
    outlines = np.array(outline, dtype=object)
    if outlines.size:
        is_bad = ~shapely.is_valid(outlines)
        outlines[is_bad] = shapely.make_valid(outlines[is_bad])
    return _Sheet(
        np.array(owner, dtype=np.intp),
        outlines,
        np.array(plane, dtype=np.float64).reshape(-1, 3),
        np.array(nearest, dtype=np.float64),
        np.array(farthest, dtype=np.float64),
        np.array(edge, dtype=np.float64),
        np.array(face, dtype=np.float64),
    )


def _box_overlap(first: Any, second: Any) -> Floats:
    a, b = shapely.bounds(first), shapely.bounds(second)
    wide = np.minimum(a[:, 2], b[:, 2]) - np.maximum(a[:, 0], b[:, 0])
    high = np.minimum(a[:, 3], b[:, 3]) - np.maximum(a[:, 1], b[:, 1])
    result: Floats = np.maximum(wide, 0.0) * np.maximum(high, 0.0)
    return result


def _blocking_pairs(
    trailing: _Sheet, leading: _Sheet, back: Indices, front: Indices, pair: Indices
) -> Indices:
    """Those pairs of parts of which these pairs of facets show that one blocks the other."""
    common = shapely.intersection(trailing.outline[back], leading.outline[front])
    plane = leading.plane[front] - trailing.plane[back]
    gap_play = PLAY_MM + leading.face_slack[front] + trailing.face_slack[back]
    side_play = PLAY_MM + leading.edge_slack[front] + trailing.edge_slack[back]
    points, index = shapely.get_coordinates(common, return_index=True)
    gaps = (points * plane[index, :2]).sum(axis=1) + plane[index, 2]
    least = np.full(len(back), np.inf)
    greatest = np.full(len(back), -np.inf)
    np.minimum.at(least, index, gaps)
    np.maximum.at(greatest, index, gaps)
    is_over = (greatest > gap_play) & (shapely.area(common) > 0.0)
    for at in np.flatnonzero(is_over & (least < gap_play)):
        common[at] = _where_over(common[at], plane[at], float(gap_play[at]))
    common, pair, side_play = common[is_over], pair[is_over], side_play[is_over]
    is_wide = ~shapely.is_empty(_narrowed(common, side_play))
    settled = np.unique(pair[is_wide])
    # What is left are slivers: together they may still be wider than any one of them.
    is_left = ~np.isin(pair, settled) & ~shapely.is_empty(common)
    extra = [
        each
        for each in np.unique(pair[is_left])
        if (is_left & (pair == each)).sum() > 1
        and not _narrowed(
            shapely.union_all(common[is_left & (pair == each)]),
            side_play[is_left & (pair == each)].max(),
        ).is_empty
    ]
    return np.concatenate([settled, np.array(extra, dtype=np.intp)])


def _narrowed(regions: Any, play: Any) -> Any:
    return shapely.buffer(regions, -play, join_style="mitre")


def _where_over(region: Any, plane: Floats, level: float) -> Any:
    """The part of a region where a u + b v + c exceeds a level."""
    slope = plane[:2]
    steepness = float(np.hypot(*slope))
    if steepness == 0.0:
        return region
    low_u, low_v, high_u, high_v = region.bounds
    middle = np.array([(low_u + high_u) / 2, (low_v + high_v) / 2])
    far = 2.0 * float(np.hypot(high_u - low_u, high_v - low_v)) + 1.0
    up = slope / steepness
    start = middle + up * (level - (float(slope @ middle) + plane[2])) / steepness
    if float(np.hypot(*(start - middle))) > far:  # the level line passes the region by
        return region if float(slope @ middle) + plane[2] > level else shapely.Polygon()
    side = np.array([-up[1], up[0]])
    corners = (start - far * side, start + far * side)
    half = shapely.Polygon([*corners, corners[1] + 2 * far * up, corners[0] + 2 * far * up])
    return shapely.intersection(region, half)
