"""Boxes with splines across their corners: the order that each lets be."""

from __future__ import annotations

import pytest

from furniture.assembly import (
    AssemblyPlan,
    assembly_of,
    step_in_words,
)
from furniture.joints import (
    MitreJoint,
    SplineJoint,
    spline_across,
)
from furniture.parts.cuts import Mitre
from furniture.parts.faces import Face
from furniture.parts.vectors import BACK, FRONT, LEFT, RIGHT, UP
from furniture.solids.proof import clashing_joints, interferences, untrue_contacts
from tests.assembly.bench import board, oak, piece_of, replay


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
