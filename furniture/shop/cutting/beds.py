"""The rectangles that the packer fills: whole boards, or what is left of one round a pinned part.

A bed is seen from the saw: u runs along the first cuts, v across them. For rip-first work u is
the board's x; for crosscut-first work u is the board's y.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass, replace
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from furniture.shop.cutting.blanks import Blank, as_wide, suits, widths_on
from furniture.shop.cutting.clear_places import barred_counts
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.values import Board, CuttingRequest, Saw
from furniture.shop.cutting.zones import (
    TOUCH,
    Outline,
    bounds_of,
    clipped_to_band,
    is_square,
    obstacles_for,
    usable_frame,
)

FEW = 16
"""More obstacles are looked at as arrays. Own rule: up to so many that takes longer."""

MOST_REMEMBERED = 10_000
"""Stretches that bar poses on a bed and are kept. Own rule: half a megabyte."""


class FirstCut(Enum):
    """Which cut opens the board."""

    RIP = "rip first"
    CROSSCUT = "crosscut first"


@dataclass(frozen=True, slots=True)
class Bed:
    """A rectangle of one board to fill."""

    board: int
    frame: Rectangle


@dataclass(frozen=True, slots=True)
class Pose:
    """One way for a blank to lie on a bed: turned or not, flipped or not; size along u and v."""

    blank: int
    turned: bool
    flipped: bool
    u_size: float
    v_size: float


_MemberGround = tuple[float, float, float, float, list[int]]


class Ground:
    """One bed seen from the saw, answering where a pose is free of obstacles."""

    def __init__(
        self,
        bed: Bed,
        board: Board,
        blanks: tuple[Blank, ...],
        saw: Saw,
        first_cut: FirstCut,
    ) -> None:
        self.bed = bed
        self.first_cut = first_cut
        frame = bed.frame
        along = first_cut is FirstCut.RIP
        self.u_size = frame.length if along else frame.width
        self.v_size = frame.width if along else frame.length
        self.poses: list[Pose] = []
        self._obstacles: dict[Pose, list[_MemberGround]] = {}
        self._bands: dict[tuple[int, float, float], tuple[float, float] | None] = {}
        self._sorted_heights: dict[Pose, tuple[float, ...]] = {}
        self._barred_at: dict[tuple[Pose, float, bool], list[tuple[float, float]]] = {}
        self._remembered = 0
        self._numbers: dict[Outline, int] = {}
        self._outlines: list[Outline] = []
        self._boxes: list[Rectangle] = []
        self._is_square: list[bool] = []
        self._tables: dict[int, tuple[NDArray[np.float64], list[int]]] = {}
        seen: dict[tuple[object, ...], list[int]] = {}
        self._is_whole = frame == usable_frame(board, saw)
        for index, blank in enumerate(blanks):
            if not all(suits(board, member.part, saw) for member in blank.members):
                continue
            for turned in (False, True) if blank.may_turn else (False,):
                before: list[list[int]] | None = None
                for flipped in (False, True):
                    sets = []
                    for member in blank.members:
                        part = member.part
                        key = (part.show_face_tolerates, part.hidden_face_tolerates, flipped)
                        if key not in seen:
                            barred = obstacles_for(board, part, saw, flipped=flipped)
                            seen[key] = [self._number(outline) for outline in barred]
                        sets.append(seen[key])
                    if before == sets:
                        continue
                    before = sets
                    widths = self._widths(board, blank, saw, turned=turned)
                    for width in widths:
                        pose = self._add(index, as_wide(blank, width), turned, flipped, sets)
                        if pose is None:
                            continue
                        if len(widths) == 1 or self.lies_somewhere(pose):
                            break
                        self.poses.remove(pose)

    def _widths(self, board: Board, blank: Blank, saw: Saw, *, turned: bool) -> tuple[float, ...]:
        """Widths to try [mm], the first that lies somewhere counts: less only off whole boards."""
        return widths_on(board, blank, saw) if self._is_whole and not turned else (blank.width,)

    def on(self, bed: Bed) -> Ground:
        """This ground on another bed that is like its own; what is remembered is shared."""
        other = copy(self)
        other.bed = bed
        return other

    def _number(self, outline: Outline) -> int:
        frame = self.bed.frame
        seen = tuple((x - frame.x, y - frame.y) for x, y in outline)
        if self.first_cut is FirstCut.CROSSCUT:
            seen = tuple((y, x) for x, y in seen)
        if seen not in self._numbers:
            self._numbers[seen] = len(self._outlines)
            self._outlines.append(seen)
            self._boxes.append(bounds_of(seen))
            self._is_square.append(is_square(seen))
        return self._numbers[seen]

    def _add(
        self, index: int, blank: Blank, turned: bool, flipped: bool, sets: list[list[int]]
    ) -> Pose | None:
        swap = turned == (self.first_cut is FirstCut.RIP)
        u_size, v_size = (blank.width, blank.length) if swap else (blank.length, blank.width)
        if u_size > self.u_size + TOUCH or v_size > self.v_size + TOUCH:
            return None
        pose = Pose(blank=index, turned=turned, flipped=flipped, u_size=u_size, v_size=v_size)
        entries = []
        for member, outlines in zip(blank.members, sets, strict=True):
            du, dv = (member.across, member.along) if swap else (member.along, member.across)
            lu, lv = (member.width, member.length) if swap else (member.length, member.width)
            entries.append((du, dv, lu, lv, [o for o in outlines if self._touches_bed(o)]))
        self._obstacles[pose] = entries
        self.poses.append(pose)
        return pose

    def lies_somewhere(self, pose: Pose) -> bool:
        """Whether the bed, empty, has a place for the pose."""
        numbers = self._obstacles[pose][0][-1]
        if len(numbers) > FEW and len(self._obstacles[pose]) == 1:
            return self._lies_among_many(pose, numbers)
        v: float | None = 0.0
        while v is not None:
            if self.along(pose, 0.0, v) is not None:
                return True
            v = self.next_height(pose, v)
        return False

    def _lies_among_many(self, pose: Pose, numbers: list[int]) -> bool:
        """The same for one member among many obstacles, its near corner where one of them ends."""
        boxes, others = self._square_sides(numbers)
        heights = [v for n in others for _, v in self._outlines[n]]
        vs = np.unique([0.0, *boxes[:, 3], *heights])
        vs = vs[(vs >= 0.0) & (vs <= self.v_size - pose.v_size + TOUCH)]
        barred = [
            [e for n in others if (e := self._extent(n, v, v + pose.v_size)) is not None]
            for v in map(float, vs)
        ]
        us = np.unique([0.0, *boxes[:, 1], *(end for each in barred for _, end in each)])
        us = us[(us >= 0.0) & (us <= self.u_size - pose.u_size + TOUCH)]
        is_free = barred_counts(boxes, us, vs, pose.u_size, pose.v_size) == 0
        for row, extents in enumerate(barred):
            for low, high in extents:
                is_free[(us + pose.u_size > low + TOUCH) & (us < high - TOUCH), row] = False
        return bool(is_free.any())

    def _touches_bed(self, number: int) -> bool:
        box = self._boxes[number]
        return (
            box.x < self.u_size - TOUCH
            and box.x_end > TOUCH
            and box.y < self.v_size - TOUCH
            and box.y_end > TOUCH
        )

    def _extent(self, number: int, low: float, high: float) -> tuple[float, float] | None:
        """From where to where along the bed an outline reaches between two heights [mm]."""
        box = self._boxes[number]
        if box.y_end < low + TOUCH or box.y > high - TOUCH:
            return None
        if self._is_square[number]:
            return box.x, box.x_end
        key = (number, low, high)
        if key not in self._bands:
            clipped = clipped_to_band(self._outlines[number], low + TOUCH, high - TOUCH)
            us = [corner[0] for corner in clipped]
            self._bands[key] = (min(us), max(us)) if us else None
        return self._bands[key]

    def is_free(self, pose: Pose, u: float, v: float) -> bool:
        """Whether the pose at (u, v) [mm] is inside the bed and off every obstacle."""
        if u + pose.u_size > self.u_size + TOUCH or v + pose.v_size > self.v_size + TOUCH:
            return False
        return self._blocked_until(pose, u, v) is None

    def _blocked_until(self, pose: Pose, u: float, v: float) -> float | None:
        """Where the stretch that bars the pose at (u, v) ends [mm]; None where it is free."""
        stretches = self._stretches(pose, v)
        number = bisect_left(stretches, (u - TOUCH,)) - 1
        if number < 0:
            return None
        end = stretches[number][1]
        return end if end > u + TOUCH else None

    def _stretches(self, pose: Pose, v: float) -> list[tuple[float, float]]:
        """Between which u the pose at v is barred [mm]: in order, apart from each other."""
        key = (pose, v, False)
        if key not in self._barred_at:
            barred: list[tuple[float, float]] = []
            many: list[NDArray[np.float64]] = []
            for du, dv, lu, lv, numbers in self._obstacles[pose]:
                low, high = v + dv, v + dv + lv
                if len(numbers) > FEW:
                    found, others = self._square_extents(numbers, low, high)
                    many.append(found - np.array([du + lu, du]))
                    numbers = others
                for number in numbers:
                    extent = self._extent(number, low, high)
                    if extent is not None:
                        barred.append((extent[0] - du - lu, extent[1] - du))
            found_all = _joined_of_many(barred, many) if many else _joined(barred)
            self._remember(key, found_all)
        return self._barred_at[key]

    def _remember(
        self, key: tuple[Pose, float, bool], stretches: list[tuple[float, float]]
    ) -> None:
        """Keeps what bars a pose, and forgets all others where they have become too many."""
        self._remembered += 1 + len(stretches)
        if self._remembered > MOST_REMEMBERED:
            self._barred_at.clear()
            self._remembered = 1 + len(stretches)
        self._barred_at[key] = stretches

    def _stretches_across(self, pose: Pose, u: float) -> list[tuple[float, float]]:
        """Between which v the pose at u is barred [mm]: in order, apart from each other."""
        key = (pose, u, True)
        if key not in self._barred_at:
            barred: list[tuple[float, float]] = []
            for du, dv, lu, lv, numbers in self._obstacles[pose]:
                low, high = u + du + TOUCH, u + du + lu - TOUCH
                sides, others = self._square_sides(numbers)
                found = sides[(sides[:, 1] >= low) & (sides[:, 0] <= high), 2:]
                barred += [(a - dv - lv, b - dv) for a, b in found.tolist()]
                for number in others:
                    turned = [(y, x) for x, y in self._outlines[number]]
                    vs = [x for x, _ in clipped_to_band(turned, low, high)]
                    if vs:
                        barred.append((min(vs) - dv - lv, max(vs) - dv))
            self._remember(key, _joined(barred))
        return self._barred_at[key]

    def _square_extents(
        self, numbers: list[int], low: float, high: float
    ) -> tuple[NDArray[np.float64], list[int]]:
        """The extents of those that are rectangles, and the numbers of the others."""
        sides, others = self._square_sides(numbers)
        reaches = (sides[:, 3] >= low + TOUCH) & (sides[:, 2] <= high - TOUCH)
        return sides[reaches, :2], others

    def _square_sides(self, numbers: list[int]) -> tuple[NDArray[np.float64], list[int]]:
        """The sides (low u, high u, low v, high v) of the rectangles, and who is none."""
        key = id(numbers)
        if key not in self._tables:
            square = [n for n in numbers if self._is_square[n]]
            boxes = [self._boxes[n] for n in square]
            sides = np.array([(b.x, b.x_end, b.y, b.y_end) for b in boxes]).reshape(-1, 4)
            others = [n for n in numbers if not self._is_square[n]]
            self._tables[key] = (sides, others)
        return self._tables[key]

    def along(self, pose: Pose, u: float, v: float) -> float | None:
        """The least u' >= u where the pose is free at v; None when there is none."""
        if v + pose.v_size > self.v_size + TOUCH:
            return None
        while u + pose.u_size <= self.u_size + TOUCH:
            further = self._blocked_until(pose, u, v)
            if further is None:
                return u
            u = max(further, u + 2 * TOUCH)
        return None

    def next_height(self, pose: Pose, v: float) -> float | None:
        """The least corner height above v [mm] of an obstacle to this lie; None when none is."""
        above = next((height for height in self._heights(pose) if height > v + TOUCH), math.inf)
        return above if above + pose.v_size <= self.v_size + TOUCH else None

    def _heights(self, pose: Pose) -> tuple[float, ...]:
        """Where corners of obstacles to this lie stand across the bed [mm], lowest first."""
        if pose not in self._sorted_heights:
            heights = {
                corner[1] - dv
                for _, dv, _, _, numbers in self._obstacles[pose]
                for number in numbers
                for corner in self._outlines[number]
            }
            self._sorted_heights[pose] = tuple(sorted(heights))
        return self._sorted_heights[pose]

    def across(self, pose: Pose, u: float, v: float) -> float | None:
        """The least corner height v' > v of an obstacle where the pose is free at u; or None."""
        if u + pose.u_size > self.u_size + TOUCH:
            return None
        heights = self._heights(pose)
        barred = self._stretches_across(pose, u) if len(heights) > 4 * FEW else None
        for height in heights[bisect_right(heights, v + TOUCH) :]:
            if height + pose.v_size > self.v_size + TOUCH:
                return None
            if barred is None:
                if self._blocked_until(pose, u, height) is None:
                    return height
                continue
            number = bisect_left(barred, (height - TOUCH,)) - 1
            if number < 0 or barred[number][1] <= height + TOUCH:
                return height
        return None

    def on_board(self, u: float, v: float, u_size: float, v_size: float) -> Rectangle:
        """The rectangle in board coordinates."""
        frame = self.bed.frame
        if self.first_cut is FirstCut.RIP:
            return Rectangle(x=frame.x + u, y=frame.y + v, length=u_size, width=v_size)
        return Rectangle(x=frame.x + v, y=frame.y + u, length=v_size, width=u_size)

    def places(self, pose: Pose, u: float, v: float) -> list[Rectangle]:
        """The rectangles of the pose's members in board coordinates."""
        return [
            self.on_board(u + du, v + dv, lu, lv) for du, dv, lu, lv, _ in self._obstacles[pose]
        ]

    def corner_of(self, box: Rectangle) -> tuple[float, float]:
        """The near corner of a rectangle in board coordinates, as (u, v)."""
        frame = self.bed.frame
        x, y = box.x - frame.x, box.y - frame.y
        return (x, y) if self.first_cut is FirstCut.RIP else (y, x)


