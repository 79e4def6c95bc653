"""What each joint takes from both parts, against figures worked by hand beside each test.

All sizes are round so that the sums can be followed; pi is taken from the standard library.
"""

from __future__ import annotations

import math

import pytest

from furniture.joints import (
    SLIP,
    ButtJoint,
    CleatJoint,
    CornerRabbetJoint,
    DadoJoint,
    DowelledButtJoint,
    FlatMitreJoint,
    GrainRelation,
    GrooveJoint,
    HalfLapJoint,
    Joint,
    MitreJoint,
    MortiseAndTenonJoint,
    StoppedDadoJoint,
    TongueAndGrooveJoint,
    TongueEnd,
    own_fit,
)
from furniture.parts.part import Placed
from furniture.parts.vectors import Vector
from tests.joints.pairs import DOWNWARDS, FORWARDS, LEFTWARDS, X, Y, Z
from tests.joints.proofs import board, pair, prove, volume_of


def upright() -> Placed:
    """400 x 120 x 18: 864 000 mm3."""
    return board("upright", (400.0, 120.0, 18.0), (0.0, 120.0, 0.0), Z, FORWARDS)


def shelf(front: float = 0.0) -> Placed:
    """300 long, 12 thick, let 6 into the upright; 120 wide less what its front stands back."""
    return board("shelf", (300.0, 120.0 - front, 12.0), (12.0, front, 100.0), X, Y)


def side() -> Placed:
    """300 x 80 x 18: 432 000 mm3."""
    return board("side", (300.0, 80.0, 18.0), (0.0, 0.0, 0.0), X, Y)


def left(joint: Joint, into: Placed, incoming: Placed) -> tuple[float, float]:
    """What is left of both parts [mm3], once the pair is proved to fit."""
    piece = pair(joint, into, incoming)
    prove(piece)
    return volume_of(piece, into.instance), volume_of(piece, incoming.instance)


def test_dado_takes_its_width_depth_and_run() -> None:
    """120 x (12 + 0.13) x 6 = 8 733.6; slip on 12 mm is 0.1 + 0.0025 x 12 = 0.13."""
    joint = DadoJoint(into="upright", incoming="shelf", fit=SLIP)
    assert left(joint, upright(), shelf()) == pytest.approx((864000 - 8733.6, 432000.0))


def test_stopped_dado_chiselled_square() -> None:
    """Trench (120 - 10) x 12.13 x 6 = 8 005.8; notch (10 + 0.5) x 6 x 12 = 756."""
    joint = StoppedDadoJoint(into="upright", incoming="shelf", stop_from_back_edge_mm=10.0)
    assert left(joint, upright(), shelf()) == pytest.approx((864000 - 8005.8, 432000.0 - 756.0))


def test_stopped_dado_with_a_bits_radius() -> None:
    """Two corners of radius 4 keep (2 - pi/2) x 16 x 6 mm3; the notch is 4 longer: 14.5 x 72."""
    joint = StoppedDadoJoint(
        into="upright", incoming="shelf", stop_from_back_edge_mm=10.0, end_radius_mm=4.0
    )
    trench = 8005.8 - (2 - math.pi / 2) * 96.0
    assert left(joint, upright(), shelf()) == pytest.approx((864000 - trench, 432000.0 - 1044.0))


def test_stopped_dado_with_the_tongue_rounded_to_the_bit() -> None:
    """The notch is 10.5 x 72 as for a square end; two arrises lose (2 - pi/2) x 16 x 6 as well."""
    joint = StoppedDadoJoint(
        into="upright",
        incoming="shelf",
        stop_from_back_edge_mm=10.0,
        end_radius_mm=4.0,
        tongue_end=TongueEnd.ROUNDED,
    )
    corners = (2 - math.pi / 2) * 96.0
    found = left(joint, upright(), shelf())
    assert found == pytest.approx((864000 - 8005.8 + corners, 432000.0 - 756.0 - corners))


