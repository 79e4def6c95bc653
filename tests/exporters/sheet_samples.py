"""Parts and pieces of our own for the tests of the sheets, and random ones."""

from __future__ import annotations

import random
from dataclasses import replace

from furniture.parts.blank import Blank
from furniture.parts.cuts import (
    Along,
    Bevel,
    Bore,
    Cut,
    Dado,
    FingerNotch,
    FlatMitre,
    Groove,
    Mitre,
    Mortise,
    Notch,
    Profile,
    ProfileKind,
    Rabbet,
    Slot,
    Tenon,
)
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Part, Placed, Rough, misfits_of
from furniture.parts.placement import Placement
from furniture.pieces.piece import Note, Piece
from furniture.timber.species import find_species
from furniture.timber.stock import Timber
from furniture.units import Shown, millimetres

OAK = Timber(
    name="oak, thick",
    species=find_species("white oak"),
    thickness_mm=19.7,
    moisture_pct=8.0,
    moisture_is_assumed=False,
)
_HERE = Placement(origin=(0.0, 0.0, 0.0), x_axis=(1.0, 0.0, 0.0), y_axis=(0.0, 1.0, 0.0))
F = Face


def part(name: str, size: tuple[float, float, float], *cuts: Cut) -> Part:
    """A part of oak with these cuts."""
    blank = Blank(length_mm=size[0], width_mm=size[1], thickness_mm=size[2])
    return Part(
        name=name, blank=blank, timber=OAK, cuts=cuts, rough=Rough(length_mm=20.0, width_mm=5.0)
    )


def piece_of(*parts: Part, shown: Shown | None = None, notes: tuple[Note, ...] = ()) -> Piece:
    """A piece that holds these parts, side by side."""
    placed = []
    y = 0.0
    for each in parts:
        placed.append(
            Placed(instance=each.id, part=each, placement=replace(_HERE, origin=(0.0, y, 0.0)))
        )
        y += each.blank.width_mm + 20.0
    unit = shown or millimetres()
    return Piece(name="trial piece", shown=unit, placed=tuple(placed), notes=notes)


def _mitre(end: Face) -> Mitre:
    return Mitre(end=end, blade_tilt_deg=45.0, long_point_face=F.FACE_SIDE)


def _lid_rabbet() -> Rabbet:
    return Rabbet(edge=F.BACK_EDGE, face=F.BACK_SIDE, down_from_edge_mm=10.4, into_thickness_mm=9.7)


def _round(first: Face, second: Face, radius: float = 3.0) -> Profile:
    kind = ProfileKind.ROUND_OVER
    return Profile(edge=Arris(first, second), profile_kind=kind, radius_mm=radius)


def _dado(shoulder: float, width: float = 10.4, face: Face = F.FACE_SIDE) -> Dado:
    return Dado(face=face, lower_shoulder_mm=shoulder, width_mm=width, depth_mm=6.5)


