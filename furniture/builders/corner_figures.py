"""Where a corner has room for splines and keys, and how large they usually are there."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product

from furniture.joints import (
    Joint,
    MitrePlane,
    deepest_key_mm,
    deepest_spline_mm,
    nearest_spline_mm,
)
from furniture.joints.relation import CannotMeet
from furniture.parts.cuts import Bite, Channel, Cut, Hole
from furniture.parts.part import Placed
from furniture.rules import Rules
from furniture.rules.building import (
    CORNER_PART_CLEAR,
    LEAST_OPENING_WOOD,
    LEAST_SPLINE_WIDTH,
    USUAL_KEY,
    USUAL_SPLINE,
)
from furniture.rules.joinery import LEAST_KEY, LEAST_SPLINE_INTO
from furniture.units import Amounts, Shown

_HAIR_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A stretch along a mitre's sharp line that no other cut takes [mm]."""

    low: float
    high: float

    @property
    def length(self) -> float:
        """From end to end [mm]."""
        return self.high - self.low


def free_band(
    plane: MitrePlane, boards: Sequence[Placed], placed: Sequence[Placed], joints: Sequence[Joint]
) -> Band:
    """The longest free stretch of a corner, from the face edge or, lying flat, the first's y or z.

    Args:
        plane: the mitre on the first of the boards.
        boards: the two.
        placed: every part of the piece in its place.
        joints: between them.
    """
    by_name = {each.instance: each for each in placed}
    taken = sorted(
        span
        for board in boards
        for cut in (*board.part.cuts, *_cuts_on(board, by_name, joints))
        for span in _taken(plane, board, cut)
    )
    at, best = 0.0, Band(low=0.0, high=0.0)
    for low, high in (*taken, (plane.run_mm, plane.run_mm)):
        if low - at > best.length:
            best = Band(low=at, high=low)
        at = max(at, high)
    return best


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A stretch along a corner that another cut takes, and how far down the mitre it begins [mm].

    What lies in that cut fills it, so no spline may reach into it.
    """

    low: float
    high: float
    from_down: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Clear:
    """Where along a corner a spline may lie whose groove is so much longer at each end [mm]."""

    taken: tuple[Taken, ...]
    gap: float
    run: float

    @property
    def low(self) -> float:
        """The least start."""
        at_low = [each.high for each in self.taken if each.low < self.gap + _HAIR_MM]
        return max((high + self.gap for high in at_low), default=0.0)

    @property
    def high(self) -> float:
        """The farthest end."""
        at_high = [each.low for each in self.taken if each.high > self.run - self.gap - _HAIR_MM]
        return min((low - self.gap for low in at_high), default=self.run)

    def beyond(self, start: float) -> float:
        """The least start from there on, past what lies there."""
        at = [
            each.high + self.gap
            for each in self.taken
            if each.low - self.gap + _HAIR_MM < start < each.high + self.gap - _HAIR_MM
        ]
        return max(at, default=start)

    def end_from(self, start: float) -> float:
        """How far a spline from there may reach."""
        ahead = [each.low - self.gap for each in self.taken if each.low >= start]
        return min((*ahead, self.run))


def taken_from_inside(
    plane: MitrePlane, placed: Sequence[Placed], joints: Sequence[Joint]
) -> tuple[Taken, ...]:
    """What rabbets and grooves in the inner face of the first board take of its tilted mitre.

    Args:
        plane: the mitre on the board.
        placed: every part of the piece in its place.
        joints: between them.
    """
    board, blank = plane.part, plane.part.part.blank
    inner = plane.long_point.opposite
    by_name = {each.instance: each for each in placed}
    found = []
    for cut in (*board.part.cuts, *_cuts_on(board, by_name, joints)):
        shape = cut.shape(blank)
        if isinstance(shape, Channel) and inner in (shape.face, shape.step):
            low, high = (corner[2] for corner in shape.corners(blank))
            deep = high - low
            for start, end in _taken(plane, board, cut):
                left = 1.0 - deep / blank.thickness_mm
                found.append(Taken(low=start, high=end, from_down=left * plane.slope_mm))
    return tuple(found)


def _cuts_on(board: Placed, by_name: dict[str, Placed], joints: Iterable[Joint]) -> Iterator[Cut]:
    """What the joints cut in a board; one that cannot be worked is told when it is composed."""
    for joint in joints:
        if board.instance not in (joint.into, joint.incoming) or joint.mitres_ends:
            continue
        if not {joint.into, joint.incoming} <= by_name.keys():
            continue
        try:
            worked = joint.work(by_name[joint.into], by_name[joint.incoming])
        except CannotMeet:
            continue
        yield from worked.into_cuts if joint.into == board.instance else worked.incoming_cuts


def _taken(plane: MitrePlane, board: Placed, cut: Cut) -> Iterator[tuple[float, float]]:
    """The stretch of the corner that a cut takes, if it comes near it."""
    blank = board.part.blank
    shape = cut.shape(blank)
    if isinstance(shape, Hole):
        reach = shape.mouth_radius_mm
        ends = [shape.first, shape.last]
        low = [min(end[axis] for end in ends) - reach for axis in range(3)]
        high = [max(end[axis] for end in ends) + reach for axis in range(3)]
    elif isinstance(shape, (Channel, Bite)):
        first, last = shape.corners(blank)
        low, high = list(first), list(last)
    else:
        return
    seen = [
        plane.read(board.placement.to_piece((x, y, z)))
        for x, y, z in product(*zip(low, high, strict=True))
    ]
    off, along = [point[2] for point in seen], [point[1] for point in seen]
    if min(off) < plane.slope_mm and max(off) > -plane.slope_mm:
        yield max(0.0, min(along)), min(plane.run_mm, max(along))


@dataclass(frozen=True, slots=True, kw_only=True)
class SplineRoom:
    """A spline that its corner has room for [mm], as a rule in the shop shows its figures."""

    into_each: float
    from_long_point: float
    start: float
    width: float


def usual_spline(
    plane: MitrePlane, band: Band, thickness: float, gap: float, shown: Shown, rules: Rules
) -> SplineRoom | None:
    """The spline that strengthens a corner well; None where it has no room.

    It lies a little inside the middle of the mitre, as deep as that leaves wood outside it. Common
    practice, no source.

    Args:
        plane: the mitre.
        band: the free stretch along it.
        thickness: of the spline [mm].
        gap: below it, and at its ends [mm].
        shown: the piece's unit.
        rules: the shop's own limits.
    """
    amounts = Amounts(shown=shown)
    nearest = nearest_spline_mm(plane, gap, rules)
    if plane.third_axis == 2:  # flat: thickness through the boards, width down the mitre
        down = amounts.up(nearest)
        width = amounts.down(plane.slope_mm - down - gap - rules[CORNER_PART_CLEAR])
        start = amounts.down(plane.run_mm - (band.low + band.high + thickness) / 2)
        ends = band.high if thickness <= band.length else math.inf
    else:
        farthest = plane.slope_mm - thickness - rules[CORNER_PART_CLEAR]
        usual = rules[USUAL_SPLINE] * plane.slope_mm - thickness / 2
        down = amounts.down(min(max(usual, nearest), farthest))
        down = down if down >= nearest else amounts.up(nearest)
        margin = gap + rules[LEAST_OPENING_WOOD]
        start = amounts.up(band.low + margin)
        width = amounts.down(band.high - margin - start)
        ends = start
        if down > farthest + 1e-9:
            return None
    deep = amounts.down(deepest_spline_mm(plane, down, gap, rules))
    if deep < rules[LEAST_SPLINE_INTO] or width < rules[LEAST_SPLINE_WIDTH] or ends > band.high:
        return None
    return SplineRoom(into_each=deep, from_long_point=down, start=start, width=width)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyRoom:
    """Keys that their corner has room for [mm]: how deep, and where each one starts."""

    depth: float
    starts: tuple[float, ...]


def most_keys(band: Band, thickness: float, rules: Rules) -> int:
    """How many keys have room along a corner, with whole wood between and beside them."""
    wood = rules[LEAST_OPENING_WOOD]
    return max(0, math.floor((band.length - wood) / (thickness + wood) + 1e-9))


def usual_keys(
    plane: MitrePlane, band: Band, thickness: float, count: int, shown: Shown, rules: Rules
) -> KeyRoom | None:
    """Keys spread evenly over a corner's free stretch, as deep as is usual; None without room.

    Args:
        plane: the mitre.
        band: the free stretch along it.
        thickness: of the keys [mm].
        count: how many.
        shown: the piece's unit.
        rules: the shop's own limits.
    """
    if count > most_keys(band, thickness, rules):
        return None
    amounts = Amounts(shown=shown)
    depth = amounts.down(rules[USUAL_KEY] * plane.slope_mm)
    if not rules[LEAST_KEY] <= depth <= deepest_key_mm(plane, rules):
        return None
    free = band.length - count * thickness
    between = free / (count + 1)
    begins = [band.low + between * (n + 1) + thickness * n for n in range(count)]
    if plane.third_axis == 2:  # boards that lie flat are struck from the face side
        begins = [plane.run_mm - each - thickness for each in reversed(begins)]
    starts = tuple(amounts.down(each) for each in begins)
    return KeyRoom(depth=depth, starts=starts)
