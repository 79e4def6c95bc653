"""What the sheet says about each kind of cut, by the cut's type.

A new cut is annotated by registering one more function here or in a module beside this one.
"""

from __future__ import annotations

from functools import singledispatch

from exporters.sheets.annotation import LOOK_OF_FACE, Annotation, Bench, Look, Position
from furniture.parts.cuts import (
    Bevel,
    Bore,
    Cut,
    Dado,
    FingerNotch,
    FlatMitre,
    Groove,
    KeySlot,
    Mitre,
    Notch,
    Profile,
    ProfileKind,
    Rabbet,
    RoundedTongue,
    Slot,
    SplineGroove,
)
from furniture.parts.faces import WIDE_FACES, Face
from furniture.parts.part import Part
from furniture.parts.vectors import Vector
from furniture.units import Shown


@singledispatch
def annotate(cut: Cut, bench: Bench) -> Annotation:
    """The figures and the callout that define one cut.

    Args:
        cut: the cut.
        bench: the wood and the shown unit.

    Raises:
        TypeError: nothing is registered for this kind of cut.
    """
    raise TypeError(f"no annotation is known for a {cut.kind} in {bench.blank}")


def annotations_of(part: Part, shown: Shown) -> tuple[Annotation, ...]:
    """What the sheet says about every cut of a part, in the order of the cuts."""
    bench = Bench(blank=part.blank, shown=shown)
    return tuple(annotate(cut, bench) for cut in part.cuts)


def _on(bench: Bench, face: Face, along: float, across: float) -> Vector:
    """A point on a wide face [mm]."""
    return (along, across, bench.blank.thickness_mm if face is Face.FACE_SIDE else 0.0)


def _stops(bench: Bench, stops: tuple[tuple[float, str], ...], radius: float) -> str:
    said = [f"stopped {bench.said(stop)} from {where}" for stop, where in stops if stop > 0]
    if not said:
        return "through"
    corner = f", corners R{bench.said(radius)}" if radius > 0 else ""
    return " and ".join(said) + corner


def _sorted_pair(first: float, second: float) -> tuple[float, float]:
    return (min(first, second), max(first, second))


def _depth(bench: Bench, depth: float | None) -> str:
    return "through" if depth is None else f"{bench.dial(depth)} deep"


@annotate.register
def _dado(cut: Dado, bench: Bench) -> Annotation:
    blank = bench.blank
    look = LOOK_OF_FACE[cut.face]
    ends = (cut.stop_from_face_edge_mm, "face edge"), (cut.stop_from_back_edge_mm, "back edge")
    middle = cut.lower_shoulder_mm + cut.width_mm / 2
    floor = cut.depth_mm if cut.face is Face.BACK_SIDE else blank.thickness_mm - cut.depth_mm
    is_open = cut.stop_from_face_edge_mm <= 0
    target: Vector = (middle, 0.0, floor)
    if not is_open:
        low, high = cut.stop_from_face_edge_mm, blank.width_mm - cut.stop_from_back_edge_mm
        target = _on(bench, cut.face, middle, (low + high) / 2)
    across = (
        blank.width_mm
        if cut.stop_from_back_edge_mm <= 0
        else (blank.width_mm - cut.stop_from_back_edge_mm)
    )
    shoulder = Position(
        axis=0,
        value_mm=cut.lower_shoulder_mm,
        point=_on(bench, cut.face, cut.lower_shoulder_mm, across),
        look=look,
    )
    return Annotation(
        noun="dado",
        spec=f"{bench.dial(cut.width_mm)} wide x {bench.dial(cut.depth_mm)} deep, "
        + _stops(bench, ends, cut.end_radius_mm),
        place=f"in {cut.face.value}",
        target=target,
        look=Look.FACE_EDGE if is_open else look,
        size_mm=_sorted_pair(cut.width_mm, cut.depth_mm) if is_open else None,
        positions=(shoulder,),
        shoulder=shoulder,
    )


