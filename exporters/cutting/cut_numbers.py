"""The kerfs of a board's drawing and a number in a ring at each, in the order they are made."""

from __future__ import annotations

import math
from collections.abc import Sequence

from exporters.cutting.draft import Draft, box_at, led_out
from exporters.cutting.ground import Segment, Spot
from exporters.cutting.kerfs import kerf_of, kerf_shapes
from exporters.sheets.lettering import text_width
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Anchor, Lettering, Stroke
from exporters.views.values import Arc
from furniture.parts.vectors import Point2
from furniture.shop.cutting.plan import CutDirection, NumberedCut
from furniture.shop.cutting.zones import bounds_of, width_at

NUMBER_RADIUS_MM = 2.6
"""Of the ring round a cut's number [mm on paper]. Own rule: two figures of 2.5 mm fit."""
_INSIDE_COST, _IN_PART_COST, _AMBIGUOUS_COST = 3.0, 6.0, 8.0
_LEAD_MM, _APART_MM = 1.3, 1.5
"""From a ring to its own kerf, a line that is seen; and to others, that are not taken for its own
[mm on paper]. Own rule."""


def draw_kerfs(draft: Draft) -> None:
    """The wood that the cuts turn to dust."""
    for cut in draft.task.plan.cuts:
        for corners in kerf_shapes(cut, draft.task.board):
            draft.fill([draft.at(*corner) for corner in corners], LineClass.KERF)


def number_cuts(draft: Draft) -> None:
    """A number in a ring at each kerf: outside where the kerf runs out, else beside it.

    Raises:
        NoRoomError: there is no place for one.
    """
    parts = [draft.box(each.place) for each in draft.task.plan.placements]
    zones = [draft.box(bounds_of(zone.outline)) for zone in draft.task.board.zones]
    for cut in draft.task.plan.cuts:
        radius = _radius(draft, cut.number)
        beside = _inside(draft, cut, radius, parts)
        clear = [each for each in beside if not any(zone.overlaps(each.box) for zone in zones)]
        spot = draft.ground.first_of([*_outside(draft, cut, radius), *clear])
        spot = spot or _led_out(draft, cut, radius, may_cross=False)
        spot = spot or draft.ground.first_of(beside)
        spot = spot or _led_out(draft, cut, radius, may_cross=True)
        if spot is None:
            draft.leave_off(f"cut {cut.number}")
            continue
        if spot.leader is not None:
            draft.draw_leader(spot.leader)
        _ring(draft, cut.number, spot.box.centre, radius)


def _led_out(draft: Draft, cut: NumberedCut, radius: float, *, may_cross: bool) -> Spot | None:
    targets = _along(draft.box(kerf_of(cut, draft.task.board)))[:5]
    return led_out(draft, 2 * radius, 2 * radius, targets, ring=radius, may_cross=may_cross)


def _radius(draft: Draft, number: int) -> float:
    wide = text_width(str(number), draft.height)
    return max(NUMBER_RADIUS_MM, math.hypot(wide, draft.height) / 2 + 0.15)


def _along(kerf: Box2) -> list[Point2]:
    """Points along the middle of a kerf, its middle first [mm]."""
    shares = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
    x, y = kerf.centre
    if kerf.width >= kerf.height:
        return [(kerf.left + share * kerf.width, y) for share in shares]
    return [(x, kerf.bottom + share * kerf.height) for share in shares]


def _outside(draft: Draft, cut: NumberedCut, radius: float) -> list[Spot]:
    """Places outside the board in line with a kerf that runs to its edge."""
    board, piece = draft.task.board, cut.workpiece
    box = draft.box(kerf_of(cut, board))
    x, y = box.centre
    ends: list[tuple[Point2, Point2]] = []
    if cut.direction is CutDirection.CROSSCUT:
        if piece.y_end_mm >= width_at(board, cut.position_mm) - 1e-6:
            ends.append(((x, draft.at(0.0, width_at(board, cut.position_mm))[1]), (0.0, 1.0)))
        if piece.y_mm <= 1e-6:
            ends.append(((x, 0.0), (0.0, -1.0)))
    else:
        if piece.x_mm <= 1e-6:
            ends.append(((box.left, y), (-1.0, 0.0)))
        if piece.x_end_mm >= board.length_mm - 1e-6:
            ends.append(((box.right, y), (1.0, 0.0)))
    spots: list[Spot] = []
    for (ex, ey), (ox, oy) in ends:
        for tier in range(3):
            reach = 1.5 + radius + tier * (2 * radius + 1.1)
            for lean in (0.0, -3.0, 3.0, -6.0, 6.0):
                centre = (ex + ox * reach + abs(oy) * lean, ey + oy * reach + abs(ox) * lean)
                ring = box_at(centre, 2 * radius, 2 * radius)
                cost = 2.0 * tier + 0.4 * abs(lean) + (0.5 if oy < 0 else 0.0)
                spots.append(Spot(cost, ring, _to_ring((ex, ey), centre, radius)))
    return spots


def _inside(draft: Draft, cut: NumberedCut, radius: float, parts: Sequence[Box2]) -> list[Spot]:
    """Places beside a kerf, inside the board."""
    box = draft.box(kerf_of(cut, draft.task.board))
    half = min(box.width, box.height) / 2
    others = [
        draft.box(kerf_of(other, draft.task.board))
        for other in draft.task.plan.cuts
        if other is not cut
    ]
    spots: list[Spot] = []
    for index, (x, y) in enumerate(_along(box)):
        for gap in (half + radius + _LEAD_MM, half + radius + 3.0):
            for way in (-1.0, 1.0):
                level = cut.direction is CutDirection.CROSSCUT
                centre = (x + way * gap, y) if level else (x, y + way * gap)
                ring = box_at(centre, 2 * radius, 2 * radius)
                in_part = any(part.overlaps(ring) for part in parts)
                cost = (_IN_PART_COST if in_part else _INSIDE_COST) + 0.3 * index + 0.2 * gap
                near = ring.grown(_APART_MM)
                cost += _AMBIGUOUS_COST if any(other.overlaps(near) for other in others) else 0.0
                edge = (x, y)
                spots.append(Spot(cost, ring, _to_ring(edge, centre, radius)))
    return spots


def _to_ring(start: Point2, centre: Point2, radius: float) -> Segment:
    """The line from a point to the ring's rim [mm]."""
    run = (centre[0] - start[0], centre[1] - start[1])
    share = 1.0 - radius / math.hypot(*run)
    return (start, (start[0] + run[0] * share, start[1] + run[1] * share))


def _ring(draft: Draft, number: int, centre: Point2, radius: float) -> None:
    height = draft.height
    ring = Arc(centre=centre, radius=radius, start_deg=0.0, end_deg=360.0)
    draft.items.append(Stroke(shape=ring, line_class=LineClass.LEADER))
    draft.items.append(
        Lettering(
            text=str(number), at=(centre[0], centre[1] - height / 2), height=height,
            anchor=Anchor.CENTRE,
        )
    )  # fmt: skip
    draft.ground.add_text(box_at(centre, 2 * radius, 2 * radius))
