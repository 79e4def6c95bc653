"""Pairs just outside what a joint allows: refused by the right name, with a remedy that does.

The limits themselves are stated beside the rules with their sources; here one step over each is
tried, and then the change that the message proposes.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest

from furniture.errors import DesignError, Problem
from furniture.joints import (
    ButtJoint,
    CleatJoint,
    CornerRabbetJoint,
    DadoJoint,
    DowelledButtJoint,
    FlatMitreJoint,
    GrooveJoint,
    HalfLapJoint,
    HingeJoint,
    Joint,
    KeyJoint,
    Leaf,
    MitreJoint,
    MortiseAndTenonJoint,
    NotchJoint,
    RabbetJoint,
    RestJoint,
    SplineJoint,
    StoppedDadoJoint,
    TongueAndGrooveJoint,
)
from furniture.parts.part import Placed
from furniture.units import inches, read_length
from tests.joints.pairs import FORWARDS, LEFTWARDS, X, Y, Z
from tests.joints.proofs import board, pair, prove


def upright() -> Placed:
    return board("a", (400.0, 120.0, 18.0), (0.0, 120.0, 0.0), Z, FORWARDS)


def shelf(reach: float = 6.0, front: float = 0.0) -> Placed:
    return board("b", (300.0, 120.0 - front, 12.0), (18.0 - reach, front, 100.0), X, Y)


def rail() -> Placed:
    return board("a", (300.0, 60.0, 20.0), (0.0, 0.0, 0.0), X, Y)


def panel(start: float = 0.0, reach: float = 7.0) -> Placed:
    return board("b", (300.0 - 2 * start, 200.0, 8.0), (start, 28.0, 20.0 - reach), X, Z)


def across() -> Placed:
    """Standing in the back edge of the rail, 3 deep and 10 clear of its ends."""
    return board("b", (280.0, 60.0, 8.0), (10.0, 65.0, -20.0), X, Z)


def side() -> Placed:
    return board("a", (300.0, 80.0, 18.0), (0.0, 0.0, 0.0), X, Y)


def top() -> Placed:
    return board("b", (200.0, 80.0, 15.0), (300.0, 0.0, 8.0), Z, Y)


def second() -> Placed:
    return board("b", (300.0, 90.0, 18.0), (0.0, 73.0, 0.0), X, Y)


def cross() -> Placed:
    return board("b", (200.0, 50.0, 18.0), (120.0, -60.0, 0.0), Y, LEFTWARDS)


def post() -> Placed:
    return board("a", (500.0, 110.0, 20.0), (0.0, 0.0, 0.0), Z, X)


def stub() -> Placed:
    return board("b", (100.0, 84.0, 20.0), (110.0, 20.0, 0.0), X, Z)


def wall() -> Placed:
    return board("a", (300.0, 60.0, 15.0), (0.0, 15.0, 0.0), X, Z)


def strip() -> Placed:
    return board("b", (300.0, 50.0, 15.0), (0.0, 15.0, 45.0), X, Z)


def leg() -> Placed:
    return board("a", (400.0, 45.0, 45.0), (0.0, 0.0, 0.0), Z, X)


def apron(reach: float = 28.0, at: float = 200.0, back: float = 33.5) -> Placed:
    """70 high and 21 thick, its end in the leg's back edge: tenon 7 thick, 52 wide."""
    return board("b", (300.0, 70.0, 21.0), (45.0 - reach, back, at), X, Z)


def problems_of(joint: Joint, into: Placed, incoming: Placed) -> tuple[Problem, ...]:
    with pytest.raises(DesignError) as caught:
        pair(joint, into, incoming)
    return caught.value.problems


STOPPED = StoppedDadoJoint(into="a", incoming="b", stop_from_back_edge_mm=10.0)
GROOVE = GrooveJoint(into="a", incoming="b", gap_mm=2.0)
NOTCH = NotchJoint(into="a", incoming="b")
TONGUE = TongueAndGrooveJoint(into="a", incoming="b")
DOUBLE = CornerRabbetJoint(into="a", incoming="b", tongue_mm=6.0)
TENON = MortiseAndTenonJoint(into="a", incoming="b")
DOWELS = DowelledButtJoint(into="a", incoming="b", diameter_mm=8.0)

