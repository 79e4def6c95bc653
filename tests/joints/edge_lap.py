"""A joint of one's own, in one file: two boards on edge that cross, each notched to half height."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints import SLIP, Fit, Joining, Joint, Role, Worked
from furniture.joints.faces import rectangle
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
        play, own_play = clean(wide[0] - high[0] + low[0]), clean(wide[1] - blank.thickness_mm)
        deep = clean(half - low[1])
        own = incoming.part.blank
        start = own.width_mm - deep if under.is_far else 0.0
        lap = {"run": (2, (0.0, blank.thickness_mm)), "deep": (1, (half, blank.width_mm))}
        slot = {"run": (2, (0.0, own.thickness_mm)), "deep": (1, (start, start + deep))}
        joining = Joining(
            kind=self.kind, role=Role.SEAT, into=self.into, incoming=self.incoming, fit=self.fit,
            clearance_mm=play, ways_in=(down,),
            faces=(
                *rectangle(into, "notch floor", towards=Face.FACE_EDGE, at=half,
                           run=(2, (0.0, blank.thickness_mm)), deep=(0, (low[0], high[0]))),
                *rectangle(into, "lower wall", towards=Face.NAMED_END, at=low[0], **lap),
                *rectangle(into, "upper wall", towards=Face.FAR_END, at=high[0], play_mm=play,
                           **lap),
                *rectangle(incoming, "own wall", towards=Face.FAR_END, at=back[0], **slot),
                *rectangle(incoming, "own wall", towards=Face.NAMED_END, at=back[0] + wide[1],
                           play_mm=own_play, **slot),
            ),
        )  # fmt: skip
        above = Notch(edge=Face.BACK_EDGE, start_mm=clean(low[0]), length_mm=wide[0], depth_mm=half)
        below = Notch(edge=under, start_mm=clean(back[0]), length_mm=wide[1],
                      depth_mm=deep)  # fmt: skip
        return Worked(joining=joining, into_cuts=(above,), incoming_cuts=(below,))
