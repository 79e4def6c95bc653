"""The spline: a thin loose tongue in grooves in both faces of a mitre."""

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
from furniture.parts.blank import Blank
from furniture.parts.cuts import SplineGroove
from furniture.parts.faces import Face
from furniture.parts.part import Part, Placed
from furniture.parts.placement import Placement
from furniture.parts.vectors import Vector, cross, dot, scaled
from furniture.rules import Rules
from furniture.rules.joinery import LEAST_SPLINE_INTO, MOST_SPLINE, SPLINE_OUTSIDE
from furniture.timber.stock import Timber
from furniture.units import Draft, Least


@dataclass(frozen=True, slots=True, kw_only=True)
class SplineJoint(Joint):
    """A spline glued into a groove in the mitred face of `into`; the other rail has one more.

    The mitre must be worked first. The spline's grain runs square to the mitre, so that it cannot
    split along the joint. It bears on the groove's wall nearer to the long point or the face side.

    Args:
        fit: the clearance rule, by the spline's thickness.
        gap_mm: below the spline, and at its ends where the groove is stopped.
    """

    kind: ClassVar[str] = "spline"

    fit: Fit = SLIP
    gap_mm: float = 0.5

    def work(self, into: Placed, incoming: Placed) -> Worked:
        """The groove in the mitred face for the spline as it stands."""
        plane = _plane_crossed(into, incoming)
        if plane is None:
            need = f"{incoming.instance} square across a mitre that {into.instance} already has"
            problem = apart(self.kind, into, incoming, need)
            return Worked(joining=nothing_joined(self, into, incoming), problems=(problem,))
        lies = _spans(plane, incoming)
        blank = incoming.part.blank
        clearance = self.fit.clearance_mm(blank.thickness_mm)
        is_flat = plane.third_axis == 2
        cut = self._cut(plane, lies, clearance, is_flat)
        joining = Joining(
            kind=self.kind,
            into=into.instance,
            incoming=incoming.instance,
            fit=self.fit,
            clearance_mm=clearance,
            ways_in=self._ways_in(plane, cut),
            role=Role.LOOSE_TONGUE,
            faces=self._faces(plane, lies, clearance, _grain(plane, incoming)),
        )
        problems = self._problems(plane, lies, incoming)
        if problems:
            return Worked(joining=joining, problems=problems)
        return Worked(joining=joining, into_cuts=(cut,))

    def _cut(
        self, plane: MitrePlane, lies: _Spans, clearance: float, is_flat: bool
    ) -> SplineGroove:
        run = plane.run_mm
        if is_flat:  # thickness lies along the sharp line, struck from the face side
            down = (lies.down[0] - self.gap_mm, lies.down[1] + self.gap_mm)
            along = (lies.along[0] - clearance, lies.along[1])
        else:
            down = (lies.down[0], lies.down[1] + clearance)
            along = (self._stop(lies.along[0], -1.0, run), self._stop(lies.along[1], 1.0, run))
        start = run - along[1] if is_flat else along[0]
        return SplineGroove(
            end=plane.end,
            long_point=plane.long_point,
            mitre_angle_deg=plane.angle_deg,
            from_long_point_mm=clean(down[0]),
            down_slope_mm=clean(down[1] - down[0]),
            start_mm=clean(start),
            run_mm=clean(along[1] - along[0]),
            depth_mm=clean(lies.depth + self.gap_mm),
        )

    def _stop(self, at: float, sign: float, run: float) -> float:
        """Where the groove ends: past the spline's end by the gap, or out through the edge."""
        end = at + sign * self.gap_mm
        is_open = at <= TOUCHING_MM if sign < 0 else at >= run - TOUCHING_MM
        return min(max(at if is_open else end, 0.0), run)

    def _ways_in(self, plane: MitrePlane, cut: SplineGroove) -> tuple[Vector, ...]:
        """Square into the mitre, or along the groove where it runs out."""
        ways = [scaled(plane.outward, -1.0)]
        if plane.third_axis == 1:
            if cut.start_mm <= TOUCHING_MM:
                ways.append(plane.along)
            if cut.start_mm + cut.run_mm >= plane.run_mm - TOUCHING_MM:
                ways.append(scaled(plane.along, -1.0))
        return tuple(ways)

    def _faces(
        self, plane: MitrePlane, lies: _Spans, clearance: float, grain: GrainRelation
    ) -> tuple[JointFace, ...]:
        """Both walls and the bottom of the groove, and its ends where they are stopped."""
        sunk = (-lies.depth, 0.0)
        up, back = scaled(plane.down, -1.0), scaled(plane.along, -1.0)
        (first_down, last_down), (first, last) = lies.down, lies.along
        is_flat = plane.third_axis == 2
        bears, loose = ("wall borne on", 0.0), ("other wall", clearance)
        end = ("stopped end", self.gap_mm)
        run = plane.run_mm
        ends = [
            ("stopped end", abs(self._stop(at, sign, run) - at))
            for at, sign in ((first, -1.0), (last, 1.0))
        ]
        is_open = [at <= TOUCHING_MM or at >= run - TOUCHING_MM for at in (first, last)]
        sides = [
            (end if is_flat else bears, up, (first_down, first_down), lies.along),
            (end if is_flat else loose, plane.down, (last_down, last_down), lies.along),
        ]
        if is_flat or not is_open[0]:
            sides.append((loose if is_flat else ends[0], back, lies.down, (first, first)))
        if is_flat or not is_open[1]:
            sides.append((bears if is_flat else ends[1], plane.along, lies.down, (last, last)))
        walls = (bears, loose)
        found = [
            face
            for named, towards, down, along in sides
            for face in plane.rectangle(
                named[0], towards=towards, down=down, along=along, out=sunk, play_mm=named[1],
                glue=glued(grain, named[1], named in walls),
            )
        ]  # fmt: skip
        found += plane.rectangle(
            "bottom", towards=scaled(plane.outward, -1.0), down=lies.down, along=lies.along,
            out=(-lies.depth, -lies.depth), play_mm=self.gap_mm,
        )  # fmt: skip
        return tuple(found)

    def _problems(self, plane: MitrePlane, lies: _Spans, spline: Placed) -> tuple[Draft, ...]:
        most = self.rules[MOST_SPLINE] * plane.part.part.blank.thickness_mm
        outside = deepest_spline_mm(plane, lies.down[0], self.gap_mm, self.rules)
        return (
            *out_of_range(
                self, "spline thickness", spline.part.blank.thickness_mm, 1.0, most,
                "a spline is no thicker than a third of the part (common practice)",
            ),
            *out_of_range(self, "gap", self.gap_mm, 0.0, 3.0, "glue needs a little room"),
            *out_of_range(
                self, "depth in each part", lies.depth, self.rules[LEAST_SPLINE_INTO], outside,
                (
                    "the groove leaves ", Least(self.rules[SPLINE_OUTSIDE]),
                    " to the outer face; nearer to the inner corner it may go deeper",
                ),
            ),
        )  # fmt: skip