@annotate.register
def _groove(cut: Groove, bench: Bench) -> Annotation:
    blank = bench.blank
    ends = (cut.stop_from_named_end_mm, "named end"), (cut.stop_from_far_end_mm, "far end")
    along = (cut.stop_from_named_end_mm + blank.length_mm - cut.stop_from_far_end_mm) / 2
    inside = blank.across(cut.face) - cut.depth_mm if cut.face.is_far else cut.depth_mm
    surface = blank.across(cut.face) if cut.face.is_far else 0.0
    if cut.face in WIDE_FACES:
        middle = cut.offset_mm + cut.width_mm / 2
        target: Vector = (along, middle, inside)
        point: Vector = (along, cut.offset_mm, surface)
        axis = 1
    else:
        level = blank.thickness_mm - cut.offset_mm
        target = (along, inside, level - cut.width_mm / 2)
        point = (along, surface, level)
        axis = 2
    return Annotation(
        noun="groove",
        spec=f"{bench.dial(cut.width_mm)} wide x {bench.dial(cut.depth_mm)} deep, along the grain, "
        + _stops(bench, ends, cut.end_radius_mm),
        place=f"in {cut.face.value}",
        target=target,
        look=Look.SECTION,
        positions=(Position(axis=axis, value_mm=cut.offset_mm, point=point, look=Look.SECTION),),
    )


@annotate.register
def _rabbet(cut: Rabbet, bench: Bench) -> Annotation:
    blank = bench.blank
    run_axis = 1 - cut.edge.axis
    names = ("named end", "far end") if run_axis == 0 else ("face edge", "back edge")
    stops = (cut.stop_at_low_mm, names[0]), (cut.stop_at_high_mm, names[1])
    run = _stops(bench, stops, 0.0)
    corner = [0.0, 0.0, 0.0]
    extent = blank.across(cut.edge)
    corner[cut.edge.axis] = (
        extent - cut.down_from_edge_mm if cut.edge.is_far else cut.down_from_edge_mm
    )
    corner[2] = (
        blank.thickness_mm - cut.into_thickness_mm
        if cut.face is Face.FACE_SIDE
        else cut.into_thickness_mm
    )
    corner[run_axis] = (cut.stop_at_low_mm + blank.size[run_axis] - cut.stop_at_high_mm) / 2
    return Annotation(
        noun="rabbet",
        spec=f"{bench.dial(cut.down_from_edge_mm)} down x {bench.dial(cut.into_thickness_mm)} "
        "into the thickness" + ("" if run == "through" else f", {run}"),
        place=f"along {cut.edge.value}, on {cut.face.value}",
        target=(corner[0], corner[1], corner[2]),
        look=Look.SECTION if run_axis == 0 else Look.FACE_EDGE,
        size_mm=_sorted_pair(cut.down_from_edge_mm, cut.into_thickness_mm),
    )


def _slope_middle(bench: Bench, cut_face: Face, long_point: Face, setback: float) -> Vector:
    size = bench.blank.size
    point = [extent / 2 for extent in size]
    extent = size[cut_face.axis]
    point[cut_face.axis] = extent - setback / 2 if cut_face.is_far else setback / 2
    point[long_point.axis] = size[long_point.axis] / 2
    return (point[0], point[1], point[2])


@annotate.register
def _mitre(cut: Mitre, bench: Bench) -> Annotation:
    setback = cut.setback_mm(bench.blank)
    return Annotation(
        noun="mitre",
        spec=f"{bench.angle(cut.blade_tilt_deg)}, blade tilted",
        place=f"{cut.end.value}, long point on {cut.long_point_face.value}",
        target=_slope_middle(bench, cut.end, cut.long_point_face, setback),
        look=Look.FACE_EDGE,
    )


@annotate.register
def _flat_mitre(cut: FlatMitre, bench: Bench) -> Annotation:
    setback = cut.setback_mm(bench.blank)
    return Annotation(
        noun="flat mitre",
        spec=f"{bench.angle(cut.gauge_angle_deg)}, gauge turned",
        place=f"{cut.end.value}, long point on {cut.long_point_edge.value}",
        target=_slope_middle(bench, cut.end, cut.long_point_edge, setback),
        look=Look.FACE_SIDE,
    )


