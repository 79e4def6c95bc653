"""A kind of board and what is cut from it in whole units: what exact tables count in.

The kerf is on every size and on the board. In favour of the pieces (for a bound) boards are rounded
up, and pieces and faults down; against them (for a layout) the other way. Where a unit divides all,
both are the same.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from furniture.shop.cutting.blanks import Blank, narrowest_on, suits
from furniture.shop.cutting.conflicts import boxes_barred
from furniture.shop.cutting.plan import Placement, Rectangle
from furniture.shop.cutting.values import Board, CuttingRequest
from furniture.shop.cutting.zones import bounds_of, obstacles_for, usable_frame

FINEST_MM, COARSEST_STEPS = 0.01, 400
"""A unit is what divides all sizes, at least so much [mm]; where its cuts would be too many for the
tables, the longer side is so many units. Own rule: a second, some ten megabytes."""

MOST_CUTS = 200_000
"""Places of cuts along the board times those across. Own rule, as above."""

_SAME = 1e-4
"""Of a step: a size so near a whole one is whole."""


class Rounding(Enum):
    """Whom sizes are rounded for."""

    FOR_PIECES = "for pieces"
    AGAINST_PIECES = "against pieces"


@dataclass(frozen=True, slots=True)
class Box:
    """Near and far corner in units."""

    x: int
    y: int
    x_end: int
    y_end: int


@dataclass(frozen=True, slots=True)
class Shape:
    """One way for a piece, by its index, to lie: sizes in units with the kerf on, what bars it."""

    piece: int
    length: int
    width: int
    is_turned: bool
    is_flipped: bool
    barred: tuple[Box, ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """A shape, by its index, with its near corner in units."""

    shape: int
    x: int
    y: int


@dataclass(frozen=True, slots=True)
class UnitBoard:
    """A board in units with the kerf on, and the shapes of what lies on it.

    most: of each piece on one board at most. unit, kerf: [mm].
    """

    length: int
    width: int
    shapes: tuple[Shape, ...]
    most: tuple[int, ...]
    unit: float
    kerf: float

    @property
    def is_clear(self) -> bool:
        """Whether nothing bars any shape."""
        return not any(shape.barred for shape in self.shapes)

    def cuts(self) -> tuple[list[int], list[int]]:
        """Where edges of pieces may lie along and across: sums of sizes, from faults' far edges."""
        return self._cuts_along(0), self._cuts_along(1)

    def _cuts_along(self, axis: int) -> list[int]:
        boxes = {box for shape in self.shapes for box in shape.barred}
        starts = {0, *((box.x_end if axis == 0 else box.y_end) for box in boxes)}
        sizes = [
            (shape.length if axis == 0 else shape.width, self.most[shape.piece])
            for shape in self.shapes
        ]
        limit = self.length if axis == 0 else self.width
        return _reachable(sizes, limit, sorted(starts))

    def placements(
        self, board: Board, blanks: Sequence[Blank], spots: Sequence[Spot], frame: Rectangle
    ) -> Iterator[Placement]:
        """The spots as places on a board [mm]; blanks: by the pieces' index."""
        for spot in spots:
            shape = self.shapes[spot.shape]
            (member,) = blanks[shape.piece].members
            length, width = member.length_mm, member.width_mm
            if shape.is_turned:
                length, width = width, length
            yield Placement(
                part=member.part.name,
                copy=1,
                board=board.name,
                place=Rectangle(
                    x_mm=frame.x_mm + spot.x * self.unit,
                    y_mm=frame.y_mm + spot.y * self.unit,
                    length_mm=length,
                    width_mm=width,
                ),
                strip=member.strip,
                is_turned=shape.is_turned,
                is_flipped=shape.is_flipped,
            )


LEAST_BOARD = UnitBoard(
    1, 1, (Shape(0, 1, 1, is_turned=False, is_flipped=False, barred=()),), (1,), 1.0, 0.0
)
"""A board that a single piece fills: what is compiled is loaded with it."""


def unit_board(
    request: CuttingRequest, board: Board, blanks: Sequence[Blank], rounding: Rounding
) -> UnitBoard:
    """The board in the finest unit whose cuts are few enough.

    Args:
        blanks: single pieces, each kind of piece once.
    """
    sides = _Sides(request, board, blanks, rounding)
    unit = sides.divisor()
    made = sides.board(unit)
    along, across = made.cuts()
    if (len(along) - 1) * (len(across) - 1) > MOST_CUTS:
        unit = max(made.length, made.width) * unit / COARSEST_STEPS
        made = sides.board(unit)
    return made


def finest_unit_board(
    request: CuttingRequest, board: Board, blanks: Sequence[Blank], rounding: Rounding
) -> UnitBoard:
    """The board in the finest unit, however many cuts it has: for what keeps no tables of them.

    Args:
        blanks: single pieces, each kind of piece once.
    """
    return _Sides(request, board, blanks, rounding).board(FINEST_MM)