def test_stopped_dado_of_a_shelf_that_stands_back_needs_no_notch() -> None:
    """The shelf begins where the trench ends: 300 x 110 x 12 stays whole."""
    joint = StoppedDadoJoint(into="upright", incoming="shelf", stop_from_back_edge_mm=10.0)
    assert left(joint, upright(), shelf(front=10.0))[1] == pytest.approx(396000.0)


def test_stopped_dado_at_the_top_opens_upwards() -> None:
    """A rabbet (120 - 10) x 12 x 6 = 7 920: nothing lies above, so no clearance is cut."""
    top = board("shelf", (300.0, 120.0, 12.0), (12.0, 0.0, 388.0), X, Y)
    joint = StoppedDadoJoint(into="upright", incoming="shelf", stop_from_back_edge_mm=10.0)
    assert left(joint, upright(), top)[0] == pytest.approx(864000 - 7920.0)


def test_groove_leaves_room_for_the_panel_to_move() -> None:
    """300 x (8 + 0.12) x (7 + 2) = 21 924 out of a rail of 360 000; the panel is not cut."""
    rail = board("rail", (300.0, 60.0, 20.0), (0.0, 0.0, 0.0), X, Y)
    panel = board("panel", (300.0, 200.0, 8.0), (0.0, 28.0, 13.0), X, Z)
    joint = GrooveJoint(into="rail", incoming="panel", gap_mm=2.0)
    assert left(joint, rail, panel) == pytest.approx((360000 - 21924.0, 480000.0))


def test_corner_rabbet_in_one_part_and_in_both() -> None:
    """One: 80 x 15 x 10 = 12 000 from the side. Both: 80 x 6 x 10 = 4 800 from the side and
    80 x 9 x 10 = 7 200 from the top, 240 000 whole."""
    top = board("top", (200.0, 80.0, 15.0), (300.0, 0.0, 8.0), Z, Y)
    one = CornerRabbetJoint(into="side", incoming="top")
    both = CornerRabbetJoint(into="side", incoming="top", tongue_mm=6.0)
    assert left(one, side(), top) == pytest.approx((420000.0, 240000.0))
    assert left(both, side(), top) == pytest.approx((427200.0, 232800.0))


def test_tongue_and_groove() -> None:
    """Tongue 6 (a third of 18) x 7: groove 300 x (6 + 0.12) x (7 + 0.5) = 13 770; the second board
    loses 300 x 12 x 7 = 25 200 of 486 000."""
    second = board("second", (300.0, 90.0, 18.0), (0.0, 73.0, 0.0), X, Y)
    joint = TongueAndGrooveJoint(into="side", incoming="second")
    assert left(joint, side(), second) == pytest.approx((432000 - 13770.0, 486000 - 25200.0))


def test_half_lap_at_a_corner_and_crossing() -> None:
    """Corner: 50 x 80 x 9 = 36 000 from each. Crossing: both trenches wider by the play of 0.2."""
    ends = board("cross", (140.0, 50.0, 18.0), (300.0, -60.0, 0.0), Y, LEFTWARDS)
    joint = HalfLapJoint(into="side", incoming="cross", fit=own_fit(0.2))
    assert left(joint, side(), ends) == pytest.approx((396000.0, 126000 - 36000.0))
    over = board("cross", (200.0, 50.0, 18.0), (120.0, -60.0, 0.0), Y, LEFTWARDS)
    assert left(joint, side(), over) == pytest.approx(
        (432000 - 50.2 * 80 * 9, 180000 - 80.2 * 50 * 9)
    )


def test_mitres_take_half_a_block() -> None:
    """Tilted: 80 x 18 x 18 / 2 = 12 960. Flat, 40 wide and 18 thick: 40 x 40 x 18 / 2 = 14 400."""
    front = board("front", (300.0, 80.0, 18.0), (0.0, 18.0, 0.0), X, Z)
    end = board("end", (200.0, 80.0, 18.0), (282.0, 0.0, 0.0), Y, Z)
    assert left(MitreJoint(into="front", incoming="end"), front, end) == pytest.approx(
        (432000 - 12960.0, 288000 - 12960.0)
    )
    bottom = board("bottom", (300.0, 40.0, 18.0), (0.0, 0.0, 0.0), X, Y)
    stile = board("stile", (200.0, 40.0, 18.0), (300.0, 0.0, 0.0), Y, LEFTWARDS)
    assert left(FlatMitreJoint(into="bottom", incoming="stile"), bottom, stile) == pytest.approx(
        (216000 - 14400.0, 144000 - 14400.0)
    )