def deepest_spline_mm(
    plane: MitrePlane, from_long_point_mm: float, gap_mm: float, rules: Rules
) -> float:
    """How far a spline may go into a part before its groove nears the outer face [mm].

    Args:
        plane: the mitre.
        from_long_point_mm: down the slope to the spline [mm].
        gap_mm: below the spline [mm].
    """
    angle = math.radians(plane.angle_deg)
    outside = from_long_point_mm / math.tan(angle)
    return outside - rules[SPLINE_OUTSIDE] / math.sin(angle) - gap_mm


def nearest_spline_mm(
    plane: MitrePlane, gap_mm: float, rules: Rules, into_mm: float | None = None
) -> float:
    """The least distance from the long point at which a spline has room [mm].

    Args:
        plane: the mitre.
        gap_mm: below the spline [mm].
        rules: the shop's own limits.
        into_mm: how far it goes into each part, the least where that is not given [mm].
    """
    angle = math.radians(plane.angle_deg)
    deep = rules[LEAST_SPLINE_INTO] if into_mm is None else into_mm
    beside = rules[SPLINE_OUTSIDE] / math.sin(angle) + gap_mm + deep
    return beside * math.tan(angle)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spans:
    """Where a spline lies on a mitred face [mm]: down the slope, along the line, and into it."""

    down: tuple[float, float]
    along: tuple[float, float]
    depth: float


