"""Random blanks and, for every kind of cut, a random cut that the blank can take."""

from __future__ import annotations

import math
from collections.abc import Callable

from hypothesis import strategies as st

from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    Along,
    Bevel,
    Bore,
    Cut,
    Dado,
    FingerNotch,
    FlatMitre,
    Gain,
    Groove,
    KeySlot,
    Mitre,
    Mortise,
    Notch,
    Profile,
    ProfileKind,
    Rabbet,
    RoundedTongue,
    Slot,
    SplineGroove,
    Tenon,
)
from furniture.parts.faces import EDGES, ENDS, WIDE_FACES, Arris, Face
from tests.joints.pairs import mm

WIDE, LONG, END = st.sampled_from(WIDE_FACES), st.sampled_from(EDGES), st.sampled_from(ENDS)


@st.composite
def blanks(draw: st.DrawFn) -> Blank:
    return Blank(
        length_mm=draw(mm(120, 400)), width_mm=draw(mm(50, 120)), thickness_mm=draw(mm(10, 30))
    )


def _dado(draw: st.DrawFn, blank: Blank) -> Cut:
    width = draw(mm(4, 20))
    return Dado(
        face=draw(WIDE),
        lower_shoulder_mm=draw(mm(0, blank.length_mm - width)),
        width_mm=width,
        depth_mm=draw(mm(1, blank.thickness_mm - 1)),
        stop_from_face_edge_mm=draw(st.one_of(st.just(0.0), mm(2, 15))),
        stop_from_back_edge_mm=draw(st.one_of(st.just(0.0), mm(2, 15))),
        end_radius_mm=draw(st.one_of(st.just(0.0), mm(0.5, width / 2))),
    )


def _groove(draw: st.DrawFn, blank: Blank) -> Cut:
    face = draw(st.sampled_from(WIDE_FACES + EDGES))
    width = draw(mm(3, 8))
    return Groove(
        face=face,
        offset_mm=draw(mm(0, blank.size[3 - face.axis] - width)),
        width_mm=width,
        depth_mm=draw(mm(1, 8)),
        stop_from_named_end_mm=draw(st.one_of(st.just(0.0), mm(2, 15))),
        stop_from_far_end_mm=draw(st.one_of(st.just(0.0), mm(2, 15))),
        end_radius_mm=draw(st.one_of(st.just(0.0), mm(0.5, width / 2))),
    )


def _rabbet(draw: st.DrawFn, blank: Blank) -> Cut:
    return Rabbet(
        edge=draw(st.sampled_from(EDGES + ENDS)),
        face=draw(WIDE),
        down_from_edge_mm=draw(mm(1, 30)),
        into_thickness_mm=draw(mm(1, blank.thickness_mm - 1)),
        stop_at_low_mm=draw(st.one_of(st.just(0.0), mm(2, 15))),
        stop_at_high_mm=draw(st.one_of(st.just(0.0), mm(2, 15))),
    )


ANGLES = st.sampled_from([15.0, 22.5, 30.0, 45.0])


def _mitre(draw: st.DrawFn, blank: Blank) -> Cut:
    return Mitre(end=draw(END), blade_tilt_deg=draw(ANGLES), long_point_face=draw(WIDE))


def _flat_mitre(draw: st.DrawFn, blank: Blank) -> Cut:
    steepest = math.degrees(math.atan2(blank.length_mm, blank.width_mm))
    angle = draw(ANGLES.filter(lambda angle: angle < steepest - 1.0))
    return FlatMitre(end=draw(END), gauge_angle_deg=angle, long_point_edge=draw(LONG))


def _bevel(draw: st.DrawFn, blank: Blank) -> Cut:
    return Bevel(edge=draw(LONG), blade_tilt_deg=draw(ANGLES), long_point_face=draw(WIDE))