def test_dowels_take_two_bores_each_side() -> None:
    """Two 8 x 40 dowels, bored 1.5 deeper: 2 x pi x 16 x 21.5 from each part."""
    post = board("post", (500.0, 110.0, 20.0), (0.0, 0.0, 0.0), Z, X)
    stub = board("stub", (100.0, 84.0, 20.0), (110.0, 20.0, 0.0), X, Z)
    joint = DowelledButtJoint(into="post", incoming="stub", diameter_mm=8.0)
    bores = 2 * math.pi * 16 * 21.5
    assert left(joint, post, stub) == pytest.approx((1100000 - bores, 168000 - bores))


def test_cleats_take_half_a_square() -> None:
    """300 x 15 x 15 / 2 = 33 750 from each strip."""
    wall = board("wall", (300.0, 60.0, 15.0), (0.0, 15.0, 0.0), X, Z)
    strip = board("strip", (300.0, 50.0, 15.0), (0.0, 15.0, 45.0), X, Z)
    joint = CleatJoint(into="wall", incoming="strip")
    assert left(joint, wall, strip) == pytest.approx((270000 - 33750.0, 225000 - 33750.0))


def leg() -> Placed:
    """500 x 45 x 45: 1 012 500 mm3."""
    return board("leg", (500.0, 45.0, 45.0), (0.0, 0.0, 0.0), Z, X)


def apron() -> Placed:
    """300 x 70 x 21: 441 000 mm3, its end 28 in the leg."""
    return board("apron", (300.0, 70.0, 21.0), (17.0, 33.0, 400.0), X, Z)


def test_mortise_and_tenon() -> None:
    """Tenon 7 (a third of 21) x 52 (70 less 9 at both edges) x 28; the rail loses
    28 x (1470 - 364). Mortise (52 + 0.5) x (7 + 0.12) x (28 + 1); slip on 7 mm is
    0.1 + 0.0025 x 7 = 0.12."""
    joint = MortiseAndTenonJoint(into="leg", incoming="apron")
    assert left(joint, leg(), apron()) == pytest.approx(
        (1012500 - 52.5 * 7.12 * 29, 441000 - 28 * 1106.0)
    )


def test_a_mortise_left_round_is_longer_by_both_radii() -> None:
    """(52 + 2 x 3.5 + 0.5) long, its four corners of radius 3.5 kept; the tenon is as square."""
    joint = MortiseAndTenonJoint(into="leg", incoming="apron", end_radius_mm=3.5)
    hole = 59.5 * 7.12 - (4 - math.pi) * 3.5**2
    assert left(joint, leg(), apron()) == pytest.approx((1012500 - hole * 29, 441000 - 28 * 1106.0))


def test_glue_of_a_tenon_is_its_cheeks() -> None:
    """Cheeks 2 x 52 x 28 cross the grain. End grain: one edge 7 x 28, and the shoulders, which are
    the rail's section less the mortise's mouth."""
    joint = MortiseAndTenonJoint(into="leg", incoming="apron")
    assert _glue(joint, leg(), apron()) == pytest.approx(
        {
            GrainRelation.CROSSING: 2912.0,
            GrainRelation.LONG_TO_END: 196.0 + 1470.0 - 52.5 * 7.12,
        }
    )


def _glue(joint: Joint, into: Placed, incoming: Placed) -> dict[GrainRelation, float]:
    totals: dict[GrainRelation, float] = {}
    for face in pair(joint, into, incoming).joinings[0].glued_faces:
        if face.glue is not None:
            totals[face.glue] = totals.get(face.glue, 0.0) + face.area_mm2
    return totals


