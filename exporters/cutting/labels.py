"""Names on a board's drawing: parts with their grain, offcuts, zones, and the board's own sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from exporters.cutting.beside import MOST_LED_OUT, call_out
from exporters.cutting.draft import Detail, Draft, box_at, corners_of
from exporters.cutting.ground import CLEAR_MM, Spot
from exporters.cutting.kerfs import kerf_of
from exporters.cutting.steps import offcut_key, part_key, zone_key
from exporters.cutting.words import copies_whole, size
from exporters.sheets.figures import arrowhead
from exporters.sheets.lettering import DESCENT_SHARE, text_width, wrapped
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from furniture.parts.vectors import Point2
from furniture.shop.cutting.plan import Placement, Rectangle
from furniture.shop.cutting.values import Zone, ZoneKind
from furniture.shop.cutting.zones import bounds_of, outline_of
from furniture.units import figure

_STEPS = 12
_SHYNESS = 8.0
"""How many millimetres farther from the middle a text goes to uncover a square millimetre."""
_LEAST_ARROW_MM, _MOST_ARROW_MM = 6.0, 14.0
_CALLOUT_MM = 46.0
_LONG_ZONE_MM = 150.0


def draw_parts(draft: Draft) -> None:
    """The outlines of the parts."""
    for placement in draft.task.plan.placements:
        box = draft.box(placement.place)
        draft.draw_shape(corners_of(box), LineClass.PART)
        for mark in draft.task.outcome.laid(placement).marks_mm:
            x = draft.at(mark, 0.0)[0]
            draft.draw_line(((x, box.bottom), (x, box.top)), LineClass.HIDDEN)


def name_parts(draft: Draft) -> None:
    """Name and grain of every part that they fit inside; the others are left to be named beside.

    Of a common blank each part is named in its stretch, where there is room.
    """
    draft.unnamed = tuple(
        placement
        for placement in draft.task.plan.placements
        if not any(
            _named_inside(draft, name, draft.box(placement.place))
            for name in _names(draft, placement)
        )
    )
    for placement in draft.task.plan.placements:
        laid = draft.task.outcome.laid(placement)
        for stretch, place in laid.places if laid.copy.is_common else ():
            box = draft.box(place)  # of several pieces with its copy's name, where there is room
            if not _name_alone(draft, stretch.instance, box):
                _name_alone(draft, stretch.name, box)


def _name_alone(draft: Draft, name: str, box: Box2) -> bool:
    """Whether the name stands inside, on no zone if it can be, without the grain's arrow."""
    zones = _kept_clear(draft)
    for way in (each for each in _ways(draft, name, box) if not each.arrow_mm):
        place = _place_in(draft, box, *way.size, zones)
        if place is None:
            continue
        if way.is_turned:
            draft.write_turned(name, place)
        else:
            draft.write(way.lines, place)
        return True
    return False


def name_beside(draft: Draft) -> None:
    """The names of parts too small for them, led out of the board, and the grain alone inside.

    Raises:
        NoRoomError: there is no place for one.
    """
    for placement in draft.unnamed:
        box = draft.box(placement.place)
        _add_arrow(draft, box)
        name = _names(draft, placement)[-1]
        ways = [(name,), _broken(draft, name, 22.0)]
        if not call_out(draft, ways, _spread(box)):
            draft.leave_off(f"the name of {name}")


def _names(draft: Draft, placement: Placement) -> list[str]:
    """What a part may be called on the drawing, best first: by name, then by its key."""
    names = [draft.task.outcome.name_of(placement)]
    if draft.task.detail.is_keyed:
        names.append(part_key(draft.task.plan.placements.index(placement)))
    return names


