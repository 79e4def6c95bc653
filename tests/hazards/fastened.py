"""Butts held by rows of nails or screws, as a maker drives them: a joint of these tests' own."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.joints import ButtJoint
from furniture.joints.holding import fastener_at
from furniture.joints.joint import Driven, Fastener, HoldBy, JointFace, Worked
from furniture.parts.part import Placed
from furniture.parts.vectors import add, cross, scaled


@dataclass(frozen=True, slots=True, kw_only=True)
class FastenedButt(ButtJoint):
    """A butt with a row of fasteners through the incoming part, evenly along the longer way.

    Args:
        by: nails (pins) or screws.
        count: how many in the row.
        diameter_mm: of each.
        through_mm: how much of each stands in the incoming part.
        bite_mm: how much of each stands in the other.
        edge_mm: from the ends of the meeting face to the outer ones.
        across_mm: how far the row stands from the middle of the face's shorter way.
        is_glued: whether it is glued as well.
    """

    kind: ClassVar[str] = "fastened butt"

    by: HoldBy
    count: int
    diameter_mm: float
    through_mm: float
    bite_mm: float
    edge_mm: float = 20.0
    across_mm: float = 0.0
    is_glued: bool = False

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The butt, and its fasteners in their places."""
        worked = ButtJoint.work(self, into, incoming)
        faces = worked.joining.faces
        if not faces:
            return worked
        row = self._row(faces[0], into, incoming)
        return replace(worked, joining=replace(worked.joining, fasteners=row, advice=""))

    def _row(self, face: JointFace, into: Placed, incoming: Placed) -> tuple[Fastener, ...]:
        half = max(0.0, face.run_mm / 2 - self.edge_mm)
        step = 2 * half / (self.count - 1) if self.count > 1 else 0.0
        start = -half if self.count > 1 else 0.0
        aside = scaled(cross(face.normal, face.along), self.across_mm)
        driven = Driven(
            by=self.by,
            name=self.by.value,
            diameter_mm=self.diameter_mm,
            incoming_mm=self.through_mm,
            into_mm=self.bite_mm,
        )
        return tuple(
            fastener_at(
                driven,
                add(add(face.centre, aside), scaled(face.along, start + index * step)),
                face.normal,
                into,
                incoming,
            )
            for index in range(self.count)
        )