POST = replace(
    part("post", (700.0, 90.0, 19.7), *(_dado(x) for x in (78.3, 212.5, 346.0, 470.8, 590.0))),
    trimmed_last=F.FAR_END,
)
MIXED_POST = part(
    "mixed post",
    (700.0, 90.0, 19.7),
    *(_dado(x, w) for x, w in ((78.3, 10.9), (212.5, 10.4), (346.0, 10.4), (590.0, 12.2))),
)
RAIL = part(
    "front rail",
    (320.0, 90.0, 19.7),
    _mitre(F.NAMED_END),
    _mitre(F.FAR_END),
    _lid_rabbet(),
    Rabbet(edge=F.FACE_EDGE, face=F.BACK_SIDE, down_from_edge_mm=6.4, into_thickness_mm=9.7),
)
LEFT_STUB = part("left stub", (115.0, 90.0, 19.7), _mitre(F.FAR_END), _lid_rabbet())
RIGHT_STUB = part("right stub", (115.0, 90.0, 19.7), _mitre(F.NAMED_END), _lid_rabbet())
LID = part(
    "lid",
    (298.0, 208.0, 9.8),
    Notch(edge=F.BACK_EDGE, start_mm=104.0, length_mm=90.0, depth_mm=3.5),
    FingerNotch(edge=F.FACE_EDGE, centre_mm=149.0, radius_mm=12.5),
    _round(F.FACE_SIDE, F.FACE_EDGE),
    _round(F.FACE_SIDE, F.NAMED_END),
    _round(F.FACE_SIDE, F.FAR_END),
)
SHELF = part(
    "tier 1",
    (260.0, 120.0, 9.8),
    _round(F.FACE_SIDE, F.FACE_EDGE),
    Profile(edge=Arris(F.BACK_SIDE, F.FACE_EDGE), profile_kind=ProfileKind.CHAMFER, radius_mm=2.0),
)
BOTTOM = part("bottom", (280.0, 160.0, 9.8))
ODD_BOARD = part(
    "odd board",
    (400.0, 140.0, 19.7),
    Bore(face=F.FACE_SIDE, x_mm=60.0, y_mm=40.0, diameter_mm=5.0, countersink_diameter_mm=9.0),
    Bore(face=F.FACE_SIDE, x_mm=60.0, y_mm=100.0, diameter_mm=5.0, countersink_diameter_mm=9.0),
    Bore(face=F.FACE_SIDE, x_mm=340.0, y_mm=70.0, diameter_mm=30.0),
    Groove(
        face=F.BACK_SIDE,
        offset_mm=12.0,
        width_mm=6.2,
        depth_mm=6.0,
        stop_from_named_end_mm=10.0,
        stop_from_far_end_mm=10.0,
        end_radius_mm=3.0,
    ),
    Slot(face=F.FACE_SIDE, x_mm=200.0, y_mm=90.0, length_mm=80.0, width_mm=12.0, depth_mm=8.0),
    Groove(face=F.FACE_EDGE, offset_mm=5.0, width_mm=4.0, depth_mm=7.0),
    Bore(face=F.NAMED_END, y_mm=30.0, z_mm=9.8, diameter_mm=8.0, depth_mm=25.0),
    Bore(face=F.NAMED_END, y_mm=110.0, z_mm=9.8, diameter_mm=8.0, depth_mm=25.0),
    Bore(face=F.BACK_EDGE, x_mm=120.0, z_mm=9.8, diameter_mm=6.0, depth_mm=30.0),
)
SLOPED_BOARD = part(
    "sloped board",
    (300.0, 110.0, 19.7),
    FlatMitre(end=F.FAR_END, gauge_angle_deg=22.5, long_point_edge=F.FACE_EDGE),
    Bevel(edge=F.BACK_EDGE, blade_tilt_deg=15.0, long_point_face=F.FACE_SIDE),
    Dado(
        face=F.BACK_SIDE,
        lower_shoulder_mm=50.0,
        width_mm=12.0,
        depth_mm=7.0,
        stop_from_face_edge_mm=15.0,
        end_radius_mm=3.0,
    ),
    Rabbet(edge=F.NAMED_END, face=F.FACE_SIDE, down_from_edge_mm=9.0, into_thickness_mm=6.0),
)
LEG = part(
    "leg",
    (400.0, 45.0, 42.0),
    Mortise(face=F.BACK_SIDE, first_at_mm=320.5, first_size_mm=60.0, second_at_mm=24.0,
            second_size_mm=7.2, depth_mm=21.0, corner_radius_mm=3.5),
    Mortise(face=F.FACE_EDGE, first_at_mm=319.0, first_size_mm=52.5, second_at_mm=24.0,
            second_size_mm=7.2, depth_mm=21.0),
)  # fmt: skip
APRON = part(
    "apron",
    (276.0, 70.0, 21.0),
    *(
        Tenon(end=end, length_mm=20.0, from_face_side_mm=6.0, thickness_mm=7.0,
              from_face_edge_mm=9.0, width_mm=50.0)
        for end in (F.NAMED_END, F.FAR_END)
    ),
)  # fmt: skip
SAMPLES = (
    POST,
    MIXED_POST,
    RAIL,
    LEFT_STUB,
    RIGHT_STUB,
    LID,
    SHELF,
    BOTTOM,
    ODD_BOARD,
    SLOPED_BOARD,
    LEG,
    APRON,
)
IN = 25.4
INCH_SAMPLES = (
    part(
        "post",
        (27 * IN + 9 * IN / 16, 3.5 * IN, 0.75 * IN),
        *(
            Dado(
                face=F.FACE_SIDE,
                lower_shoulder_mm=x * IN,
                width_mm=0.409 * IN,
                depth_mm=0.25 * IN,
            )
            for x in (3.125, 8 + 3 / 64, 13.5, 18.6875, 23.25)
        ),
    ),
    part(
        "front rail",
        (10.25 * IN, 3.25 * IN, 0.75 * IN),
        _mitre(F.NAMED_END),
        _mitre(F.FAR_END),
        Rabbet(
            edge=F.BACK_EDGE,
            face=F.BACK_SIDE,
            down_from_edge_mm=0.421875 * IN,
            into_thickness_mm=0.375 * IN,
        ),
    ),
    part(
        "lid",
        (9.5 * IN, 6.25 * IN, 0.40625 * IN),
        FingerNotch(edge=F.FACE_EDGE, centre_mm=4.75 * IN, radius_mm=0.5 * IN),
        _round(F.FACE_SIDE, F.FACE_EDGE, IN / 8),
    ),
)


