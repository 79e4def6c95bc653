"""Orders of assembly: found where one exists, replayed with the solids, refused where none does."""

from __future__ import annotations

import json
import random
from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from furniture import TierRule
from furniture.assembly import (
    AssemblyPlan,
    NoOrder,
    assembly_of,
    assembly_record,
    bodies_of,
    plan_of,
    step_in_words,
)
from furniture.assembly.blocking import blocked_along
from furniture.joints import (
    ButtJoint,
    DadoJoint,
    DowelledButtJoint,
    MitreJoint,
    RabbetJoint,
    SplineJoint,
    StoppedDadoJoint,
    spline_across,
)
from furniture.parts.cuts import Mitre
from furniture.parts.faces import Face
from furniture.parts.vectors import BACK, DOWN, FRONT, LEFT, RIGHT, UP
from furniture.solids.proof import clashing_joints, interferences, untrue_contacts
from models.herb_stand import stand
from models.tea_box import box
from tests.assembly.bench import board, hollow, oak, piece_of, replay


@pytest.fixture(scope="module")
def herb():
    piece = stand.build()
    return piece, assembly_of(piece)


@pytest.fixture(scope="module")
def tea():
    piece = box.build()
    return piece, assembly_of(piece)


def step_that_brings(plan, first, second):
    """The number of the step at which two parts come together."""
    for number, step in enumerate(plan.steps):
        sides = (set(step.moving), set(step.onto))
        if any(first in a and second in b for a, b in (sides, sides[::-1])):
            return number
    raise AssertionError(f"{first} and {second} never meet")


def test_the_herb_stand_goes_together_and_the_solids_agree(herb):
    piece, plan = herb
    assert isinstance(plan, AssemblyPlan)
    assert len(plan.steps) == len(piece.placed) - 1
    assert replay(piece, plan) == []


def test_the_lid_caught_on_four_sides_goes_in_before_the_box_closes(herb):
    """By hand: caught in rabbets on three sides and in the post's dado on the fourth, the lid can
    only move back into that dado, and only while the front rail is away. From above it is held by
    the dado's upper shoulder, so it cannot be lowered in last as a loose lid is."""
    _, plan = herb
    at_post = step_that_brings(plan, "lid", "post")
    assert plan.steps[at_post].moving == ("lid",)
    assert plan.steps[at_post].direction == pytest.approx(BACK)
    assert at_post < step_that_brings(plan, "lid", "front rail")
    assert at_post < step_that_brings(plan, "front rail", "left side rail")


def test_feet_are_stuck_on_when_all_else_is_together(herb):
    """A pad under a corner gets in nobody's way and would be knocked off: it comes last."""
    piece, plan = herb
    feet = {each.instance for each in piece.placed if each.instance.endswith("foot")}
    assert len(feet) == 5
    assert {name for step in plan.steps[-5:] for name in step.moving} == feet
    assert all(step.direction == pytest.approx(UP) for step in plan.steps[-5:])


def test_every_joint_closes_once(herb, tea):
    for piece, plan in (herb, tea):
        closed = [pair for step in plan.steps for pair in step.joints]
        assert sorted(closed) == sorted((each.into, each.incoming) for each in piece.joinings)


def test_nothing_hangs_loose_and_what_is_heavy_stands_still(herb):
    piece, plan = herb
    wood = {each.name: each.volume_mm3 for each in bodies_of(piece)}
    for step in plan.steps:
        assert step.joints
        moving, onto = (sum(wood[name] for name in side) for side in (step.moving, step.onto))
        assert moving <= onto


def test_no_glued_faces_are_only_wiped_on_the_way_in(herb, tea):
    """A joint that closes squeezes its glue; one that only slides along its faces wipes it off."""
    for piece, plan in (herb, tea):
        for joining in piece.joinings:
            if joining.glue_area_mm2 == 0.0:
                continue
            step = plan.steps[step_that_brings(plan, joining.into, joining.incoming)]
            closing = [
                abs(sum(a * b for a, b in zip(contact.towards, step.direction, strict=True)))
                for contact in joining.contacts
            ]
            assert max(closing) > 0.1, joining.kind


