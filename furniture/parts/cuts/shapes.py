"""What a cut looks like once it is made: few shapes, which every reader asks for, never the kind.

A cut says its shape in the part frame with `Cut.shape`. A reader takes the shapes it has something
to say of (`shapes_of`), or matches all of them and ends with `assert_never`, so that a new shape is
an error of the type checker and of the program and not a silence. Lengths in mm, angles in degrees.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.parts.blank import Blank
from furniture.parts.cuts.left import SKIN_MM, Left, Leftover, left_of_box, put
from furniture.parts.cuts.slopes import InSlope, Slope
from furniture.parts.cuts.stub import Stub
from furniture.parts.faces import WIDE_FACES, Arris, Face, face_on
from furniture.parts.vectors import Vector, add, scaled

_INSCRIBED = 1.0 - math.sqrt(0.5)
"""What the greatest square in a circle leaves of its radius."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Channel:
    """A trench or a step of square section: sunk from a face, with a floor, carried along an axis.

    Args:
        face: the face that it is sunk from.
        along: the part axis that it runs along.
        wide: from wall to wall, on the axis across its run [mm].
        floor_mm: where the floor lies, on the axis of `face` [mm].
        run: from where to where it goes along its axis [mm].
        step: the edge or end that it is open at instead of having a wall there; a trench has none.
        corner_mm: the radius that the cutter left in the corners of its stopped ends [mm].
        is_mortise: whether it is a hole for a tenon, and told as one, rather than a trench.
    """

    face: Face
    along: int
    wide: tuple[float, float]
    floor_mm: float
    run: tuple[float, float]
    step: Face | None = None
    corner_mm: float = 0.0
    is_mortise: bool = False

    @property
    def wide_axis(self) -> int:
        """The part axis from wall to wall."""
        return 3 - self.along - self.face.axis

    @property
    def is_across_grain(self) -> bool:
        """Whether it crosses the grain in a wide face with a shoulder on both sides: a housing."""
        return self.along == 1 and self.face in WIDE_FACES and self.step is None

    @property
    def mouths(self) -> tuple[Face, ...]:
        """The faces that it opens along its whole run."""
        return (self.face,) if self.step is None else (self.step, self.face)

    def surface_mm(self, blank: Blank) -> float:
        """Where the face that it is sunk from lies, on that face's axis [mm]."""
        return level_of(self.face, blank)

    def depth_mm(self, blank: Blank) -> float:
        """From the face to the floor [mm]."""
        return abs(self.surface_mm(blank) - self.floor_mm)

    def corners(self, blank: Blank) -> tuple[Vector, Vector]:
        """Its least and its greatest corner, part frame [mm]."""
        surface = self.surface_mm(blank)
        spans = {
            self.along: self.run,
            self.wide_axis: self.wide,
            self.face.axis: (min(surface, self.floor_mm), max(surface, self.floor_mm)),
        }
        return _corners(spans)

    def middle(self, blank: Blank, level: float) -> Vector:
        """Its middle from wall to wall and along its run, at a level on the axis of `face` [mm]."""
        return put(scaled(add(*self.corners(blank)), 0.5), self.face.axis, level)

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """The wood behind it, beside it and beyond its stopped ends."""
        low, high = self.corners(blank)
        return left_of_box(low, high, blank, frozenset(self.mouths), self.face.opposite)

    def opens(self, blank: Blank) -> frozenset[Face]:
        """Every face of the blank that it breaks, where it runs out too."""
        return _reached(*self.corners(blank), blank)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bite:
    """A bite out of an edge or an end, right through the thickness.

    Args:
        edge: what it is cut from.
        span: from where to where it goes along that edge [mm].
        depth_mm: how far it goes in [mm].
        corner_mm: the radius of its inner corners; half of the span is half round [mm].
    """

    edge: Face
    span: tuple[float, float]
    depth_mm: float
    corner_mm: float = 0.0

    @property
    def mouths(self) -> tuple[Face, ...]:
        """The face that it opens along its whole length."""
        return (self.edge,)

    def corners(self, blank: Blank) -> tuple[Vector, Vector]:
        """Its least and its greatest corner, part frame [mm]."""
        return _corners(self._spans(blank, self.span, self.depth_mm))

    def core(self, blank: Blank) -> tuple[Vector, Vector]:
        """The corners of what is left of it where the radius of its corners is taken off [mm]."""
        radius = self.corner_mm
        span = (self.span[0] + radius, self.span[1] - radius)
        return _corners(self._spans(blank, span, self.depth_mm - radius))

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """The wood behind its floor where it is deepest, and beside it where it is longest."""
        run_axis, radius = 1 - self.edge.axis, self.corner_mm
        middle = (self.span[0] + self.span[1]) / 2
        flat = (min(self.span[0] + radius, middle), max(self.span[1] - radius, middle))
        wall = max(self.depth_mm - radius, SKIN_MM)
        beside = frozenset({*WIDE_FACES, self.edge, self.edge.opposite})
        behind = frozenset({*WIDE_FACES, self.edge, face_on(run_axis, False),
                            face_on(run_axis, True)})  # fmt: skip
        return (
            *left_of_box(
                *_corners(self._spans(blank, flat, self.depth_mm)),
                blank, behind, self.edge.opposite,
            ),
            *left_of_box(*_corners(self._spans(blank, self.span, wall)), blank, beside, None),
        )  # fmt: skip

    def opens(self, blank: Blank) -> frozenset[Face]:
        """Every face of the blank that it breaks."""
        return _reached(*self.corners(blank), blank)

    def _spans(
        self, blank: Blank, span: tuple[float, float], depth: float
    ) -> dict[int, tuple[float, float]]:
        extent = blank.across(self.edge)
        inwards = (extent - depth, extent) if self.edge.is_far else (0.0, depth)
        return {1 - self.edge.axis: span, self.edge.axis: inwards, 2: (0.0, blank.thickness_mm)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A round or round-ended hole square to a face.

    Args:
        face: the face that it is sunk from.
        first: the centre of one end, on the face, part frame [mm].
        last: the centre of the other; a round hole has both in one place [mm].
        radius_mm: of its ends, half its width [mm].
        depth_mm: below the face; None goes right through [mm].
        mouth_radius_mm: of its widest place, at the face [mm].
    """

    face: Face
    first: Vector
    last: Vector
    radius_mm: float
    depth_mm: float | None
    mouth_radius_mm: float

    @property
    def mouths(self) -> tuple[Face, ...]:
        """A hole opens no face along a run."""
        return ()

    @property
    def is_round(self) -> bool:
        """Whether it is bored, with one centre."""
        return self.first == self.last

    @property
    def width_mm(self) -> float:
        """Across its run, or its diameter [mm]."""
        return 2.0 * self.radius_mm

    @property
    def length_mm(self) -> float:
        """Over all, along its run [mm]."""
        return math.dist(self.first, self.last) + self.width_mm

    @property
    def centre(self) -> Vector:
        """The middle of its mouth, part frame [mm]."""
        return scaled(add(self.first, self.last), 0.5)

    @property
    def run_axis(self) -> int | None:
        """The part axis that a long hole lies along; a round one has none."""
        return next((axis for axis in range(3) if self.first[axis] != self.last[axis]), None)

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """The wood behind a blind one and beside it, and beside its countersink."""
        found = [
            left
            for left in self._grown(blank, self.radius_mm)
            if left.towards.axis != self.face.axis
        ]
        if self.mouth_radius_mm > self.radius_mm:
            found += [
                left
                for left in self._grown(blank, self.mouth_radius_mm, SKIN_MM)
                if left.towards.axis != self.face.axis
            ]
        if self.depth_mm is not None:
            flat = self.radius_mm * (1.0 - _INSCRIBED)
            low, high = self._box(blank, self.depth_mm, flat, flat)
            sides = frozenset(face for face in Face if face is not self.face.opposite)
            found += left_of_box(low, high, blank, sides, self.face.opposite)
        return tuple(found)

    def opens(self, blank: Blank) -> frozenset[Face]:
        """The face that it is sunk from, and the opposite one where it goes right through."""
        del blank
        both = {self.face, self.face.opposite}
        return frozenset(both) if self.depth_mm is None else frozenset({self.face})

    def corners(self, blank: Blank) -> tuple[Vector, Vector]:
        """The corners of the box round it, its countersink too, part frame [mm]."""
        depth = blank.across(self.face) if self.depth_mm is None else self.depth_mm
        return self._box(blank, depth, self.mouth_radius_mm, self.mouth_radius_mm)

    def _grown(self, blank: Blank, radius: float, depth: float | None = None) -> list[Left]:
        """What is left beside it, each way from the middle of its flank."""
        deep = depth or (blank.across(self.face) if self.depth_mm is None else self.depth_mm)
        found = []
        for axis in (each for each in range(3) if each != self.face.axis):
            other = 3 - axis - self.face.axis
            grown = {axis: radius, other: 0.0}
            low, high = self._box(blank, deep, grown[min(axis, other)], grown[max(axis, other)])
            found += [
                left
                for left in left_of_box(low, high, blank, frozenset(), None)
                if left.towards.axis == axis
            ]
        return found

    def _box(
        self, blank: Blank, depth: float, first: float, second: float
    ) -> tuple[Vector, Vector]:
        """The box down to a depth, grown sideways by two amounts in the order of the axes."""
        surface = level_of(self.face, blank)
        floor = surface - depth if self.face.is_far else surface + depth
        u, v = (axis for axis in range(3) if axis != self.face.axis)
        spans = {self.face.axis: (min(surface, floor), max(surface, floor))}
        for axis, grow in ((u, first), (v, second)):
            ends = (self.first[axis], self.last[axis])
            spans[axis] = (min(ends) - grow, max(ends) + grow)
        return _corners(spans)


@dataclass(frozen=True, slots=True, kw_only=True)
class Eased:
    """A whole arris taken off, round or flat, by as much on both faces [mm]."""

    arris: Arris
    size_mm: float
    is_round: bool

    @property
    def mouths(self) -> tuple[Face, ...]:
        """It takes a sharp line and opens no face."""
        return ()

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """What it leaves of the two faces that meet in the arris."""
        found = []
        for face, other in (
            (self.arris.first, self.arris.second),
            (self.arris.second, self.arris.first),
        ):
            low, high = [0.0, 0.0, 0.0], list(blank.size)
            under = level_of(face, blank) + (-SKIN_MM if face.is_far else SKIN_MM)
            low[face.axis] = high[face.axis] = under
            edge = level_of(other, blank)
            inner = edge - self.size_mm if other.is_far else self.size_mm
            low[other.axis], high[other.axis] = min(edge, inner), max(edge, inner)
            found += [
                Left(
                    what=Leftover.OF_FACE, at=left.at, way=left.way, sides=left.sides,
                    towards=left.towards,
                )
                for left in left_of_box(_vector(low), _vector(high), blank, frozenset(), None)
                if left.towards is other.opposite
            ]  # fmt: skip
        return tuple(found)

    def opens(self, blank: Blank) -> frozenset[Face]:
        """Both faces of the arris, and the two that it runs out at."""
        del blank
        run = self.arris.run_axis
        return frozenset({self.arris.first, self.arris.second, face_on(run, True),
                          face_on(run, False)})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class TongueEnd:
    """The end of a tongue rounded to go into a stopped trench.

    Args:
        edge: what the tongue stands on.
        side: where its end looks.
        inset_mm: how far inside that side the end lies [mm].
        depth_mm: how much of the tongue is rounded, from `edge` [mm].
        radius_mm: of both rounds [mm].
    """

    edge: Face
    side: Face
    inset_mm: float
    depth_mm: float
    radius_mm: float

    @property
    def mouths(self) -> tuple[Face, ...]:
        """It takes sharp lines and opens no face."""
        return ()

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """The rest of the tongue beyond its rounds, and of the part below the tongue."""
        edge, side = self.edge, self.side
        spans = {
            edge.axis: _from(edge, 0.0, self.depth_mm, blank),
            side.axis: _from(side, self.inset_mm, self.inset_mm + self.radius_mm, blank),
            2: (0.0, blank.thickness_mm),
        }
        told = frozenset({edge.opposite, side.opposite})
        return left_of_box(*_corners(spans), blank, frozenset(Face) - told, None)

    def opens(self, blank: Blank) -> frozenset[Face]:
        """Its edge, both wide faces, and its side where it is not set back."""
        del blank
        sides = {self.side} if self.inset_mm <= 0.0 else set()
        return frozenset({self.edge, *WIDE_FACES, *sides})


Shape = Channel | Bite | Hole | Slope | InSlope | Eased | TongueEnd | Stub


def level_of(face: Face, blank: Blank) -> float:
    """Where a face of the blank lies on its own axis [mm]."""
    return blank.across(face) if face.is_far else 0.0


def _from(face: Face, start: float, end: float, blank: Blank) -> tuple[float, float]:
    """A span inwards from a face, in part coordinates [mm]."""
    extent = blank.across(face)
    return (extent - end, extent - start) if face.is_far else (start, end)


def _corners(spans: dict[int, tuple[float, float]]) -> tuple[Vector, Vector]:
    return (
        (spans[0][0], spans[1][0], spans[2][0]),
        (spans[0][1], spans[1][1], spans[2][1]),
    )


def _reached(low: Vector, high: Vector, blank: Blank) -> frozenset[Face]:
    """The faces of the blank that a box reaches."""
    return frozenset(
        face
        for face in Face
        if (high[face.axis] >= blank.across(face) - 1e-9 if face.is_far else low[face.axis] <= 1e-9)
    )


def _vector(values: list[float]) -> Vector:
    return put((0.0, values[1], values[2]), 0, values[0])