OWN_LENGTHS = [
    (STOPPED, "stop_from_back_edge_mm", 1.0, upright(), shelf()),
    (STOPPED, "stop_from_back_edge_mm", 112.0, upright(), shelf()),
    (STOPPED, "stop_from_back_edge_mm", 4.0, upright(), shelf(front=10.0)),
    (STOPPED, "stop_from_face_edge_mm", -2.0, upright(), shelf()),
    (STOPPED, "end_radius_mm", 7.0, upright(), shelf()),
    (STOPPED, "end_gap_mm", -0.1, upright(), shelf()),
    (GROOVE, "gap_mm", 4.0, rail(), panel()),
    (GROOVE, "gap_mm", -0.5, rail(), panel()),
    (GROOVE, "stop_from_named_end_mm", 31.0, rail(), panel(start=30.0)),
    (NOTCH, "gap_mm", -0.5, rail(), across()),
    (NOTCH, "gap_mm", 8.0, rail(), across()),
    (TONGUE, "tongue_thickness_mm", 4.0, side(), second()),
    (TONGUE, "tongue_thickness_mm", 10.0, side(), second()),
    (TONGUE, "tongue_mm", 6.0, side(), second()),
    (TONGUE, "bottom_gap_mm", -1.0, side(), second()),
    (DOUBLE, "tongue_mm", 2.0, side(), top()),
    (DOUBLE, "tongue_mm", 14.5, side(), top()),
    (TENON, "tenon_thickness_mm", 11.0, leg(), apron()),
    (TENON, "tenon_thickness_mm", 5.0, leg(), apron()),
    (TENON, "from_face_side_mm", 14.5, leg(), apron()),
    (TENON, "from_face_side_mm", -1.0, leg(), apron()),
    (TENON, "face_edge_shoulder_mm", 60.0, leg(), apron()),
    (TENON, "back_edge_shoulder_mm", -2.0, leg(), apron()),
    (TENON, "edge_play_mm", -0.5, leg(), apron()),
    (TENON, "edge_play_mm", 9.0, leg(), apron()),
    (TENON, "end_gap_mm", -1.0, leg(), apron()),
    (TENON, "end_radius_mm", 4.0, leg(), apron()),
    (DOWELS, "diameter_mm", 11.0, post(), stub()),
    (DOWELS, "diameter_mm", 4.0, post(), stub()),
    (DOWELS, "first_mm", 7.0, post(), stub()),
    (DOWELS, "last_mm", 7.0, post(), stub()),
    (DOWELS, "across_mm", 5.0, post(), stub()),
    (DOWELS, "into_depth_mm", 7.0, post(), stub()),
    (DOWELS, "end_gap_mm", -1.0, post(), stub()),
]


@pytest.mark.parametrize(("joint", "field", "value", "into", "incoming"), OWN_LENGTHS)
def test_a_length_out_of_range_is_named_and_its_remedy_does(
    joint: Joint, field: str, value: float, into: Placed, incoming: Placed
) -> None:
    problems = problems_of(replace(joint, **{field: value}), into, incoming)
    named = [each for each in problems if each.parameter.endswith(": " + field.removesuffix("_mm"))]
    assert named, [each.parameter for each in problems]
    proposed = re.search(r"make it (-?[\d.]+) mm", named[0].remedy)
    assert proposed, named[0].remedy
    prove(pair(replace(joint, **{field: float(proposed[1])}), into, incoming))


