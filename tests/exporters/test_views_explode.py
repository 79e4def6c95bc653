"""Exploded views: parts stand clear of each other on the lines along which they go together."""

from __future__ import annotations

from itertools import combinations

import pytest

from exporters.views.explode import exploded, legs_between, shifts_against_assembly, trails
from exporters.views.project import StandardView, standard_frame
from furniture.joints.joint import Joining, JointFace, Role
from furniture.parts.part import Placed
from furniture.parts.placement import box_of
from furniture.parts.vectors import Vector
from tests.exporters.test_views import placed_at


def joining(into: str, incoming: str, at: Vector, *ways: Vector) -> Joining:
    """A joint that goes together along any of these ways and meets at a point."""
    face = JointFace(
        what="face", centre=at, normal=ways[0], along=(ways[0][1], ways[0][2], ways[0][0]),
        run_mm=10.0, deep_mm=10.0, play_mm=0.0, glue=None,
    )  # fmt: skip
    return Joining(
        kind="butt", role=Role.SEAT, into=into, incoming=incoming, fit=None, clearance_mm=0.0,
        ways_in=ways, faces=(face,),
    )  # fmt: skip


def stand() -> tuple[list[Placed], list[Joining]]:
    """A post with a wing on either side and a shelf let 5 mm into it in front, a pin through."""
    placed = [
        placed_at("left", (100.0, 20.0, 60.0), (0.0, 100.0, 0.0)),
        placed_at("post", (50.0, 20.0, 300.0), (100.0, 100.0, 0.0)),
        placed_at("right", (100.0, 20.0, 60.0), (150.0, 100.0, 0.0)),
        placed_at("shelf", (50.0, 80.0, 10.0), (100.0, 25.0, 200.0)),
        placed_at("pin", (5.0, 5.0, 20.0), (120.0, 40.0, 195.0)),
    ]
    joined = [
        joining("post", "left", (100, 110, 30), (1, 0, 0), (0, 1, 0), (0, 0, 1), (0, 0, -1)),
        joining("post", "right", (150, 110, 30), (-1, 0, 0), (0, 1, 0), (0, 0, 1), (0, 0, -1)),
        joining("post", "shelf", (125, 105, 205), (0, 1, 0)),
        joining("shelf", "pin", (122.5, 42.5, 205), (0, 0, -1)),
    ]
    return placed, joined


def test_each_part_leaves_by_the_shortest_way_that_its_joints_allow() -> None:
    placed, joined = stand()
    shifts = shifts_against_assembly(placed, joined, 40.0)
    assert shifts == {
        "post": (0.0, 0.0, 0.0),
        "left": pytest.approx((-40.0, 0.0, 0.0)),
        "right": pytest.approx((40.0, 0.0, 0.0)),
        "shelf": pytest.approx((0.0, -40.0, 0.0)),
        "pin": pytest.approx((0.0, -40.0, 40.0)),
    }


def test_parts_moved_apart_stand_clear_of_each_other() -> None:
    placed, joined = stand()
    moved = exploded(placed, shifts_against_assembly(placed, joined, 4.0))  # less than the housing
    boxes = [box_of(each.part.blank, each.placement) for each in moved]
    for (low, high), (other_low, other_high) in combinations(boxes, 2):
        assert any(
            high[axis] <= other_low[axis] + 0.5 or other_high[axis] <= low[axis] + 0.5
            for axis in range(3)
        )


def test_a_part_without_joints_stays_where_it_is() -> None:
    placed, _ = stand()
    assert set(shifts_against_assembly(placed, [], 40.0).values()) == {(0.0, 0.0, 0.0)}
    assert exploded(placed, {}) == tuple(placed)


def test_a_trail_runs_from_joint_to_joint_and_parts_hide_it() -> None:
    placed, joined = stand()
    shifts = shifts_against_assembly(placed, joined, 40.0)
    legs = legs_between(joined, shifts)
    front = trails(placed, shifts, standard_frame(StandardView.FRONT), legs)
    spans = sorted((*sorted((line.start, line.end)),) for line in front)
    # both wings' ends to the post's edges at 30 up; the shelf's trail is seen end on; the pin's
    # runs up from the shelf's top at 210 to the pin's foot at 235
    assert spans == [
        (pytest.approx((60.0, 30.0)), pytest.approx((100.0, 30.0))),
        (pytest.approx((122.5, 210.0)), pytest.approx((122.5, 235.0))),
        (pytest.approx((150.0, 30.0)), pytest.approx((190.0, 30.0))),
    ]
    behind = trails(placed, shifts, standard_frame(StandardView.LEFT), legs[2:3])
    # from the left the wing hides nothing at that height: 40 mm less what is in post and shelf
    (line,) = behind
    assert sorted((line.start, line.end)) == [
        pytest.approx((-100.0, 205.0)),
        pytest.approx((-65.0, 205.0)),
    ]
