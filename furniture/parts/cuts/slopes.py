"""Shapes that slope: an end or edge cut at an angle, and what is sunk into such a slope."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.parts.blank import Blank
from furniture.parts.cuts.left import SKIN_MM, Left, Leftover, put
from furniture.parts.faces import Face, face_on
from furniture.parts.vectors import Point2, Vector, add, scaled

_AXES: tuple[Vector, Vector, Vector] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
_NONE: Vector = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Slope:
    """An end or an edge cut at an angle, sharp at the long point.

    Args:
        face: the end or edge that is cut.
        long_point: the face where the part stays as long, or as wide, as its blank.
        angle_deg: away from square [deg].
        setback_mm: how far the short point lies inside the long point [mm].
    """

    face: Face
    long_point: Face
    angle_deg: float
    setback_mm: float

    @property
    def mouths(self) -> tuple[Face, ...]:
        """The face that it opens along its whole length."""
        return (self.face,)

    @property
    def along(self) -> int:
        """The part axis along its sharp line."""
        return 3 - self.face.axis - self.long_point.axis

    def middle(self, blank: Blank, near: Vector) -> Vector:
        """The middle of the slope, at the place along it that is nearest to a point [mm]."""
        extent = blank.across(self.face)
        back = self.setback_mm / 2
        across = put(near, self.face.axis, extent - back if self.face.is_far else back)
        return put(across, self.long_point.axis, blank.across(self.long_point) / 2)

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """What is left at the short point, from there to the other side of the part."""
        heel = self.long_point.opposite
        extent = blank.across(self.face)
        at = put(_NONE, heel.axis, blank.across(heel) - SKIN_MM if heel.is_far else SKIN_MM)
        start = extent - self.setback_mm if self.face.is_far else self.setback_mm
        return (
            Left(
                what=Leftover.SHORT_POINT,
                at=put(at, self.face.axis, start),
                way=scaled(self.face.normal, self.setback_mm - extent),
                sides=(scaled(_AXES[self.along], blank.size[self.along]), _NONE),
                towards=self.face.opposite,
            ),
        )

    def opens(self, blank: Blank) -> frozenset[Face]:
        """What it cuts, the face of the short point, and both faces beside."""
        del blank
        return frozenset({self.face, self.long_point.opposite, face_on(self.along, True),
                          face_on(self.along, False)})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class InSlope:
    """A groove or a slot sunk square into the sloping face of a mitred end.

    Args:
        end: the mitred end.
        long_point: the face of its long point.
        angle_deg: of the mitre, away from square [deg].
        down: from where to where it goes down the slope from the long point [mm].
        depth_mm: below the slope; None runs out through the face of the long point [mm].
        span: from where to where it goes along the sharp line, part coordinates [mm].
    """

    end: Face
    long_point: Face
    angle_deg: float
    down: tuple[float, float]
    depth_mm: float | None
    span: tuple[float, float]

    @property
    def mouths(self) -> tuple[Face, ...]:
        """It opens the slope, and no face of the blank along a run."""
        return ()

    @property
    def along(self) -> int:
        """The part axis along the mitre's sharp line."""
        return 3 - self.end.axis - self.long_point.axis

    def leaves(self, blank: Blank) -> tuple[Left, ...]:
        """The wood to the inner corner, to the face outside it, and beyond its ends."""
        angle = math.radians(self.angle_deg)
        rise = blank.across(self.long_point)
        _, down, _ = self.frame(blank)
        run = scaled(_AXES[self.along], self.span[1] - self.span[0])
        start, end = self.down
        found = [
            Left(
                what=Leftover.UNDER_SLOPE,
                at=self.point(blank, (end, 0.0), self.span[0]),
                way=scaled(down, rise / math.cos(angle) - end),
                sides=(run, _NONE),
                towards=self.long_point.opposite,
            )
        ]
        if self.depth_mm is not None:
            outside = start * math.cos(angle) - self.depth_mm * math.sin(angle)
            found.append(
                Left(
                    what=Leftover.UNDER_SLOPE,
                    at=self.point(blank, (start, -self.depth_mm), self.span[0]),
                    way=scaled(self.long_point.normal, outside),
                    sides=(run, _NONE),
                    towards=self.long_point,
                )
            )
        extent = blank.size[self.along]
        for is_far, wood in ((False, self.span[0]), (True, extent - self.span[1])):
            if wood > 1e-9:
                face = face_on(self.along, is_far)
                found.append(
                    Left(
                        what=Leftover.BESIDE,
                        at=self.point(blank, (start, 0.0), self.span[is_far]),
                        way=scaled(face.normal, wood),
                        sides=(scaled(down, end - start), _NONE),
                        towards=face,
                    )
                )
        return tuple(found)

    def opens(self, blank: Blank) -> frozenset[Face]:
        """The mitred end, the outer face where it runs out there, and the faces that it ends at."""
        ends = {
            face_on(self.along, is_far)
            for is_far, wood in (
                (False, self.span[0]),
                (True, blank.size[self.along] - self.span[1]),
            )
            if wood <= 1e-9
        }
        outside = {self.long_point} if self.depth_mm is None else set()
        return frozenset({self.end, *outside, *ends})

    def point(self, blank: Blank, place: Point2, along: float) -> Vector:
        """A point down and out of the slope, at a place along its sharp line [mm]."""
        corner, down, out = self.frame(blank)
        start = add(corner, scaled(_AXES[self.along], along))
        return add(start, add(scaled(down, place[0]), scaled(out, place[1])))

    def frame(self, blank: Blank) -> tuple[Vector, Vector, Vector]:
        """The long point, the unit vector down the slope and the one out of it, part frame."""
        angle, end, outer = math.radians(self.angle_deg), self.end, self.long_point
        corner = _NONE
        for face in (end, outer):
            corner = put(corner, face.axis, blank.across(face) if face.is_far else 0.0)
        down = add(scaled(end.normal, -math.sin(angle)), scaled(outer.normal, -math.cos(angle)))
        out = add(scaled(end.normal, math.cos(angle)), scaled(outer.normal, -math.sin(angle)))
        return corner, down, out
