"""Moves of two legs: found where one does not serve, replayed by the kernel, and not for show."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.assembly import (
    AssemblyPlan,
    NoOrder,
    assembly_of,
    assembly_record,
    bodies_of,
    step_in_words,
)
from furniture.assembly.blocking import blocked_along, blocked_within
from furniture.parts.vectors import BACK, DOWN, LEFT, RIGHT, UP
from models.key_rack import rack
from tests.assembly.bench import board, hollow, piece_of, replay
from tests.builders.test_composition import changed
from tests.fresh import law


def keyhole(roof: float):
    """A slug under the roof of a blind hole: 20 wide at the mouth, and 22 more beneath `roof` mm.

    By hand: the mouth is x 20 to 40, the chamber x 20 to 62, both 30 high from z 10; the slug is
    18 x 18 and stands at x 43 to 61, so it goes 23 to the left and then up.
    """
    cuts = (
        hollow(low=(20.0, 20.0, 10.0), high=(40.0, 40.0, 42.0)),
        hollow(low=(20.0, 20.0, 10.0), high=(62.0, 40.0, 40.0 - roof)),
    )
    block = board("block", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=cuts)
    slug = board("slug", (18.0, 18.0, 18.0), (43.0, 21.0, 10.0))
    return piece_of([block, slug])


def test_a_slug_under_a_lip_comes_in_two_legs():
    piece = keyhole(roof=10.0)
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    (step,) = plan.steps
    assert (step.moving, step.direction) == (("slug",), pytest.approx(RIGHT))
    assert step.before is not None
    assert step.before.way == pytest.approx(DOWN)
    # From 43 to 22 it comes under the mouth (22 + 18 = 40): 21 is the least, 23 the most.
    assert 21.0 - 1e-3 <= step.before.left_mm <= 23.0 + 1e-3
    assert replay(piece, plan) == []
    assert step_in_words(step) == "Bring slug down to block, then push it to the right, home."


def test_the_replay_notices_a_first_leg_that_is_too_short():
    piece = keyhole(roof=10.0)
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    (step,) = plan.steps
    short = replace(step, before=replace(step.before, left_mm=15.0))
    assert replay(piece, AssemblyPlan(steps=(short,)))


def test_a_chamber_without_a_mouth_stays_shut():
    """The same slug where the mouth is filled again from above: no leg leads out."""
    piece = keyhole(roof=10.0)
    chamber = hollow(low=(20.0, 20.0, 10.0), high=(62.0, 40.0, 30.0))
    block = board("block", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=(chamber,))
    result = assembly_of(piece_of([block, piece.placed[1]]))
    assert isinstance(result, NoOrder)
    assert set(result.stuck) == {"block", "slug"}


def test_the_key_rack_is_brought_back_and_hung_down():
    """The cleats' bevels are 15.2 high, so it comes to the wall that much above its place; the
    spacer below the wall cleat would stand in the way of anything straight but sideways."""
    piece = rack.build()
    plan = assembly_of(piece)
    assert isinstance(plan, AssemblyPlan)
    last = plan.steps[-1]
    assert last.onto == ("wall cleat",)
    assert last.direction == pytest.approx(DOWN)
    assert last.before is not None
    assert last.before.way == pytest.approx(BACK)
    assert last.before.left_mm == pytest.approx(15.2)
    assert replay(piece, plan) == []
    entry = assembly_record(plan)[-1]
    assert entry["before"] == {"direction": [0.0, 1.0, 0.0], "left_mm": 15.2}
    assert entry["in_words"].endswith("back to wall cleat, then push them down, home.")


def test_without_its_spacer_the_rack_goes_straight_down():
    """Nothing stands below the wall cleat, so one leg serves, the joint's own."""
    plain = changed(
        rack,
        parts=[each for each in rack.parts if each.name != "spacer"],
        joints=[each for each in rack.joints if each.incoming != "spacer"],
    )
    plan = assembly_of(plain.build())
    assert isinstance(plan, AssemblyPlan)
    assert plan.steps[-1].direction == pytest.approx(DOWN)
    assert plan.steps[-1].before is None


def test_a_straight_move_is_not_replaced_for_show():
    """A slug beside the block's open mouth goes in by one leg."""
    mouth = hollow(low=(20.0, 20.0, 10.0), high=(40.0, 40.0, 42.0))
    block = board("block", (100.0, 60.0, 40.0), (0.0, 0.0, 0.0), cuts=(mouth,))
    slug = board("slug", (18.0, 18.0, 18.0), (21.0, 21.0, 10.0))
    plan = assembly_of(piece_of([block, slug]))
    assert isinstance(plan, AssemblyPlan)
    assert plan.steps[0].before is None


@law(few=30, full=300)
@given(
    gap=st.integers(0, 40),
    aside=st.integers(-25, 25),
    distance=st.integers(1, 60),
)
def test_within_a_distance_by_closed_form(gap, aside, distance):
    """Two boards 20 square: the first meets the second when it goes farther than the gap and they
    overlap across the way; the other way never; and far enough is the same as without end."""
    piece = piece_of(
        [
            board("a", (20.0, 20.0, 10.0), (0.0, 0.0, 0.0)),
            board("b", (20.0, 20.0, 10.0), (20.0 + gap, float(aside), 0.0)),
        ]
    )
    bodies = bodies_of(piece)
    expected = distance > gap and abs(aside) < 20
    assert blocked_within(bodies, RIGHT, float(distance))[0, 1] == expected
    assert blocked_within(bodies, LEFT, float(distance))[1, 0] == expected
    assert not blocked_within(bodies, LEFT, float(distance))[0, 1]
    far = blocked_within(bodies, RIGHT, 500.0)
    assert (far == blocked_along(bodies, RIGHT)).all()


@pytest.mark.parametrize("way", [LEFT, RIGHT, UP, DOWN, BACK])
def test_within_a_long_way_is_as_without_end(way):
    """On a real piece, with bevels, grooves and bores."""
    bodies = bodies_of(rack.build())
    assert (blocked_within(bodies, way, 5000.0) == blocked_along(bodies, way)).all()
