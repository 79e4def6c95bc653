"""The dado joint: a part housed across the grain of another, through its whole width."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.fit import SLIP, Fit
from furniture.joints.housed import Housed, depth_problems, housed_in, housing_faces
from furniture.joints.joint import Joining, Joint, Role, Worked
from furniture.joints.relation import TOUCHING_MM, apart, clean
from furniture.parts.cuts import Cut, Dado, Rabbet
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, scaled
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class DadoJoint(Joint):
    """A part housed in a trench across the grain of `into`, resting on its lower shoulder.

    The trench is as wide as the measured part plus the fit's clearance, which lies above the part.
    Where the part reaches the end of `into`, the trench opens into a rabbet and nothing lies above.

    Args:
        fit: the clearance rule.
        bottom_gap_mm: left between the part's edge and the bottom of the trench, for movement.
        is_glued: whether it is fixed there; a loose lid takes no glue.
    """

    kind: ClassVar[str] = "dado"

    fit: Fit = SLIP
    bottom_gap_mm: float = 0.0
    is_glued: bool = True

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The trench in `into` for the incoming part as it stands.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        lies = housed_in(into, incoming)
        blank, run = into.part.blank, lies.run
        clearance = self.fit.clearance_mm(lies.thickness)
        depth = clean(lies.reach + self.bottom_gap_mm)
        is_at_end = lies.is_at_far_end
        cut: Cut
        if is_at_end:
            cut = Rabbet(
                edge=Face.FAR_END,
                face=lies.face,
                down_from_edge_mm=clean(blank.length_mm - lies.low[0]),
                into_thickness_mm=depth,
            )
        else:
            cut = Dado(
                face=lies.face,
                lower_shoulder_mm=clean(lies.low[0]),
                width_mm=clean(lies.thickness + clearance),
                depth_mm=depth,
            )
        problems: tuple[Draft, ...] = ()
        if lies.reach <= TOUCHING_MM or not lies.is_across:
            need = f"{incoming.instance} reaching into {into.instance} over its whole width"
            problems = (apart(self.kind, into, incoming, need),)
        else:
            problems = depth_problems(self, lies, self.bottom_gap_mm, self.rules)
        joining = Joining(
            kind="rabbet" if is_at_end else self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=0.0 if is_at_end else clearance,
            ways_in=self._ways_in(lies),
            role=Role.HOUSING,
            faces=housing_faces(
                lies,
                run,
                clearance_mm=None if is_at_end else clearance,
                bottom_gap_mm=self.bottom_gap_mm,
                is_glued=self.is_glued,
            ),
        )
        return Worked(
            joining=joining,
            into_cuts=(cut,),
            problems=problems,
        )

    def _ways_in(self, lies: Housed) -> tuple[Vector, ...]:
        """Straight in, from above where the end is open, and along the trench if not notched."""
        along = lies.into.placement.y_axis
        sideways = () if lies.notched > 0 else (along, scaled(along, -1.0))
        return (lies.inward, *((lies.down,) if lies.is_at_far_end else ()), *sideways)
