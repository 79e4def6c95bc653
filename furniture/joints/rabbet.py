"""The rabbet joint: a panel let into a step along the edge of a rail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import glued, rectangle
from furniture.joints.joint import (
    Joining,
    Joint,
    JointFace,
    Role,
    Worked,
)
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    axis_along,
    box_in,
    clean,
    extent,
    grain_between,
    notched_mm,
    overlap,
)
from furniture.parts.cuts import Rabbet
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import scaled
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class RabbetJoint(Joint):
    """A panel lying in a rabbet along the nearer edge of a rail, open to the rail's inner face.

    A strip that lies wholly within the rail is in a rabbet open to the nearer of its faces.

    Args:
        gap_mm: between the panel's edge and the rabbet's wall.
        is_glued: whether the panel is fixed there; a loose panel takes no glue.
        stop_from_named_end_mm: rail left whole at `Face.NAMED_END`; 0 runs through.
        stop_from_far_end_mm: the same at `Face.FAR_END`.
    """

    kind: ClassVar[str] = "rabbet"

    gap_mm: float
    is_glued: bool = False
    stop_from_named_end_mm: float = 0.0
    stop_from_far_end_mm: float = 0.0

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The rabbet in the rail for the panel as it lies.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        low, high = box_in(into, incoming)
        blank = into.part.blank
        is_within = low[2] >= -TOUCHING_MM and high[2] <= blank.thickness_mm + TOUCHING_MM
        from_back = low[2] < (blank.thickness_mm - high[2] if is_within else -TOUCHING_MM)
        face = Face.BACK_SIDE if from_back else Face.FACE_SIDE
        towards_wall = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        going_in = incoming.placement.face_towards(towards_wall)
        run = overlap((low[0], high[0]), extent(blank, 0))
        whole = high[2] if from_back else blank.thickness_mm - low[2]
        reach = whole - notched_mm(into, incoming, going_in, 0, run)
        is_upper = (low[1] + high[1]) / 2 > blank.width_mm / 2
        edge = Face.BACK_EDGE if is_upper else Face.FACE_EDGE
        down = blank.width_mm - low[1] if is_upper else high[1]
        cut = Rabbet(
            edge=edge,
            face=face,
            down_from_edge_mm=clean(down),
            into_thickness_mm=clean(reach + self.gap_mm),
            stop_at_low_mm=self.stop_from_named_end_mm,
            stop_at_high_mm=self.stop_from_far_end_mm,
        )
        problems: tuple[Draft, ...] = ()
        if reach <= TOUCHING_MM or run[1] <= run[0] or not 0 < down < blank.width_mm:
            need = f"the edge of {incoming.instance} lying within the edge of {into.instance}"
            problems = (apart(self.kind, into, incoming, need),)
        towards_floor = into.placement.direction_to_piece(scaled(edge.normal, -1.0))
        floor = low[1] if is_upper else high[1]
        inner = reach if from_back else blank.thickness_mm - reach
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=self.gap_mm,
            ways_in=(towards_floor, towards_wall),
            role=Role.RIM,
            faces=self._faces(into, incoming, edge, face, (floor, inner)),
        )
        return Worked(
            joining=joining,
            into_cuts=(cut,),
            problems=problems,
        )

    def _faces(
        self, into: Placed, incoming: Placed, edge: Face, face: Face, lies: tuple[float, float]
    ) -> tuple[JointFace, ...]:
        """Floor and wall, which lie at these places across the rail's width and thickness."""
        low, high = box_in(into, incoming)
        floor, wall = lies
        blank = into.part.blank
        surface = blank.across(face) if face.is_far else 0.0
        run = (0, overlap((low[0], high[0]), extent(blank, 0)))
        axes = [axis_along(incoming, into.placement.axes[axis]) for axis in (1, 2)]
        return (
            *rectangle(
                into,
                "rabbet floor",
                towards=edge.opposite,
                at=floor,
                run=run,
                deep=(2, (min(wall, surface), max(wall, surface))),
                glue=glued(grain_between(into, 1, incoming, axes[0]), 0.0, self.is_glued),
            ),
            *rectangle(
                into,
                "rabbet wall",
                towards=face.opposite,
                at=wall,
                run=run,
                deep=(1, overlap((low[1], high[1]), extent(blank, 1))),
                play_mm=self.gap_mm,
                glue=glued(grain_between(into, 2, incoming, axes[1]), self.gap_mm, self.is_glued),
            ),
        )