def random_part(seed: int) -> Part:
    """A part with a few cuts of any kind that fit its blank and leave it in one piece."""
    rng = random.Random(seed)

    def tenth(low: float, high: float) -> float:
        return round(rng.uniform(low, high), 1)

    length, width = tenth(120, 900), tenth(60, 260)
    thickness = tenth(9, 25)
    blank = Blank(length_mm=length, width_mm=width, thickness_mm=thickness)
    half = thickness * 0.45
    cuts: list[Cut] = []
    kind = rng.choice(("post", "rail", "shelf", "panel"))
    if kind == "post":
        count = rng.randint(1, 9)
        face = rng.choice((F.FACE_SIDE, F.BACK_SIDE))
        wide = round(min(thickness, length / (count + 1) * 0.5), 1)
        deep = tenth(2, half)
        for index in range(count):
            shoulder = round(length * (index + 0.6) / (count + 1), 1)
            other = wide if rng.random() < 0.7 else round(wide * 0.8, 1)
            cuts.append(Dado(face=face, lower_shoulder_mm=shoulder, width_mm=other, depth_mm=deep))
    elif kind == "rail":
        tilt = rng.choice((30.0, 45.0))
        for end in rng.sample((F.NAMED_END, F.FAR_END), rng.randint(1, 2)):
            cuts.append(Mitre(end=end, blade_tilt_deg=tilt, long_point_face=F.FACE_SIDE))
        for edge in rng.sample((F.BACK_EDGE, F.FACE_EDGE), rng.randint(1, 2)):
            down, into = tenth(3, width * 0.2), tenth(2, half)
            cuts.append(
                Rabbet(edge=edge, face=F.BACK_SIDE, down_from_edge_mm=down, into_thickness_mm=into)
            )
    elif kind == "shelf":
        radius = tenth(1, min(4.0, half))
        for second in rng.sample((F.FACE_EDGE, F.NAMED_END, F.FAR_END), rng.randint(1, 3)):
            cuts.append(_round(F.FACE_SIDE, second, radius))
        if rng.random() < 0.6:
            long = tenth(0.2 * length, 0.4 * length)
            start = tenth(0.25 * length, 0.5 * length)
            deep = tenth(2, 0.2 * width)
            cuts.append(Notch(edge=F.BACK_EDGE, start_mm=start, length_mm=long, depth_mm=deep))
    else:
        cuts.append(
            Groove(
                face=F.BACK_SIDE,
                offset_mm=tenth(6, 0.2 * width),
                width_mm=tenth(3, 8),
                depth_mm=tenth(2, half),
            )
        )
        cuts.append(
            Bore(
                face=F.FACE_SIDE,
                x_mm=tenth(0.15 * length, 0.4 * length),
                y_mm=tenth(0.5 * width, 0.8 * width),
                diameter_mm=tenth(3, 12),
            )
        )
        if rng.random() < 0.5:
            along = rng.choice(tuple(Along))
            long = tenth(0.2, 0.3) * (width if along is Along.ACROSS else length * 0.6)
            cuts.append(
                Slot(
                    face=F.FACE_SIDE,
                    x_mm=tenth(0.6 * length, 0.7 * length),
                    y_mm=tenth(0.55 * width, 0.65 * width),
                    length_mm=round(max(long, 14.0), 1),
                    width_mm=tenth(4, 9),
                    along=along,
                )
            )
    made = Part(name=f"{kind} {seed}", blank=blank, timber=OAK, cuts=tuple(cuts))
    assert not misfits_of(made), misfits_of(made)
    return made
