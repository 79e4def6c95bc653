"""The faces that joints state, against rectangles worked by hand, with other cuts across them."""

from __future__ import annotations

import math

import pytest

from furniture.joints import (
    ButtJoint,
    DadoJoint,
    DowelledButtJoint,
    GrainRelation,
    Joint,
    JointFace,
    MitreJoint,
    RabbetJoint,
    Role,
)
from furniture.parts.cuts import Bore, Cut, FingerNotch, Notch, Profile, ProfileKind, Rabbet
from furniture.parts.faces import Arris, Face
from furniture.parts.part import Placed
from furniture.parts.vectors import dot
from tests.joints.pairs import FORWARDS, X, Y, Z
from tests.joints.proofs import board, pair, prove


def faces(joint: Joint, into: Placed, incoming: Placed, what: str) -> list[JointFace]:
    """The faces of that name, once the pair is proved."""
    piece = pair(joint, into, incoming)
    prove(piece)
    return [face for face in piece.joinings[0].faces if face.what == what]


def sizes(found: list[JointFace]) -> list[tuple[float, float]]:
    """Run by deep of each [mm], the longest first."""
    rounded = ((round(face.run_mm, 3), round(face.deep_mm, 3)) for face in found)
    return sorted(rounded, reverse=True)


def upright() -> Placed:
    """400 x 120 x 18, face side to the right."""
    return board("upright", (400.0, 120.0, 18.0), (0.0, 120.0, 0.0), Z, FORWARDS)


def shelf(*cuts: Cut) -> Placed:
    """300 x 120 x 12, its end let 6 into the upright."""
    return board("shelf", (300.0, 120.0, 12.0), (12.0, 0.0, 100.0), X, Y, cuts=cuts)


DADO = DadoJoint(into="upright", incoming="shelf")


def test_a_dado_is_two_shoulders_and_a_bottom() -> None:
    """120 x 6 below and above, 120 x 12 at the bottom; 0.13 is slip on 12 mm."""
    piece = pair(DADO, upright(), shelf())
    (joining,) = piece.joinings
    assert joining.role is Role.HOUSING
    assert [(each.what, each.play_mm, each.area_mm2) for each in joining.faces] == [
        ("lower shoulder", 0.0, pytest.approx(720.0)),
        ("bottom", 0.0, pytest.approx(1440.0)),
        ("upper shoulder", 0.13, pytest.approx(720.0)),
    ]
    lower = joining.faces[0]
    assert lower.centre == pytest.approx((15.0, 60.0, 100.0))
    assert lower.normal == pytest.approx((0.0, 0.0, -1.0))
    assert abs(dot(lower.along, Y)) == pytest.approx(1.0)


def test_a_notch_of_the_shelf_parts_its_faces() -> None:
    """30 of the 120 are notched away from y = 40: 40 and 50 are left, at every face."""
    notch = Notch(edge=Face.NAMED_END, start_mm=40.0, length_mm=30.0, depth_mm=10.0)
    for what, deep in (("lower shoulder", 6.0), ("bottom", 12.0)):
        assert sizes(faces(DADO, upright(), shelf(notch), what)) == [(50.0, deep), (40.0, deep)]


def test_a_bore_is_told_as_what_it_takes() -> None:
    """A hole of 4 mm through the shelf, in the middle of its lower shoulder: pi x 4 of 720 mm2."""
    hole = Bore(face=Face.FACE_SIDE, x_mm=3.0, y_mm=60.0, diameter_mm=4.0)
    (lower,) = faces(DADO, upright(), shelf(hole), "lower shoulder")
    assert sizes([lower]) == [(120.0, 6.0)]
    assert lower.taken_mm2 == pytest.approx(math.pi * 4.0, rel=1e-6)
    assert lower.area_mm2 == pytest.approx(720.0 - math.pi * 4.0)


def test_a_rabbet_worked_later_takes_its_part_of_a_mitre() -> None:
    """Slope 80 x 18 sqrt 2; a rabbet 10 by 8 inside the top of both: 70 x 8 sqrt 2 is left of the
    inner strip and 80 x 10 sqrt 2 outside it."""
    cut = Rabbet(edge=Face.BACK_EDGE, face=Face.BACK_SIDE, down_from_edge_mm=10.0,
                 into_thickness_mm=8.0)  # fmt: skip
    front = board("front", (300.0, 80.0, 18.0), (0.0, 18.0, 0.0), X, Z, cuts=(cut,))
    end = board("end", (200.0, 80.0, 18.0), (282.0, 0.0, 0.0), Y, Z, cuts=(cut,))
    found = faces(MitreJoint(into="front", incoming="end"), front, end, "mitre face")
    root = math.sqrt(2.0)
    assert sum(face.area_mm2 for face in found) == pytest.approx((70 * 8 + 80 * 10) * root)
    assert len(found) == 2
    assert all(face.glue is GrainRelation.END_TO_END for face in found)


