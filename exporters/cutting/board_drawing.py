"""One board with its parts, zones, kerfs and numbered cuts, drawn to scale on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from exporters.cutting.hatching import closed, hatched
from exporters.cutting.room import box_at, is_clear, place_in
from exporters.cutting.words import size
from exporters.sheets.figures import Measured, Side, arrowhead, linear, stroke
from exporters.sheets.fractions_set import set_figure, set_overhang, set_width
from exporters.sheets.geometry import items_box
from exporters.sheets.lettering import DESCENT_SHARE, text_width, wrapped
from exporters.sheets.paper import Box2, Scale
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Filled, Item, Lettering, Stroke
from exporters.views.values import Arc
from furniture.parts.vectors import Point2
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import (
    BoardPlan,
    CutDirection,
    NumberedCut,
    Placement,
    Rectangle,
)
from furniture.shop.cutting.tree import leaves
from furniture.shop.cutting.values import Board
from furniture.shop.cutting.zones import width_at
from furniture.units import figure

NUMBER_RADIUS_MM = 2.6
"""Of the ring round a cut's number [mm on paper]. Own rule: two figures of 2.5 mm fit."""
_TIER_MM = 2 * NUMBER_RADIUS_MM + 1.0
_LINE_SHARE = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardTask:
    """What is drawn: a board, its plan, and how."""

    outcome: CuttingOutcome
    board: Board
    plan: BoardPlan
    scale: Scale
    style: SheetStyle


@dataclass(slots=True)
class _Draft:
    """A drawing in the making: the board's datum corner lies at 0, 0 on paper."""

    task: BoardTask
    items: list[Item] = field(default_factory=list)
    taken: list[Box2] = field(default_factory=list)
    texts: list[Box2] = field(default_factory=list)

    def at(self, x: float, y: float) -> Point2:
        """A point of the board on paper [mm]."""
        factor = self.task.scale.factor
        return (x * factor, y * factor)

    def box(self, place: Rectangle) -> Box2:
        """A rectangle of the board on paper [mm]."""
        left, bottom = self.at(place.x, place.y)
        right, top = self.at(place.x_end, place.y_end)
        return Box2(left=left, bottom=bottom, right=right, top=top)

    def occupy(self, box: Box2) -> None:
        """Note where a text stands."""
        self.taken.append(box)
        self.texts.append(box)


def board_drawing(task: BoardTask) -> tuple[Item, ...]:
    """The board's drawing, its datum corner at 0, 0: everything but tables and legend [mm].

    Args:
        task: what to draw.
    """
    draft = _Draft(task)
    for cut in task.plan.cuts:
        draft.taken.append(draft.box(kerf_of(cut, task.board)))
    _cut_numbers(draft)
    for key, placement in enumerate(task.plan.placements, start=1):
        _part(draft, key, placement)
    _offcuts(draft)
    _outside_figures(draft)
    zones: list[Item] = []
    clear = [box.grown(CLEAR_OF_HATCH_MM) for box in draft.texts]
    for zone in task.board.zones:
        corners = [draft.at(x, y) for x, y in zone.outline]
        zones += hatched(corners, zone.kind, clear)
        zones += _broken_outline(corners, clear)
    return (*zones, *draft.items)


CLEAR_OF_HATCH_MM = 0.4


def kerf_of(cut: NumberedCut, board: Board) -> Rectangle:
    """The wood that a cut turns to dust, no further than the piece in hand and the board [mm].

    Args:
        cut: one pass of the saw.
        board: that it is made in.
    """
    piece = cut.workpiece
    if cut.direction is CutDirection.CROSSCUT:
        start = max(cut.position, piece.x)
        end = min(cut.position + cut.kerf, piece.x_end)
        top = min(piece.y_end, max(width_at(board, start), width_at(board, end)))
        return Rectangle(x=start, y=piece.y, length=end - start, width=max(top - piece.y, 0.0))
    start = max(cut.position, piece.y)
    end = min(cut.position + cut.kerf, piece.y_end)
    return Rectangle(x=piece.x, y=start, length=piece.length, width=end - start)


