"""The rabbeted corner: a part's end or edge let into a step at the end or edge of another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import rectangle
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
    entered_face,
    extent,
    grain_between,
    out_of_range,
    overlap,
)
from furniture.parts.cuts import Rabbet
from furniture.parts.faces import WIDE_FACES, Face, face_on
from furniture.parts.part import Placed
from furniture.parts.placement import Box
from furniture.parts.vectors import Vector, scaled
from furniture.rules.joinery import LEAST_RABBET_TONGUE, RABBET_LIP_SHARE
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerRabbetJoint(Joint):
    """A part standing in a rabbet at the end or edge of `into`; or both parts rabbeted.

    With a tongue, the incoming part is rabbeted too, on its inner face: the tongue that is left
    goes into a narrower rabbet and the shoulder closes on the face of `into`.

    Args:
        tongue_mm: thickness of the incoming part's tongue (default: none, only `into` is rabbeted).
    """

    kind: ClassVar[str] = "corner rabbet"

    tongue_mm: float | None = None

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The rabbets for the two parts as they stand.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        low, high = box_in(into, incoming)
        face, edge = entered_face(into, low, high, WIDE_FACES), _edge(into, low, high)
        if face is None or edge is None:
            need = f"{incoming.instance} reaching into a wide face along an end or an edge"
            problem = apart(self.kind, into, incoming, f"{need} of {into.instance}")
            return Worked(joining=self._nothing(into, incoming), problems=(problem,))
        return self._work(into, incoming, (low, high), face, edge)

    def _work(self, into: Placed, incoming: Placed, box: Box, face: Face, edge: Face) -> Worked:
        low, high = box
        blank, axis = into.part.blank, edge.axis
        thickness = clean(high[axis] - low[axis])
        tongue = thickness if self.tongue_mm is None else self.tongue_mm
        inner_shoulder = thickness - tongue
        covered = clean(blank.size[axis] - low[axis] if edge.is_far else high[axis])
        down = clean(covered - inner_shoulder)
        reach = clean(blank.thickness_mm - low[2] if face.is_far else high[2])
        inward = into.placement.direction_to_piece(scaled(face.normal, -1.0))
        towards_wall = into.placement.direction_to_piece(scaled(edge.normal, -1.0))
        going_in = incoming.placement.face_towards(inward)
        inner = incoming.placement.face_towards(towards_wall)
        joining = Joining(
            kind=self.kind if self.tongue_mm is None else "double rabbet",
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=0.0,
            ways_in=(inward, towards_wall),
            role=Role.CORNER,
            faces=self._faces(into, incoming, box, face, edge, inner_shoulder),
        )
        problems = self._problems(into, incoming, reach, thickness, down, inner)
        if problems:
            return Worked(joining=joining, problems=problems)
        own: tuple[Rabbet, ...] = ()
        if self.tongue_mm is not None:
            own = (
                Rabbet(
                    edge=going_in,
                    face=inner,
                    down_from_edge_mm=reach,
                    into_thickness_mm=clean(inner_shoulder),
                ),
            )
        return Worked(
            joining=joining,
            into_cuts=(
                Rabbet(edge=edge, face=face, down_from_edge_mm=down, into_thickness_mm=reach),
            ),
            incoming_cuts=own,
        )

    def _nothing(self, into: Placed, incoming: Placed) -> Joining:
        return Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=0.0,
            ways_in=(),
            role=Role.CORNER,
            faces=(),
        )

    def _faces(
        self,
        into: Placed,
        incoming: Placed,
        box: Box,
        face: Face,
        edge: Face,
        inner_shoulder: float,
    ) -> tuple[JointFace, ...]:
        """Floor and wall of the rabbet in `into`, and the shoulder of a rabbeted part."""
        (low, high), axis, size = box, edge.axis, into.part.blank.size
        inside = low[axis] if edge.is_far else high[axis]
        outside = min(high[axis], size[axis]) if edge.is_far else max(low[axis], 0.0)
        wall = inside + (inner_shoulder if edge.is_far else -inner_shoulder)
        floor = low[2] if face.is_far else high[2]
        surface = size[2] if face.is_far else 0.0
        run = (
            1 - axis,
            overlap((low[1 - axis], high[1 - axis]), extent(into.part.blank, 1 - axis)),
        )
        axes = into.placement.axes
        grain = grain_between(into, 2, incoming, axis_along(incoming, axes[2]))
        wall_grain = grain_between(into, axis, incoming, axis_along(incoming, axes[axis]))
        stated = (
            ("rabbet floor", face.opposite, floor, axis, (wall, outside), grain),
            ("rabbet wall", edge.opposite, wall, 2, (floor, surface), wall_grain),
            ("shoulder", face.opposite, surface, axis, (inside, wall), grain),
        )
        return tuple(
            found
            for what, towards, at, across, ends, glue in stated
            for found in rectangle(
                into, what, towards=towards, at=at, run=run,
                deep=(across, (min(ends), max(ends))), glue=glue,
            )
        )  # fmt: skip

    def _problems(
        self,
        into: Placed,
        incoming: Placed,
        reach: float,
        thickness: float,
        down: float,
        inner: Face,
    ) -> tuple[Draft, ...]:
        most = (1 - self.rules[RABBET_LIP_SHARE]) * into.part.blank.thickness_mm
        why = "a rabbet leaves a lip of a quarter of the thickness at least (common practice)"
        found = list(out_of_range(self, "reach into the rabbet", reach, 1.0, most, why))
        if self.tongue_mm is not None:
            if inner not in WIDE_FACES:
                need = f"{incoming.instance} with its thickness across the rabbet"
                return (*found, apart(self.kind, into, incoming, need))
            proud = thickness - down - (thickness - self.tongue_mm)
            least = self.rules[LEAST_RABBET_TONGUE] + max(0.0, proud)
            why = "a tongue is stout enough to stay whole and leaves a shoulder (own rule)"
            found += out_of_range(self, "tongue", self.tongue_mm, least, thickness - 1.0, why)
        elif down <= TOUCHING_MM:
            need = f"{incoming.instance} standing on the end or edge of {into.instance}"
            found.append(apart(self.kind, into, incoming, need))
        return tuple(found)


def _edge(into: Placed, low: Vector, high: Vector) -> Face | None:
    """The end or edge along which the box lies, over the whole of the other way."""
    size = into.part.blank.size
    for axis in (0, 1):
        other = 1 - axis
        if low[other] > TOUCHING_MM or high[other] < size[other] - TOUCHING_MM:
            continue
        if low[axis] > TOUCHING_MM and high[axis] >= size[axis] - TOUCHING_MM > low[axis]:
            return face_on(axis, True)
        if high[axis] < size[axis] - TOUCHING_MM and low[axis] <= TOUCHING_MM < high[axis]:
            return face_on(axis, False)
    return None