def test_dowels_leave_holes_in_the_face_they_cross() -> None:
    """84 x 20 less two circles of 8: the glue is on what is left."""
    post = board("post", (500.0, 110.0, 20.0), (0.0, 0.0, 0.0), Z, X)
    stub = board("stub", (100.0, 84.0, 20.0), (110.0, 20.0, 0.0), X, Z)
    joint = DowelledButtJoint(into="post", incoming="stub", diameter_mm=8.0)
    (found,) = faces(joint, post, stub, "meeting face")
    assert found.area_mm2 == pytest.approx(1680.0 - 32.0 * math.pi, rel=1e-6)


def test_a_round_arris_draws_a_face_in() -> None:
    """A pad 40 x 30 flush with the front of a board whose arris there is rounded by 3."""
    eased = Profile(profile_kind=ProfileKind.ROUND_OVER, radius_mm=3.0,
                    edge=Arris(Face.BACK_SIDE, Face.FACE_EDGE))  # fmt: skip
    above = board("above", (200.0, 100.0, 20.0), (0.0, 0.0, 10.0), X, Y, cuts=(eased,))
    pad = board("pad", (40.0, 30.0, 10.0), (20.0, 0.0, 0.0), X, Y)
    (found,) = pair(ButtJoint(into="above", incoming="pad"), above, pad).joinings[0].faces
    assert found.area_mm2 == pytest.approx(40.0 * 27.0, rel=1e-3)


def test_a_finger_notch_in_the_rail_is_told_as_what_it_takes() -> None:
    """A half round of 20 in the middle of the rail's top: of the wall, 300 x 12, it takes what of
    its half circle lies within 12 of the top."""
    notch = FingerNotch(edge=Face.BACK_EDGE, centre_mm=150.0, radius_mm=20.0)
    rail = board("rail", (300.0, 60.0, 18.0), (0.0, 18.0, 0.0), X, Z, cuts=(notch,))
    lid = board("lid", (300.0, 100.0, 12.0), (0.0, 10.0, 48.0), X, Y)
    joint = RabbetJoint(into="rail", incoming="lid", gap_mm=0.5)
    walls = faces(joint, rail, lid, "rabbet wall")
    assert sizes(walls) == [(300.0, 12.0)]
    # Of the half circle above the floor of the rabbet, 12 below its middle line.
    segment = 20.0**2 * math.acos(12 / 20) - 12.0 * math.sqrt(20.0**2 - 12.0**2)
    taken = math.pi * 20.0**2 / 2 - segment
    assert walls[0].taken_mm2 == pytest.approx(taken, rel=2e-3)


@pytest.mark.parametrize(
    ("size", "place", "role"),
    [
        ((300.0, 40.0, 18.0), (0.0, 100.0, 0.0), Role.EDGE_GLUE),
        ((300.0, 40.0, 18.0), (0.0, 0.0, 18.0), Role.EDGE_GLUE),
    ],
)
def test_long_grain_along_long_grain_is_edge_glue(
    size: tuple[float, float, float], place: tuple[float, float, float], role: Role
) -> None:
    first = board("first", (300.0, 100.0, 18.0), (0.0, 0.0, 0.0), X, Y)
    second = board("second", size, place, X, Y)
    assert pair(ButtJoint(into="first", incoming="second"), first, second).joinings[0].role is role


def test_a_butt_is_a_corner_at_an_end_and_a_seat_across_the_grain() -> None:
    """Unless its builder says what it is for."""
    post = board("post", (500.0, 110.0, 20.0), (0.0, 0.0, 0.0), Z, X)
    stub = board("stub", (100.0, 84.0, 20.0), (110.0, 20.0, 0.0), X, Z)
    across = board("across", (100.0, 84.0, 20.0), (5.0, 40.0, 40.0), X, Z)
    for incoming, role in ((stub, Role.CORNER), (across, Role.SEAT)):
        joint = ButtJoint(into="post", incoming=incoming.instance)
        assert pair(joint, post, incoming).joinings[0].role is role
    told = ButtJoint(into="post", incoming="stub", role=Role.SEAT)
    assert pair(told, post, stub).joinings[0].role is Role.SEAT
