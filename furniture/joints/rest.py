"""A lid that rests on a rail's edge dry, drawn a gap off it and closing on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from furniture.joints.faces import rectangle
from furniture.joints.joint import Joining, Joint, Role, Worked
from furniture.joints.relation import TOUCHING_MM, apart, clean, extent, over_edge, overlap
from furniture.parts.part import Placed


@dataclass(frozen=True, slots=True, kw_only=True)
class RestJoint(Joint):
    """The incoming part over the nearer edge of `into`, nothing cut and nothing glued.

    Args:
        gap_mm: how far off it is drawn.
        play_mm: how far off it really lies, when its weight has closed the rest of the gap.
    """

    kind: ClassVar[str] = "rest"

    gap_mm: float = 0.0
    play_mm: float = 0.0

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """Where the two face each other.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        over, blank = over_edge(into, incoming), into.part.blank
        low, high = over.low, over.high
        faces = rectangle(
            into, "closed faces", towards=over.edge.opposite, at=over.nearest_mm,
            run=(0, overlap((low[0], high[0]), extent(blank, 0))),
            deep=(2, overlap((low[2], high[2]), extent(blank, 2))), play_mm=self.play_mm,
        )  # fmt: skip
        joining = Joining(
            kind=self.kind,
            role=Role.SEAT,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=self.gap_mm,
            ways_in=(over.down,),
            faces=tuple(
                replace(each, drawn_off_mm=clean(self.gap_mm - self.play_mm)) for each in faces
            ),
        )
        if abs(over.off_mm - self.gap_mm) > TOUCHING_MM or not faces:
            need = f"{incoming.instance} a gap off an edge of {into.instance}"
            return Worked(joining=joining, problems=(apart(self.kind, into, incoming, need),))
        return Worked(joining=joining)
