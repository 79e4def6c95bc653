"""A board's drawing in the making: what it is of, where things lie on paper, what is taken."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum
from itertools import pairwise

from exporters.cutting.ground import Ground, Segment, Spot
from exporters.sheets.callouts import LINE_SHARE
from exporters.sheets.figures import stroke
from exporters.sheets.geometry import lettering_box
from exporters.sheets.lettering import descent, text_width
from exporters.sheets.paper import Box2, Scale
from exporters.sheets.pens import LineClass, SheetStyle
from exporters.sheets.values import Anchor, Filled, Item, Lettering, Stroke
from exporters.views.values import Polyline
from furniture.parts.vectors import Point2
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import (
    BoardPlan,
    CutDirection,
    NumberedCut,
    Placement,
    Rectangle,
)
from furniture.shop.cutting.values import Board
from furniture.shop.cutting.zones import width_at

LEADER_GAP_MM = 0.6
"""Between a text and the start of its leader [mm on paper]. Own rule."""
_ROWS, _ROW_MM = 16, 2.6


class ZoneWords(Enum):
    """What is said of a zone on the drawing; its list always says all."""

    WHOLE = "name, the maker's words, and where it begins"
    NAME = "name"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardTask:
    """What is drawn: a board, its plan, and how."""

    outcome: CuttingOutcome
    board: Board
    plan: BoardPlan
    scale: Scale
    style: SheetStyle
    zone_words: ZoneWords = ZoneWords.WHOLE


@dataclass(slots=True)
class Draft:
    """A drawing in the making: the board's datum corner lies at 0, 0 on paper.

    unnamed: parts whose names do not fit inside them.
    """

    task: BoardTask
    unnamed: tuple[Placement, ...] = ()
    items: list[Item] = field(default_factory=list)
    ground: Ground = field(default_factory=Ground)

    @property
    def height(self) -> float:
        """Of capitals [mm]."""
        return self.task.style.text_height_mm

    def at(self, x: float, y: float) -> Point2:
        """A point of the board on paper [mm]."""
        factor = self.task.scale.factor
        return (x * factor, y * factor)

    def box(self, place: Rectangle) -> Box2:
        """A rectangle of the board on paper [mm]."""
        left, bottom = self.at(place.x, place.y)
        right, top = self.at(place.x_end, place.y_end)
        return Box2(left=left, bottom=bottom, right=right, top=top)

    def extent(self) -> Box2:
        """The rectangle round the bare board [mm]."""
        board = self.task.board
        right, top = self.at(board.length, board.greatest_width)
        return Box2(left=0.0, bottom=0.0, right=right, top=top)

    def draw_shape(self, corners: Sequence[Point2], line_class: LineClass) -> None:
        """A closed outline that no text may touch."""
        points = (*corners, corners[0])
        self.items.append(Stroke(shape=Polyline(points=points), line_class=line_class))
        self.ground.add_lines(pairwise(points))

    def fill(self, box: Box2, line_class: LineClass) -> None:
        """A filled rectangle that no text may touch."""
        corners = corners_of(box)
        self.items.append(Filled(corners=corners, line_class=line_class))
        self.ground.add_lines(pairwise((*corners, corners[0])))

    def draw_line(self, line: Segment, line_class: LineClass) -> None:
        """A line that no text may touch."""
        self.items.append(stroke(*line, line_class))
        self.ground.add_lines([line])

    def draw_leader(self, leader: Segment) -> None:
        """A leader."""
        self.items.append(stroke(*leader, LineClass.LEADER))
        self.ground.add_leader(leader)

    def size_of(self, lines: Sequence[str]) -> tuple[float, float]:
        """Width and height that lines of text take [mm]."""
        wide = max(text_width(line, self.height) for line in lines)
        high = self.height * (1 + (len(lines) - 1) * LINE_SHARE)
        return wide, high + descent(lines[-1], self.height)

    def write(self, lines: Sequence[str], box: Box2) -> None:
        """Lines of text centred in a box of their size, noted as taken."""
        for index, line in enumerate(lines):
            y = box.top - self.height * (1 + index * LINE_SHARE)
            text = Lettering(
                text=line, at=(box.centre[0], y), height=self.height, anchor=Anchor.CENTRE
            )
            self.items.append(text)
            self.ground.add_text(lettering_box(text))

    def write_turned(self, line: str, box: Box2) -> None:
        """A line of text read from the right, centred in a box of its size."""
        text = Lettering(
            text=line, at=(box.left + self.height, box.centre[1]), height=self.height,
            anchor=Anchor.CENTRE, is_turned=True,
        )  # fmt: skip
        self.items.append(text)
        self.ground.add_text(lettering_box(text))


def led_out(
    draft: Draft,
    wide: float,
    high: float,
    targets: Sequence[Point2],
    to_spot: Callable[[Spot], Spot] | None = None,
    *,
    may_cross: bool = False,
    beside: float = 0.0,
) -> Spot | None:
    """A free place above or below the board for a text of this size, its leader to a target.

    Rows near the board are tried before far ones; none when no row has room.

    Args:
        draft: the drawing.
        wide: of the text [mm].
        high: of the text [mm].
        targets: where the leader may end [mm].
        to_spot: changes a place before its leader is tried.
        may_cross: whether the leader may cross others.
        beside: more clearance from texts to the left and right [mm].
    """
    for first in range(0, _ROWS, 2):
        spots = [
            spot if to_spot is None else to_spot(spot)
            for row in (first, first + 1)
            for spot in _in_row(draft, wide, high, targets, row)
        ]
        found = draft.ground.first_of(spots, may_cross=may_cross, beside=beside)
        if found is not None:
            return found
    return None


def _in_row(
    draft: Draft, wide: float, high: float, targets: Sequence[Point2], row: int
) -> Iterator[Spot]:
    """Free places in a row above and below the board; far rows reach farther to the sides."""
    board = draft.extent()
    left, right = board.left + wide / 2, max(board.right - wide / 2, board.left + wide / 2 + 1.0)
    steps = max(8, min(70, int((right - left) / 2.8)))
    xs = [left + (right - left) * step / steps for step in range(steps + 1)]
    xs += [min(max(target[0], left), right) for target in targets]
    most, reach = wide / 2 + 14.0 + 6.0 * row, 1.6 + row * _ROW_MM
    for x in xs:
        if min(abs(x - target[0]) for target in targets) > most:
            continue
        for is_over in (True, False):
            y = board.top + reach + high / 2 if is_over else board.bottom - reach - high / 2
            box = box_at((x, y), wide, high)
            if not draft.ground.is_free(box):
                continue
            edge = box.bottom - LEADER_GAP_MM if is_over else box.top + LEADER_GAP_MM
            for target in targets:
                near = min(max(target[0], box.left + 0.8), box.right - 0.8)
                for start_x in dict.fromkeys((near, box.left + 0.8, box.right - 0.8)):
                    slope = abs(start_x - target[0])
                    run = abs(edge - target[1])
                    cost = run + 1.6 * slope + 0.15 * abs(x - target[0])
                    cost += 4.0 if slope > 1.7 * run else 0.0
                    yield Spot(cost, box, ((start_x, edge), target))


def box_at(centre: Point2, wide: float, high: float) -> Box2:
    """The rectangle of this size round a point [mm]."""
    x, y = centre
    return Box2(left=x - wide / 2, right=x + wide / 2, bottom=y - high / 2, top=y + high / 2)


def corners_of(box: Box2) -> tuple[Point2, Point2, Point2, Point2]:
    """The corners of a rectangle in order [mm]."""
    return (
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top),
    )  # fmt: skip


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


def bounds_of(outline: Sequence[Point2]) -> Rectangle:
    """The rectangle round an outline [mm]."""
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return Rectangle(x=min(xs), y=min(ys), length=max(xs) - min(xs), width=max(ys) - min(ys))
