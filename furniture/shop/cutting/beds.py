"""The rectangles that the packer fills: whole boards, or what is left of one round a pinned part.

A bed is seen from the saw: u runs along the first cuts, v across them. For rip-first work u is
the board's x; for crosscut-first work u is the board's y.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass
from enum import Enum

import numpy as np

from furniture.shop.cutting.blanks import Blank, as_wide, suits, widths_on
from furniture.shop.cutting.obstacles import FEW, Axis, Obstacles, barred_counts
from furniture.shop.cutting.plan import Rectangle
from furniture.shop.cutting.values import Board, CutPart, CuttingRequest, Saw
from furniture.shop.cutting.zones import (
    TOUCH,
    Outline,
    bounds_of,
    obstacles_for,
    usable_frame,
)

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
    u_size_mm: float
    v_size_mm: float


def whole_beds(request: CuttingRequest) -> tuple[Bed, ...]:
    """Every board as one bed."""
    return tuple(
        Bed(board=index, frame=usable_frame(board, request.saw))
        for index, board in enumerate(request.boards)
    )


_MemberGround = tuple[float, float, float, float, Obstacles]
"""Of a pose's member: where it lies in it, its size along u and v, and what bars it."""


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
        self.u_size_mm = frame.length_mm if along else frame.width_mm
        self.v_size_mm = frame.width_mm if along else frame.length_mm
        self.poses: list[Pose] = []
        self._obstacles: dict[Pose, list[_MemberGround]] = {}
        self._barred_at: dict[tuple[Pose, float, Axis], list[tuple[float, float]]] = {}
        self._remembered = 0
        self._is_whole = frame == usable_frame(board, saw)
        seen = _Seen(self, board, saw)
        for index, blank in enumerate(blanks):
            if not all(suits(board, member.part, saw) for member in blank.members):
                continue
            for turned in (False, True) if blank.may_turn else (False,):
                before: list[Obstacles] | None = None
                for flipped in (False, True):
                    barred = [seen.by(member.part, flipped) for member in blank.members]
                    if before == barred:
                        continue
                    before = barred
                    widths = self._widths(board, blank, saw, turned=turned)
                    for width in widths:
                        pose = self._add(index, as_wide(blank, width), turned, flipped, barred)
                        if pose is None:
                            continue
                        if len(widths) == 1 or self.lies_somewhere(pose):
                            break
                        self.poses.remove(pose)

    def _widths(self, board: Board, blank: Blank, saw: Saw, *, turned: bool) -> tuple[float, ...]:
        """Widths to try [mm], the first that lies somewhere counts: less only off whole boards."""
        return widths_on(board, blank, saw) if self._is_whole and not turned else (blank.width_mm,)

    def on(self, bed: Bed) -> Ground:
        """This ground on another bed that is like its own; what is remembered is shared."""
        other = copy(self)
        other.bed = bed
        return other

    def seen(self, outline: Outline) -> Outline | None:
        """An outline of the board as (u, v) on this bed [mm]; None where it lies off the bed."""
        frame = self.bed.frame
        own = tuple((x - frame.x_mm, y - frame.y_mm) for x, y in outline)
        if self.first_cut is FirstCut.CROSSCUT:
            own = tuple((v, u) for u, v in own)
        box = bounds_of(own)
        is_on = box.x_mm < self.u_size_mm - TOUCH and box.x_end_mm > TOUCH
        return own if is_on and box.y_mm < self.v_size_mm - TOUCH and box.y_end_mm > TOUCH else None

    def _add(
        self, index: int, blank: Blank, turned: bool, flipped: bool, barred: list[Obstacles]
    ) -> Pose | None:
        swap = turned == (self.first_cut is FirstCut.RIP)
        u_size, v_size = (
            (blank.width_mm, blank.length_mm) if swap else (blank.length_mm, blank.width_mm)
        )
        if u_size > self.u_size_mm + TOUCH or v_size > self.v_size_mm + TOUCH:
            return None
        pose = Pose(blank=index, turned=turned, flipped=flipped, u_size_mm=u_size, v_size_mm=v_size)
        entries = []
        for member, obstacles in zip(blank.members, barred, strict=True):
            du, dv = (
                (member.across_mm, member.along_mm) if swap else (member.along_mm, member.across_mm)
            )
            lu, lv = (
                (member.width_mm, member.length_mm) if swap else (member.length_mm, member.width_mm)
            )
            entries.append((du, dv, lu, lv, obstacles))
        self._obstacles[pose] = entries
        self.poses.append(pose)
        return pose

    def lies_somewhere(self, pose: Pose) -> bool:
        """Whether the bed, empty, has a place for the pose."""
        obstacles = self._obstacles[pose][0][-1]
        if obstacles.is_many and len(self._obstacles[pose]) == 1:
            return self._lies_among_many(pose, obstacles)
        v: float | None = 0.0
        while v is not None:
            if self.along(pose, 0.0, v) is not None:
                return True
            v = self.next_height(pose, v)
        return False

    def _lies_among_many(self, pose: Pose, obstacles: Obstacles) -> bool:
        """The same for one member among many obstacles.

        What has a place has one off the rectangles alone as well, with its near corner where one of
        them ends: only such heights are looked at for what slants.
        """
        boxes = obstacles.squares
        us, vs = np.unique([0.0, *boxes[:, 1]]), np.unique([0.0, *obstacles.heights])
        us = us[(us >= 0.0) & (us <= self.u_size_mm - pose.u_size_mm + TOUCH)]
        vs = vs[(vs >= 0.0) & (vs <= self.v_size_mm - pose.v_size_mm + TOUCH)]
        is_free = barred_counts(boxes, us, vs, pose.u_size_mm, pose.v_size_mm) == 0
        hopeful = vs[is_free.any(axis=0)].tolist()
        return any(self.along(pose, 0.0, v) is not None for v in hopeful)

    def is_free(self, pose: Pose, u: float, v: float) -> bool:
        """Whether the pose at (u, v) [mm] is inside the bed and off every obstacle."""
        if (
            u + pose.u_size_mm > self.u_size_mm + TOUCH
            or v + pose.v_size_mm > self.v_size_mm + TOUCH
        ):
            return False
        return self._blocked_until(pose, u, v) is None

    def _blocked_until(self, pose: Pose, u: float, v: float) -> float | None:
        """Where the stretch that bars the pose at (u, v) ends [mm]; None where it is free."""
        return _end_of_bar(self._stretches(pose, v, Axis.ALONG), u)

    def _stretches(self, pose: Pose, at: float, axis: Axis) -> list[tuple[float, float]]:
        """Where along an axis the near corner is barred [mm]: in order, apart from each other.

        Args:
            at: its near corner on the other axis [mm].
        """
        key = (pose, at, axis)
        if key not in self._barred_at:
            barred: list[tuple[float, float]] = []
            for du, dv, lu, lv, obstacles in self._obstacles[pose]:
                own, size = ((du, lu), (dv, lv))[axis]
                low, across = ((dv, lv), (du, lu))[axis]
                low += at
                found = obstacles.stretches(axis, low, low + across)
                barred += [(start - own - size, end - own) for start, end in found]
            self._remember(key, _joined(barred))
        return self._barred_at[key]

    def _remember(
        self, key: tuple[Pose, float, Axis], stretches: list[tuple[float, float]]
    ) -> None:
        """Keeps what bars a pose, and forgets all others where they have become too many."""
        self._remembered += 1 + len(stretches)
        if self._remembered > MOST_REMEMBERED:
            self._barred_at.clear()
            self._remembered = 1 + len(stretches)
        self._barred_at[key] = stretches

    def along(self, pose: Pose, u: float, v: float) -> float | None:
        """The least u' >= u where the pose is free at v; None when there is none."""
        if v + pose.v_size_mm > self.v_size_mm + TOUCH:
            return None
        while u + pose.u_size_mm <= self.u_size_mm + TOUCH:
            further = self._blocked_until(pose, u, v)
            if further is None:
                return u
            u = max(further, u + 2 * TOUCH)
        return None

    def next_height(self, pose: Pose, v: float) -> float | None:
        """The least corner height above v [mm] of an obstacle to this lie; None when none is."""
        above = next((height for height in self._heights(pose) if height > v + TOUCH), math.inf)
        return above if above + pose.v_size_mm <= self.v_size_mm + TOUCH else None

    def _heights(self, pose: Pose) -> list[float]:
        """Where corners of obstacles to this lie stand across the bed [mm], lowest first."""
        (_, dv, _, _, obstacles), *others = self._obstacles[pose]
        if not others and not dv:
            return obstacles.heights
        entries = self._obstacles[pose]
        return sorted({v - dv for _, dv, _, _, obstacles in entries for v in obstacles.heights})

    def across(self, pose: Pose, u: float, v: float) -> float | None:
        """The least corner height v' > v of an obstacle where the pose is free at u; or None."""
        if u + pose.u_size_mm > self.u_size_mm + TOUCH:
            return None
        heights, last = self._heights(pose), self.v_size_mm - pose.v_size_mm
        heights = heights[bisect_right(heights, v + TOUCH) : bisect_right(heights, last + TOUCH)]
        if len(heights) <= FEW:
            free = (each for each in heights if self._blocked_until(pose, u, each) is None)
            return next(free, None)
        barred, number = self._stretches(pose, u, Axis.ACROSS), 0
        while number < len(heights):
            end = _end_of_bar(barred, heights[number])
            if end is None:
                return heights[number]
            number = bisect_left(heights, end - TOUCH, number + 1)
        return None

    def on_board(self, u: float, v: float, u_size: float, v_size: float) -> Rectangle:
        """The rectangle in board coordinates."""
        frame = self.bed.frame
        if self.first_cut is FirstCut.RIP:
            return Rectangle(
                x_mm=frame.x_mm + u, y_mm=frame.y_mm + v, length_mm=u_size, width_mm=v_size
            )
        return Rectangle(
            x_mm=frame.x_mm + v, y_mm=frame.y_mm + u, length_mm=v_size, width_mm=u_size
        )

    def places(self, pose: Pose, u: float, v: float) -> list[Rectangle]:
        """The rectangles of the pose's members in board coordinates."""
        return [
            self.on_board(u + du, v + dv, lu, lv) for du, dv, lu, lv, _ in self._obstacles[pose]
        ]

    def corner_of(self, box: Rectangle) -> tuple[float, float]:
        """The near corner of a rectangle in board coordinates, as (u, v)."""
        frame = self.bed.frame
        x, y = box.x_mm - frame.x_mm, box.y_mm - frame.y_mm
        return (x, y) if self.first_cut is FirstCut.RIP else (y, x)