def _spans(plane: MitrePlane, spline: Placed) -> _Spans:
    corners = [
        plane.read(spline.placement.to_piece((x, y, z)))
        for x in (0.0, spline.part.blank.length_mm)
        for y in (0.0, spline.part.blank.width_mm)
        for z in (0.0, spline.part.blank.thickness_mm)
    ]
    down, along, out = (tuple(corner[axis] for corner in corners) for axis in range(3))
    return _Spans(
        down=(clean(min(down)), clean(max(down))),
        along=(clean(min(along)), clean(max(along))),
        depth=clean(-min(out)),
    )


def _plane_crossed(into: Placed, spline: Placed) -> MitrePlane | None:
    """The mitre of `into` that the spline stands square across, if any."""
    for plane in planes_on(into):
        if abs(dot(plane.outward, spline.placement.x_axis)) < 1 - 1e-9:
            continue
        thickness_way = plane.along if plane.third_axis == 2 else plane.down
        if abs(dot(thickness_way, spline.placement.z_axis)) < 1 - 1e-9:
            continue
        lies = _spans(plane, spline)
        is_on_face = (
            lies.along[0] > -TOUCHING_MM
            and lies.along[1] < plane.run_mm + TOUCHING_MM
            and lies.down[0] > 0
            and lies.down[1] < plane.slope_mm
        )
        if is_on_face and 0 < lies.depth < spline.part.blank.length_mm:
            return plane
    return None


def _grain(plane: MitrePlane, spline: Placed) -> GrainRelation:
    """A groove in a mitre has side grain across, unless the mitre is nearly square to the grain."""
    is_parallel = abs(dot(plane.part.placement.x_axis, spline.placement.x_axis)) > 0.9
    return GrainRelation.LONG_TO_LONG if is_parallel else GrainRelation.CROSSING


def nothing_joined(joint: Joint, into: Placed, incoming: Placed) -> Joining:
    """The joining of a joint that could not be worked."""
    return Joining(
        kind=joint.kind,
        into=into.instance,
        incoming=incoming.instance,
        fit=None,
        clearance_mm=0.0,
        ways_in=(),
        role=Role.LOOSE_TONGUE,
        faces=(),
    )


def spline_across(
    mitred: Placed,
    timber: Timber,
    *,
    instance: str,
    end: Face,
    into_each_mm: float,
    from_long_point_mm: float,
    start_mm: float,
    width_mm: float,
) -> Placed:
    """A spline in its place across a mitred end, half in the one rail and half in the other.

    Args:
        mitred: a rail with its mitre cut.
        timber: what the spline is cut from; its thickness is the spline's.
        instance: the spline's name.
        end: which end of the rail.
        into_each_mm: how far it goes into each rail [mm].
        from_long_point_mm: down the slope from the long point to the spline [mm].
        start_mm: along the sharp line to the spline, from the face edge of the rail, or from its
            face side where the rails lie flat [mm].
        width_mm: of the spline, down or along the mitre, whichever is not its thickness [mm].

    Raises:
        CannotMeet: the rail has no mitre at that end.
    """
    plane = next((each for each in planes_on(mitred) if each.end is end), None)
    if plane is None:
        raise CannotMeet(f"{mitred.instance} has no mitre at Face.{end.name}")
    blank = Blank(length_mm=2 * into_each_mm, width_mm=width_mm, thickness_mm=timber.thickness_mm)
    if plane.third_axis == 2:  # flat: width down the slope, thickness through the rails
        z_axis, y_axis = plane.along, plane.down
        down, along = from_long_point_mm, plane.run_mm - start_mm - timber.thickness_mm
    else:
        z_axis, y_axis = plane.down, plane.along
        down, along = from_long_point_mm, start_mm
    x_axis = cross(y_axis, z_axis)
    outward = -into_each_mm if dot(x_axis, plane.outward) > 0 else into_each_mm
    placement = Placement(origin=plane.point(down, along, outward), x_axis=x_axis, y_axis=y_axis)
    part = Part(name="spline", blank=blank, timber=timber)
    return Placed(instance=instance, part=part, placement=placement)
