"""Names on a board's drawing: parts with their grain, offcuts, zones, and the board's own sides."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.cutting.draft import (
    Draft,
    ZoneWords,
    bounds_of,
    box_at,
    corners_of,
    led_out,
)
from exporters.cutting.ground import CLEAR_MM, Spot
from exporters.cutting.steps import offcut_key
from exporters.cutting.words import size
from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import arrowhead
from exporters.sheets.lettering import DESCENT_SHARE, text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Filled
from furniture.parts.vectors import Point2
from furniture.shop.cutting.values import Zone
from furniture.units import figure

_STEPS = 12
_SHYNESS = 8.0
"""How many millimetres farther from the middle a text goes to uncover a square millimetre."""
_LEAST_ARROW_MM, _MOST_ARROW_MM = 6.0, 14.0
_CALLOUT_MM = 46.0
_TRIANGLE_MM = 2.2
MOST_TARGETS = 7
_APART_MM = 2.5
"""Between callouts side by side, so that they are not read as one [mm on paper]. Own rule."""


def draw_parts(draft: Draft) -> None:
    """The outlines of the parts."""
    for placement in draft.task.plan.placements:
        draft.draw_shape(corners_of(draft.box(placement.place)), LineClass.PART)


def name_parts(draft: Draft) -> None:
    """Name and grain of every part that they fit inside; the others are left to be named beside."""
    draft.unnamed = tuple(
        placement
        for placement in draft.task.plan.placements
        if not _named_inside(
            draft, draft.task.outcome.name_of(placement), draft.box(placement.place)
        )
    )


def name_beside(draft: Draft) -> None:
    """The names of parts too small for them, led out of the board, and the grain alone inside.

    Raises:
        NoRoomError: there is no place for one.
    """
    for placement in draft.unnamed:
        box = draft.box(placement.place)
        _add_arrow(draft, box)
        name = draft.task.outcome.name_of(placement)
        ways = [(name,), wrapped(name, draft.height, 22.0)]
        if not call_out(draft, ways, _spread(box)):
            raise NoRoomError(f"no room for the name of {name}")


def _named_inside(draft: Draft, name: str, box: Box2) -> bool:
    """Whether the name stands inside, with the grain's arrow under it where both have room."""
    height, widest = draft.height, max(box.width - 2 * CLEAR_MM - 0.1, 1.0)
    ways = dict.fromkeys([(name,), wrapped(name, height, widest)])
    zones = [draft.box(bounds_of(zone.outline)) for zone in draft.task.board.zones]
    arrow = min(_MOST_ARROW_MM, max(_LEAST_ARROW_MM, 0.5 * box.width))
    half = draft.task.style.arrow_width_mm / 2
    for drop in (2.2, 1.3, 0.0):
        for lines in ways:
            wide, high = draft.size_of(lines)
            whole = (max(wide, arrow), high + drop + half) if drop else (wide, high)
            found = _place_in(draft, box, *whole, zones)
            if found is None:
                continue
            middle = found.centre[0]
            text = Box2(
                left=middle - wide / 2, right=middle + wide / 2, bottom=found.top - high,
                top=found.top,
            )  # fmt: skip
            draft.write(lines, text)
            if drop:
                _arrow(draft, (middle, found.bottom + half), arrow)
            else:
                _add_arrow(draft, box)
            return True
    found = _place_in(draft, box, height * (1 + DESCENT_SHARE), text_width(name, height), zones)
    if found is None:
        return False
    draft.write_turned(name, found)
    _add_arrow(draft, box)
    return True


def _place_in(
    draft: Draft, room: Box2, wide: float, high: float, shy_of: Sequence[Box2]
) -> Box2 | None:
    """Where a box of this size stands free in a room, near its middle, shy of zones."""
    inner = room.grown(-CLEAR_MM - 0.05)
    spare_x, spare_y = inner.width - wide, inner.height - high
    if spare_x < -1e-9 or spare_y < -1e-9:
        return None
    spots = []
    for column in range(_STEPS + 1):
        for row in range(_STEPS + 1):
            dx = spare_x * (column / _STEPS - 0.5)
            dy = spare_y * (row / _STEPS - 0.5)
            box = box_at((inner.centre[0] + dx, inner.centre[1] + dy), wide, high)
            covered = sum(_shared(box, other) for other in shy_of)
            spots.append(Spot(abs(dx) + abs(dy) + _SHYNESS * covered, box))
    spot = draft.ground.first_of(spots)
    return None if spot is None else spot.box


def _shared(first: Box2, second: Box2) -> float:
    wide = min(first.right, second.right) - max(first.left, second.left)
    high = min(first.top, second.top) - max(first.bottom, second.bottom)
    return max(wide, 0.0) * max(high, 0.0)


