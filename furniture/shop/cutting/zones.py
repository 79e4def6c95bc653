"""Where on a board a part may not lie: zones its faces do not tolerate, and wood that is not there.

Everything is a list of obstacles, polygons that a part may touch but not overlap. A saw cut may
run through one.
"""

from __future__ import annotations

import itertools
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from functools import cache, lru_cache

from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.values import (
    KEPT_OFF_KINDS,
    WELCOME_KINDS,
    Board,
    BoardEnd,
    CutPart,
    Saw,
    Station,
    Zone,
    ZoneShows,
)

TOUCH = 1e-6
"""Lengths closer than this are the same [mm]. Own rule: far below a saw's setting."""

Outline = tuple[tuple[float, float], ...]


def width_at(board: Board, x: float) -> float:
    """The board's width at x [mm] from its end: straight lines between stations, level outside."""
    return _width_at(_in_order(board.stations), x)


def _width_at(stations: Sequence[Station], x: float) -> float:
    after = bisect_left(stations, x, key=lambda station: station.at_mm)
    if after == 0:
        return stations[0].width_mm
    if after == len(stations):
        return stations[-1].width_mm
    left, right = stations[after - 1], stations[after]
    if right.at_mm - left.at_mm <= TOUCH:
        return min(left.width_mm, right.width_mm)
    share = (x - left.at_mm) / (right.at_mm - left.at_mm)
    return left.width_mm + share * (right.width_mm - left.width_mm)


def width_kept(board: Board, frame: Rectangle, length: float) -> float:
    """The greatest width that the board keeps over a length within the frame [mm]; 0 if none is."""
    if length > frame.length_mm + TOUCH:
        return 0.0
    return _width_kept(_in_order(board.stations), frame, length)


@lru_cache(maxsize=4096)
def _width_kept(stations: tuple[Station, ...], frame: Rectangle, length: float) -> float:
    """Width runs straight between stations, so over a stretch it is least at an end or a station.

    It is greatest where the stretch begins or ends at a station, or where both ends are as wide.
    """
    last = max(frame.x_mm, frame.x_end_mm - length)
    starts = {frame.x_mm, last, *(s.at_mm for s in stations), *(s.at_mm - length for s in stations)}
    ordered = sorted(x for x in starts if frame.x_mm <= x <= last)
    for before, after in itertools.pairwise(ordered):
        gap = _width_at(stations, before + length) - _width_at(stations, before)
        turns = gap - _width_at(stations, after + length) + _width_at(stations, after)
        if turns > TOUCH and 0.0 < gap < turns:
            starts.add(before + (after - before) * gap / turns)
    kept = (
        min(
            _width_at(stations, x),
            _width_at(stations, x + length),
            *(s.width_mm for s in stations if x <= s.at_mm <= x + length),
        )
        for x in starts
        if frame.x_mm <= x <= last
    )
    return max(kept, default=0.0)


@lru_cache(maxsize=64)
def _in_order(stations: tuple[Station, ...]) -> tuple[Station, ...]:
    return tuple(sorted(stations, key=lambda station: station.at_mm))


def outline_of(board: Board) -> Outline:
    """The board's corners in order, from its datum corner [mm]."""
    places = sorted({0.0, board.length_mm, *(station.at_mm for station in board.stations)})
    upper = [(x, width_at(board, x)) for x in reversed(places)]
    return ((0.0, 0.0), (board.length_mm, 0.0), *upper)


def area_of_board(board: Board) -> float:
    """Area of the face between the straight edge and the measured widths [mm^2]."""
    return sum(
        (right - left) * (width_at(board, left) + width_at(board, right)) / 2
        for left, right in _stretches(board)
    )


def _stretches(board: Board) -> Iterable[tuple[float, float]]:
    """From where to where along the board its far edge runs straight [mm]."""
    inside = (s.at_mm for s in board.stations if 0 < s.at_mm < board.length_mm)
    return itertools.pairwise(sorted({0.0, board.length_mm, *inside}))


def missing_wood(board: Board, edge_trim: float) -> tuple[Outline, ...]:
    """Outlines of what lies inside the board's length and greatest width but is no sound wood.

    edge_trim [mm] is taken off the far edge, parallel to it.
    """
    top = board.greatest_width_mm
    outlines: list[Outline] = []
    for left, right in _stretches(board):
        low_left = width_at(board, left) - edge_trim
        low_right = width_at(board, right) - edge_trim
        if low_left >= top - TOUCH and low_right >= top - TOUCH:
            continue
        outlines.append(((left, low_left), (right, low_right), (right, top), (left, top)))
    return tuple(outlines)


def end_trim_of(board: Board, end: BoardEnd, saw: Saw) -> float:
    """What is trimmed off an end before anything is measured from it [mm]."""
    return 0.0 if end in board.sawn_ends else saw.end_trim_mm


def usable_frame(board: Board, saw: Saw) -> Rectangle:
    """What is left of the board's length and greatest width after both ends and edges [mm]."""
    start, far = (end_trim_of(board, end, saw) for end in BoardEnd)
    return Rectangle(
        x_mm=start,
        y_mm=saw.edge_trim_mm,
        length_mm=board.length_mm - start - far,
        width_mm=board.greatest_width_mm - 2 * saw.edge_trim_mm,
    )


def is_tolerated(zone: Zone, part: CutPart, *, flipped: bool) -> bool:
    """Whether the part may hold the zone, its show face on the board's upper face or flipped."""
    if zone.kind in WELCOME_KINDS:
        return True
    on_show = zone.shows is ZoneShows.BOTH or (zone.shows is ZoneShows.LOWER) == flipped
    on_hidden = zone.shows is ZoneShows.BOTH or (zone.shows is ZoneShows.UPPER) == flipped
    if on_show and zone.kind not in part.show_face_tolerates:
        return False
    return not (on_hidden and zone.kind not in part.hidden_face_tolerates)


