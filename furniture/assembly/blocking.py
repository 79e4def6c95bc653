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
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from furniture.assembly.body import Body
from furniture.assembly.seen import Floats, Indices, Scene, Sheet, Side, turn_of
from furniture.parts.vectors import Vector

PLAY_MM = 1e-5
"""Less than this in depth or across is rounding, not wood in the way [mm]. Own rule: a thousandth
of what the tightest fit leaves. Facets of curved faces add their own slack to it."""

FEW = 200
"""Pairs of facets that are tried before all of them."""

Table = NDArray[np.bool_]


def blocked_along(bodies: Scene | Sequence[Body], direction: Vector) -> Table:
    """A table: row A, column B is true when A, moved along `direction`, would meet B.

    Moved the other way, B is met by A just when the table says so with rows and columns exchanged.

    Args:
        bodies: the parts in their places; no two overlap.
        direction: unit vector, piece frame.
    """
    scene = bodies if isinstance(bodies, Scene) else Scene(bodies)
    if direction not in scene.blocked:
        trailing, leading = scene.seen(direction)
        table = _table_along(trailing, leading, len(scene.bodies))
        table.flags.writeable = False  # it is kept, and many read it
        scene.blocked[direction] = table
    return scene.blocked[direction]


def blocked_after(scene: Scene, shift: Vector, direction: Vector) -> Table:
    """The same, row A once A alone has been moved by `shift` [mm]."""
    trailing, leading = scene.seen(direction)
    by = turn_of(direction) @ np.array(shift)
    return _table_along(trailing.moved(by), leading, len(scene.bodies))


def blocked_within(bodies: Scene | Sequence[Body], direction: Vector, distance_mm: float) -> Table:
    """A table: row A, column B is true when A, moved so far along `direction`, would meet B.

    On a line along the way, wood of A ends on a facet that looks along it and wood of B begins on
    one that looks back; A meets B when the gap from the one to the other is less than the distance.

    Args:
        bodies: the parts in their places; no two overlap.
        direction: unit vector, piece frame.
        distance_mm: how far [mm].
    """
    scene = bodies if isinstance(bodies, Scene) else Scene(bodies)
    count = len(scene.bodies)
    begins, ends = scene.seen(direction)
    end, begin = _near_within(ends, begins, distance_mm)
    is_candidate = ends.owner[end] != begins.owner[begin]
    end, begin = end[is_candidate], begin[is_candidate]
    pair = ends.owner[end] * count + begins.owner[begin]
    return _table_of(_pairs_within(ends, begins, end, begin, pair, distance_mm), count)


def meets_along(moving: Side, still: Side, direction: Vector, shift: Vector | None = None) -> bool:
    """Whether a side, moved by `shift` first and then along `direction` for ever, meets the other.

    Only the second move is looked at.
    """
    trailing, _ = moving.seen(direction, shift)
    _, leading = still.seen(direction)
    back, front = _near_along(trailing, leading)
    order = np.argsort(-_box_overlap(trailing.outline[back], leading.outline[front]))
    back, front = back[order], front[order]
    one = np.zeros(len(back), dtype=np.intp)
    few = slice(0, FEW)  # the widest overlaps mostly settle it
    if _blocking_pairs(trailing, leading, back[few], front[few], one[few]).size:
        return True
    return bool(_blocking_pairs(trailing, leading, back, front, one).size)


def meets_within(moving: Side, still: Side, direction: Vector, distance_mm: float) -> bool:
    """Whether a side, moved so far along `direction` [mm], meets the other."""
    _, ends = moving.seen(direction)
    begins, _ = still.seen(direction)
    end, begin = _near_within(ends, begins, distance_mm)
    one = np.zeros(len(end), dtype=np.intp)
    return bool(_pairs_within(ends, begins, end, begin, one, distance_mm).size)


def _table_along(trailing: Sheet, leading: Sheet, count: int) -> Table:
    back, front = _near_along(trailing, leading)
    is_candidate = trailing.owner[back] != leading.owner[front]
    back, front = back[is_candidate], front[is_candidate]
    pair = trailing.owner[back] * count + leading.owner[front]
    # The widest overlap of each pair of parts settles most pairs by itself.
    size = _box_overlap(trailing.outline[back], leading.outline[front])
    order = np.lexsort((-size, pair))
    back, front, pair = back[order], front[order], pair[order]
    is_first = np.ones(len(pair), dtype=np.bool_)
    is_first[1:] = pair[1:] != pair[:-1]
    blocked = _blocking_pairs(trailing, leading, back[is_first], front[is_first], pair[is_first])
    is_open = ~np.isin(pair, blocked)
    more = _blocking_pairs(trailing, leading, back[is_open], front[is_open], pair[is_open])
    return _table_of(np.concatenate([blocked, more]), count)