def _add_arrow(draft: Draft, room: Box2) -> None:
    """The grain's arrow alone, where there is room for one."""
    long = min(_MOST_ARROW_MM, room.width - 1.4)
    if long < _LEAST_ARROW_MM:
        return
    found = _place_in(draft, room, long, 1.2, ())
    if found is not None:
        _arrow(draft, found.centre, long)


def _arrow(draft: Draft, middle: Point2, long: float) -> None:
    style = draft.task.style
    left, right = (middle[0] - long / 2, middle[1]), (middle[0] + long / 2, middle[1])
    draft.draw_line((left, right), LineClass.GRAIN)
    draft.items += [
        arrowhead(left, (-1.0, 0.0), style, LineClass.GRAIN),
        arrowhead(right, (1.0, 0.0), style, LineClass.GRAIN),
    ]
    half = style.arrow_width_mm / 2
    for tip, way in ((left, 1.0), (right, -1.0)):
        back = tip[0] + way * style.arrow_length_mm
        draft.ground.add_lines([((back, middle[1] - half), (back, middle[1] + half))])


def name_offcuts(draft: Draft) -> None:
    """A letter and a size on every offcut worth keeping; led out where it does not fit.

    Raises:
        NoRoomError: there is no place for one.
    """
    shown = draft.task.outcome.job.shown
    usable = [each for each in draft.task.plan.offcuts if each.is_usable]
    zones = [draft.box(bounds_of(zone.outline)) for zone in draft.task.board.zones]
    for index, offcut in enumerate(usable):
        box = draft.box(offcut.place)
        measures = size(shown, offcut.place.length, offcut.place.width)
        letter = f"{offcut_key(index)}: keep"
        text = f"{letter} {measures}"
        broken = wrapped(text, draft.height, max(box.width - 1.5, 1.0))
        for lines in dict.fromkeys([(text,), (letter, measures), broken]):
            found = _place_in(draft, box, *draft.size_of(lines), zones)
            if found is not None:
                draft.write(lines, found)
                break
        else:
            if not call_out(draft, [(text,)], _spread(box)):
                raise NoRoomError(f"no room for offcut {offcut_key(index)}")


def name_zones(draft: Draft) -> None:
    """What every zone is and where it begins, outside the board, with a leader to it.

    Raises:
        NoRoomError: there is no place for one.
    """
    for zone in sorted(draft.task.board.zones, key=lambda each: min(x for x, _ in each.outline)):
        title, place = zone_title(zone), zone_start(draft, zone)
        broken = wrapped(title, draft.height, _CALLOUT_MM)
        ways = [(title, place), (*broken, place), (zone.name, place), (zone.name,)]
        if draft.task.zone_words is ZoneWords.NAME:
            ways = [(zone.name,)]
        elif text_width(title, draft.height) > 1.3 * _CALLOUT_MM:
            ways = ways[1:]
        if not call_out(draft, ways, _zone_points(draft, zone), has_dot=True):
            raise NoRoomError(f"no room for zone {zone.name}")


def zone_title(zone: Zone) -> str:
    """The zone's name with the maker's words."""
    return f"{zone.name}: {zone.description}" if zone.description else zone.name


def zone_start(draft: Draft, zone: Zone) -> str:
    """How far the zone begins from the tape end and from the jointed edge."""
    shown = draft.task.outcome.job.shown
    place = bounds_of(zone.outline)
    return f"{figure(place.x, shown)} from end, {figure(place.y, shown)} from edge"


def _zone_points(draft: Draft, zone: Zone) -> list[Point2]:
    """Points inside the zone for a leader to end at, those on the board [mm]."""
    from shapely.geometry import Point, Polygon

    from exporters.cutting.outline import outline_of

    shape = Polygon(zone.outline).buffer(0).intersection(Polygon(outline_of(draft.task.board)))
    if shape.is_empty:
        shape = Polygon(zone.outline).buffer(0)
    left, bottom, right, top = shape.bounds
    found = []
    for share_x in (0.5, 0.2, 0.8, 0.05, 0.95):
        for share_y in (0.5, 0.8, 0.2):
            point = (left + share_x * (right - left), bottom + share_y * (top - bottom))
            if shape.contains(Point(point)):
                found.append(draft.at(*point))
    inside = shape.representative_point()
    return [*found, draft.at(inside.x, inside.y)]


def name_widths(draft: Draft) -> None:
    """The widths measured between the ends of a tapering board, at their places."""
    shown = draft.task.outcome.job.shown
    board = draft.task.board
    inner = [each for each in board.stations if 1e-6 < each.at < board.length - 1e-6]
    for station in inner:
        text = f"{figure(station.width, shown)} wide at {figure(station.at, shown)}"
        point = draft.at(station.at, station.width)
        if not call_out(draft, [(text,)], [point]):
            raise NoRoomError("no room for a width")