@annotate.register
def _bevel(cut: Bevel, bench: Bench) -> Annotation:
    setback = cut.setback_mm(bench.blank)
    return Annotation(
        noun="bevel",
        spec=f"{bench.angle(cut.blade_tilt_deg)}, blade tilted",
        place=f"{cut.edge.value}, long point on {cut.long_point_face.value}",
        target=_slope_middle(bench, cut.edge, cut.long_point_face, setback),
        look=Look.SECTION,
    )


@annotate.register
def _bore(cut: Bore, bench: Bench) -> Annotation:
    look = LOOK_OF_FACE[cut.face]
    values = (cut.x_mm or 0.0, cut.y_mm or 0.0, cut.z_mm or 0.0)
    centre = list(values)
    centre[cut.face.axis] = bench.blank.across(cut.face) if cut.face.is_far else 0.0
    point: Vector = (centre[0], centre[1], centre[2])
    positions = tuple(
        Position(
            axis=axis,
            value_mm=bench.from_face_side(values[2]) if axis == 2 else values[axis],
            point=point,
            look=look,
        )
        for axis in range(3)
        if axis != cut.face.axis
    )
    sink = ""
    if cut.countersink_diameter_mm > cut.diameter_mm:
        sink = f", countersunk dia {bench.said(cut.countersink_diameter_mm)} at 90°"
    widest = max(cut.diameter_mm, cut.countersink_diameter_mm)
    return Annotation(
        noun="bore",
        spec=f"dia {bench.dial(cut.diameter_mm)}, {_depth(bench, cut.depth_mm)}{sink}",
        place=f"from {cut.face.value}",
        target=point,
        look=look,
        positions=positions,
        centres=((point, widest / 2),),
    )


@annotate.register
def _slot(cut: Slot, bench: Bench) -> Annotation:
    look = LOOK_OF_FACE[cut.face]
    point = _on(bench, cut.face, cut.x_mm, cut.y_mm)
    return Annotation(
        noun="slot",
        spec=f"{bench.said(cut.length_mm)} long x {bench.dial(cut.width_mm)} wide, round ends, "
        f"{cut.along.value}, {_depth(bench, cut.depth_mm)}",
        place=f"from {cut.face.value}",
        target=point,
        look=look,
        positions=(
            Position(axis=0, value_mm=cut.x_mm, point=point, look=look),
            Position(axis=1, value_mm=cut.y_mm, point=point, look=look),
        ),
        centres=((point, cut.width_mm / 2),),
    )


@annotate.register
def _notch(cut: Notch, bench: Bench) -> Annotation:
    run_axis = 1 - cut.edge.axis
    extent = bench.blank.across(cut.edge)
    inner = extent - cut.depth_mm if cut.edge.is_far else cut.depth_mm
    outer = extent if cut.edge.is_far else 0.0
    target, point = [0.0, 0.0, bench.blank.thickness_mm], [0.0, 0.0, bench.blank.thickness_mm]
    target[run_axis], target[cut.edge.axis] = cut.start_mm + cut.length_mm / 2, inner
    point[run_axis], point[cut.edge.axis] = cut.start_mm, outer
    radius = (
        f", inner corners R{bench.said(cut.inner_radius_mm)}" if cut.inner_radius_mm > 0 else ""
    )
    return Annotation(
        noun="notch",
        spec=f"{bench.caliper(cut.length_mm)} long x {bench.caliper(cut.depth_mm)} deep{radius}",
        place=f"from {cut.edge.value}",
        target=(target[0], target[1], target[2]),
        look=Look.FACE_SIDE,
        positions=(
            Position(
                axis=run_axis,
                value_mm=cut.start_mm,
                point=(point[0], point[1], point[2]),
                look=Look.FACE_SIDE,
            ),
        ),
    )


