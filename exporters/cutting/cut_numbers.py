"""The kerfs of a board's drawing and a number in a ring at each."""

from __future__ import annotations

from collections.abc import Sequence

from exporters.cutting.draft import Draft, kerf_of, outline_of
from exporters.cutting.hatching import closed
from exporters.cutting.room import box_at, is_clear
from exporters.sheets.figures import Side, stroke
from exporters.sheets.paper import Box2
from exporters.sheets.pens import LineClass
from exporters.sheets.values import Anchor, Filled, Item, Lettering, Stroke
from exporters.views.values import Arc
from furniture.parts.vectors import Point2
from furniture.shop.cutting.plan import (
    CutDirection,
    NumberedCut,
)
from furniture.shop.cutting.tree import leaves
from furniture.shop.cutting.zones import width_at

NUMBER_RADIUS_MM = 2.6
"""Of the ring round a cut's number [mm on paper]. Own rule: two figures of 2.5 mm fit."""
_TIER_MM = 2 * NUMBER_RADIUS_MM + 1.0


def add_cuts(draft: Draft) -> None:
    """The board's outline, the kerfs, and a number in a ring at each."""
    task = draft.task
    draft.items.append(
        closed([draft.at(x, y) for x, y in outline_of(task.board)], LineClass.VISIBLE)
    )
    for cut in task.plan.cuts:
        box = draft.box(kerf_of(cut, draft.task.board))
        corners = (
            (box.left, box.bottom), (box.right, box.bottom),
            (box.right, box.top), (box.left, box.top),
        )  # fmt: skip
        draft.items.append(Filled(corners=corners, line_class=LineClass.KERF))
    ends: dict[Side, list[Box2]] = {side: [] for side in Side}
    rooms = [draft.box(leaf.piece) for leaf in leaves(task.plan.tree)]
    for cut in task.plan.cuts:
        if not _number_outside(draft, cut, ends) and not _number_inside(draft, cut, rooms):
            _number_led_out(draft, cut, ends)


def _number_outside(draft: Draft, cut: NumberedCut, ends: dict[Side, list[Box2]]) -> bool:
    """Whether the number stands outside the board, at an end of a kerf that runs to its edge."""
    task, box = draft.task, draft.box(kerf_of(cut, draft.task.board))
    board, piece = task.board, cut.workpiece
    x, y = box.centre
    if cut.direction is CutDirection.CROSSCUT:
        if piece.y_end >= width_at(board, cut.position) - 1e-6:
            edge = draft.at(0.0, width_at(board, cut.position))[1]
            if _in_tier(draft, cut, (x, edge), Side.TOP, ends, tiers=2):
                return True
        return piece.y <= 1e-6 and _in_tier(draft, cut, (x, 0.0), Side.BOTTOM, ends, tiers=2)
    if piece.x <= 1e-6:
        return _in_tier(draft, cut, (box.left, y), Side.LEFT, ends, tiers=2)
    if piece.x_end >= board.length - 1e-6:
        return _in_tier(draft, cut, (box.right, y), Side.RIGHT, ends, tiers=2)
    return False


def _in_tier(
    draft: Draft,
    cut: NumberedCut,
    end: Point2,
    side: Side,
    ends: dict[Side, list[Box2]],
    tiers: int,
) -> bool:
    """Whether there was room in one of the tiers outside a side of the board."""
    for tier in range(tiers):
        reach = side.outward * (1.5 + NUMBER_RADIUS_MM + tier * _TIER_MM)
        centre = (end[0], end[1] + reach) if side.is_level else (end[0] + reach, end[1])
        ring = box_at(centre, 2 * NUMBER_RADIUS_MM, 2 * NUMBER_RADIUS_MM)
        back = reach - side.outward * NUMBER_RADIUS_MM
        stop = (end[0], end[1] + back) if side.is_level else (end[0] + back, end[1])
        leader = _span(end, stop)
        if is_clear(ring, ends[side]) and is_clear(leader, ends[side]):
            ends[side] += [ring, leader]
            draft.items.append(stroke(end, stop, LineClass.LEADER))
            _ring(draft, cut.number, centre)
            return True
    return False