@pytest.mark.parametrize(("joint", "field", "value", "into", "incoming"), OWN_LENGTHS)
def test_an_inch_piece_is_told_inches(
    joint: Joint, field: str, value: float, into: Placed, incoming: Placed
) -> None:
    """The same in fractions: no millimetre is told, and the fraction proposed is taken."""
    named = ": " + field.removesuffix("_mm")

    def told(joint: Joint) -> list[Problem]:
        drafts = joint.work(into, incoming).problems
        return [each.told(inches(32)) for each in drafts if each.parameter.endswith(named)]

    (problem,) = told(replace(joint, **{field: value}))
    assert " mm" not in str(problem)
    proposed = read_length(problem.remedy.removeprefix("make it "))
    assert not told(replace(joint, **{field: proposed}))


def test_too_many_dowels_are_counted_down() -> None:
    """Dowels of 8 stand 16 apart: from 16 to 68 there is room for 1 + 52 // 16 = 4."""
    problems = problems_of(replace(DOWELS, count=5), post(), stub())
    assert problems[0].parameter.endswith(": count")
    assert problems[0].allowed == "1 to 4"
    pair(replace(DOWELS, count=4), post(), stub())


def test_a_bore_may_not_come_through_the_far_face() -> None:
    """A post 20 thick takes a dowel into its face by 20 - 3 - 1.5 = 15.5 mm."""
    shelf_on_face = board("b", (100.0, 84.0, 20.0), (0.0, 20.0, 80.0), X, Y)
    deep = replace(DOWELS, into_depth_mm=16.0)
    assert problems_of(deep, post(), shelf_on_face)[0].allowed == "8 mm to 15.5 mm"
    pair(replace(DOWELS, into_depth_mm=15.5), post(), shelf_on_face)


PLACES = [
    (DadoJoint(into="a", incoming="b"), upright(), shelf(reach=9.5), "reach into the dado"),
    (STOPPED, upright(), shelf(reach=9.5), "reach into the dado"),
    (GROOVE, rail(), panel(reach=1.5), "reach into the groove"),
    (GROOVE, rail(), panel(reach=11.0), "reach into the groove"),
    (TENON, leg(), apron(reach=41.0), "reach into the mortise"),
    (TENON, leg(), apron(reach=4.0), "reach into the mortise"),
    (TENON, leg(), apron(back=15.0), "wood beside the mortise"),
    (TENON, leg(), apron(at=335.0), "wood to the end"),
    (
        CornerRabbetJoint(into="a", incoming="b"),
        side(),
        board("b", (200.0, 80.0, 15.0), (300.0, 0.0, 4.0), Z, Y),
        "reach into the rabbet",
    ),
    (
        CleatJoint(into="a", incoming="b", blade_tilt_deg=30.0),
        wall(),
        strip(),
        "overlap of the two strips",
    ),
]


@pytest.mark.parametrize(("joint", "into", "incoming", "name"), PLACES)
def test_parts_that_reach_too_far_or_not_enough_are_told_which_reach(
    joint: Joint, into: Placed, incoming: Placed, name: str
) -> None:
    assert problems_of(joint, into, incoming)[0].parameter.endswith(f": {name}")


@pytest.mark.parametrize(
    ("field", "over", "sign"),
    [("reach", 41.0, 1), ("reach", 4.0, 1), ("at", 335.0, -1), ("at", -5.0, 1), ("back", 15.0, 1)],
)
def test_a_rail_moved_by_what_is_missing_is_joined(field: str, over: float, sign: int) -> None:
    """The refusal tells what there is and what must be: the difference is enough."""
    (refused,) = problems_of(TENON, leg(), apron(**{field: over}))
    there, enough = (re.search(r"([\d.]+) mm", text) for text in (refused.given, refused.remedy))
    assert there
    assert enough
    missing = float(enough[1]) - float(there[1])
    prove(pair(TENON, leg(), apron(**{field: over + sign * missing})))


def test_shares_and_angles_keep_their_own_units() -> None:
    lap = problems_of(HalfLapJoint(into="a", incoming="b", share=0.8), side(), cross())
    assert lap[0].parameter == "half-lap of b in a: share"
    tilted = problems_of(CleatJoint(into="a", incoming="b", blade_tilt_deg=60.0), wall(), strip())
    assert tilted[0].parameter == "hanging cleat of b in a: blade_tilt"
    assert tilted[0].remedy == "make it 45 degrees"


