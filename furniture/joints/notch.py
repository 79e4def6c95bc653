"""The notch joint: a panel lies in a notch in a rail's edge, from face to face of the rail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import rectangle
from furniture.joints.joint import Joining, Joint, Role, Worked
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    box_in,
    clean,
    extent,
    out_of_range,
    over_edge,
    overlap,
)
from furniture.parts.cuts import Notch
from furniture.parts.faces import Face
from furniture.parts.part import Placed
from furniture.parts.vectors import scaled
from furniture.rules.joinery import LEAST_STOP
from furniture.units import Draft, Least


@dataclass(frozen=True, slots=True, kw_only=True)
class NotchJoint(Joint):
    """A panel lies on the floor of a notch in the nearer edge of a rail, never glued.

    It is laid in from the open side of the notch, or slid over the rail through it.

    Args:
        gap_mm: between the panel and the notch's wall on either side, where it moves.
    """

    kind: ClassVar[str] = "notch"

    gap_mm: float = 0.5

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The notch in the rail for the panel as it lies.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        over, blank = over_edge(into, incoming), into.part.blank
        low, high, depth = over.low, over.high, clean(-over.off_mm)
        deep = (2, overlap((low[2], high[2]), extent(blank, 2)))
        wall = (1, overlap((low[1], high[1]), extent(blank, 1)))
        through = into.placement.direction_to_piece(Face.FACE_SIDE.normal)
        joining = Joining(
            kind=self.kind,
            role=Role.SEAT,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=self.gap_mm,
            ways_in=(over.down, through, scaled(through, -1.0)),
            faces=(
                *rectangle(
                    into, "notch floor", towards=over.edge.opposite, at=over.nearest_mm,
                    run=(0, (low[0], high[0])), deep=deep,
                ),
                *(
                    found
                    for towards, at in ((Face.NAMED_END, low[0]), (Face.FAR_END, high[0]))
                    for found in rectangle(
                        into, "notch wall", towards=towards, at=at, run=wall, deep=deep,
                        play_mm=self.gap_mm,
                    )
                ),
            ),
        )  # fmt: skip
        problems = self._problems(into, incoming, depth)
        if problems:
            return Worked(joining=joining, problems=problems)
        cut = Notch(
            edge=over.edge,
            start_mm=clean(low[0] - self.gap_mm),
            length_mm=clean(high[0] - low[0] + 2 * self.gap_mm),
            depth_mm=depth,
        )
        return Worked(joining=joining, into_cuts=(cut,))

    def _problems(self, into: Placed, incoming: Placed, depth: float) -> tuple[Draft, ...]:
        low, high = box_in(into, incoming)
        blank = into.part.blank
        crosses = high[2] > TOUCHING_MM and low[2] < blank.thickness_mm - TOUCHING_MM
        if not crosses or not TOUCHING_MM < depth < blank.width_mm - TOUCHING_MM:
            need = f"{incoming.instance} crossing the edge of {into.instance}"
            return (apart(self.kind, into, incoming, need),)
        least = self.rules[LEAST_STOP]
        room = min(low[0], blank.length_mm - high[0])
        if room < least:
            need = f"{incoming.instance} clear of the ends of {into.instance}"
            return (apart(self.kind, into, incoming, need),)
        why = ("wood of ", Least(least), " stays at either end of the notch")
        return tuple(out_of_range(self, "gap", self.gap_mm, 0.0, clean(room - least), why))