def name_sides(draft: Draft) -> None:
    """The jointed edge and the end that the tape was hooked on, marked as what all is measured
    from.

    Raises:
        NoRoomError: there is no place for one.
    """
    board = draft.extent()
    wide, high = draft.size_of(("jointed edge",))
    tall = max(high, _TRIANGLE_MM)
    spots = []
    for step in range(80):
        x = board.left + step * board.width / 80
        for lift in (0.0, 0.8):
            box = Box2(
                left=x, right=x + _TRIANGLE_MM + 1.0 + wide, top=-0.75 - lift,
                bottom=-0.75 - lift - tall,
            )  # fmt: skip
            spots.append(Spot(x + lift, box))
    spot = draft.ground.first_of(spots)
    if spot is None:
        if not call_out(draft, [("jointed edge",)], _edge_points(board), has_dot=True):
            raise NoRoomError("no room for the jointed edge")
    else:
        x = spot.box.left + _TRIANGLE_MM / 2
        _triangle(draft, (x, 0.0), (0.0, -1.0))
        text = Box2(
            left=spot.box.left + _TRIANGLE_MM + 1.0, right=spot.box.right, top=spot.box.top,
            bottom=spot.box.top - high,
        )  # fmt: skip
        draft.write(("jointed edge",), text)
    _name_end(draft)


def _name_end(draft: Draft) -> None:
    board = draft.extent()
    name = "tape end"
    wide, high = draft.size_of((name,))
    middle = draft.task.board.stations[0].width * draft.task.scale.factor / 2
    spots = []
    for step in range(-12, 13):
        y = middle + step * 0.05 * board.height
        for reach in (_TRIANGLE_MM + 1.0, _TRIANGLE_MM + 7.0):
            turned = box_at((-reach - high / 2, y), high, wide)
            level = box_at((-reach - wide / 2, y), wide, high)
            inside = turned.bottom >= 0.0 and turned.top <= board.height
            spots.append(Spot(abs(step) + reach + (0.0 if inside else 30.0), turned))
            spots.append(Spot(abs(step) + reach + 15.0, level))
    spot = draft.ground.first_of(spots)
    if spot is None:
        raise NoRoomError("no room for the tape end")
    box = spot.box
    y = min(max(box.centre[1], _TRIANGLE_MM / 2), board.height - _TRIANGLE_MM / 2)
    _triangle(draft, (0.0, y), (-1.0, 0.0))
    if box.height > box.width:
        draft.write_turned(name, box)
    else:
        draft.write((name,), box)


def _edge_points(board: Box2) -> list[Point2]:
    return [(board.left + share * board.width, 0.0) for share in (0.1, 0.3, 0.5, 0.7, 0.9)]


def _triangle(draft: Draft, foot: Point2, way: Point2) -> None:
    """A datum's triangle standing on a side of the board."""
    half = _TRIANGLE_MM / 2
    x, y = foot
    tip = (x + way[0] * _TRIANGLE_MM * 0.85, y + way[1] * _TRIANGLE_MM * 0.85)
    first = (x + way[1] * half, y + way[0] * half)
    second = (x - way[1] * half, y - way[0] * half)
    draft.items.append(Filled(corners=(first, second, tip), line_class=LineClass.SYMBOL))
    draft.ground.add_lines([(first, tip), (second, tip)])


def call_out(
    draft: Draft,
    ways: Sequence[Sequence[str]],
    targets: Sequence[Point2],
    *,
    has_dot: bool = False,
) -> bool:
    """Whether words stand above or below the board, with a leader to one of the targets.

    Args:
        draft: the drawing.
        ways: to break the words, best first.
        targets: where the leader may end [mm].
        has_dot: the leader ends in a dot, for a surface; else at a line.
    """
    spot, lines = _first_place(draft, [tuple(way) for way in ways], list(targets)[:MOST_TARGETS])
    if spot is None or spot.leader is None:
        return False
    draft.write(lines, spot.box)
    draft.draw_leader(spot.leader)
    if has_dot:
        _dot(draft, spot.leader[1])
    return True


def _first_place(
    draft: Draft, ways: Sequence[tuple[str, ...]], targets: Sequence[Point2]
) -> tuple[Spot | None, tuple[str, ...]]:
    """The first place with room: near rows first, leaders that cross no other first."""
    for may_cross in (False, True):
        for lines in dict.fromkeys(ways):
            size_of = draft.size_of(lines)
            spot = led_out(draft, *size_of, targets, may_cross=may_cross, beside=_APART_MM)
            if spot is not None:
                return spot, lines
    return None, ()


def _dot(draft: Draft, at: Point2) -> None:
    box = box_at(at, 0.9, 0.9)
    draft.items.append(Filled(corners=corners_of(box), line_class=LineClass.LEADER))
    draft.ground.add_lines([((box.left, at[1]), (box.right, at[1]))])


def _spread(box: Box2) -> list[Point2]:
    """Points inside a rectangle, its middle first [mm]."""
    return [
        (box.left + a * box.width, box.bottom + b * box.height)
        for a in (0.5, 0.25, 0.75)
        for b in (0.5, 0.8, 0.2)
    ]