def _named_inside(draft: Draft, name: str, box: Box2) -> bool:
    """Whether the name stands inside, with the grain's arrow under it where both have room.

    A way that stands on no zone comes first, even if it breaks the name into lines.
    """
    zones = _kept_clear(draft)
    tried = [(way, _place_in(draft, box, *way.size, zones)) for way in _ways(draft, name, box)]
    found = [(way, place) for way, place in tried if place is not None]
    if not found:
        return False
    way, place = min(found, key=lambda each: sum(_shared(each[1], zone) for zone in zones) > 0.0)
    if way.is_turned:
        draft.write_turned(name, place)
        _add_arrow(draft, box)
        return True
    middle = place.centre[0]
    wide, high = draft.size_of(way.lines)
    text = Box2(
        left=middle - wide / 2, right=middle + wide / 2, bottom=place.top - high, top=place.top
    )
    draft.write(way.lines, text)
    if way.arrow_mm:
        _arrow(draft, (middle, place.bottom + draft.task.style.arrow_width_mm / 2), way.arrow_mm)
    else:
        _add_arrow(draft, box)
    return True


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """A way to write a name: its lines, what it takes with its arrow [mm], how long that is."""

    lines: tuple[str, ...]
    size: tuple[float, float]
    arrow_mm: float = 0.0
    is_turned: bool = False


def _ways(draft: Draft, name: str, box: Box2) -> list[_Way]:
    """Ways to write a name inside a rectangle, best first."""
    height, widest = draft.height, max(box.width - 2 * CLEAR_MM - 0.1, 1.0)
    broken = [_broken(draft, name, widest), _broken(draft, name, max(0.6 * widest, 1.0))]
    arrow = min(_MOST_ARROW_MM, max(_LEAST_ARROW_MM, 0.5 * box.width))
    half = draft.task.style.arrow_width_mm / 2
    ways = []
    for drop in (2.2, 1.3):
        for lines in dict.fromkeys([(name,), *broken]):
            wide, high = draft.size_of(lines)
            ways.append(
                _Way(lines=lines, size=(max(wide, arrow), high + drop + half), arrow_mm=arrow)
            )
    bare = dict.fromkeys([(name,), *broken])
    ways += [_Way(lines=lines, size=draft.size_of(lines)) for lines in bare]
    turned = (height * (1 + DESCENT_SHARE), text_width(name, height))
    return [*ways, _Way(lines=(name,), size=turned, is_turned=True)]


def _broken(draft: Draft, name: str, width: float) -> tuple[str, ...]:
    """A name in lines that end between words, but not inside the name of a copy."""
    return wrapped(copies_whole(name, draft.task.outcome.job), draft.height, width)


def _place_in(
    draft: Draft, room: Box2, wide: float, high: float, shy_of: Sequence[Box2]
) -> Box2 | None:
    """Where a box of this size stands free in a room, near its middle, shy of zones."""
    inner = room.grown(-CLEAR_MM - 0.05)
    spare_x, spare_y = inner.width - wide, inner.height - high
    if spare_x < -1e-9 or spare_y < -1e-9:
        return None
    steps = np.arange(_STEPS + 1) / _STEPS - 0.5
    dx, dy = (line.ravel() for line in np.meshgrid(spare_x * steps, spare_y * steps, indexing="ij"))
    x, y = inner.centre[0] + dx, inner.centre[1] + dy
    costs = np.abs(dx) + np.abs(dy)
    for other in shy_of:
        over = np.minimum(x + wide / 2, other.right) - np.maximum(x - wide / 2, other.left)
        up = np.minimum(y + high / 2, other.top) - np.maximum(y - high / 2, other.bottom)
        costs += _SHYNESS * np.maximum(over, 0.0) * np.maximum(up, 0.0)
    places = zip(costs.tolist(), x.tolist(), y.tolist(), strict=True)
    spots = [Spot(cost, box_at((u, v), wide, high)) for cost, u, v in places]
    spot = draft.ground.first_of(spots)
    return None if spot is None else spot.box