def _spline_groove(draw: st.DrawFn, blank: Blank) -> Cut:
    long_point = draw(st.sampled_from(WIDE_FACES + EDGES))
    angle = draw(ANGLES)
    third = 3 - long_point.axis
    slope = blank.size[long_point.axis] / math.cos(math.radians(angle))
    down = draw(mm(1, 3))
    start = draw(mm(slope * 0.3, slope * 0.5))
    run = draw(mm(4, blank.size[third] / 2))
    return SplineGroove(
        end=draw(END),
        long_point=long_point,
        mitre_angle_deg=angle,
        from_long_point_mm=start,
        down_slope_mm=down,
        start_mm=draw(st.one_of(st.just(0.0), mm(1, blank.size[third] - run))),
        run_mm=run,
        depth_mm=draw(mm(1, start / math.tan(math.radians(angle)) - 0.5)),
    )


def _key_slot(draw: st.DrawFn, blank: Blank) -> Cut:
    long_point = draw(st.sampled_from(WIDE_FACES + EDGES))
    third = 3 - long_point.axis
    width = draw(mm(1.5, 4))
    return KeySlot(
        end=draw(END),
        long_point=long_point,
        mitre_angle_deg=draw(ANGLES),
        start_mm=draw(mm(1, blank.size[third] - width - 1)),
        width_mm=width,
        depth_mm=draw(mm(3, 9)),
    )


def _bore(draw: st.DrawFn, blank: Blank) -> Cut:
    face = draw(st.sampled_from(Face))
    diameter = draw(mm(2, 6))
    depth = draw(st.one_of(st.none(), mm(3, 9)))
    mouth = draw(st.sampled_from([0.0, diameter + 1, diameter + 3]))
    half = max(diameter, mouth) / 2
    at = [draw(mm(half + 0.05, size - half - 0.05)) for size in blank.size]
    return Bore(
        face=face,
        x_mm=None if face.axis == 0 else at[0],
        y_mm=None if face.axis == 1 else at[1],
        z_mm=None if face.axis == 2 else at[2],
        diameter_mm=diameter,
        depth_mm=depth,
        countersink_diameter_mm=mouth,
    )


def _slot(draw: st.DrawFn, blank: Blank) -> Cut:
    width = draw(mm(3, 8))
    length = draw(mm(width + 0.5, 40))
    along = draw(st.sampled_from(Along))
    dx, dy = (length / 2, width / 2) if along is Along.GRAIN else (width / 2, length / 2)
    return Slot(
        face=draw(WIDE),
        x_mm=draw(mm(dx + 0.05, blank.length_mm - dx - 0.05)),
        y_mm=draw(mm(dy + 0.05, blank.width_mm - dy - 0.05)),
        length_mm=length,
        width_mm=width,
        along=along,
        depth_mm=draw(st.one_of(st.none(), mm(1, blank.thickness_mm - 1))),
    )


def _notch(draw: st.DrawFn, blank: Blank) -> Cut:
    edge = draw(st.sampled_from(EDGES + ENDS))
    length, depth = draw(mm(3, 20)), draw(mm(3, 20))
    room = blank.size[1 - edge.axis] - length
    return Notch(
        edge=edge,
        start_mm=draw(st.one_of(st.just(0.0), st.just(room), mm(0.5, room - 0.5))),
        length_mm=length,
        depth_mm=depth,
        inner_radius_mm=draw(st.one_of(st.just(0.0), mm(0.5, min(length / 2, depth)))),
    )


def _finger_notch(draw: st.DrawFn, blank: Blank) -> Cut:
    edge = draw(st.sampled_from(EDGES + ENDS))
    radius = draw(mm(5, 20))
    run = blank.size[1 - edge.axis]
    return FingerNotch(
        edge=edge, centre_mm=draw(mm(radius + 0.05, run - radius - 0.05)), radius_mm=radius
    )


