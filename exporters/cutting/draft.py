"""A board's drawing in the making: what it is of, where things lie on paper, what is taken."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from exporters.sheets.paper import Box2, Scale
from exporters.sheets.pens import SheetStyle
from exporters.sheets.values import Item
from furniture.parts.vectors import Point2
from furniture.shop.boards.outcome import CuttingOutcome
from furniture.shop.cutting.plan import (
    BoardPlan,
    CutDirection,
    NumberedCut,
    Rectangle,
)
from furniture.shop.cutting.values import Board
from furniture.shop.cutting.zones import width_at


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardTask:
    """What is drawn: a board, its plan, and how."""

    outcome: CuttingOutcome
    board: Board
    plan: BoardPlan
    scale: Scale
    style: SheetStyle


@dataclass(slots=True)
class Draft:
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


def zone_boxes(draft: Draft) -> list[Box2]:
    """The rectangle round each zone of the board on paper [mm]."""
    return [draft.box(_bounds(zone.outline)) for zone in draft.task.board.zones]


def _bounds(outline: Sequence[Point2]) -> Rectangle:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return Rectangle(x=min(xs), y=min(ys), length=max(xs) - min(xs), width=max(ys) - min(ys))
