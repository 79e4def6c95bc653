"""Part numbers in circles, each with a leader to a spot of its part that can be seen."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from shapely.geometry import MultiPoint, Point
from shapely.ops import unary_union

from exporters.sheets.callouts import NoRoomError
from exporters.sheets.figures import stroke
from exporters.sheets.lettering import text_width
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.space import Space, crosses_box
from exporters.sheets.values import Anchor, Item, Lettering, Stroke
from exporters.views.values import Arc
from furniture.parts.part import Placed
from furniture.parts.placement import Box, box_of
from furniture.parts.vectors import Point2, Vector

_RADIUS_MM = 3.6
_BESIDE_MM = 1.2
_TRIED_PLACES = 600
_GRID = (0.46, 0.56, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.04, 0.96)
"""Where a spot is tried across a face, as shares; the middle is left to bores. Own rule."""


def seen_spot(placed: Sequence[Placed], index: int, towards_eye: Vector) -> Vector | None:
    """A point of a part's outside that no other part's box hides; none when all are hidden.

    Args:
        placed: all parts of the view.
        index: of the part.
        towards_eye: unit vector from the piece to the eye.
    """
    boxes = [box_of(each.part.blank, each.placement) for each in placed]
    low, high = boxes[index]
    others = [box for other, box in enumerate(boxes) if other != index]
    faces = sorted(range(3), key=lambda axis: -_area(low, high, axis) * abs(towards_eye[axis]))
    for axis in faces:
        if abs(towards_eye[axis]) < 1e-6:
            continue
        level = high[axis] if towards_eye[axis] > 0 else low[axis]
        first, second = (other for other in range(3) if other != axis)
        for u in _GRID:
            for v in _GRID:
                point = [0.0, 0.0, 0.0]
                point[axis] = level
                point[first] = low[first] + (high[first] - low[first]) * u
                point[second] = low[second] + (high[second] - low[second]) * v
                spot: Vector = (point[0], point[1], point[2])
                if not any(_hides(box, spot, towards_eye) for box in others):
                    return spot
    return None


def is_hidden(placed: Sequence[Placed], spot: Vector, towards_eye: Vector) -> bool:
    """Whether a part's box stands between a point and the eye.

    Args:
        placed: all parts of the view.
        spot: outside them, or at the face of one [mm].
        towards_eye: unit vector from the piece to the eye.
    """
    boxes = (box_of(each.part.blank, each.placement) for each in placed)
    return any(_hides(box, spot, towards_eye) for box in boxes)


def outline_of(placed: Sequence[Placed], to_paper: Callable[[Vector], Point2]) -> Any:
    """The region of paper that the parts' boxes take, each by the hull of its corners.

    Args:
        placed: the parts.
        to_paper: puts a point of the piece on paper.
    """
    hulls = []
    for each in placed:
        size = each.part.blank.size
        corners = [
            to_paper(each.placement.to_piece((x * size[0], y * size[1], z * size[2])))
            for x in (0.0, 1.0)
            for y in (0.0, 1.0)
            for z in (0.0, 1.0)
        ]
        hulls.append(MultiPoint(corners).convex_hull)
    return unary_union(hulls)


def _area(low: Vector, high: Vector, axis: int) -> float:
    sides = [high[other] - low[other] for other in range(3) if other != axis]
    return sides[0] * sides[1]


def _hides(box: Box, spot: Vector, towards_eye: Vector) -> bool:
    """Whether the ray from the spot to the eye runs through the box (slab test)."""
    near, far = 1e-6, math.inf
    for axis in range(3):
        low, high = box[0][axis] - 1e-6, box[1][axis] + 1e-6
        if abs(towards_eye[axis]) < 1e-9:
            if not low < spot[axis] < high:
                return False
            continue
        a = (low - spot[axis]) / towards_eye[axis]
        b = (high - spot[axis]) / towards_eye[axis]
        near, far = max(near, min(a, b)), min(far, max(a, b))
    return near < far


def place_balloon(
    number: int,
    quantity: int,
    target: Point2,
    space: Space,
    style: SheetStyle,
    keep_out: Box2 | None,
    drawn_over: Any,
    leader: LineClass,
) -> list[Item]:
    """The circle, its number, its quantity and its leader, already noted in the space.

    Args:
        number: of the part in the parts list.
        quantity: how many the piece has; more than one is said beside the circle.
        target: where the leader ends with a dot [mm].
        space: of the sheet.
        style: pens and heights.
        keep_out: where no balloon may stand, if anywhere [mm].
        drawn_over: the region of the parts, where a balloon stands only for want of a better place.
        leader: how its leader is drawn.

    Raises:
        NoRoomError: there is no free place.
    """
    size = 2 * _RADIUS_MM
    beside = _beside(quantity, style)
    places = space.free_places(size + beside, size, style.text_clearance_mm)
    centres = places + _RADIUS_MM
    reach = ((centres - target) ** 2).sum(axis=1) ** 0.5 if len(centres) else centres
    best: tuple[float, Point2] | None = None
    for index in reach.argsort(kind="stable")[:_TRIED_PLACES] if len(centres) else ():
        centre = (float(centres[index, 0]), float(centres[index, 1]))
        away = float(reach[index])
        if best is not None and away >= best[0]:
            break
        box = Box2(left=centre[0], bottom=centre[1], right=centre[0], top=centre[1])
        said = replace(box.grown(_RADIUS_MM), right=centre[0] + _RADIUS_MM + beside)
        if away < 9.0 or (keep_out is not None and said.overlaps(keep_out)):
            continue
        start = _towards(centre, target, _RADIUS_MM)
        if space.crosses_text(start, target, 0.6):
            continue
        if crosses_box(start, target, box.grown(_RADIUS_MM * 0.7)):
            continue
        if beside and crosses_box(start, target, replace(said, left=centre[0] + _RADIUS_MM)):
            continue
        thin, drawn = space.lines_crossed(start, target)
        cost = away + 12.0 * thin + 3.0 * drawn
        if drawn_over.distance(Point(centre)) < _RADIUS_MM:
            cost += 30.0
        if best is None or cost < best[0]:
            best = (cost, centre)
    if best is None:
        raise NoRoomError(f"no room for balloon {number}")
    items = _balloon(number, quantity, best[1], target, style, leader)
    space.add(items)
    return items


def _towards(start: Point2, end: Point2, step: float) -> Point2:
    size = math.dist(start, end)
    share = step / size
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def _beside(quantity: int, style: SheetStyle) -> float:
    """Room beside the circle for the quantity [mm]."""
    if quantity < 2:
        return 0.0
    return _BESIDE_MM + text_width(_times(quantity), style.text_height_mm)


def _times(quantity: int) -> str:
    return f"x {quantity}"


def _balloon(
    number: int,
    quantity: int,
    centre: Point2,
    target: Point2,
    style: SheetStyle,
    leader: LineClass,
) -> list[Item]:
    height = style.heading_height_mm if number < 10 else style.text_height_mm
    circle = Arc(centre=centre, radius=_RADIUS_MM, start_deg=0.0, end_deg=360.0)
    dot_at = Arc(centre=target, radius=0.5, start_deg=0.0, end_deg=360.0)
    said = [
        Lettering(
            text=_times(quantity),
            at=(centre[0] + _RADIUS_MM + _BESIDE_MM, centre[1] - style.text_height_mm / 2),
            height=style.text_height_mm,
        )
    ]
    return [
        *(said if quantity > 1 else ()),
        Stroke(shape=circle, line_class=LineClass.SYMBOL),
        Lettering(
            text=str(number),
            at=(centre[0], centre[1] - height / 2),
            height=height,
            anchor=Anchor.CENTRE,
        ),
        stroke(_towards(centre, target, _RADIUS_MM), target, leader),
        Stroke(shape=dot_at, line_class=LineClass.LEADER),
    ]