def _rounded_tongue(draw: st.DrawFn, blank: Blank) -> Cut:
    edge, side = draw(st.sampled_from(EDGES + ENDS)), draw(st.sampled_from(EDGES + ENDS))
    if edge.axis == side.axis:
        side = draw(st.sampled_from(EDGES if edge in ENDS else ENDS))
    return RoundedTongue(
        edge=edge,
        side=side,
        inset_mm=draw(st.one_of(st.just(0.0), mm(1, 20))),
        depth_mm=draw(mm(2, 10)),
        radius_mm=draw(mm(0.5, blank.thickness_mm / 2)),
    )


def _profile(draw: st.DrawFn, blank: Blank) -> Cut:
    first = draw(st.sampled_from(Face))
    second = draw(st.sampled_from([face for face in Face if face.axis != first.axis]))
    return Profile(
        edge=Arris(first, second),
        profile_kind=draw(st.sampled_from(ProfileKind)),
        radius_mm=draw(mm(0.5, 8)),
    )


def _mortise(draw: st.DrawFn, blank: Blank) -> Cut:
    face = draw(st.sampled_from(Face))
    first, second = (blank.size[axis] for axis in range(3) if axis != face.axis)
    sizes = draw(mm(3, min(40, first - 1))), draw(mm(3, min(40, second - 1)))
    return Mortise(
        face=face,
        first_at_mm=draw(mm(0.5, first - sizes[0] - 0.5)),
        first_size_mm=sizes[0],
        second_at_mm=draw(mm(0.5, second - sizes[1] - 0.5)),
        second_size_mm=sizes[1],
        depth_mm=draw(mm(1, min(40, blank.across(face) - 1))),
        corner_radius_mm=draw(st.one_of(st.just(0.0), mm(0.5, min(sizes) / 2))),
    )


def _gain(draw: st.DrawFn, blank: Blank) -> Cut:
    wide, edge = draw(WIDE), draw(LONG)
    face, side = draw(st.sampled_from([(wide, edge), (edge, wide)]))
    length = draw(mm(5, 60))
    return Gain(
        face=face,
        side=side,
        start_mm=draw(mm(0.5, blank.length_mm - length - 0.5)),
        length_mm=length,
        into_mm=draw(mm(1, min(30, blank.across(side) - 1))),
        depth_mm=draw(mm(0.5, min(8, blank.across(face) - 1))),
    )


def _tenon(draw: st.DrawFn, blank: Blank) -> Cut:
    """With shoulders all round, on some sides or on one."""
    side, back_side = draw(_SHOULDER), draw(_SHOULDER)
    edge, back_edge = draw(_SHOULDER), draw(_SHOULDER)
    if not any((side, back_side, edge, back_edge)):
        side = 1.5
    return Tenon(
        end=draw(END),
        length_mm=draw(mm(3, 40)),
        from_face_side_mm=side,
        thickness_mm=blank.thickness_mm - side - back_side,
        from_face_edge_mm=edge,
        width_mm=blank.width_mm - edge - back_edge,
    )


_SHOULDER = st.one_of(st.just(0.0), mm(0.5, 4.5))

CUTS: dict[type[Cut], Callable[[st.DrawFn, Blank], Cut]] = {
    Dado: _dado,
    Groove: _groove,
    Rabbet: _rabbet,
    Mitre: _mitre,
    FlatMitre: _flat_mitre,
    Bevel: _bevel,
    SplineGroove: _spline_groove,
    KeySlot: _key_slot,
    Bore: _bore,
    Slot: _slot,
    Notch: _notch,
    FingerNotch: _finger_notch,
    RoundedTongue: _rounded_tongue,
    Profile: _profile,
    Mortise: _mortise,
    Tenon: _tenon,
    Gain: _gain,
}


@st.composite
def blank_and_cut(draw: st.DrawFn, kind: type[Cut]) -> tuple[Blank, Cut]:
    blank = draw(blanks())
    return blank, CUTS[kind](draw, blank)