def grounds_of(
    request: CuttingRequest, blanks: tuple[Blank, ...], beds: tuple[Bed, ...], first_cut: FirstCut
) -> tuple[list[int], list[Ground]]:
    """A ground for each bed, and a number that beds alike in all but name share."""
    numbers: dict[tuple[Board, Rectangle], int] = {}
    made: list[Ground] = []
    looks, grounds = [], []
    for bed in beds:
        board = request.boards[bed.board]
        key = (replace(board, name="", description=""), bed.frame)
        if key not in numbers:
            numbers[key] = len(made)
            made.append(Ground(bed, board, blanks, request.saw, first_cut))
        looks.append(numbers[key])
        grounds.append(made[numbers[key]].on(bed))
    return looks, grounds


def carved(bed: Bed, pinned: Rectangle, kerf: float, first_cut: FirstCut) -> tuple[Bed, ...]:
    """What is left of a bed to either side of a pinned rectangle, a kerf away [mm]."""
    f, p = bed.frame, pinned
    left, right = p.x - kerf - f.x, f.x_end - p.x_end - kerf
    below, above = p.y - kerf - f.y, f.y_end - p.y_end - kerf
    if first_cut is FirstCut.CROSSCUT:
        spots = [
            (f.x, f.y, left, f.width),
            (p.x_end + kerf, f.y, right, f.width),
            (p.x, f.y, p.length, below),
            (p.x, p.y_end + kerf, p.length, above),
        ]
    else:
        spots = [
            (f.x, f.y, f.length, below),
            (f.x, p.y_end + kerf, f.length, above),
            (f.x, p.y, left, p.width),
            (p.x_end + kerf, p.y, right, p.width),
        ]
    return tuple(
        Bed(board=bed.board, frame=Rectangle(x=x, y=y, length=length, width=width))
        for x, y, length, width in spots
        if length > TOUCH and width > TOUCH
    )


def _joined(barred: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """The stretches in order, those that leave nothing between them as one."""
    joined: list[tuple[float, float]] = []
    for start, end in sorted(barred):
        if joined and start < joined[-1][1] - 2 * TOUCH:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return joined


def _joined_of_many(
    barred: Sequence[tuple[float, float]], many: Sequence[NDArray[np.float64]]
) -> list[tuple[float, float]]:
    """The same of many stretches, as arrays of their ends and a few besides."""
    both = np.concatenate([*many, np.array(barred).reshape(-1, 2)])
    if not len(both):
        return []
    both = both[np.argsort(both[:, 0], kind="stable")]
    ends = np.maximum.accumulate(both[:, 1])
    opens = np.concatenate([[True], both[1:, 0] >= ends[:-1] - 2 * TOUCH])
    first = np.flatnonzero(opens)
    last = np.concatenate([first[1:] - 1, [len(both) - 1]])
    return list(zip(both[first, 0].tolist(), ends[last].tolist(), strict=True))
