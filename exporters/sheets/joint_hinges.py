"""A hinge cut across its leaves: both gains, the gap, and the metal in them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from exporters.sheets.joint_values import (
    BEYOND_MM,
    Clearance,
    Inside,
    JointProfile,
    Span,
    SpanKind,
)
from furniture.joints.joint import Joining, Role
from furniture.parts.cuts import Channel, shapes_of
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, scaled


def hinged(joining: Joining, into: Placed, incoming: Placed) -> JointProfile | None:
    """The joint cut through its first hinge.

    Args:
        joining: the joint.
        into: the part that the hinges hang on.
        incoming: the part that turns.
    """
    if joining.role is not Role.HINGE or not joining.fasteners:
        return None
    pin = joining.fasteners[0].at
    leaves = [_Leaf.of(each, pin) for each in (into, incoming)]
    known = [each for each in leaves if each is not None]
    if len(known) < len(leaves):
        return None
    rail = known[0]
    spans = [each.depth for each in known] + [rail.width]
    if rail.gain.wide_axis == 2:
        spans.append(rail.wall)
    axis = known[0].axis
    runs = [each.run for each in known]
    face = joining.faces[0]
    gap = add(rail.behind, scaled(face.normal, face.drawn_play_mm / 2))
    return JointProfile(
        into=joining.into,
        incoming=joining.incoming,
        axis=axis,
        run=(max(low for low, _ in runs), min(high for _, high in runs)),
        spans=tuple(spans),
        clearances=(Clearance(at=gap, value_mm=face.play_mm),),
        inside=(Inside(at=pin, name=joining.fasteners[0].name, size_mm=None),),
        corners=(*(point for each in known for point in each.corners), pin),
        metal=tuple(
            each
            for each in joining.metal
            if min(each.start[axis], each.end[axis])
            < pin[axis]
            < max(each.start[axis], each.end[axis])
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Leaf:
    """A gain in one of the two, as it is cut across at the pin."""

    placed: Placed
    gain: Channel
    along: float

    @classmethod
    def of(cls, placed: Placed, pin: Vector) -> _Leaf | None:
        """That of a part; none where nothing is let in beside the pin."""
        gain = _gain(placed, pin)
        along = placed.placement.to_part(pin)[0]
        return None if gain is None else cls(placed=placed, gain=gain, along=along)

    def _point(self, wide: float, deep: float) -> Vector:
        at = [self.along, 0.0, 0.0]
        at[self.gain.wide_axis], at[self.gain.face.axis] = wide, deep
        return self.placed.placement.to_piece((at[0], at[1], at[2]))

    @property
    def _sides(self) -> tuple[float, float]:
        """Where it is open, and its wall."""
        low, high = self.gain.wide
        is_far = self.gain.step is not None and self.gain.step.is_far
        return (high, low) if is_far else (low, high)

    @property
    def _surface(self) -> float:
        return self.gain.surface_mm(self.placed.part.blank)

    @property
    def _beyond(self) -> float:
        """A level in the wood below its floor, that a picture still shows."""
        return self.gain.floor_mm + math.copysign(BEYOND_MM, self.gain.floor_mm - self._surface)

    @property
    def depth(self) -> Span:
        """How deep it is, at its wall."""
        _, wall = self._sides
        ends = self._point(wall, self._surface), self._point(wall, self.gain.floor_mm)
        value = self.gain.depth_mm(self.placed.part.blank)
        return Span(kind=SpanKind.DEPTH, start=ends[0], end=ends[1], value_mm=value)

    @property
    def width(self) -> Span:
        """From where it is open to its wall."""
        side, wall = self._sides
        ends = self._point(side, self._beyond), self._point(wall, self._beyond)
        value = abs(side - wall)
        return Span(kind=SpanKind.WIDTH, start=ends[0], end=ends[1], value_mm=value)

    @property
    def wall(self) -> Span:
        """The thickness of the part that it is sunk in."""
        thick = self.placed.part.blank.size[self.gain.wide_axis]
        ends = self._point(0.0, self._beyond), self._point(thick, self._beyond)
        return Span(kind=SpanKind.WALL, start=ends[0], end=ends[1], value_mm=thick)

    @property
    def behind(self) -> Vector:
        """A point of the face that it is sunk from, between its wall and the far face."""
        side, wall = self._sides
        thick = self.placed.part.blank.size[self.gain.wide_axis]
        away = min(abs(thick - side - wall) / 2, BEYOND_MM / 2)
        return self._point(wall + math.copysign(away, wall - side), self._surface)

    @property
    def corners(self) -> tuple[Vector, Vector]:
        """Points that a picture of it must hold."""
        side, wall = self._sides
        behind = wall + math.copysign(BEYOND_MM, wall - side)
        return self._point(side, self._beyond), self._point(behind, self._beyond)

    @property
    def _ends(self) -> tuple[Vector, Vector]:
        first, last = (self.placed.placement.to_piece((x, 0.0, 0.0)) for x in self.gain.run)
        return first, last

    @property
    def axis(self) -> int:
        """The axis of the piece that it runs along."""
        first, last = self._ends
        return max(range(3), key=lambda each: abs(first[each] - last[each]))

    @property
    def run(self) -> tuple[float, float]:
        """From where to where along that axis."""
        first, last = (each[self.axis] for each in self._ends)
        return min(first, last), max(first, last)


def _beside(gap: Vector, pin: Vector, axis: int) -> Vector:
    """A point of the gap in the plane of the pin."""
    at = list(gap)
    at[axis] = pin[axis]
    return (at[0], at[1], at[2])


def _gain(placed: Placed, pin: Vector) -> Channel | None:
    """The gain of a part that a hinge's leaf lies in: of the steps beside the pin the shortest."""
    x = placed.placement.to_part(pin)[0]
    found = (
        each
        for each in shapes_of(placed.part.cuts, placed.part.blank, Channel)
        if each.step is not None and each.along == 0 and each.run[0] < x < each.run[1]
    )
    return min(found, key=lambda each: each.run[1] - each.run[0], default=None)
