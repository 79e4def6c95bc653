"""Which parts cannot lie together on a board: asked of a solver, certain when it says no.

What is asked is easier than sawing: any layout without overlap counts, whether a saw could make it
or not, and only zones that bar a part whichever face is up are kept off. So "cannot" is certain.

Sizes are rounded to tenths of a millimetre in the part's favour. Why that is safe: take any layout,
and push every part as near as the parts and zones before it let it, with the rounded sizes; it
comes no further than it was, so a layout in tenths exists as well.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from furniture.shop.cutting.blanks import Blank, narrowest_on
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.solving import solved
from furniture.shop.cutting.values import Board, Saw
from furniture.shop.cutting.zones import TOUCH, Outline, bounds_of, obstacles_for, usable_frame

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

GRID_MM = 0.1
_SAME, _ROOM = 1e-4, 2e-2
"""Of a step of the grid: sizes so near a whole step are whole, and room for a hundred such."""

EFFORT, LONGEST_S, OF_EFFORT_S, LEAST_S = 0.04, 2.0, 12.0, 0.02
"""What one question may take usually, in the solver's own deterministic seconds, and real ones [s];
real ones for each of more effort, where that is more, as a busy machine needs them; and those that
it has however little time is left."""

MOST_BOXES = 1000
"""Zones, or slices of them, that a question knows of, the largest: a "cannot" is as certain with
fewer, and a thousand are answered in a tenth of a second. Own rule."""

MOST_APART = 25
"""So many of them lie apart in one statement with the blanks, the largest: the solver works on that
by the fourth power before it looks at its limits, 0.04 s with 25, 54 s with 150. Own rule."""

SLICES = 8
"""A slanting zone is kept off as so many rectangles inside it."""


_Ranges = tuple[tuple[int, int], tuple[int, int]]
"""From where to where on each axis, in units."""


@dataclass(frozen=True, slots=True)
class Confined:
    """A blank with where its near corner may be, in board coordinates [mm]; or anywhere."""

    blank: Blank
    corner: Rectangle | None = None


@dataclass(frozen=True, slots=True)
class FitAnswer:
    """Whether it is certain that parts cannot lie together, whether it stays open if they can, and
    the solver's effort."""

    cannot: bool
    is_open: bool
    effort: float


def cannot_fit_together(
    board: Board,
    confined: Sequence[Confined],
    barred: Sequence[Sequence[Rectangle]],
    saw: Saw,
    effort: float = EFFORT,
    seconds: float = math.inf,
) -> FitAnswer:
    """Whether it is certain that blanks do not all fit on the board.

    Args:
        confined: each copy of a blank by itself.
        barred: for each the `boxes_barred` to it.
        saw: with its kerf and trims.
        effort: what the question may take, in the solver's deterministic seconds.
        seconds: real ones that are left [s].
    """
    question, barred = _Question(board, saw), [_largest(boxes, MOST_BOXES) for boxes in barred]
    if not all(question.is_laid(each) for each in confined):
        return FitAnswer(True, False, 0.0)
    common = set.intersection(*(set(boxes) for boxes in barred)) if barred else set()
    apart = question.kept_apart(sorted(_largest(common, MOST_APART), key=_corners))
    for number, boxes in enumerate(barred):
        question.keep_off(number, [box for box in boxes if box not in apart])
    longest = min(max(LONGEST_S, OF_EFFORT_S * effort), max(LEAST_S, seconds))
    return question.answer(effort, longest)


class _Question:
    """The program of one question: where on the board the near corner of each blank may be."""

    def __init__(self, board: Board, saw: Saw) -> None:
        from ortools.sat.python import cp_model

        self._board, self._saw = board, saw
        self._frame = usable_frame(board, saw)
        lengths = (self._frame.length_mm, self._frame.width_mm)
        self._far = tuple(_roomy(length + saw.kerf_mm) for length in lengths)
        self._model = cp_model.CpModel()
        self._spans: tuple[list[cp_model.IntervalVar], list[cp_model.IntervalVar]] = ([], [])
        self._starts: list[list[cp_model.IntVar]] = []
        self._sizes: list[tuple[int, int]] = []

    def is_laid(self, each: Confined) -> bool:
        """Whether the board has any corner for one blank more, all others left out."""
        size = _size(narrowest_on(self._board, each.blank, self._saw), self._saw.kerf_mm)
        start = []
        for axis in range(2):
            low, high = 0, self._far[axis] - size[axis]
            if each.corner is not None:
                near, reach = _corner_range(each.corner, self._frame, axis)
                low, high = max(low, near), min(high, reach)
            if low > high:
                return False
            start.append(self._model.new_int_var(low, high, ""))
            span = self._model.new_fixed_size_interval_var(start[axis], size[axis], "")
            self._spans[axis].append(span)
        self._starts.append(start)
        self._sizes.append(size)
        return True

    def kept_apart(self, boxes: Sequence[Rectangle]) -> set[Rectangle]:
        """States that blanks and boxes lie apart from one another; the boxes of which it is said.

        Boxes that lie over one another cannot be among those that must lie apart.
        """
        said: set[Rectangle] = set()
        apart: list[_Ranges] = []
        for box in boxes:
            ranges = _barred_units(box, self._frame, self._saw.kerf_mm)
            is_off = any(low >= high for low, high in ranges)
            if not is_off and any(_overlap(ranges, other) for other in apart):
                continue
            said.add(box)
            if is_off:
                continue
            apart.append(ranges)
            for axis, (low, high) in enumerate(ranges):
                span = self._model.new_fixed_size_interval_var(low, high - low, "")
                self._spans[axis].append(span)
        self._model.add_no_overlap_2d(*self._spans)
        return said

    def keep_off(self, number: int, boxes: Sequence[Rectangle]) -> None:
        """States that a blank lies before or behind each box, on one axis or the other."""
        for box in boxes:
            ranges = _barred_units(box, self._frame, self._saw.kerf_mm)
            if any(low >= high for low, high in ranges):
                continue
            ways = []
            for axis, (low, high) in enumerate(ranges):
                for before in (True, False):
                    way, at = self._model.new_bool_var(""), self._starts[number][axis]
                    bound = at + self._sizes[number][axis] <= low if before else at >= high
                    self._model.add(bound).only_enforce_if(way)
                    ways.append(way)
            self._model.add_bool_or(ways)

    def answer(self, effort: float, seconds: float) -> FitAnswer:
        """What the solver says of it."""
        from ortools.sat.python import cp_model

        solver, status = solved(self._model, effort, seconds)
        cannot, is_open = status == cp_model.INFEASIBLE, status == cp_model.UNKNOWN
        return FitAnswer(cannot, is_open, solver.response_proto.deterministic_time)