def obstacles_for(board: Board, part: CutPart, saw: Saw, *, flipped: bool) -> tuple[Outline, ...]:
    """Outlines that the part may not overlap on this board."""
    barred = tuple(
        kept_off(z.outline, saw.off_faults_mm) if z.kind in KEPT_OFF_KINDS else z.outline
        for z in board.zones
        if not is_tolerated(z, part, flipped=flipped)
    )
    return missing_wood(board, saw.edge_trim_mm) + barred


@cache
def kept_off(outline: Outline, margin: float) -> Outline:
    """An outline with a margin [mm] all round it, its corners kept sharp."""
    if margin <= 0:
        return outline
    box = bounds_of(outline)
    if is_square(outline):
        x, y, x_end, y_end = (
            box.x_mm - margin,
            box.y_mm - margin,
            box.x_end_mm + margin,
            box.y_end_mm + margin,
        )
        return ((x, y), (x_end, y), (x_end, y_end), (x, y_end))
    from shapely.geometry import Polygon

    grown = Polygon(outline).buffer(margin, join_style="mitre")
    return tuple((float(x), float(y)) for x, y in grown.exterior.coords[:-1])


def clipped_to_band(outline: Sequence[tuple[float, float]], low: float, high: float) -> Outline:
    """The outline cut off at y = low and y = high [mm]."""
    kept = _half_plane(outline, 1, low, above=True)
    return tuple(_half_plane(kept, 1, high, above=False))


def clipped_to_rectangle(outline: Sequence[tuple[float, float]], place: Rectangle) -> Outline:
    """The part of the outline inside the rectangle."""
    kept = _half_plane(
        clipped_to_band(outline, place.y_mm, place.y_end_mm), 0, place.x_mm, above=True
    )
    return tuple(_half_plane(kept, 0, place.x_end_mm, above=False))


def _half_plane(
    outline: Sequence[tuple[float, float]], axis: int, limit: float, *, above: bool
) -> list[tuple[float, float]]:
    sign = 1.0 if above else -1.0
    kept: list[tuple[float, float]] = []
    for index, end in enumerate(outline):
        start = outline[index - 1]
        start_in = sign * (start[axis] - limit) >= 0
        end_in = sign * (end[axis] - limit) >= 0
        if start_in != end_in:
            share = (limit - start[axis]) / (end[axis] - start[axis])
            crossing = [s + share * (e - s) for s, e in zip(start, end, strict=True)]
            crossing[axis] = limit
            kept.append((crossing[0], crossing[1]))
        if end_in:
            kept.append(end)
    return kept


def area_of_outline(outline: Sequence[tuple[float, float]]) -> float:
    """Area inside a closed outline, whichever way round it runs [mm^2]."""
    doubled = sum(
        outline[i - 1][0] * outline[i][1] - outline[i][0] * outline[i - 1][1]
        for i in range(len(outline))
    )
    return abs(doubled) / 2


def is_square(outline: Outline) -> bool:
    """Whether the outline is its own smallest rectangle."""
    return abs(area_of_outline(outline) - bounds_of(outline).area_mm2) <= TOUCH


def overlap_area(outline: Sequence[tuple[float, float]], place: Rectangle) -> float:
    """Area of the rectangle that the outline covers [mm^2]."""
    return area_of_outline(clipped_to_rectangle(outline, place))


def bounds_of(outline: Iterable[tuple[float, float]]) -> Rectangle:
    """The smallest rectangle around the outline."""
    corners = list(outline)
    x = min(corner[0] for corner in corners)
    y = min(corner[1] for corner in corners)
    return Rectangle(
        x_mm=x,
        y_mm=y,
        length_mm=max(corner[0] for corner in corners) - x,
        width_mm=max(corner[1] for corner in corners) - y,
    )


def crosses_itself(outline: Sequence[tuple[float, float]]) -> bool:
    """Whether two edges of the outline that are not neighbours cross."""
    count = len(outline)
    edges = [(outline[i - 1], outline[i]) for i in range(count)]
    for first in range(count):
        for second in range(first + 2, count):
            if first == 0 and second == count - 1:
                continue
            if _edges_cross(edges[first], edges[second]):
                return True
    return False


def _edges_cross(
    first: tuple[tuple[float, float], tuple[float, float]],
    second: tuple[tuple[float, float], tuple[float, float]],
) -> bool:
    def side(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    (a, b), (c, d) = first, second
    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def is_within(place: Rectangle, frame: Rectangle, slack: float = TOUCH) -> bool:
    """Whether the place lies inside the frame, or no more than the slack [mm] outside."""
    return (
        place.x_mm >= frame.x_mm - slack
        and place.y_mm >= frame.y_mm - slack
        and place.x_end_mm <= frame.x_end_mm + slack
        and place.y_end_mm <= frame.y_end_mm + slack
    )


def are_same(first: Rectangle, second: Rectangle, slack: float = TOUCH) -> bool:
    """Whether two places agree to within the slack [mm]."""
    return is_within(first, second, slack) and is_within(second, first, slack)


def are_nearer(first: Rectangle, second: Rectangle, kerf: float) -> bool:
    """Whether less than a kerf [mm] lies between two places."""
    return (
        first.x_mm < second.x_end_mm + kerf - TOUCH
        and second.x_mm < first.x_end_mm + kerf - TOUCH
        and first.y_mm < second.y_end_mm + kerf - TOUCH
        and second.y_mm < first.y_end_mm + kerf - TOUCH
    )