@pytest.mark.parametrize(("share", "nearest"), [(0.8, 0.67), (0.2, 0.33)])
def test_the_share_that_a_refusal_recommends_is_the_nearest_allowed(
    share: float, nearest: float
) -> None:
    """Own rule: a third to two thirds."""
    (refused,) = problems_of(HalfLapJoint(into="a", incoming="b", share=share), side(), cross())
    told = re.search(r"make it ([\d.]+)", refused.remedy)
    assert told
    assert float(told[1]) == nearest
    prove(pair(HalfLapJoint(into="a", incoming="b", share=nearest), side(), cross()))


LEAF = Leaf(name="hinge", length_mm=20.0, width_mm=8.0, thickness_mm=1.0, barrel_mm=3.0,
            folded_mm=3.0, screw_mm=2.0, screw_length_mm=8.0, screws_mm=((0.0, 4.0),))  # fmt: skip
FAR_OFF = board("b", (100.0, 50.0, 10.0), (900.0, 900.0, 900.0), X, Y)
EVERY_JOINT = [
    ButtJoint(into="a", incoming="b"),
    DadoJoint(into="a", incoming="b"),
    STOPPED,
    GROOVE,
    RabbetJoint(into="a", incoming="b", gap_mm=0.5),
    CornerRabbetJoint(into="a", incoming="b"),
    TONGUE,
    HalfLapJoint(into="a", incoming="b"),
    MitreJoint(into="a", incoming="b"),
    FlatMitreJoint(into="a", incoming="b"),
    DOWELS,
    TENON,
    CleatJoint(into="a", incoming="b"),
    SplineJoint(into="a", incoming="b"),
    KeyJoint(into="a", incoming="b"),
    RestJoint(into="a", incoming="b"),
    HingeJoint(into="a", incoming="b", leaf=LEAF, starts_mm=(30.0,), gap_mm=0.5,
               pilots_mm=(1.5, 1.5)),
]  # fmt: skip


@pytest.mark.parametrize("joint", EVERY_JOINT, ids=lambda joint: str(joint.kind))
def test_parts_that_do_not_meet_are_refused_by_name(joint: Joint) -> None:
    problems = problems_of(joint, side(), FAR_OFF)
    assert problems[0].parameter == f"{joint.kind} of b in a"


@pytest.mark.parametrize("joint", EVERY_JOINT, ids=lambda joint: str(joint.kind))
def test_parts_that_do_not_stand_square_are_refused_by_name(joint: Joint) -> None:
    c, s = math.cos(0.3), math.sin(0.3)
    askew = board("b", (200.0, 80.0, 15.0), (280.0, 0.0, 8.0), (c, s, 0.0), (0.0, 0.0, 1.0))
    problems = problems_of(joint, side(), askew)
    assert problems[0].parameter == f"{joint.kind} of b in a"


@pytest.mark.parametrize(
    ("wrong", "into", "incoming"),
    [
        (ButtJoint, upright(), shelf()),
        (MitreJoint, upright(), shelf()),
        (HalfLapJoint, rail(), panel()),
    ],
)
def test_a_joint_that_takes_the_parts_as_they_stand_is_named_and_does(
    wrong: type[Joint], into: Placed, incoming: Placed
) -> None:
    """Where parts meet another way than the joint takes, the one that is named is taken."""
    with pytest.raises(DesignError) as caught:
        pair(wrong(into="a", incoming="b"), into, incoming)
    remedies = [each.remedy for each in caught.value.problems]
    named = [name for text in remedies for name in re.findall(r"\b[A-Z]\w+Joint\b", text)]
    assert named, remedies
    for name in named:
        kind = next(each for each in Joint.__subclasses__() if each.__name__ == name)
        pair(kind(into="a", incoming="b"), into, incoming)