def outline_of(board: Board) -> tuple[Point2, ...]:
    """The board's corners in order, from its datum corner [mm]."""
    places = sorted({0.0, board.length, *(station.at for station in board.stations)})
    upper = [(x, width_at(board, x)) for x in reversed(places)]
    return ((0.0, 0.0), (board.length, 0.0), *upper)


def _broken_outline(corners: Sequence[Point2], clear: Sequence[Box2]) -> list[Item]:
    """The outline of a zone, left out where text stands."""
    from shapely.geometry import LineString, box

    line = LineString([*corners, corners[0]])
    for each in clear:
        line = line.difference(box(each.left, each.bottom, each.right, each.top))
    lines = list(line.geoms) if hasattr(line, "geoms") else [line]
    items: list[Item] = []
    for piece in lines:
        points = [(float(x), float(y)) for x, y in piece.coords]
        items += [stroke(a, b, LineClass.ZONE) for a, b in pairwise(points)]
    return items


def _cut_numbers(draft: _Draft) -> None:
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


def _number_outside(draft: _Draft, cut: NumberedCut, ends: dict[Side, list[Box2]]) -> bool:
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
    draft: _Draft,
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


def _number_inside(draft: _Draft, cut: NumberedCut, rooms: Sequence[Box2]) -> bool:
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


def _number_led_out(draft: _Draft, cut: NumberedCut, ends: dict[Side, list[Box2]]) -> None:
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


def _ring(draft: _Draft, number: int, centre: Point2) -> None:
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


def _part(draft: _Draft, key: int, placement: Placement) -> None:
    """The part's outline, its key and name, and which way its grain runs."""
    task = draft.task
    box = draft.box(placement.place)
    corners = [
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)
    ]  # fmt: skip
    draft.items.append(closed(corners, LineClass.PART))
    name = f"{key} {task.outcome.name_of(placement)}"
    height = task.style.text_height_mm
    shy_of = _zone_boxes(draft)
    widest = max(box.width - 2.0, 1.0)
    for lines in (*_ways(name, height, widest), (str(key),)):
        for arrow in (True, False):
            wide = max(text_width(line, height) for line in lines)
            high = height * (1 + (len(lines) - 1) * _LINE_SHARE + DESCENT_SHARE)
            grain = min(14.0, max(7.0, 0.5 * box.width)) if arrow else 0.0
            need = (max(wide, grain), high + (3.0 if arrow else 0.0))
            found = place_in(box, *need, draft.taken, shy_of)
            if found is not None:
                _part_label(draft, lines, found, grain)
                return
    _turned_label(draft, key, name, box)


def _zone_boxes(draft: _Draft) -> list[Box2]:
    return [draft.box(_bounds(zone.outline)) for zone in draft.task.board.zones]


def _bounds(outline: Sequence[Point2]) -> Rectangle:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return Rectangle(
        x=min(xs), y=min(ys), length=max(xs) - min(xs), width=max(ys) - min(ys)
    )


def _ways(name: str, height: float, widest: float) -> list[tuple[str, ...]]:
    """The name in one line, then broken into narrower ones, those that fit the width."""
    ways = [(name,), wrapped(name, height, widest)]
    return [
        lines
        for lines in dict.fromkeys(ways)
        if lines and all(text_width(line, height) <= widest for line in lines)
    ]


def _part_label(draft: _Draft, lines: tuple[str, ...], box: Box2, grain: float) -> None:
    style = draft.task.style
    height = style.text_height_mm
    draft.occupy(box)
    x = box.centre[0]
    for index, line in enumerate(lines):
        y = box.top - height - index * height * _LINE_SHARE
        draft.items.append(Lettering(text=line, at=(x, y), height=height, anchor=Anchor.CENTRE))
    if grain:
        y = box.bottom + style.arrow_width_mm
        left, right = (x - grain / 2, y), (x + grain / 2, y)
        draft.items += [
            stroke(left, right, LineClass.GRAIN),
            arrowhead(left, (-1.0, 0.0), style, LineClass.GRAIN),
            arrowhead(right, (1.0, 0.0), style, LineClass.GRAIN),
        ]


