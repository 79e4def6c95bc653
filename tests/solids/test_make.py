"""Blank + cuts -> solid, against volumes and centres worked by hand."""

from __future__ import annotations

import pytest

from furniture.errors import SolidError
from furniture.parts.blank import Blank
from furniture.parts.cuts import Bore, Dado, Mitre, Rabbet
from furniture.parts.faces import Face
from furniture.solids.make import solid_from

POST = Blank(length_mm=700.0, width_mm=90.0, thickness_mm=20.0)
RAIL = Blank(length_mm=300.0, width_mm=80.0, thickness_mm=20.0)


def _dado(at: float) -> Dado:
    return Dado(face=Face.FACE_SIDE, lower_shoulder_mm=at, width_mm=10.0, depth_mm=7.0)


def test_a_post_with_two_dados_by_hand():
    solid = solid_from(POST, (_dado(100.0), _dado(400.0)))
    # 700*90*20 - 2*(10*90*7) = 1260000 - 12600
    assert solid.Volume() == pytest.approx(1_247_400.0, rel=1e-9)
    # centre: the wood taken lies at x = 105 and 405, z = 16.5
    x = (1_260_000 * 350 - 6_300 * (105 + 405)) / 1_247_400
    z = (1_260_000 * 10 - 12_600 * 16.5) / 1_247_400
    assert solid.Center().toTuple() == pytest.approx((x, 45.0, z), abs=1e-9)


def test_a_mitred_rail_by_hand():
    mitres = tuple(
        Mitre(end=end, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)
        for end in (Face.NAMED_END, Face.FAR_END)
    )
    solid = solid_from(RAIL, mitres)
    # a trapezium, 300 long outside and 260 inside, 20 thick: 280 * 20 * 80
    assert solid.Volume() == pytest.approx(448_000.0, rel=1e-9)
    # centroid of a trapezium above its short side: h/3 * (a + 2b)/(a + b), a = 260 below, b = 300
    z = 20 / 3 * (260 + 2 * 300) / (260 + 300)
    assert solid.Center().toTuple() == pytest.approx((150.0, 40.0, z), abs=1e-9)


def test_a_mitred_rail_with_its_rabbet_by_hand():
    cuts = (
        Rabbet(
            edge=Face.BACK_EDGE,
            face=Face.BACK_SIDE,
            down_from_edge_mm=10.0,
            into_thickness_mm=8.0,
        ),
        *(
            Mitre(end=end, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)
            for end in (Face.NAMED_END, Face.FAR_END)
        ),
    )
    # the rabbet lies where the rail is 260 to 276 long: mean 268 * 8 * 10 less than the rail
    assert solid_from(RAIL, cuts).Volume() == pytest.approx(448_000.0 - 21_440.0, rel=1e-9)


def test_equal_work_is_built_once():
    assert solid_from(POST, (_dado(100.0),)) is solid_from(POST, (_dado(100.0),))


def test_cuts_that_leave_two_pieces_are_refused():
    through = (
        Dado(face=Face.FACE_SIDE, lower_shoulder_mm=50.0, width_mm=5.0, depth_mm=12.0),
        Dado(face=Face.BACK_SIDE, lower_shoulder_mm=50.0, width_mm=5.0, depth_mm=12.0),
    )
    with pytest.raises(SolidError, match="left 2 solids"):
        solid_from(POST, through)


def test_a_cut_that_misses_the_wood_is_refused():
    stray = Bore(face=Face.FACE_SIDE, x_mm=900.0, y_mm=45.0, diameter_mm=8.0)
    with pytest.raises(SolidError, match="was possible"):
        solid_from(POST, (stray,))


def test_nearly_meeting_planes_do_not_lose_a_tool():
    near = Rabbet(
        edge=Face.FAR_END, face=Face.FACE_SIDE, down_from_edge_mm=40.0, into_thickness_mm=10.0
    )
    cuts = (
        near,
        Dado(
            face=Face.BACK_SIDE,
            lower_shoulder_mm=660.0 + 1e-6,
            width_mm=20.0,
            depth_mm=9.0,
        ),
        Dado(face=Face.FACE_SIDE, lower_shoulder_mm=650.0, width_mm=20.0 + 1e-6, depth_mm=5.0),
    )
    # rabbet 40*90*10; dado behind 20*90*9; dado before reaches 10 mm past the rabbet's start
    expected = 1_260_000 - 36_000 - 16_200 - 10 * 90 * 5
    assert solid_from(POST, cuts).Volume() == pytest.approx(expected, abs=1.0)
