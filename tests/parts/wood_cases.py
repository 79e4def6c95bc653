"""For every kind of cut, one that leaves too little of a blank and one that leaves enough."""

from __future__ import annotations

from dataclasses import dataclass

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
from furniture.parts.faces import Arris, Face

RAIL = Blank(length_mm=300.0, width_mm=60.0, thickness_mm=20.0)
LATH = Blank(length_mm=300.0, width_mm=20.5, thickness_mm=20.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A cut in a blank, and the least wood that it leaves, worked out by hand [mm]."""

    blank: Blank
    cut: Cut
    least_mm: float


def dado(face: Face = Face.FACE_SIDE, at: float = 100.0, width: float = 13.0, depth: float = 6.0,
         **more: float) -> Dado:  # fmt: skip
    return Dado(face=face, lower_shoulder_mm=at, width_mm=width, depth_mm=depth, **more)


def groove(face: Face, offset: float, width: float, depth: float) -> Groove:
    return Groove(face=face, offset_mm=offset, width_mm=width, depth_mm=depth)


def rabbet(edge: Face, face: Face, down: float, into: float) -> Rabbet:
    return Rabbet(edge=edge, face=face, down_from_edge_mm=down, into_thickness_mm=into)


def bore(face: Face = Face.FACE_SIDE, x: float | None = 100.0, y: float | None = 30.0,
         z: float | None = None, d: float = 8.0, depth: float | None = None) -> Bore:  # fmt: skip
    return Bore(face=face, x_mm=x, y_mm=y, z_mm=z, diameter_mm=d, depth_mm=depth)


def notch(edge: Face, start: float, length: float, depth: float) -> Notch:
    return Notch(edge=edge, start_mm=start, length_mm=length, depth_mm=depth)


def slot(y: float, width: float, depth: float | None = None) -> Slot:
    return Slot(face=Face.FACE_SIDE, x_mm=150.0, y_mm=y, length_mm=80.0, width_mm=width,
                along=Along.GRAIN, depth_mm=depth)  # fmt: skip


def _spline(start: float) -> SplineGroove:
    return SplineGroove(end=Face.NAMED_END, long_point=Face.FACE_SIDE, mitre_angle_deg=45.0,
                        from_long_point_mm=start, down_slope_mm=4.0, start_mm=0.0, run_mm=60.0,
                        depth_mm=9.3)  # fmt: skip


def _key(depth: float) -> KeySlot:
    return KeySlot(end=Face.NAMED_END, long_point=Face.FACE_SIDE, mitre_angle_deg=45.0,
                   start_mm=20.0, width_mm=3.0, depth_mm=depth)  # fmt: skip


def _tongue(inset: float) -> RoundedTongue:
    return RoundedTongue(edge=Face.NAMED_END, side=Face.FACE_EDGE, inset_mm=inset, depth_mm=6.0,
                         radius_mm=4.0)  # fmt: skip


def _rounded(radius: float) -> Profile:
    return Profile(edge=Arris(Face.FACE_SIDE, Face.FACE_EDGE),
                   profile_kind=ProfileKind.ROUND_OVER, radius_mm=radius)  # fmt: skip


def _mortise(depth: float, at: float = 6.0) -> Mortise:
    return Mortise(face=Face.BACK_EDGE, first_at_mm=100.0, first_size_mm=40.0, second_at_mm=at,
                   second_size_mm=8.0, depth_mm=depth)  # fmt: skip


def _deep(face: Face, depth: float) -> Mortise:
    return Mortise(face=face, first_at_mm=100.0, first_size_mm=40.0, second_at_mm=20.0,
                   second_size_mm=10.0, depth_mm=depth)  # fmt: skip


def _tenon(thickness: float) -> Tenon:
    return Tenon(end=Face.FAR_END, length_mm=25.0, from_face_side_mm=6.0, thickness_mm=thickness,
                 from_face_edge_mm=10.0, width_mm=40.0)  # fmt: skip


def _gain(depth: float, into: float = 12.0) -> Gain:
    return Gain(face=Face.BACK_EDGE, side=Face.FACE_SIDE, start_mm=40.0, length_mm=30.0,
                into_mm=into, depth_mm=depth)  # fmt: skip


def _flat(blank: Blank, angle: float, least: float) -> Case:
    cut = FlatMitre(end=Face.NAMED_END, gauge_angle_deg=angle, long_point_edge=Face.FACE_EDGE)
    return Case(blank=blank, cut=cut, least_mm=least)


def _mitre(length: float) -> Case:
    return Case(
        blank=Blank(length_mm=length, width_mm=60.0, thickness_mm=20.0),
        cut=Mitre(end=Face.FAR_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE),
        least_mm=length - 20.0,
    )


def _bevel(blank: Blank) -> Case:
    cut = Bevel(edge=Face.BACK_EDGE, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)
    return Case(blank=blank, cut=cut, least_mm=blank.width_mm - 20.0)


def _in_rail(cut: Cut, least: float) -> Case:
    return Case(blank=RAIL, cut=cut, least_mm=least)


SLOPE_MM = 20.0 * 2.0**0.5
TOO_LITTLE: dict[type[Cut], Case] = {
    Dado: _in_rail(dado(depth=19.5), 0.5),
    Groove: _in_rail(groove(Face.BACK_EDGE, 0.5, 10.0, 8.0), 0.5),
    Rabbet: _in_rail(rabbet(Face.FACE_EDGE, Face.BACK_SIDE, 10.0, 19.5), 0.5),
    Mitre: _mitre(20.5),
    FlatMitre: _flat(Blank(length_mm=60.5, width_mm=60.0, thickness_mm=20.0), 45.0, 0.5),
    Bevel: _bevel(LATH),
    # 45 degrees: 10 down and 9.3 in leave (10 - 9.3) / sqrt(2) to the outside
    SplineGroove: _in_rail(_spline(10.0), 0.7 / 2.0**0.5),
    KeySlot: _in_rail(_key(SLOPE_MM - 0.5), 0.5),
    Bore: _in_rail(bore(d=59.0), 0.5),
    Slot: _in_rail(slot(30.0, 59.0), 0.5),
    Notch: _in_rail(notch(Face.FACE_EDGE, 100.0, 20.0, 59.5), 0.5),
    FingerNotch: _in_rail(FingerNotch(edge=Face.FACE_EDGE, centre_mm=150.0, radius_mm=59.0), 1.0),
    RoundedTongue: _in_rail(_tongue(55.5), 0.5),
    Profile: _in_rail(_rounded(19.5), 0.5),
    Mortise: _in_rail(_mortise(25.0, at=0.5), 0.5),
    Tenon: _in_rail(_tenon(0.5), 0.5),
    Gain: _in_rail(_gain(2.0, into=19.5), 0.5),
}
ENOUGH: dict[type[Cut], Case] = {
    Dado: _in_rail(dado(), 14.0),
    Groove: _in_rail(groove(Face.BACK_EDGE, 7.0, 6.0, 8.0), 7.0),
    Rabbet: _in_rail(rabbet(Face.FACE_EDGE, Face.BACK_SIDE, 10.0, 12.0), 8.0),
    Mitre: _mitre(200.0),
    FlatMitre: _flat(RAIL, 45.0, 240.0),
    Bevel: _bevel(RAIL),
    # 18 down and 9.3 in: (18 - 9.3) / sqrt(2) to the outside; 22 of 28.28 down to the inside
    SplineGroove: _in_rail(_spline(18.0), 8.7 / 2.0**0.5),
    KeySlot: _in_rail(_key(12.0), SLOPE_MM - 12.0),
    Bore: _in_rail(bore(), 26.0),
    Slot: _in_rail(slot(30.0, 8.0), 26.0),
    Notch: _in_rail(notch(Face.FACE_EDGE, 100.0, 20.0, 20.0), 40.0),
    FingerNotch: _in_rail(FingerNotch(edge=Face.FACE_EDGE, centre_mm=150.0, radius_mm=15.0), 45.0),
    RoundedTongue: _in_rail(_tongue(10.0), 46.0),
    Profile: _in_rail(_rounded(3.0), 17.0),
    Mortise: _in_rail(_mortise(25.0), 6.0),
    Tenon: _in_rail(_tenon(8.0), 8.0),
    Gain: _in_rail(_gain(2.0), 8.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Cuts of one rail and the least wood that they leave together [mm]; 0 or less: they meet."""

    what: str
    cuts: tuple[Cut, ...]
    least_mm: float


PAIRS = [
    Together(what="dado behind dado", least_mm=3.0,
             cuts=(dado(depth=8.0), dado(Face.BACK_SIDE, 108.0, 20.0, 9.0))),
    Together(what="dados back to back", least_mm=0.0,
             cuts=(dado(depth=10.0), dado(Face.BACK_SIDE, depth=10.0))),
    Together(what="stopped dados that meet", least_mm=-1.0,
             cuts=(dado(depth=12.0, stop_from_face_edge_mm=20.0),
                   dado(Face.BACK_SIDE, 105.0, depth=9.0, stop_from_back_edge_mm=25.0))),
    Together(what="dado beside dado", least_mm=2.0, cuts=(dado(), dado(at=115.0))),
    Together(what="notch beside bore", least_mm=1.5,
             cuts=(notch(Face.FACE_EDGE, 100.0, 20.0, 20.0), bore(x=110.0, y=25.5))),
    Together(what="bore beside the notch's wall", least_mm=0.6,
             cuts=(notch(Face.FACE_EDGE, 100.0, 20.0, 20.0), bore(x=124.6, y=12.0))),
    Together(what="groove under rabbet", least_mm=2.0,
             cuts=(rabbet(Face.FACE_EDGE, Face.BACK_SIDE, 10.0, 12.0),
                   groove(Face.FACE_SIDE, 2.0, 5.0, 6.0))),
    Together(what="groove behind dado", least_mm=1.0,
             cuts=(dado(depth=9.0), groove(Face.BACK_SIDE, 20.0, 6.0, 10.0))),
    Together(what="notches from both edges", least_mm=0.4,
             cuts=(notch(Face.FACE_EDGE, 100.0, 20.0, 29.6),
                   notch(Face.BACK_EDGE, 110.0, 30.0, 30.0))),
    Together(what="notches that meet", least_mm=0.0,
             cuts=(notch(Face.FACE_EDGE, 100.0, 20.0, 30.0),
                   notch(Face.BACK_EDGE, 110.0, 30.0, 30.0))),
    Together(what="dowel bore under dado", least_mm=1.0,
             cuts=(dado(depth=5.0), bore(Face.FACE_EDGE, x=106.0, y=None, z=10.0, depth=30.0))),
    Together(what="blind bore behind dado", least_mm=0.8,
             cuts=(dado(), bore(Face.BACK_SIDE, x=105.0, depth=13.2))),
    Together(what="bores aslant", least_mm=0.5,
             cuts=(bore(), bore(x=100.0 + 8.5 * 0.6, y=30.0 + 8.5 * 0.8))),
    Together(what="dado and dado from behind, one past the other", least_mm=0.5,
             cuts=(dado(depth=10.0), dado(Face.BACK_SIDE, 113.3, depth=9.6))),
    Together(what="dados from both sides that meet in a line", least_mm=0.0,
             cuts=(dado(depth=10.0), dado(Face.BACK_SIDE, 113.0, depth=10.0))),
    Together(what="notches corner to corner", least_mm=0.5,
             cuts=(notch(Face.FACE_EDGE, 100.0, 20.0, 29.7),
                   notch(Face.BACK_EDGE, 120.4, 30.0, 30.0))),
    Together(what="bore past a notch's corner", least_mm=1.0,
             cuts=(notch(Face.FACE_EDGE, 100.0, 20.0, 20.0), bore(x=123.0, y=24.0))),
    Together(what="dowel bore past a dado's corner", least_mm=1.0,
             cuts=(dado(depth=5.0),
                   bore(Face.FACE_EDGE, x=116.0, y=None, z=11.0, depth=30.0))),
    Together(what="slot beside bore", least_mm=1.0, cuts=(slot(30.0, 8.0), bore(x=195.0))),
    Together(what="finger notch over groove", least_mm=1.0,
             cuts=(FingerNotch(edge=Face.BACK_EDGE, centre_mm=150.0, radius_mm=15.0),
                   groove(Face.FACE_SIDE, 38.0, 6.0, 6.0))),
    Together(what="mortise near a tenon's shoulder", least_mm=4.0,
             cuts=(_tenon(8.0), Mortise(face=Face.FACE_SIDE, first_at_mm=231.0, first_size_mm=40.0,
                                        second_at_mm=45.0, second_size_mm=10.0, depth_mm=12.0))),
    Together(what="mortises from both sides", least_mm=1.5,
             cuts=(_deep(Face.FACE_SIDE, 8.5), _deep(Face.BACK_SIDE, 10.0))),
    Together(what="two mitres on a rail", least_mm=260.0,
             cuts=(Mitre(end=Face.NAMED_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE),
                   Mitre(end=Face.FAR_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE))),
    Together(what="dado near a mitre's short point", least_mm=0.5,
             cuts=(Mitre(end=Face.NAMED_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE),
                   dado(Face.BACK_SIDE, 20.5, 10.0, 6.0))),
]  # fmt: skip

BY_DESIGN = [
    Together(what="screw hole in a dado's floor", least_mm=14.0, cuts=(dado(), bore(x=106.5))),
    Together(what="peg from the back into a dado", least_mm=14.0,
             cuts=(dado(), bore(Face.BACK_SIDE, x=106.5, depth=14.0))),
    Together(what="rabbet out into the mitre", least_mm=8.0,
             cuts=(Mitre(end=Face.NAMED_END, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE),
                   rabbet(Face.FACE_EDGE, Face.BACK_SIDE, 10.0, 12.0))),
    Together(what="panel's groove out into a tenon's shoulder", least_mm=7.0,
             cuts=(_tenon(8.0), groove(Face.BACK_EDGE, 7.0, 6.0, 8.0))),
    Together(what="peg through a tenon", least_mm=8.0,
             cuts=(_tenon(8.0), bore(x=288.0, d=6.0))),
    Together(what="rabbets that cross at a corner", least_mm=8.0,
             cuts=(rabbet(Face.FACE_EDGE, Face.BACK_SIDE, 10.0, 12.0),
                   rabbet(Face.NAMED_END, Face.BACK_SIDE, 10.0, 9.0))),
    Together(what="dado let out into a notch", least_mm=10.0,
             cuts=(dado(stop_from_back_edge_mm=10.0), notch(Face.FACE_EDGE, 95.0, 30.0, 30.0))),
    Together(what="profiles that make a nosing", least_mm=10.0,
             cuts=(_rounded(10.0), Profile(edge=Arris(Face.BACK_SIDE, Face.FACE_EDGE),
                                           profile_kind=ProfileKind.ROUND_OVER, radius_mm=10.0))),
]  # fmt: skip
"""Cuts that meet and are meant to: what is left is what each leaves alone."""