def _turned_label(draft: _Draft, key: int, name: str, box: Box2) -> None:
    """The name or the key read from the right, where a part is too short for it; else outside."""
    height = draft.task.style.text_height_mm
    for text in (name, str(key)):
        wide = text_width(text, height)
        found = place_in(box, height * (1 + DESCENT_SHARE), wide, draft.taken)
        if found is None:
            continue
        draft.occupy(found)
        at = (found.left + height, found.centre[1])
        draft.items.append(
            Lettering(text=text, at=at, height=height, anchor=Anchor.CENTRE, is_turned=True)
        )
        return
    wide = text_width(str(key), height)
    for reach in range(40):  # under the board, with a leader
        centre = (box.centre[0] + 0.8 * reach, -2.5 - height)
        label = box_at(centre, wide, height)
        if is_clear(label, draft.taken):
            draft.occupy(label)
            start = (centre[0], label.top + 0.6)
            draft.items.append(stroke(start, (box.centre[0], box.bottom), LineClass.LEADER))
            draft.items.append(
                Lettering(
                    text=str(key), at=(centre[0], label.bottom), height=height,
                    anchor=Anchor.CENTRE,
                )
            )  # fmt: skip
            return


def offcut_key(index: int) -> str:
    """The letter of an offcut worth keeping: a, b, c ..."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    return letters[index] if index < len(letters) else f"a{offcut_key(index - len(letters))}"


def _offcuts(draft: _Draft) -> None:
    task, shown = draft.task, draft.task.outcome.job.shown
    height = task.style.text_height_mm
    usable = [each for each in task.plan.offcuts if each.is_usable]
    for index, offcut in enumerate(usable):
        key = offcut_key(index)
        full = f"{key}: keep {size(shown, offcut.place.length, offcut.place.width)}"
        for text in (full, key):
            extra = set_overhang(text, height)
            wide, high = set_width(text, height), height * (1 + DESCENT_SHARE) + 2 * extra
            found = place_in(
                draft.box(offcut.place), wide, high, draft.taken, _zone_boxes(draft)
            )
            if found is not None:
                draft.occupy(found)
                middle = (found.centre[0], found.top - extra - height / 2)
                draft.items += set_figure(text, middle, height, False)
                break


def _outside_figures(draft: _Draft) -> None:
    """The length under the board, and its width where it was measured."""
    task = draft.task
    board, style, shown = task.board, task.style, task.outcome.job.shown
    factor = task.scale.factor
    inside = items_box(draft.items)
    low = min(0.0, inside.bottom)
    end = draft.at(board.length, 0.0)[0]
    line = low - style.lane_mm
    draft.items.append(
        linear(
            (0.0, 0.0), (end, 0.0), line,
            Measured(text=figure(board.length, shown), value_mm=board.length, factor=factor),
            style, Side.BOTTOM,
        )
    )  # fmt: skip
    stations = sorted(board.stations, key=lambda each: each.at)
    is_straight = max(s.width for s in stations) - min(s.width for s in stations) < 1e-6
    outer = [(stations[0], Side.LEFT, inside.left), (stations[-1], Side.RIGHT, inside.right)]
    for station, side, edge in outer[1:] if is_straight else outer:
        x = draft.at(0.0 if side is Side.LEFT else board.length, 0.0)[0]
        top = draft.at(0.0, station.width)[1]
        reach = edge + side.outward * style.lane_mm
        draft.items.append(
            linear(
                (x, 0.0), (x, top), reach,
                Measured(
                    text=figure(station.width, shown), value_mm=station.width, factor=factor
                ),
                style, side,
            )
        )  # fmt: skip
