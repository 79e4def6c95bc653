"""A part of a maker's own piece that turns on bought hinges, and the stay that stops it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from furniture.builders.lid_stay import (
    Stay,
    stay_note,
    stays_bought,
)
from furniture.builders.measured_hinge import (
    Hinge,
    hung_note,
    screws_bought,
)
from furniture.joints import HingeJoint, Leaf, barrel_side
from furniture.joints.relation import CannotMeet, over_edge
from furniture.parts.cuts import Bore
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector, add, cross, dot, length, scaled, subtract
from furniture.pieces import Bought, LongerScrews, Note, TurnsOpen
from furniture.units import (
    REQUIRED,
    Given,
    Shown,
    parameters,
)


@parameters
class Hung:
    """A part of one's own piece that turns on hinges, placed as it lies closed: a gap off an edge
    of what it hangs on, flush with it where the barrels stand.

    Args:
        part: that turns.
        on: what it hangs on.
        hinge: as it was measured; all are alike.
        count: two hinges, or three.
        inset: from the end of what it hangs on to the outer end of a hinge (default: as long as
            the hinge is).
        stay: what stops it when it is open; it has one for each part that one is screwed to.
        stays_on: the parts at its sides that a stay is screwed to, one or two.
    """

    part: str = REQUIRED
    on: str = REQUIRED
    hinge: Hinge = REQUIRED
    count: int = 2
    inset: Given | None = None
    stay: Stay = field(default_factory=Stay)
    stays_on: Sequence[str] = REQUIRED


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosedPlacement:
    """How the two lie closed: out to the barrels, up from the one to the other."""

    into: Placed
    turning: Placed
    out: Vector
    up: Vector
    arris: Vector
    gap: float

    @property
    def along(self) -> Vector:
        """The way along the pin about which it opens, right-handed."""
        return cross(self.up, self.out)

    @property
    def _lies_over(self) -> bool:
        """Whether it lies over what it hangs on, as a lid over a rail, and not beside it."""
        return self.turning.placement.face_towards(scaled(self.up, -1.0)) in WIDE_FACES

    @property
    def reach(self) -> Vector:
        """The way from the pin to its free edge."""
        return scaled(self.out, -1.0) if self._lies_over else self.up

    @property
    def rise(self) -> Vector:
        """The way that its free edge goes at first."""
        return self.up if self._lies_over else self.out

    @property
    def under(self) -> float:
        """Where its underside lies on its way up [mm]."""
        return self.extent(self.turning, self.rise)[0]

    def pin(self, leaf: Leaf) -> Vector:
        """The middle of the pin [mm].

        Args:
            leaf: of the hinges.
        """
        half = add(scaled(self.out, leaf.barrel_mm / 2), scaled(self.up, self.gap / 2))
        return add(self.arris, half)

    def extent(self, placed: Placed, way: Vector) -> tuple[float, float]:
        """From where to where a part reaches along a way [mm].

        Args:
            placed: the part.
            way: a unit vector, piece frame.
        """
        low, high = box_of(placed.part.blank, placed.placement)
        first, last = dot(low, way), dot(high, way)
        return min(first, last), max(first, last)


def closed_placement(into: Placed, turning: Placed) -> ClosedPlacement | None:
    """How the two lie closed; None where they do not lie as hinges ask.

    Args:
        into: what it hangs on.
        turning: what turns.
    """
    try:
        side, over = barrel_side(into, turning), over_edge(into, turning)
    except CannotMeet:
        return None
    if side is None:
        return None
    blank, place = into.part.blank, into.placement
    point = [blank.length_mm / 2, 0.0, 0.0]
    for face in (over.edge, side):
        point[face.axis] = blank.across(face) if face.is_far else 0.0
    return ClosedPlacement(
        into=into,
        turning=turning,
        out=place.direction_to_piece(side.normal),
        up=place.direction_to_piece(over.edge.normal),
        arris=place.to_piece((point[0], point[1], point[2])),
        gap=over.off_mm,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class HungFigures:
    """A part on its hinges [mm]; `reach` and `below` place the stays' ends, `beside` on the part.

    `pilots` are the bores for the hinges' screws in what it hangs on and in it, `stay_pilots` those
    for the stays' in it and beside it.
    """

    given: Hung
    leaf: Leaf
    starts: tuple[float, ...]
    gap: float
    pilots: tuple[float, float]
    opens_deg: float
    screw: tuple[float, float]
    stay_pilots: tuple[float, float]
    bears_n: float | None
    screws: LongerScrews
    stay_screws: LongerScrews
    name: str
    reach: float
    below: float
    beside: float

    @property
    def joint(self) -> HingeJoint:
        """Its hinges."""
        return HingeJoint(
            into=self.given.on, incoming=self.given.part, leaf=self.leaf, starts_mm=self.starts,
            gap_mm=self.gap, pilots_mm=self.pilots,
        )  # fmt: skip

    def _frame(self, placed: Mapping[str, Placed]) -> ClosedPlacement:
        frame = closed_placement(placed[self.given.on], placed[self.given.part])
        assert frame is not None, "it was read from these parts"
        return frame

    def _ends(self, placed: Mapping[str, Placed]) -> list[tuple[Vector, Vector]]:
        """Of each stay its end on the closed part, and the one beside it."""
        frame = self._frame(placed)
        away = dot(frame.pin(self.leaf), frame.reach) + self.reach
        ways = (frame.along, frame.reach, frame.rise)
        ends = []
        for each in self.given.stays_on:
            inner, way = inner_of(frame, placed[each])
            top = min(frame.under, frame.extent(placed[each], frame.rise)[1])
            on_part = _at(ways, (inner + way * self.beside, away, frame.under))
            ends.append((on_part, _at(ways, (inner, away, top - self.below))))
        return ends

    def bored(self, placed: Sequence[Placed]) -> list[Placed]:
        """The parts with the bores for the stays' screws.

        Args:
            placed: all parts.
        """
        by_name = {each.instance: each for each in placed}
        frame, ends = self._frame(by_name), self._ends(by_name)
        down = scaled(frame.rise, -1.0)
        found = dict(by_name)
        for name, (on_part, beside) in zip(self.given.stays_on, ends, strict=True):
            _, way = inner_of(frame, by_name[name])
            towards = scaled(frame.along, way)
            for instance, at, out, pilot in (
                (self.given.part, on_part, down, self.stay_pilots[0]),
                (name, beside, towards, self.stay_pilots[1]),
            ):
                found[instance] = _with_bore(found[instance], at, out, pilot, self.screw[1])
        return [found[each.instance] for each in placed]

    def opens(self, placed: Sequence[Placed]) -> TurnsOpen:
        """How it turns, and what stops it.

        Args:
            placed: all parts, where they stand in the end.
        """
        by_name = {each.instance: each for each in placed}
        frame = self._frame(by_name)
        pin = frame.pin(self.leaf)
        front = _at(
            (frame.along, frame.reach, frame.rise),
            (
                dot(pin, frame.along),
                frame.extent(frame.turning, frame.reach)[1],
                sum(frame.extent(frame.turning, frame.rise)) / 2,
            ),
        )
        turns = TurnsOpen(
            instance=self.given.part,
            hinged_to=self.given.on,
            pin=pin,
            axis=frame.along,
            opens_deg=self.opens_deg,
            stays=tuple(self._ends(by_name)),
            stay_bears_n=self.bears_n,
            front=front,
            hinge_screws=self.screws,
            stay_screws=self.stay_screws,
            over_mm=_stands_over(frame, placed),
        )
        return replace(turns, stay=self._bought(turns))

    def _bought(self, turns: TurnsOpen) -> Bought:
        (on_part, beside), *_ = turns.stays
        long = length(subtract(turns.opened(on_part), beside))
        return Bought(
            name=self.name,
            quantity=len(turns.stays),
            length_mm=math.floor(long),
            where=(self.given.part, *self.given.stays_on),
            note="between its screws",
        )

    def fixings(self, turns: TurnsOpen) -> list[Bought]:
        """Screws and stays; the hinges are counted off their joint.

        Args:
            turns: how it turns.
        """
        where = (self.given.part, self.given.on)
        assert turns.stay is not None, "it was made with one"
        return [
            screws_bought(self.leaf, len(self.starts), where),
            *stays_bought(turns.stay, self.screw),
        ]

    def notes(self, turns: TurnsOpen, shown: Shown) -> list[Note]:
        """How it is hung, and how its stay is fixed.

        Args:
            turns: how it turns.
            shown: the piece's unit.
        """
        where = (self.given.part, self.given.on)
        assert turns.stay is not None, "it was made with one"
        return [
            hung_note(self.leaf, self.gap, where, shown),
            stay_note(turns.stay, self.given.part, self.opens_deg, shown),
        ]


def _at(axes: tuple[Vector, Vector, Vector], place: tuple[float, float, float]) -> Vector:
    """The point so far along each of three square ways [mm]."""
    (a, b, c), (x, y, z) = axes, place
    return add(add(scaled(a, x), scaled(b, y)), scaled(c, z))


def inner_of(frame: ClosedPlacement, beside: Placed) -> tuple[float, float]:
    """Where the face of a part at the side lies that looks inwards, and which way that is.

    Args:
        frame: how the two lie closed.
        beside: the part at the side.
    """
    low, high = frame.extent(beside, frame.along)
    middle = sum(frame.extent(frame.turning, frame.along)) / 2
    return (high, 1.0) if (low + high) / 2 < middle else (low, -1.0)


def _with_bore(placed: Placed, at: Vector, out: Vector, pilot: float, deep: float) -> Placed:
    own = placed.placement.to_part(at)
    face: Face = placed.placement.face_towards(out)
    xyz = [None if axis == face.axis else round(own[axis], 9) for axis in range(3)]
    bore = Bore(
        face=face, x_mm=xyz[0], y_mm=xyz[1], z_mm=xyz[2], diameter_mm=pilot, depth_mm=deep
    )  # fmt: skip
    return replace(placed, part=replace(placed.part, cuts=(*placed.part.cuts, bore)))


def _stands_over(frame: ClosedPlacement, placed: Iterable[Placed]) -> float | None:
    """How far its front stands out over what it closes on [mm]; None where it lies within a rim."""
    front = frame.extent(frame.turning, frame.reach)[1]
    reaches = [
        frame.extent(each, frame.reach)[1]
        for each in placed
        if each.instance != frame.turning.instance
        and abs(frame.extent(each, frame.rise)[1] - frame.under) < 2.0 * max(frame.gap, 0.5)
    ]
    return front - max(reaches) if reaches else None
