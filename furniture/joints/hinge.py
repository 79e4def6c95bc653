"""The butt hinge: a lid turns on a rail, both leaves let in, the barrel outside at the back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import ClassVar

from furniture.joints.faces import rectangle
from furniture.joints.holding import hinge_at
from furniture.joints.joint import Fastener, Joining, Joint, Metal, Role, Section, Worked
from furniture.joints.leaf import Leaf
from furniture.joints.relation import (
    TOUCHING_MM,
    apart,
    clean,
    extent,
    over_edge,
    overlap,
)
from furniture.parts.cuts import Bore, Cut, Gain
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector, add, scaled, subtract
from furniture.units import NOT_WRITTEN


@dataclass(frozen=True, slots=True, kw_only=True)
class HingeJoint(Joint):
    """The incoming lid lies over an edge of `into`, a gap off it, and turns on butt hinges.

    The faces of both that the barrels stand at lie in one plane; the grain of both runs along them.

    Args:
        leaf: of every hinge, as measured.
        starts_mm: where each leaf begins, from the named end of `into`.
        gap_mm: between the two when it is closed.
        pilots_mm: the diameter of the screws' bores, in `into` and in the lid.
    """

    kind: ClassVar[str] = "hinge"

    leaf: Leaf = field(metadata=NOT_WRITTEN)
    starts_mm: tuple[float, ...] = field(metadata=NOT_WRITTEN)
    gap_mm: float
    pilots_mm: tuple[float, float] = field(metadata=NOT_WRITTEN)

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """Gains and pilot holes in both, as they lie.

        Raises:
            CannotMeet: the parts do not stand square to each other.
        """
        over, blank = over_edge(into, incoming), into.part.blank
        low, high, off = over.low, over.high, over.off_mm
        side = barrel_side(into, incoming)
        joining = Joining(
            kind=self.kind,
            role=Role.HINGE,
            into=into.instance,
            incoming=incoming.instance,
            fit=None,
            clearance_mm=self.gap_mm,
            ways_in=(over.down,),
            faces=rectangle(
                into, "closed faces", towards=over.edge.opposite, at=over.nearest_mm,
                run=(0, overlap((low[0], high[0]), extent(blank, 0))),
                deep=(2, overlap((low[2], high[2]), extent(blank, 2))), play_mm=clean(off),
            ),
        )  # fmt: skip
        if side is None or abs(off - self.gap_mm) > TOUCHING_MM:
            need = (
                f"{incoming.instance} a gap off an edge of {into.instance}, flush with it where "
                "the barrels stand, and the grain of both along them"
            )
            return Worked(joining=joining, problems=(apart(self.kind, into, incoming, need),))
        lies = _Placement(self, into, incoming, over.edge, side)
        return Worked(
            joining=replace(
                joining, fasteners=tuple(lies.hinges()), metal=tuple(lies.metal())
            ),
            into_cuts=tuple(lies.cuts(into, over.edge, side, self.pilots_mm[0])),
            incoming_cuts=tuple(
                lies.cuts(
                    incoming, incoming.placement.face_towards(over.down),
                    incoming.placement.face_towards(lies.out), self.pilots_mm[1],
                )
            ),
        )  # fmt: skip


def barrel_side(into: Placed, incoming: Placed) -> Face | None:
    """The wide face of `into` that the barrels stand at: the other part ends in its plane, and
    the grain of both runs along them. None where they do not lie so.

    Args:
        into: what the other hangs on, over one of its edges.
        incoming: the part that turns.

    Raises:
        CannotMeet: the parts do not stand square to each other.
    """
    over, blank = over_edge(into, incoming), into.part.blank
    if abs(into.placement.direction_to_part(incoming.placement.x_axis)[0]) <= 0.5:
        return None
    return next(
        (
            face
            for face, at in zip(WIDE_FACES, (over.high[2], over.low[2]), strict=True)
            if abs(at - (blank.thickness_mm if face.is_far else 0.0)) <= TOUCHING_MM
        ),
        None,
    )


@dataclass(frozen=True, slots=True)
class _Placement:
    """How the two lie: the edge of `into` that is met, and its face at which the barrels stand."""

    joint: HingeJoint
    into: Placed
    incoming: Placed
    edge: Face
    side: Face

    @property
    def out(self) -> Vector:
        """The way that the barrels stand out, piece frame."""
        return self.into.placement.direction_to_piece(self.side.normal)

    @property
    def up(self) -> Vector:
        """The way from the rail to the lid, piece frame."""
        return self.into.placement.direction_to_piece(self.edge.normal)

    def _middle(self, start: float) -> Vector:
        """The middle of a leaf's length, on the arris, half way across the gap [mm]."""
        blank = self.into.part.blank
        point = [start + self.joint.leaf.length_mm / 2, 0.0, 0.0]
        for face in (self.edge, self.side):
            point[face.axis] = blank.across(face) if face.is_far else 0.0
        on_rail = self.into.placement.to_piece((point[0], point[1], point[2]))
        return add(on_rail, scaled(self.up, self.joint.gap_mm / 2))

    def cuts(self, part: Placed, face: Face, side: Face, pilot: float) -> Iterator[Cut]:
        """The gains in one of the two, and the pilot holes in their floors."""
        leaf, place = self.joint.leaf, part.placement
        depth = leaf.gain_depth_mm(self.joint.gap_mm)
        along = self.into.placement.x_axis
        for start in self.joint.starts_mm:
            middle = self._middle(start)
            x = place.to_part(middle)[0]
            yield Gain(
                face=face, side=side, start_mm=clean(x - leaf.length_mm / 2),
                length_mm=leaf.length_mm, into_mm=leaf.width_mm, depth_mm=clean(depth),
            )  # fmt: skip
            for off, back in leaf.screws_mm:
                at = place.to_part(
                    add(middle, add(scaled(along, off), scaled(self.out, -back)))
                )  # fmt: skip
                own = [None if axis == face.axis else clean(at[axis]) for axis in range(3)]
                yield Bore(
                    face=face, x_mm=own[0], y_mm=own[1], z_mm=own[2], diameter_mm=pilot,
                    depth_mm=clean(depth + leaf.bite_mm),
                )  # fmt: skip

    def hinges(self) -> Iterator[Fastener]:
        """Every hinge as it bears: at its pin."""
        for start in self.joint.starts_mm:
            pin = add(self._middle(start), scaled(self.out, self.joint.leaf.barrel_mm / 2))
            down = scaled(self.up, -1.0)
            yield hinge_at(self.joint.leaf, pin, down, self.into, self.incoming)

    def metal(self) -> Iterator[Metal]:
        """What of every hinge is seen: its barrel, and both leaves in their gains."""
        leaf, along = self.joint.leaf, self.into.placement.x_axis
        half = scaled(along, leaf.length_mm / 2)
        for start in self.joint.starts_mm:
            middle = self._middle(start)
            pin = add(middle, scaled(self.out, leaf.barrel_mm / 2))
            yield Metal(
                name=leaf.name, start=subtract(pin, half),
                end=add(pin, half), across=self.out, size_mm=(leaf.barrel_mm, leaf.barrel_mm),
                section=Section.ROUND,
            )  # fmt: skip
            for way in (1.0, -1.0):
                off = leaf.folded_mm / 2 - leaf.thickness_mm / 2
                at = add(
                    add(middle, scaled(self.out, -leaf.width_mm / 2)), scaled(self.up, way * off)
                )
                yield Metal(
                    name=leaf.name, start=subtract(at, half),
                    end=add(at, half), across=self.out,
                    size_mm=(leaf.width_mm, leaf.thickness_mm), section=Section.FLAT,
                )  # fmt: skip