def test_the_tea_boxs_loose_lid_is_lowered_in_last(tea):
    piece, plan = tea
    assert plan.steps[-1].moving == ("lid",)
    assert plan.steps[-1].direction == pytest.approx(DOWN)
    assert plan.steps[-2].moving == ("bottom",)
    assert plan.steps[-2].direction == pytest.approx(UP)
    assert replay(piece, plan) == []


def test_any_lot_of_the_parts_goes_together_too(herb):
    """The law that lets the planner never look back: fewer parts stand in the way less."""
    piece, _ = herb
    bodies = bodies_of(piece)
    draw = random.Random(7)
    for _ in range(12):
        some = draw.sample(bodies, draw.randint(2, len(bodies)))
        names = {body.name for body in some}
        joinings = [each for each in piece.joinings if {each.into, each.incoming} <= names]
        plan = plan_of(some, joinings)
        assert isinstance(plan, AssemblyPlan)
        assert len(plan.steps) == len(some) - 1


def test_twenty_tiers_go_together_one_move_each():
    tiers = TierRule(
        count=20,
        width="300 mm",
        depth="150 mm",
        rise="60 mm",
        step_back_width="5 mm",
        step_back_depth="3 mm",
    )
    piece = replace(stand, tiers=tiers, loads=(), openings=()).build()
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    assert len(plan.steps) == len(piece.placed) - 1


def wheel_rail(name, origin, along):
    """A rail on edge, 208 long with an 8 mm tenon at its far end, mortised near its start.

    Part z looks out of the frame; the mortise is sunk from the inner face and blind all round.
    """
    cuts = (
        hollow(low=(20.0, 5.0, -2.0), high=(40.0, 35.0, 8.0)),
        hollow(low=(200.0, -2.0, -2.0), high=(210.0, 5.0, 22.0)),
        hollow(low=(200.0, 35.0, -2.0), high=(210.0, 42.0, 22.0)),
    )
    return board(name, (208.0, 40.0, 20.0), origin, along, UP, cuts)


def test_a_pinwheel_frame_goes_together_only_as_two_pairs():
    """By hand: every rail is mortised along the way of one neighbour and across that of the other,
    so none can go in last by itself; two neighbours as one can."""
    piece = piece_of(
        [
            wheel_rail("front", (-20.0, 20.0, 0.0), RIGHT),
            wheel_rail("right", (180.0, -20.0, 0.0), BACK),
            wheel_rail("back", (220.0, 180.0, 0.0), LEFT),
            wheel_rail("left", (20.0, 220.0, 0.0), FRONT),
        ]
    )
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    last = plan.steps[-1]
    assert (len(last.moving), len(last.onto)) == (2, 2)
    assert "already together" in step_in_words(last)
    assert replay(piece, plan) == []


def lock_board(name, origin, along, across):
    """A board with a tenon on its end and a blind mortise through whose mouth its neighbour's goes.

    Three of these, each turned from the last about the cube's diagonal, hold one another.
    """
    end = (100.0, 110.0)
    cuts = (
        hollow(low=(40.0, 85.0, -2.0), high=(60.0, 95.0, 8.0)),
        hollow(low=(end[0], -2.0, -2.0), high=(end[1], 20.0, 22.0)),
        hollow(low=(end[0], 40.0, -2.0), high=(end[1], 122.0, 22.0)),
        hollow(low=(end[0], -2.0, -2.0), high=(end[1], 122.0, 5.0)),
        hollow(low=(end[0], -2.0, 15.0), high=(end[1], 122.0, 22.0)),
    )
    return board(name, (108.0, 120.0, 20.0), origin, along, across, cuts)


