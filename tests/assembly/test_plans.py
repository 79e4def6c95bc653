"""Orders of assembly of whole pieces: found, replayed with the solids, and true to the hand."""

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
)
from furniture.parts.vectors import BACK, DOWN, UP
from models.herb_stand import stand
from models.tea_box import box
from tests.assembly.bench import replay


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
                abs(sum(a * b for a, b in zip(face.normal, step.direction, strict=True)))
                for face in joining.faces
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
            faces=tuple(
                replace(
                    face,
                    centre=turned(face.centre),
                    normal=turned(face.normal),
                    along=turned(face.along),
                )
                for face in joining.faces
            ),
        )
        for joining in piece.joinings
    ]
    plan = plan_of(bodies, joinings)
    assert isinstance(plan, AssemblyPlan)
    assert len(plan.steps) == len(bodies) - 1
