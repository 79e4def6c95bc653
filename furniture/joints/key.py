"""The key: a thin wedge of a corner let into a saw slot across the outside of a mitre."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from furniture.joints.faces import glued
from furniture.joints.fit import SLIP, Fit
from furniture.joints.joint import (
    GrainRelation,
    Joining,
    Joint,
    JointFace,
    Role,
    Worked,
)
from furniture.joints.mitre_plane import MitrePlane, planes_on
from furniture.joints.relation import TOUCHING_MM, CannotMeet, apart, clean, out_of_range
from furniture.joints.spline import nothing_joined
from furniture.parts.blank import Blank
from furniture.parts.cuts import FlatMitre, KeySlot
from furniture.parts.faces import Face
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import cross, dot, scaled
from furniture.rules import Rules
from furniture.rules.joinery import LEAST_KEY, MOST_KEY
from furniture.timber.stock import Timber
from furniture.units import Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyJoint(Joint):
    """A key glued into a slot across the outside corner; `into` is one of the two mitred rails.

    The mitre must be worked first. The key bears on the slot's wall nearer to the face edge (blade
    tilted) or to the face side (flat), its grain runs across the mitre, and it is trimmed flush.

    Args:
        fit: the clearance rule, by the key's thickness.
    """

    kind: ClassVar[str] = "key"

    fit: Fit = SLIP

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The rail's half of the slot for the key as it stands."""
        plane = _plane_crossed(into, incoming)
        if plane is None:
            need = f"{incoming.instance} square across a mitre that {into.instance} already has"
            problem = apart(self.kind, into, incoming, need)
            return Worked(joining=nothing_joined(self, into, incoming), problems=(problem,))
        blank = incoming.part.blank
        clearance = self.fit.clearance_mm(blank.thickness_mm)
        start, depth = _start_and_depth(plane, incoming)
        is_flat = plane.third_axis == 2
        width = blank.thickness_mm + clearance
        cut = KeySlot(
            end=plane.end,
            long_point=plane.long_point,
            mitre_angle_deg=plane.angle_deg,
            start_mm=clean(plane.run_mm - start - blank.thickness_mm) if is_flat else start,
            width_mm=clean(width),
            depth_mm=depth,
        )
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=clearance,
            ways_in=(plane.down,),
            role=Role.LOOSE_TONGUE,
            faces=_faces(plane, cut, start, blank.thickness_mm, clearance),
        )
        most = deepest_key_mm(plane, self.rules)
        why = "the slot must not come through the inner corner"
        problems: tuple[Draft, ...] = out_of_range(
            self, "depth", depth, self.rules[LEAST_KEY], most, why
        )
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(joining=joining, into_cuts=(cut,))


def deepest_key_mm(plane: MitrePlane, rules: Rules) -> float:
    """How deep a key's slot may go in from the corner [mm]."""
    return rules[MOST_KEY] * plane.slope_mm


def _plane_crossed(into: Placed, key: Placed) -> MitrePlane | None:
    for plane in planes_on(into):
        is_square = (
            abs(dot(plane.outward, key.placement.x_axis)) > 1 - 1e-9
            and abs(dot(plane.along, key.placement.z_axis)) > 1 - 1e-9
        )
        if not is_square:
            continue
        blank = key.part.blank
        middle = plane.read(key.placement.to_piece((blank.length_mm / 2, 0.0, 0.0)))
        start, depth = _start_and_depth(plane, key)
        lies_on = 0 < start < plane.run_mm - blank.thickness_mm and 0 < depth < plane.slope_mm
        if lies_on and abs(middle[2]) < TOUCHING_MM:
            return plane
    return None


def _start_and_depth(plane: MitrePlane, key: Placed) -> tuple[float, float]:
    """Along the sharp line to the key, and how deep it goes in from the corner [mm]."""
    blank = key.part.blank
    ends = [plane.read(key.placement.to_piece((0.0, y, z)))
            for y in (0.0, blank.width_mm) for z in (0.0, blank.thickness_mm)]  # fmt: skip
    return clean(min(end[1] for end in ends)), clean(max(end[0] for end in ends))


def _faces(
    plane: MitrePlane, cut: KeySlot, start: float, thickness: float, clearance: float
) -> tuple[JointFace, ...]:
    """The slot's floor and both walls, of which the outer corner's slope has taken half."""
    half, depth, end = cut.half_length_mm(), cut.depth_mm, start + thickness
    inside = (-half, 0.0)
    plays = (clearance, 0.0) if plane.third_axis == 2 else (0.0, clearance)
    walls = (
        (scaled(plane.along, -1.0), start, plays[0]),
        (plane.along, end, plays[1]),
    )
    found = list(
        plane.rectangle(
            "slot floor", towards=plane.down, down=(depth, depth), along=(start, end), out=inside
        )
    )
    for towards, at, play in walls:
        found += plane.rectangle(
            "other wall" if play > 0.0 else "wall borne on",
            towards=towards,
            down=(0.0, depth),
            along=(at, at),
            out=inside,
            play_mm=play,
            glue=glued(GrainRelation.CROSSING, play),
            taken_mm2=half * depth / 2,
        )
    return tuple(found)


def key_across(
    mitred: Placed, timber: Timber, *, instance: str, end: Face, depth_mm: float, start_mm: float
) -> Placed:
    """A key in its place across a mitred corner, already trimmed flush with the outer faces.

    Args:
        mitred: a rail with its mitre cut; the other rail's angle is taken to be the same.
        timber: what the key is cut from; its thickness is the key's.
        instance: the key's name.
        end: which end of the rail.
        depth_mm: in from the outside corner [mm].
        start_mm: along the sharp line to the key, from the face edge of the rail, or from its face
            side where the rails lie flat [mm].

    Raises:
        CannotMeet: the rail has no mitre at that end.
    """
    plane = next((each for each in planes_on(mitred) if each.end is end), None)
    if plane is None:
        raise CannotMeet(f"{mitred.instance} has no mitre at Face.{end.name}")
    half = depth_mm / math.tan(math.radians(plane.angle_deg))
    along = start_mm
    if plane.third_axis == 2:
        along = plane.run_mm - start_mm - timber.thickness_mm
    y_axis, z_axis = scaled(plane.down, -1.0), plane.along
    x_axis = cross(y_axis, z_axis)
    outward = -half if dot(x_axis, plane.outward) > 0 else half
    blank = Blank(length_mm=2 * half, width_mm=depth_mm, thickness_mm=timber.thickness_mm)
    trims = tuple(
        FlatMitre(
            end=own_end, gauge_angle_deg=90.0 - plane.angle_deg, long_point_edge=Face.FACE_EDGE
        )
        for own_end in (Face.NAMED_END, Face.FAR_END)
    )
    return Placed(
        instance=instance,
        part=Part(name="key", blank=blank, timber=timber, cuts=trims),
        placement=Placement(
            origin=plane.point(depth_mm, along, outward), x_axis=x_axis, y_axis=y_axis
        ),
    )