def test_glue_of_a_housed_end() -> None:
    """Cheeks 2 x 120 x 6 cross the grain; the shelf's end, 120 x 12, is end grain."""
    joint = DadoJoint(into="upright", incoming="shelf")
    assert _glue(joint, upright(), shelf()) == pytest.approx(
        {GrainRelation.CROSSING: 1440.0, GrainRelation.LONG_TO_END: 1440.0}
    )


def test_glue_of_a_stopped_dado_is_that_of_the_tongue() -> None:
    """The tongue is 120 - 10.5 = 109.5 long: cheeks 2 x 109.5 x 6."""
    joint = StoppedDadoJoint(into="upright", incoming="shelf", stop_from_back_edge_mm=10.0)
    glue = _glue(joint, upright(), shelf())
    assert glue[GrainRelation.CROSSING] == pytest.approx(1314.0)


def test_a_loose_housing_is_glued_at_one_cheek_only() -> None:
    """Beyond 0.15 mm glue does not bridge: 120 x 6 is left."""
    joint = DadoJoint(into="upright", incoming="shelf", fit=own_fit(0.3))
    assert _glue(joint, upright(), shelf())[GrainRelation.CROSSING] == pytest.approx(720.0)


def test_glue_of_edge_joints_is_long_grain() -> None:
    """Along 300, all long grain: cheeks 2 x 300 x 7, shoulders 300 x 12 less the play of 0.12."""
    second = board("second", (300.0, 90.0, 18.0), (0.0, 73.0, 0.0), X, Y)
    joint = TongueAndGrooveJoint(into="side", incoming="second")
    assert _glue(joint, side(), second) == pytest.approx({GrainRelation.LONG_TO_LONG: 7764.0})


@pytest.mark.parametrize(("way", "expected"), [(Z, True), (DOWNWARDS, False), (FORWARDS, False)])
def test_ways_into_a_dado_in_a_face_that_looks_down(way: Vector, expected: bool) -> None:
    """A divider under a board goes up into its dado, or along it; never down."""
    board_above = board("above", (400.0, 120.0, 18.0), (0.0, 120.0, 218.0), X, FORWARDS)
    divider = board("divider", (206.0, 120.0, 12.0), (100.0, 0.0, 0.0), Z, Y)
    piece = pair(DadoJoint(into="above", incoming="divider"), board_above, divider)
    prove(piece)
    assert (way in piece.joinings[0].ways_in) is (expected or way == FORWARDS)


def test_dowels_are_data_for_the_checks() -> None:
    """Two 8 x 40 dowels half in each part: glued round pi x 8 x 20 = 502.65 mm2 each, of which a
    quarter of 3 MPa is counted: 376.99 N."""
    post = board("post", (500.0, 110.0, 20.0), (0.0, 0.0, 0.0), Z, X)
    stub = board("stub", (100.0, 84.0, 20.0), (110.0, 20.0, 0.0), X, Z)
    joint = DowelledButtJoint(into="post", incoming="stub", diameter_mm=8.0)
    dowels = pair(joint, post, stub).joinings[0].fasteners
    assert [dowel.length_mm for dowel in dowels] == [40.0, 40.0]
    assert [dowel.at for dowel in dowels] == [(110.0, 10.0, 16.0), (110.0, 10.0, 68.0)]
    assert dowels[0].pull_n == pytest.approx(math.pi * 160.0 * 3.0 / 4.0)


def test_glue_of_a_butt_is_the_end_that_stands_on_the_board() -> None:
    """An end of 40 x 15 whole on a face 60 wide: 600. Half over its edge: 20 x 15 = 300."""
    under = board("under", (300.0, 60.0, 20.0), (0.0, 0.0, 0.0), X, Y)
    joint = ButtJoint(into="under", incoming="on")
    for y, glued in ((10.0, 600.0), (40.0, 300.0)):
        on = board("on", (200.0, 40.0, 15.0), (100.0, y, 20.0), Z, Y)
        assert pair(joint, under, on).joinings[0].glue_area_mm2 == pytest.approx(glued)