def test_three_boards_that_lock_one_another_are_named():
    """By hand: a leaves b only along x and c only along z, and so on round, so no board and no two
    boards can leave. The foot below takes no part in it and is not named."""
    piece = piece_of(
        [
            board("foot", (50.0, 50.0, 10.0), (0.0, 0.0, -200.0)),
            lock_board("shelf", (0.0, 20.0, 100.0), RIGHT, BACK),
            lock_board("end", (100.0, 0.0, 20.0), BACK, UP),
            lock_board("back", (20.0, 100.0, 0.0), UP, RIGHT),
        ]
    )
    result = assembly_of(piece)
    assert isinstance(result, NoOrder)
    assert sorted(result.stuck) == ["back", "end", "shelf"]
    assert "shelf leaves end only to the left" in result.reason
    assert "shelf leaves back only up" in result.reason
    assert "foot" not in result.reason


def test_two_of_the_three_lock_nothing():
    piece = piece_of(
        [
            lock_board("shelf", (0.0, 20.0, 100.0), RIGHT, BACK),
            lock_board("end", (100.0, 0.0, 20.0), BACK, UP),
        ]
    )
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    assert replay(piece, plan) == []


def test_a_panel_in_the_grooves_of_a_frame_made_in_one_is_stuck():
    window = hollow(low=(20.0, 20.0, -2.0), high=(280.0, 180.0, 22.0))
    groove = hollow(low=(14.0, 14.0, 7.0), high=(286.0, 186.0, 13.0))
    frame = board("frame", (300.0, 200.0, 20.0), (0.0, 0.0, 0.0), cuts=(window, groove))
    panel = board("panel", (270.0, 170.0, 5.8), (15.0, 15.0, 7.1))
    result = assembly_of(piece_of([frame, panel]))
    assert isinstance(result, NoOrder)
    assert result.stuck == ("frame", "panel")
    assert "frame cannot leave panel at all" in result.reason


def case_and_shelf(front):
    """Two uprights and a back in one part, a trench in each upright from `front` back, a shelf."""
    inside = hollow(low=(20.0, -2.0, -2.0), high=(280.0, 130.0, 202.0))
    trench = hollow(low=(12.0, front, 90.0), high=(288.0, 120.0, 110.13))
    case = board("case", (300.0, 150.0, 200.0), (0.0, 0.0, 0.0), cuts=(inside, trench))
    begin = max(front, 0.0)
    shelf = board("shelf", (276.0, 120.0 - begin, 20.0), (12.0, begin, 90.0))
    return piece_of([case, shelf])


def test_a_shelf_in_stopped_dados_between_uprights_tied_by_their_back_is_stuck():
    result = assembly_of(case_and_shelf(20.0))
    assert isinstance(result, NoOrder)
    assert result.stuck == ("case", "shelf")


def test_the_same_shelf_slides_in_from_the_front_where_the_dados_run_through():
    piece = case_and_shelf(-2.0)
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    (step,) = plan.steps
    assert (step.moving, step.onto) == (("shelf",), ("case",))
    assert step.direction == pytest.approx(BACK)
    assert replay(piece, plan) == []


def uprights_and_shelves(joint):
    """Two uprights 300 apart and three shelves between them."""
    left = board("left upright", (600.0, 200.0, 18.0), (0.0, 200.0, 0.0), UP, FRONT)
    right = board("right upright", (600.0, 200.0, 18.0), (300.0, 0.0, 0.0), UP, BACK)
    shelves = [
        board(f"shelf {n + 1}", (276.0, 200.0, 12.0), (12.0, 0.0, 100.0 + 150.0 * n))
        for n in range(3)
    ]
    joints = [
        joint(into=upright.instance, incoming=shelf.instance)
        for shelf in shelves
        for upright in (left, right)
    ]
    return piece_of([left, right, *shelves], joints)


def stopped(into, incoming):
    return StoppedDadoJoint(
        into=into, incoming=incoming, stop_from_face_edge_mm=10.0, stop_from_back_edge_mm=10.0
    )