def _span(start: Point2, end: Point2) -> Box2:
    return Box2(
        left=min(start[0], end[0]), right=max(start[0], end[0]),
        bottom=min(start[1], end[1]), top=max(start[1], end[1]),
    )  # fmt: skip


def _number_inside(draft: Draft, cut: NumberedCut, rooms: Sequence[Box2]) -> bool:
    """Whether the number stands beside its kerf, inside one of the pieces there."""
    box = draft.box(kerf_of(cut, draft.task.board))
    radius = NUMBER_RADIUS_MM
    gap = radius + 0.6
    shares = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.03, 0.97)
    parts = [draft.box(p.place) for p in draft.task.plan.placements]
    tried: list[tuple[int, int, Point2]] = []
    for order, share in enumerate(shares):
        if cut.direction is CutDirection.CROSSCUT:
            y = box.bottom + share * box.height
            options = [(box.left - gap, y), (box.right + gap, y)]
        else:
            x = box.left + share * box.width
            options = [(x, box.bottom - gap), (x, box.top + gap)]
        for centre in options:
            in_part = any(part.holds(box_at(centre, 0.1, 0.1)) for part in parts)
            tried.append((1 if in_part else 0, order, centre))
    for _, _, centre in sorted(tried):
        ring = box_at(centre, 2 * radius, 2 * radius)
        inside = any(room.grown(0.01).holds(ring.grown(0.2)) for room in rooms)
        if inside and is_clear(ring, [each for each in draft.taken if each != box]):
            draft.occupy(ring)
            draft.items.append(_tick(centre, box))
            _ring(draft, cut.number, centre)
            return True
    return False


def _tick(centre: Point2, kerf: Box2) -> Item:
    """The short line from a number's ring to its kerf."""
    x, y = centre
    near_x = min(max(x, kerf.left), kerf.right)
    near_y = min(max(y, kerf.bottom), kerf.top)
    reach = max(abs(near_x - x), abs(near_y - y))
    share = NUMBER_RADIUS_MM / reach
    start = (x + (near_x - x) * share, y + (near_y - y) * share)
    return stroke(start, (near_x, near_y), LineClass.LEADER)


def _number_led_out(draft: Draft, cut: NumberedCut, ends: dict[Side, list[Box2]]) -> None:
    """The number over or under the board, its leader clear of every text where that can be."""
    box = draft.box(kerf_of(cut, draft.task.board))
    over = draft.at(0.0, draft.task.board.greatest_width)[1]
    for is_last in (False, True):
        for step in range(11):
            share = 0.5 + (step // 2 + step % 2) * (0.09 if step % 2 else -0.09)
            x = box.left + share * box.width
            for side, start, edge in ((Side.TOP, box.top, over), (Side.BOTTOM, box.bottom, 0.0)):
                leader = _span((x, start), (x, edge)).grown(0.2)
                if not is_last and not is_clear(leader, draft.texts):
                    continue
                if _in_tier(draft, cut, (x, edge), side, ends, tiers=2 if not is_last else 8):
                    draft.items.append(stroke((x, start), (x, edge), LineClass.LEADER))
                    draft.taken.append(leader)
                    return


def _ring(draft: Draft, number: int, centre: Point2) -> None:
    height = draft.task.style.text_height_mm
    ring = Arc(centre=centre, radius=NUMBER_RADIUS_MM, start_deg=0.0, end_deg=360.0)
    draft.items.append(Stroke(shape=ring, line_class=LineClass.LEADER))
    draft.items.append(
        Lettering(
            text=str(number),
            at=(centre[0], centre[1] - height / 2),
            height=height,
            anchor=Anchor.CENTRE,
        )
    )
