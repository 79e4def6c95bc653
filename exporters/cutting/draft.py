"""A board's drawing in the making: what it is of, where things lie on paper, what is taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import Enum
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from exporters.cutting.called import BY_MARKS_ALONE, Called
from exporters.cutting.ground import Effort, Ground, Segment, Spot
from exporters.sheets.callouts import LINE_SHARE, NoRoomError
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
    Placement,
    Rectangle,
)
from furniture.shop.cutting.values import Board

LEADER_GAP_MM = 0.6
"""Between a text and the start of its leader [mm on paper]. Own rule."""
_ROW_MM = 2.6


class Detail(Enum):
    """How much a drawing says; its lists always say all."""

    WHOLE = "zones with the maker's words and where they begin"
    NAMES = "zones by name"
    KEYS = "parts and zones by key where their names do not fit inside"
    LEAST = "parts by key, offcuts by letter, and no more than there is room for"

    @property
    def rows(self) -> int:
        """Of texts led out above the board, and as many below."""
        return 8 if self is Detail.LEAST else 16

    @property
    def is_keyed(self) -> bool:
        """Whether keys stand for names; the lists then give them."""
        return self in (Detail.KEYS, Detail.LEAST)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardTask:
    """What is drawn: a board, its plan, and how."""

    outcome: CuttingOutcome
    board: Board
    plan: BoardPlan
    scale: Scale
    style: SheetStyle
    detail: Detail = Detail.WHOLE
    called: Called = BY_MARKS_ALONE
    effort: Effort = field(default_factory=Effort)

    @property
    def is_late(self) -> bool:
        """Whether so much was looked at that no further place is looked for; the least of details
        has as much again for itself."""
        most = self.effort.most
        return self.effort.spent > (2.0 * most if self.detail is Detail.LEAST else most)


@dataclass(slots=True)
class Draft:
    """A drawing in the making: the board's datum corner lies at 0, 0 on paper.

    unnamed: parts whose names do not fit inside them. left_off: what found no room in the least
    of details.
    """

    task: BoardTask
    unnamed: tuple[Placement, ...] = ()
    left_off: list[str] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)
    ground: Ground = field(init=False)

    def __post_init__(self) -> None:
        """Nothing is taken yet."""
        self.ground = Ground(self.task.effort)

    @property
    def height(self) -> float:
        """Of capitals [mm]."""
        return self.task.style.text_height_mm

    def leave_off(self, what: str) -> None:
        """Note that something finds no room.

        Raises:
            NoRoomError: in all but the least of details.
        """
        if self.task.detail is not Detail.LEAST:
            raise NoRoomError(f"no room for {what}")
        self.left_off.append(what)

    def at(self, x: float, y: float) -> Point2:
        """A point of the board on paper [mm]."""
        factor = self.task.scale.factor
        return (x * factor, y * factor)

    def box(self, place: Rectangle) -> Box2:
        """A rectangle of the board on paper [mm]."""
        left, bottom = self.at(place.x_mm, place.y_mm)
        right, top = self.at(place.x_end_mm, place.y_end_mm)
        return Box2(left=left, bottom=bottom, right=right, top=top)

    def extent(self) -> Box2:
        """The rectangle round the bare board [mm]."""
        board = self.task.board
        right, top = self.at(board.length_mm, board.greatest_width_mm)
        return Box2(left=0.0, bottom=0.0, right=right, top=top)

    def draw_shape(self, corners: Sequence[Point2], line_class: LineClass) -> None:
        """A closed outline that no text may touch."""
        points = (*corners, corners[0])
        self.items.append(Stroke(shape=Polyline(points=points), line_class=line_class))
        self.ground.add_lines(pairwise(points))

    def fill(self, corners: Sequence[Point2], line_class: LineClass) -> None:
        """A filled shape of three or four corners that no text may touch."""
        self.items.append(Filled(corners=tuple(corners), line_class=line_class))
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
    *,
    ring: float = 0.0,
    may_cross: bool = False,
    beside: float = 0.0,
) -> Spot | None:
    """A free place above or below the board for a text of this size, its leader to a target.

    Rows near the board are tried before far ones, two by two; none when no row has room.

    Args:
        wide: of the text [mm].
        high: of the text [mm].
        targets: where the leader may end [mm].
        ring: the radius of a ring round the text that the leader starts at; 0 without one [mm].
        may_cross: whether the leader may cross others.
        beside: more clearance from texts to the left and right [mm].
    """
    for first in range(0, draft.task.detail.rows, 2):
        if draft.task.is_late:
            break
        places = [_in_row(draft, wide, high, targets, row) for row in (first, first + 1)]
        centres = np.vstack(places)
        half = np.array((wide / 2, high / 2))
        boxes = np.hstack((centres - half, centres + half))
        centres = centres[draft.ground.are_free(boxes, beside)]
        if not len(centres):
            continue
        lines, costs, owners = _leaders(draft, centres, half, targets, ring)
        best = draft.ground.first_open(lines, costs, may_cross=may_cross)
        if best is not None:
            x, y = (float(value) for value in centres[owners[best]])
            ax, ay, bx, by = (float(value) for value in lines[best])
            return Spot(float(costs[best]), box_at((x, y), wide, high), ((ax, ay), (bx, by)))
    return None


def _in_row(
    draft: Draft, wide: float, high: float, targets: Sequence[Point2], row: int
) -> NDArray[np.float64]:
    """Middles of places in a row above and below the board; far rows reach farther to the sides."""
    board = draft.extent()
    left, right = board.left + wide / 2, max(board.right - wide / 2, board.left + wide / 2 + 1.0)
    steps = max(8, min(70, int((right - left) / 2.8)))
    ends = np.array([target[0] for target in targets])
    xs = np.concatenate((np.linspace(left, right, steps + 1), np.clip(ends, left, right)))
    most, reach = wide / 2 + 14.0 + 6.0 * row, 1.6 + row * _ROW_MM
    xs = xs[np.abs(xs[:, None] - ends).min(axis=1) <= most]
    levels = (board.top + reach + high / 2, board.bottom - reach - high / 2)
    return np.vstack([np.column_stack((xs, np.full(len(xs), y))) for y in levels])


def _leaders(
    draft: Draft,
    centres: NDArray[np.float64],
    half: NDArray[np.float64],
    targets: Sequence[Point2],
    ring: float,
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.int_]]:
    """Leaders (x, y, x, y) from texts to targets, what each costs, and which text it is of."""
    x, y = centres[:, 0, None], centres[:, 1, None]
    goals = np.array(targets)
    goal_x, goal_y = np.tile(goals[:, 0], 3)[None, :], np.tile(goals[:, 1], 3)[None, :]
    left, right = x - half[0] + 0.8, x + half[0] - 0.8
    count = len(targets)
    near = np.clip(goals[None, :, 0], left, np.maximum(left, right))
    start_x = np.hstack((near, np.repeat(left, count, axis=1), np.repeat(right, count, axis=1)))
    is_over = y > draft.extent().centre[1]
    edge = np.where(is_over, y - half[1] - LEADER_GAP_MM, y + half[1] + LEADER_GAP_MM)
    edge = np.broadcast_to(edge, start_x.shape)
    slope, run = np.abs(start_x - goal_x), np.abs(edge - goal_y)
    costs = run + 1.6 * slope + 0.15 * np.abs(x - goal_x) + np.where(slope > 1.7 * run, 4.0, 0.0)
    goal_x, goal_y = np.broadcast_to(goal_x, run.shape), np.broadcast_to(goal_y, run.shape)
    if ring > 0.0:
        away = np.maximum(np.hypot(x - goal_x, y - goal_y), 1e-9)
        start_x, edge = x - (x - goal_x) / away * ring, y - (y - goal_y) / away * ring
    owners = np.repeat(np.arange(len(centres)), start_x.shape[1])
    lines = np.column_stack([each.ravel() for each in (start_x, edge, goal_x, goal_y)])
    return lines, costs.ravel(), owners


def box_at(centre: Point2, wide: float, high: float) -> Box2:
    """The rectangle of this size round a point [mm]."""
    x, y = centre
    return Box2(left=x - wide / 2, right=x + wide / 2, bottom=y - high / 2, top=y + high / 2)


def corners_of(box: Box2) -> tuple[Point2, Point2, Point2, Point2]:
    """The corners of a rectangle in order [mm]."""
    return (
        (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top),
    )  # fmt: skip
