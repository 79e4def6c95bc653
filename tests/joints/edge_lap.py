"""A joint of one's own, in one file: two boards on edge that cross, each notched to half height."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints import SLIP, Contact, Fit, Joining, Joint, Worked
from furniture.joints.relation import box_in, clean
from furniture.parts.cuts import Notch
from furniture.parts.faces import Face
from furniture.parts.part import Placed


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeLapJoint(Joint):
    """The incoming board drops into a notch from the back edge of `into`, and is notched too."""

    kind: ClassVar[str] = "edge lap"
    fit: Fit = SLIP

    def work(self, into: Placed, incoming: Placed) -> Worked:
        (low, high), (back, _) = box_in(into, incoming), box_in(incoming, into)
        blank, half = into.part.blank, into.part.blank.width_mm / 2
        wide = [clean(thickness + self.fit.clearance_mm(thickness))
                for thickness in (high[0] - low[0], blank.thickness_mm)]  # fmt: skip
        down = into.placement.direction_to_piece(Face.FACE_EDGE.normal)
        under = incoming.placement.face_towards(down)
        middle = ((low[0] + high[0]) / 2, half, blank.thickness_mm / 2)
        floor = Contact(what="notch floor", at=into.placement.to_piece(middle), towards=down,
                        stand_off_mm=0.0)  # fmt: skip
        joining = Joining(
            kind=self.kind, into=self.into, incoming=self.incoming, fit=self.fit, glue=(),
            clearance_mm=clean(wide[0] - high[0] + low[0]), ways_in=(down,), contacts=(floor,),
        )  # fmt: skip
        above = Notch(edge=Face.BACK_EDGE, start_mm=clean(low[0]), length_mm=wide[0], depth_mm=half)
        below = Notch(edge=under, start_mm=clean(back[0]), length_mm=wide[1],
                      depth_mm=clean(half - low[1]))  # fmt: skip
        return Worked(joining=joining, into_cuts=(above,), incoming_cuts=(below,))