@pytest.mark.parametrize("joint", [DadoJoint, stopped])
def test_between_two_uprights_the_second_upright_closes_on_all_the_shelves(joint):
    piece = uprights_and_shelves(joint)
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    assert replay(piece, plan) == []
    last = plan.steps[-1]
    assert len(last.joints) == 3
    assert abs(last.direction[0]) == pytest.approx(1.0)
    assert {"left upright", "right upright"} & set(last.moving)


def test_a_dowelled_rail_comes_home_along_its_dowels_only():
    """A plain butt may be slid home; dowels standing in the rail leave one way."""
    stile = board("stile", (300.0, 60.0, 20.0), (0.0, 0.0, 0.0), UP, RIGHT)
    rail = board("rail", (200.0, 60.0, 20.0), (60.0, 0.0, 100.0), RIGHT, UP)
    rail = replace(rail, placement=replace(rail.placement, origin=(60.0, 20.0, 100.0)))
    plain = piece_of([stile, rail], [ButtJoint(into="stile", incoming="rail")])
    joint = DowelledButtJoint(into="stile", incoming="rail", diameter_mm=8.0)
    dowelled = piece_of([stile, rail], [joint])
    for piece, is_free_upwards in ((plain, True), (dowelled, False)):
        bodies = bodies_of(piece)
        assert blocked_along(bodies, UP)[1, 0] != is_free_upwards
        assert blocked_along(bodies, FRONT)[1, 0] != is_free_upwards
        assert not blocked_along(bodies, RIGHT)[1, 0]
        assert blocked_along(bodies, LEFT)[1, 0]
    plan = assembly_of(dowelled)
    assert isinstance(plan, AssemblyPlan)
    assert abs(plan.steps[0].direction[0]) == pytest.approx(1.0)


def test_the_record_is_plain_data_that_says_the_same(herb):
    _, plan = herb
    record = json.loads(json.dumps(assembly_record(plan), allow_nan=False))
    assert [set(entry) for entry in record] == [
        {"moving", "onto", "direction", "before", "joints", "in_words"}
    ] * len(plan.steps)
    for entry, step in zip(record, plan.steps, strict=True):
        assert tuple(entry["moving"]) == step.moving
        assert tuple(entry["direction"]) == pytest.approx(step.direction)
        assert all(name in entry["in_words"] for name in step.moving)
    stuck = assembly_record(NoOrder(stuck=("a", "b"), reason="why"))
    assert stuck == {"stuck": ["a", "b"], "reason": "why"}


def test_the_replay_would_notice_a_wrong_order():
    """The checker itself can fail: a shelf pushed down into its trench, and a step left out."""
    piece = uprights_and_shelves(DadoJoint)
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    wrong = replace(plan.steps[0], direction=DOWN)
    assert replay(piece, AssemblyPlan(steps=(wrong, *plan.steps[1:])))
    assert replay(piece, AssemblyPlan(steps=plan.steps[1:]))


def test_a_piece_of_one_part_needs_no_step():
    assert assembly_of(piece_of([board("top", (100.0, 50.0, 10.0), (0.0, 0.0, 0.0))])) == (
        AssemblyPlan(steps=())
    )


def test_a_loose_panel_between_a_rabbet_and_a_rail_is_found():
    """A panel lying in two rabbets lifts out; the plan lowers it in."""
    rails = [
        board("front rail", (300.0, 60.0, 20.0), (0.0, 20.0, 0.0), RIGHT, UP),
        board("back rail", (300.0, 60.0, 20.0), (300.0, 180.0, 0.0), LEFT, UP),
    ]
    panel = board("panel", (300.0, 179.0, 10.0), (0.0, 10.5, 50.0))
    joints = [RabbetJoint(into=rail.instance, incoming="panel", gap_mm=0.5) for rail in rails]
    plan = assembly_of(piece_of([*rails, panel], joints))
    assert isinstance(plan, AssemblyPlan)
    assert len(plan.steps) == 2