def _kept_clear(draft: Draft) -> list[Box2]:
    """Rectangles round the zones that texts are shy of: faults, not what parts are placed on."""
    return [
        draft.box(bounds_of(zone.outline))
        for zone in draft.task.board.zones
        if zone.kind not in (ZoneKind.FIGURE, ZoneKind.EVEN_GRAIN)
    ]


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
    zones = _kept_clear(draft)
    for index, offcut in enumerate(usable):
        box = draft.box(offcut.place)
        measures = size(shown, offcut.place.length_mm, offcut.place.width_mm)
        letter = f"{offcut_key(index)}: keep"
        text = f"{letter} {measures}"
        broken = wrapped(text, draft.height, max(box.width - 1.5, 1.0))
        for lines in dict.fromkeys([(text,), (letter, measures), broken]):
            found = _place_in(draft, box, *draft.size_of(lines), zones)
            if found is not None:
                draft.write(lines, found)
                break
        else:
            ways = [(text,), (letter,)] if draft.task.detail.is_keyed else [(text,)]
            if not call_out(draft, ways, _spread(box)):
                draft.leave_off(f"offcut {offcut_key(index)}")


def name_zones(draft: Draft) -> None:
    """What every zone is and where it begins, outside the board, with a leader to it.

    Raises:
        NoRoomError: there is no place for one.
    """
    ordered = sorted(
        enumerate(draft.task.board.zones), key=lambda each: _choice(bounds_of(each[1].outline))
    )
    for number, (index, zone) in enumerate(ordered):
        if number >= MOST_LED_OUT or not call_out(
            draft, _zone_ways(draft, index, zone), _zone_points(draft, zone), has_dot=True
        ):
            draft.leave_off(f"{zone_key(index)} {zone.name}")


def _choice(place: Rectangle) -> tuple[bool, float]:
    """Short zones first, for long ones can be pointed at in many places; else from the left."""
    return (place.length_mm > _LONG_ZONE_MM, place.x_mm)


def _zone_ways(draft: Draft, index: int, zone: Zone) -> list[tuple[str, ...]]:
    """Ways to say what a zone is, best first."""
    if draft.task.detail.is_keyed:
        return [(zone_key(index),)]
    if draft.task.detail is Detail.NAMES:
        return [(zone.name,)]
    title, place = zone_title(zone), zone_start(draft, zone)
    broken = wrapped(title, draft.height, _CALLOUT_MM)
    ways = [(title, place), (*broken, place), (zone.name, place), (zone.name,)]
    return ways[1:] if text_width(title, draft.height) > 1.3 * _CALLOUT_MM else ways


def zone_title(zone: Zone) -> str:
    """The zone's name with the maker's words."""
    return f"{zone.name}: {zone.description}" if zone.description else zone.name


def zone_start(draft: Draft, zone: Zone) -> str:
    """How far the zone begins from the tape end and from the jointed edge."""
    shown = draft.task.outcome.job.shown
    place = bounds_of(zone.outline)
    return f"{figure(place.x_mm, shown)} from end, {figure(place.y_mm, shown)} from edge"


def _zone_points(draft: Draft, zone: Zone) -> list[Point2]:
    """Points of the zone that a leader may end at, on the board, off kerfs where it can [mm]."""
    from shapely.geometry import Point, Polygon

    shape = Polygon(zone.outline).buffer(0).intersection(Polygon(outline_of(draft.task.board)))
    if shape.is_empty:
        shape = Polygon(zone.outline).buffer(0)
    left, bottom, right, top = shape.bounds
    found = []
    for share_y in (0.5, 0.8, 0.2):
        for share_x in (0.5, 0.2, 0.8, 0.05, 0.95):
            point = (left + share_x * (right - left), bottom + share_y * (top - bottom))
            if shape.contains(Point(point)):
                found.append(draft.at(*point))
    inside = shape.representative_point()
    points = [*found, draft.at(inside.x, inside.y)]
    kerfs = [draft.box(kerf_of(cut, draft.task.board)) for cut in draft.task.plan.cuts]
    off_kerfs = [
        point for point in points if not any(box_at(point, 1.8, 1.8).overlaps(k) for k in kerfs)
    ]
    return off_kerfs or points


def _spread(box: Box2) -> list[Point2]:
    """Points inside a rectangle, its middle first [mm]."""
    return [
        (box.left + a * box.width, box.bottom + b * box.height)
        for a in (0.5, 0.25, 0.75)
        for b in (0.5, 0.8, 0.2)
    ]
