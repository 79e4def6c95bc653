"""Boards that leave one order, or none: found and replayed with the solids, or named as stuck."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.assembly import (
    AssemblyPlan,
    NoOrder,
    assembly_of,
    bodies_of,
    step_in_words,
)
from furniture.assembly.blocking import blocked_along
from furniture.assembly.directions import lines_of
from furniture.joints import (
    ButtJoint,
    DadoJoint,
    DowelledButtJoint,
    RabbetJoint,
    StoppedDadoJoint,
)
from furniture.parts.vectors import BACK, DOWN, FRONT, LEFT, RIGHT, UP
from tests.assembly.bench import board, hollow, piece_of, replay


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


def test_a_shelf_goes_straight_into_its_dado_though_it_could_slide_in_from_the_front():
    """The joint's natural way wins over the way that a maker would else rather push."""
    upright = board("upright", (300, 100, 18), (0, 0, 0), UP, BACK)
    shelf = board("shelf", (200, 100, 12), (-212, 0, 100))
    piece = piece_of([upright, shelf], [DadoJoint(into="upright", incoming="shelf")])
    (step,) = assembly_of(piece).steps
    assert step.direction == pytest.approx(RIGHT if step.moving == ("shelf",) else LEFT)


def test_each_line_is_tried_once():
    """Whatever the joints say, no two of the ways to try are one line."""
    upright = board("upright", (300, 100, 18), (0, 0, 0), UP, BACK)
    shelf = board("shelf", (200, 100, 12), (-212, 0, 100))
    piece = piece_of([upright, shelf], [DadoJoint(into="upright", incoming="shelf")])
    assert len(lines_of(piece.joinings)) == 3