def _table_of(pairs: Indices, count: int) -> Table:
    table = np.zeros((count, count), dtype=np.bool_)
    table[pairs // max(count, 1), pairs % max(count, 1)] = True
    return table


def _near_along(trailing: Sheet, leading: Sheet) -> tuple[Indices, Indices]:
    """The pairs of facets that lie over each other, the leading one's wood beyond."""
    if not trailing.owner.size or not leading.owner.size:
        none = np.zeros(0, dtype=np.intp)
        return none, none
    back, front = shapely.STRtree(leading.outline).query(trailing.outline)
    is_candidate = leading.farthest[front] > trailing.nearest[back] + PLAY_MM
    return back[is_candidate], front[is_candidate]


def _near_within(ends: Sheet, begins: Sheet, distance: float) -> tuple[Indices, Indices]:
    if not begins.owner.size or not ends.owner.size:
        none = np.zeros(0, dtype=np.intp)
        return none, none
    end, begin = shapely.STRtree(begins.outline).query(ends.outline)
    is_candidate = begins.nearest[begin] < ends.farthest[end] + distance
    is_candidate &= begins.farthest[begin] > ends.nearest[end] - 1.0
    return end[is_candidate], begin[is_candidate]


def _pairs_within(
    ends: Sheet, begins: Sheet, end: Indices, begin: Indices, pair: Indices, distance: float
) -> Indices:
    """Those pairs of which these facets show that wood meets wood within the distance."""
    slack = PLAY_MM + ends.face_slack[end] + begins.face_slack[begin]
    return _pairs_between(
        shapely.intersection(ends.outline[end], begins.outline[begin]),
        begins.plane[begin] - ends.plane[end],
        (-slack, np.full(len(end), distance - PLAY_MM)),
        PLAY_MM + ends.edge_slack[end] + begins.edge_slack[begin],
        pair,
    )


def _box_overlap(first: Any, second: Any) -> Floats:
    a, b = shapely.bounds(first), shapely.bounds(second)
    wide = np.minimum(a[:, 2], b[:, 2]) - np.maximum(a[:, 0], b[:, 0])
    high = np.minimum(a[:, 3], b[:, 3]) - np.maximum(a[:, 1], b[:, 1])
    result: Floats = np.maximum(wide, 0.0) * np.maximum(high, 0.0)
    return result


def _blocking_pairs(
    trailing: Sheet, leading: Sheet, back: Indices, front: Indices, pair: Indices
) -> Indices:
    """Those pairs of parts of which these pairs of facets show that one blocks the other."""
    gap_play = PLAY_MM + leading.face_slack[front] + trailing.face_slack[back]
    return _pairs_between(
        shapely.intersection(trailing.outline[back], leading.outline[front]),
        leading.plane[front] - trailing.plane[back],
        (gap_play, np.full(len(back), np.inf)),
        PLAY_MM + leading.edge_slack[front] + trailing.edge_slack[back],
        pair,
    )


def _pairs_between(
    common: Any, plane: Floats, gap: tuple[Floats, Floats], side_play: Floats, pair: Indices
) -> Indices:
    """Those pairs for which a gap between two planes lies within its limits over some breadth.

    Args:
        common: where the two facets lie over each other.
        plane: the gap there, a u + b v + c.
        gap: the limits.
        side_play: less breadth than twice this is none.
        pair: what each region speaks of.
    """
    low, high = gap
    points, index = shapely.get_coordinates(common, return_index=True)
    gaps = (points * plane[index, :2]).sum(axis=1) + plane[index, 2]
    least = np.full(len(pair), np.inf)
    greatest = np.full(len(pair), -np.inf)
    np.minimum.at(least, index, gaps)
    np.maximum.at(greatest, index, gaps)
    is_over = (greatest > low) & (least < high) & (shapely.area(common) > 0.0)
    for at in np.flatnonzero(is_over & (least < low)):
        common[at] = _where_over(common[at], plane[at], float(low[at]))
    for at in np.flatnonzero(is_over & (greatest > high)):
        common[at] = _where_over(common[at], -plane[at], -float(high[at]))
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