def test_a_piece_that_stands_askew_goes_together_all_the_same(herb):
    """Turned by any angle about any axis, the stand has as many steps: no plane is favoured.

    Its three axes are then no ways of the piece, but the joints' own ways turn with it.
    """
    piece, _ = herb
    turn = Rotation.from_rotvec(np.array([0.3, -0.7, 0.4])).as_matrix()

    def turned(vector):
        return tuple(float(value) for value in turn @ np.array(vector))

    bodies = [
        replace(
            body,
            centre=turned(body.centre),
            facets=tuple(
                replace(
                    facet,
                    outer=tuple(turned(point) for point in facet.outer),
                    holes=tuple(tuple(turned(point) for point in ring) for ring in facet.holes),
                    normal=turned(facet.normal),
                )
                for facet in body.facets
            ),
        )
        for body in bodies_of(piece)
    ]
    joinings = [
        replace(
            joining,
            ways_in=tuple(turned(way) for way in joining.ways_in),
            contacts=tuple(
                replace(contact, at=turned(contact.at), towards=turned(contact.towards))
                for contact in joining.contacts
            ),
        )
        for joining in piece.joinings
    ]
    plan = plan_of(bodies, joinings)
    assert isinstance(plan, AssemblyPlan)
    assert len(plan.steps) == len(bodies) - 1


def splined_box(start, width):
    """Four mitred rails with a spline in every corner, from `start` up the rails, so wide."""
    mitres = tuple(
        Mitre(end=end, blade_tilt_deg=45.0, long_point_face=Face.FACE_SIDE)
        for end in (Face.NAMED_END, Face.FAR_END)
    )
    rails = {
        name: board(name, (length, 60.0, 20.0), origin, along, UP, mitres)
        for name, length, origin, along in (
            ("front", 300.0, (0.0, 20.0, 0.0), RIGHT),
            ("right", 200.0, (280.0, 0.0, 0.0), BACK),
            ("back", 300.0, (300.0, 180.0, 0.0), LEFT),
            ("left", 200.0, (20.0, 200.0, 0.0), FRONT),
        )
    }
    joints, splines = [], []
    round_the_box = list(rails)
    for index, name in enumerate(round_the_box):
        after = round_the_box[(index + 1) % 4]
        spline = spline_across(
            rails[name],
            oak(4.0),
            instance=f"{name} spline",
            end=Face.FAR_END,
            into_each_mm=5.0,
            from_long_point_mm=16.0,
            start_mm=start,
            width_mm=width,
        )
        splines.append(spline)
        joints.append(MitreJoint(into=name, incoming=after))
        joints += [SplineJoint(into=rail, incoming=spline.instance) for rail in (name, after)]
    return piece_of([*rails.values(), *splines], joints)


@pytest.mark.parametrize(("start", "width"), [(10.0, 40.0), (0.0, 60.0)])
def test_a_splined_box_goes_together(start, width):
    piece = splined_box(start, width)
    assert interferences(piece) == untrue_contacts(piece) == clashing_joints(piece) == ()
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    assert replay(piece, plan) == []


def test_stopped_splines_leave_only_two_halves_closing_along_the_diagonal():
    """By hand: a stopped spline lets a corner open only square to its mitre. The last two corners
    to close need one way between them, so they lie opposite and the halves close along a diagonal;
    splines that run through may also be slid in when the rails are up."""
    plan = assembly_of(splined_box(10.0, 40.0))
    assert isinstance(plan, AssemblyPlan)
    closing = [step for step in plan.steps if sum("spline" not in name for name in step.moving) > 1]
    (last,) = closing
    rails = {"front", "right", "back", "left"}
    assert len(rails & set(last.moving)) == len(rails & set(last.onto)) == 2
    assert [abs(value) for value in last.direction] == pytest.approx([0.5**0.5, 0.5**0.5, 0.0])
    assert step_in_words(last).count("already together") == 1
