"""The sloping face of a mitred end: what splines, keys and the mitres themselves read."""

from __future__ import annotations

import math
from dataclasses import dataclass

from furniture.joints.joint import GrainRelation, JointFace
from furniture.parts.cuts import Slope, shapes_of
from furniture.parts.faces import ENDS, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, dot, scaled, subtract


@dataclass(frozen=True, slots=True, kw_only=True)
class MitrePlane:
    """A mitred end of a placed part: the end, the face its long point lies on, and the angle.

    The angle is the blade's tilt where the long point lies on a wide face, and the gauge's where it
    lies on an edge [deg].
    """

    part: Placed
    end: Face
    long_point: Face
    angle_deg: float

    @property
    def third_axis(self) -> int:
        """The part axis that runs along the mitre's sharp line."""
        return 3 - self.end.axis - self.long_point.axis

    @property
    def corner(self) -> Vector:
        """The long point where the third axis is 0, piece frame [mm]."""
        point = [0.0, 0.0, 0.0]
        for face in (self.end, self.long_point):
            point[face.axis] = self.part.part.blank.across(face) if face.is_far else 0.0
        return self.part.placement.to_piece((point[0], point[1], point[2]))

    @property
    def down(self) -> Vector:
        """The unit vector down the slope from the long point, piece frame."""
        angle = math.radians(self.angle_deg)
        way = add(
            scaled(self.end.normal, -math.sin(angle)),
            scaled(self.long_point.normal, -math.cos(angle)),
        )
        return self.part.placement.direction_to_piece(way)

    @property
    def outward(self) -> Vector:
        """The unit normal of the slope, out of the wood, piece frame."""
        angle = math.radians(self.angle_deg)
        way = add(
            scaled(self.end.normal, math.cos(angle)),
            scaled(self.long_point.normal, -math.sin(angle)),
        )
        return self.part.placement.direction_to_piece(way)

    @property
    def along(self) -> Vector:
        """The unit vector along the sharp line, piece frame."""
        return self.part.placement.axes[self.third_axis]

    @property
    def slope_mm(self) -> float:
        """The slope's length from long to short point [mm]."""
        rise = self.part.part.blank.across(self.long_point)
        return rise / math.cos(math.radians(self.angle_deg))

    @property
    def run_mm(self) -> float:
        """The slope's length along the sharp line [mm]."""
        return self.part.part.blank.size[self.third_axis]

    def point(self, down: float, along: float, outward: float = 0.0) -> Vector:
        """A point by its distances from the long point, along the line and off the slope [mm]."""
        there = add(self.corner, scaled(self.down, down))
        return add(add(there, scaled(self.along, along)), scaled(self.outward, outward))

    def rectangle(
        self,
        what: str,
        *,
        towards: Vector,
        down: tuple[float, float],
        along: tuple[float, float],
        out: tuple[float, float],
        play_mm: float = 0.0,
        glue: GrainRelation | None = None,
        taken_mm2: float = 0.0,
    ) -> tuple[JointFace, ...]:
        """A face of a joint stated by this slope: of the three spans one is a point [mm].

        Args:
            what: what the face is called.
            towards: the way out of the incoming part, piece frame.
            down: from where to where down the slope.
            along: the same along the sharp line.
            out: the same off the slope, out of the wood.
            play_mm: how much further on the other part begins.
            glue: how the grain meets where it is glued.
            taken_mm2: what is missing inside the rectangle.
        """
        sides = [
            (end - start, way)
            for (start, end), way in (
                (along, self.along), (down, self.down), (out, self.outward)
            )
            if end != start
        ]  # fmt: skip
        if len(sides) != 2 or min(side[0] for side in sides) <= 0.0:
            return ()
        middle = (sum(span) / 2 for span in (down, along, out))
        return (
            JointFace(
                what=what,
                centre=self.point(*middle),
                normal=towards,
                along=sides[0][1],
                run_mm=sides[0][0],
                deep_mm=sides[1][0],
                play_mm=play_mm,
                glue=glue,
                taken_mm2=taken_mm2,
            ),
        )

    def read(self, point: Vector) -> Vector:
        """The distances down the slope, along the line and out of it of a point of the piece."""
        apart = subtract(point, self.corner)
        return (dot(apart, self.down), dot(apart, self.along), dot(apart, self.outward))


def plane_of(part: Placed, slope: Slope) -> MitrePlane:
    """The sloping face that a mitre leaves on a part."""
    return MitrePlane(
        part=part, end=slope.face, long_point=slope.long_point, angle_deg=slope.angle_deg
    )


def planes_on(part: Placed) -> tuple[MitrePlane, ...]:
    """Every mitred end that the part has so far."""
    return tuple(
        plane_of(part, slope)
        for slope in shapes_of(part.part.cuts, part.part.blank, Slope)
        if slope.face in ENDS
    )