class Grounds:
    """The ground of each bed, worked out when it is first asked for: most beds of many never are.

    Attributes:
        beds: in the order of their numbers.
        looks: a number for each bed that those alike in all but name share.
    """

    def __init__(
        self,
        request: CuttingRequest,
        blanks: tuple[Blank, ...],
        beds: tuple[Bed, ...],
        first_cut: FirstCut,
    ) -> None:
        self.beds = beds
        numbers: dict[tuple[Board, Rectangle], int] = {}
        self.looks = [
            numbers.setdefault((request.boards[bed.board].kind, bed.frame), number)
            for number, bed in enumerate(beds)
        ]
        self._asked = request, blanks, first_cut
        self._made: dict[int, Ground] = {}

    def __getitem__(self, number: int) -> Ground:
        """The ground of the bed of that number."""
        if number not in self._made:
            request, blanks, first_cut = self._asked
            bed, look = self.beds[number], self.looks[number]
            if look == number:
                board = request.boards[bed.board]
                self._made[number] = Ground(bed, board, blanks, request.saw, first_cut)
            else:
                self._made[number] = self[look].on(bed)
        return self._made[number]


def carved(bed: Bed, pinned: Rectangle, kerf: float, first_cut: FirstCut) -> tuple[Bed, ...]:
    """What is left of a bed to either side of a pinned rectangle, a kerf away [mm]."""
    f, p = bed.frame, pinned
    left, right = p.x_mm - kerf - f.x_mm, f.x_end_mm - p.x_end_mm - kerf
    below, above = p.y_mm - kerf - f.y_mm, f.y_end_mm - p.y_end_mm - kerf
    if first_cut is FirstCut.CROSSCUT:
        spots = [
            (f.x_mm, f.y_mm, left, f.width_mm),
            (p.x_end_mm + kerf, f.y_mm, right, f.width_mm),
            (p.x_mm, f.y_mm, p.length_mm, below),
            (p.x_mm, p.y_end_mm + kerf, p.length_mm, above),
        ]
    else:
        spots = [
            (f.x_mm, f.y_mm, f.length_mm, below),
            (f.x_mm, p.y_end_mm + kerf, f.length_mm, above),
            (f.x_mm, p.y_mm, left, p.width_mm),
            (p.x_end_mm + kerf, p.y_mm, right, p.width_mm),
        ]
    return tuple(
        Bed(board=bed.board, frame=Rectangle(x_mm=x, y_mm=y, length_mm=length, width_mm=width))
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


def _end_of_bar(stretches: Sequence[tuple[float, float]], at: float) -> float | None:
    """Where the stretch that bars a place ends [mm]; None where none does."""
    number = bisect_left(stretches, (at - TOUCH,)) - 1
    return stretches[number][1] if number >= 0 and stretches[number][1] > at + TOUCH else None


class _Seen:
    """What bars parts on a ground, those alike once for all."""

    def __init__(self, ground: Ground, board: Board, saw: Saw) -> None:
        self._of = ground, board, saw
        self._by_rule: dict[tuple[object, ...], Obstacles] = {}
        self._by_outlines: dict[tuple[Outline, ...], Obstacles] = {}

    def by(self, part: CutPart, flipped: bool) -> Obstacles:
        """What bars a part that lies so."""
        key = (part.show_face_tolerates, part.hidden_face_tolerates, flipped)
        if key not in self._by_rule:
            ground, board, saw = self._of
            barred = map(ground.seen, obstacles_for(board, part, saw, flipped=flipped))
            outlines = tuple(dict.fromkeys(each for each in barred if each is not None))
            self._by_rule[key] = self._by_outlines.setdefault(outlines, Obstacles(outlines))
        return self._by_rule[key]