@dataclass(frozen=True, slots=True)
class _Sides:
    """Sizes [mm] on their way to units."""

    request: CuttingRequest
    whole: Board
    blanks: Sequence[Blank]
    rounding: Rounding

    def divisor(self) -> float:
        """The greatest unit that divides all sizes, rounded to the finest [mm]."""
        frame, kerf = usable_frame(self.whole, self.request.saw), self.request.saw.kerf_mm
        sizes = [frame.length_mm + kerf, frame.width_mm + kerf]
        for _, length, width, _, _, boxes in self._placements():
            sizes += [length + kerf, width + kerf]
            for box in boxes:
                sizes += [box.x_mm - frame.x_mm, box.y_mm - frame.y_mm, box.x_end_mm - frame.x_mm]
                sizes += [box.y_end_mm - frame.y_mm]
        steps = [round(size / FINEST_MM) for size in sizes]
        whole = all(
            abs(s - n * FINEST_MM) <= _SAME * FINEST_MM for s, n in zip(sizes, steps, strict=True)
        )
        return math.gcd(*steps) * FINEST_MM if whole else FINEST_MM

    def board(self, unit: float) -> UnitBoard:
        """The board in a unit [mm]."""
        saw = self.request.saw
        frame, kerf = usable_frame(self.whole, saw), saw.kerf_mm
        low, high = (_down, _up) if self.rounding is Rounding.AGAINST_PIECES else (_up, _down)
        length, width = low(frame.length_mm + kerf, unit), low(frame.width_mm + kerf, unit)
        shapes = []
        for piece, along, across, is_turned, is_flipped, boxes in self._placements():
            size = max(1, high(along + kerf, unit)), max(1, high(across + kerf, unit))
            if size[0] > length or size[1] > width:
                continue
            barred = [
                Box(
                    low(box.x_mm - frame.x_mm, unit), low(box.y_mm - frame.y_mm, unit),
                    high(box.x_end_mm - frame.x_mm, unit), high(box.y_end_mm - frame.y_mm, unit),
                )
                for box in boxes
            ]  # fmt: skip
            kept = tuple(b for b in barred if b.x < b.x_end and b.y < b.y_end)
            shapes.append(Shape(piece, *size, is_turned, is_flipped, kept))
        most = [0] * len(self.blanks)
        for shape in shapes:
            fit = (length // shape.length) * (width // shape.width)
            if shape.is_turned or self.blanks[shape.piece].may_turn:
                fit = (length * width) // (shape.length * shape.width)
            most[shape.piece] = min(self.blanks[shape.piece].quantity, max(fit, most[shape.piece]))
        return UnitBoard(length, width, tuple(shapes), tuple(most), unit, kerf)

    def _placements(
        self,
    ) -> Iterator[tuple[int, float, float, bool, bool, tuple[Rectangle, ...]]]:
        """Piece, length and width on the board [mm], turned, flipped, and what bars it."""
        saw = self.request.saw
        for piece, blank in enumerate(self.blanks):
            (member,) = blank.members
            if not suits(self.whole, member.part, saw):
                continue
            length, width = blank.length_mm, blank.width_mm
            ways: list[tuple[bool, tuple[Rectangle, ...]]] = []
            if self.rounding is Rounding.FOR_PIECES:
                width = narrowest_on(self.whole, blank, saw).width_mm
                ways.append((False, boxes_barred(self.whole, blank, saw)))
            else:
                for is_flipped in (False, True):
                    barred = obstacles_for(self.whole, member.part, saw, flipped=is_flipped)
                    boxes = tuple(dict.fromkeys(bounds_of(outline) for outline in barred))
                    if not any(boxes == other for _, other in ways):
                        ways.append((is_flipped, boxes))
            for is_flipped, boxes in ways:
                yield piece, length, width, False, is_flipped, boxes
                if blank.may_turn:
                    yield piece, width, length, True, is_flipped, boxes


def _up(length: float, unit: float) -> int:
    return math.ceil(length / unit - _SAME)


def _down(length: float, unit: float) -> int:
    return math.floor(length / unit + _SAME)


def _reachable(sizes: Sequence[tuple[int, int]], limit: int, origins: Sequence[int]) -> list[int]:
    """Sums of (size, copies) from any origin, each size so often at most, up to the limit.

    Ascending, the limit among them.
    """
    mask = (1 << (limit + 1)) - 1
    bits = 0
    for origin in origins:
        if 0 <= origin <= limit:
            bits |= 1 << origin
    for size, copies in sizes:
        left = min(copies, limit // size) if size else 0
        times = 1
        while left > 0:
            step = min(times, left)
            bits |= (bits << (size * step)) & mask
            left -= step
            times *= 2
    bits |= 1 << limit
    return [n for n, bit in enumerate(reversed(bin(bits)[2:])) if bit == "1"]