@annotate.register
def _finger_notch(cut: FingerNotch, bench: Bench) -> Annotation:
    run_axis = 1 - cut.edge.axis
    extent = bench.blank.across(cut.edge)
    thickness = bench.blank.thickness_mm
    point, target = [0.0, 0.0, thickness], [0.0, 0.0, thickness]
    point[run_axis] = target[run_axis] = cut.centre_mm
    point[cut.edge.axis] = extent if cut.edge.is_far else 0.0
    target[cut.edge.axis] = extent - cut.radius_mm if cut.edge.is_far else cut.radius_mm
    centre: Vector = (point[0], point[1], point[2])
    return Annotation(
        noun="finger notch",
        spec=f"R{bench.said(cut.radius_mm)}, half round",
        place=f"centred on {cut.edge.value}",
        target=(target[0], target[1], target[2]),
        look=Look.FACE_SIDE,
        positions=(
            Position(axis=run_axis, value_mm=cut.centre_mm, point=centre, look=Look.FACE_SIDE),
        ),
        centres=((centre, cut.radius_mm),),
    )


@annotate.register
def _profile(cut: Profile, bench: Bench) -> Annotation:
    point = [extent / 2 for extent in bench.blank.size]
    share = 0.3 if cut.profile_kind is ProfileKind.ROUND_OVER else 0.5
    for face in (cut.edge.first, cut.edge.second):
        inset = cut.radius_mm * share
        point[face.axis] = bench.blank.across(face) - inset if face.is_far else inset
    look = {0: Look.SECTION, 1: Look.FACE_EDGE, 2: Look.FACE_SIDE}[cut.edge.run_axis]
    is_round = cut.profile_kind is ProfileKind.ROUND_OVER
    size = bench.said(cut.radius_mm)
    return Annotation(
        noun=cut.profile_kind.value,
        spec=f"R{size}" if is_round else f"{size} x 45°",
        place=cut.edge.name,
        target=(point[0], point[1], point[2]),
        look=look,
        size_mm=(cut.radius_mm, cut.radius_mm),
    )


def _along_mitre(cut: SplineGroove | KeySlot, bench: Bench) -> tuple[Position, ...]:
    """Where a cut in a mitre begins along its sharp line, from the face edge or the face side."""
    if cut.start_mm <= 0.0:
        return ()
    is_flat = cut.third_axis == 2
    point = list(cut.floor_middle(bench.blank))
    point[cut.third_axis] = bench.from_face_side(cut.start_mm) if is_flat else cut.start_mm
    look = Look.FACE_EDGE if is_flat else Look.FACE_SIDE
    place: Vector = (point[0], point[1], point[2])
    return (Position(axis=cut.third_axis, value_mm=cut.start_mm, point=place, look=look),)


@annotate.register
def _spline_groove(cut: SplineGroove, bench: Bench) -> Annotation:
    is_flat = cut.third_axis == 2
    wide, run = (cut.run_mm, cut.down_slope_mm) if is_flat else (cut.down_slope_mm, cut.run_mm)
    return Annotation(
        noun="spline groove",
        spec=f"{bench.dial(wide)} wide x {bench.dial(cut.depth_mm)} deep x {bench.said(run)} "
        "long, square to the mitre",
        place=f"{cut.end.value}, {bench.said(cut.from_long_point_mm)} down the mitre from the "
        "long point",
        target=cut.floor_middle(bench.blank),
        look=Look.FACE_SIDE if is_flat else Look.FACE_EDGE,
        positions=_along_mitre(cut, bench),
    )


@annotate.register
def _key_slot(cut: KeySlot, bench: Bench) -> Annotation:
    return Annotation(
        noun="key slot",
        spec=f"{bench.dial(cut.width_mm)} wide x {bench.dial(cut.depth_mm)} deep from the outside "
        "corner, across the glued mitre",
        place=f"{cut.end.value}",
        target=cut.floor_middle(bench.blank),
        look=Look.FACE_SIDE if cut.third_axis == 2 else Look.FACE_EDGE,
        positions=_along_mitre(cut, bench),
    )


@annotate.register
def _rounded_tongue(cut: RoundedTongue, bench: Bench) -> Annotation:
    return Annotation(
        noun="rounded tongue",
        spec=f"R{bench.said(cut.radius_mm)} on both arrises, {bench.said(cut.depth_mm)} from "
        "the end of the tongue",
        place=f"on {cut.edge.value}, towards {cut.side.value}",
        target=cut.end_middle(bench.blank),
        look=Look.FACE_SIDE,
    )