def _largest(boxes: Collection[Rectangle], most: int) -> Sequence[Rectangle]:
    if len(boxes) <= most:
        return tuple(boxes)
    return sorted(boxes, key=lambda box: (-box.area_mm2, _corners(box)))[:most]


def boxes_barred(board: Board, blank: Blank, saw: Saw) -> tuple[Rectangle, ...]:
    """Rectangles of the board that no member of the blank may lie on, whichever face is up."""
    found: list[dict[Rectangle, None]] = []
    for member in blank.members:
        up = obstacles_for(board, member.part, saw, flipped=False)
        down = set(obstacles_for(board, member.part, saw, flipped=True))
        boxes = (box for outline in up if outline in down for box in boxes_inside(outline))
        found.append(dict.fromkeys(boxes))
    return tuple(box for box in found[0] if all(box in other for other in found))


def boxes_inside(outline: Outline) -> Iterable[Rectangle]:
    """Rectangles inside an outline that bulges outwards everywhere; none for any other."""
    if not _bulges(outline):
        return
    box = bounds_of(outline)
    marks = sorted(
        {x for x, _ in outline} | {box.x_mm + box.length_mm * k / SLICES for k in range(SLICES + 1)}
    )
    previous: Rectangle | None = None
    for left, right in pairwise(marks):
        chords = [chord for x in (left, right) if (chord := _chord(outline, x)) is not None]
        if len(chords) < 2 or right - left <= TOUCH:
            continue
        low, high = max(c[0] for c in chords), min(c[1] for c in chords)
        if high - low <= TOUCH:
            continue
        if previous and abs(previous.y_mm - low) + abs(previous.width_mm - (high - low)) <= TOUCH:
            left = previous.x_mm
        elif previous:
            yield previous
        previous = Rectangle(x_mm=left, y_mm=low, length_mm=right - left, width_mm=high - low)
    if previous:
        yield previous


def _bulges(outline: Outline) -> bool:
    turns = set()
    for index, corner in enumerate(outline):
        a, b = outline[index - 2], outline[index - 1]
        cross = (b[0] - a[0]) * (corner[1] - b[1]) - (b[1] - a[1]) * (corner[0] - b[0])
        if abs(cross) > TOUCH:
            turns.add(cross > 0)
    return len(turns) == 1


def _chord(outline: Outline, x: float) -> tuple[float, float] | None:
    """Where the upright line at x [mm] runs inside the outline."""
    ys = []
    for index, end in enumerate(outline):
        start = outline[index - 1]
        if min(start[0], end[0]) - TOUCH <= x <= max(start[0], end[0]) + TOUCH:
            if abs(end[0] - start[0]) <= TOUCH:
                ys += [start[1], end[1]]
            else:
                share = (x - start[0]) / (end[0] - start[0])
                ys.append(start[1] + share * (end[1] - start[1]))
    return (min(ys), max(ys)) if ys else None


def _tight(length: float) -> int:
    return math.floor(length / GRID_MM + _SAME)


def _roomy(length: float) -> int:
    return math.floor(length / GRID_MM + _ROOM)


def _size(blank: Blank, kerf: float) -> tuple[int, int]:
    length = blank.length_mm
    width = min(member.width_mm for member in blank.members)
    if blank.may_turn:
        length = width = min(length, width)
    return _tight(length + kerf), _tight(width + kerf)


def _corner_range(corner: Rectangle, frame: Rectangle, axis: int) -> tuple[int, int]:
    low = corner.x_mm - frame.x_mm if axis == 0 else corner.y_mm - frame.y_mm
    span = corner.length_mm if axis == 0 else corner.width_mm
    return math.floor(low / GRID_MM) - 1, math.ceil((low + span) / GRID_MM) + 1


def _overlap(one: _Ranges, other: _Ranges) -> bool:
    """Whether what two boxes bar of each axis overlaps on both."""
    both = zip(one, other, strict=True)
    return all(low < far and near < high for (low, high), (near, far) in both)


def _barred_units(box: Rectangle, frame: Rectangle, kerf: float) -> _Ranges:
    """What of each axis a box bars, in units; a box too thin for the grid bars nothing."""
    ranges = []
    for low, high in (
        (box.x_mm - frame.x_mm, box.x_end_mm - frame.x_mm),
        (box.y_mm - frame.y_mm, box.y_end_mm - frame.y_mm),
    ):
        start, end = _roomy(low + kerf), _tight(high)
        ranges.append((start, max(start, end)))
    return ranges[0], ranges[1]


def _corners(box: Rectangle) -> tuple[float, float, float, float]:
    return box.x_mm, box.y_mm, box.length_mm, box.width_mm
