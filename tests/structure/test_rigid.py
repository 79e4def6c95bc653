"""The statics of rigid bodies against sums that are worked by hand beside them."""

from __future__ import annotations

import math

import pytest

from furniture.pieces.weighed import Mass
from furniture.structure.capacity import Carries
from furniture.structure.cases import Case, Standing
from furniture.structure.frame import Frame
from furniture.structure.held import State, held_in, push_as_one_n
from furniture.structure.links import GROUND, Link
from furniture.structure.rigid import MOST, Push, motion_of, strength_of

UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
KG_N = 9.80665


def body(mass_kg, centre):
    return Mass(volume_mm3=1.0, mass_kg=mass_kg, centre_mm=centre)


def frame(*masses, links=()):
    names = tuple(f"part {index}" for index in range(len(masses)))
    return Frame(names=names, masses=masses, links=tuple(links), floor=(), wall=())


def push_up(body, at, most=math.inf, second=GROUND, joining=None):
    return Link(
        first=body, second=second, at=at, direction=UP, least_n=0.0, most_n=most,
        carries=Carries.PUSH, joining=joining,
    )  # fmt: skip


def push_down(body, at, second=GROUND):
    return Link(
        first=body, second=second, at=at, direction=DOWN, least_n=0.0, most_n=math.inf,
        carries=Carries.PUSH,
    )  # fmt: skip


def pin(body, at, pull, second=GROUND, carries=Carries.PULL, joining=0):
    return Link(
        first=body, second=second, at=at, direction=UP, least_n=0.0, most_n=pull,
        carries=carries, joining=joining,
    )  # fmt: skip


def weight(frame, index=0):
    mass = frame.masses[index]
    return Push(body=index, at=mass.centre_mm, force_n=(0.0, 0.0, -KG_N * mass.mass_kg))


def test_a_plate_on_four_corners_rests_and_on_two_of_one_side_falls():
    plate = frame(body(2.0, (200.0, 150.0, 5.0)))
    corners = [(0.0, 0.0, 0.0), (400.0, 0.0, 0.0), (400.0, 300.0, 0.0), (0.0, 300.0, 0.0)]
    four = [push_up(0, at) for at in corners]
    assert motion_of(plate, four, [weight(plate)]) is None
    motion = motion_of(plate, four[:2], [weight(plate)])
    assert motion is not None
    assert motion.moving == (0,)
    assert motion.way[2] < -0.9


def test_a_three_legged_plate_falls_once_its_centre_leaves_the_triangle():
    legs = [push_up(0, at) for at in ((0.0, 0.0, 0.0), (300.0, 0.0, 0.0), (0.0, 300.0, 0.0))]
    for x, stands in ((149.0, True), (151.0, False)):
        plate = frame(body(1.0, (x, 150.0, 5.0)))
        assert (motion_of(plate, legs, [weight(plate)]) is None) is stands


def test_two_shares_of_a_beam_are_those_of_the_lever():
    """300 N at a quarter of the span: 225 N at the near support, 75 at the far one."""
    beam = frame(body(1e-9, (500.0, 0.0, 0.0)))
    load = Push(body=0, at=(250.0, 0.0, 0.0), force_n=(0.0, 0.0, -300.0))
    found = strength_of(
        beam, [push_up(0, (0.0, 0.0, 0.0), 450.0), push_up(0, (1000.0, 0.0, 0.0), 450.0)], [load]
    )
    assert found.factor == pytest.approx(450.0 / 225.0, rel=1e-6)


def test_ballast_before_the_line_of_its_pins_pries():
    """A bottom hung on two pins in a line, 100 N lying 75 mm before it, rails above it 150 mm away:
    by moments about the pins the rail behind presses down with 50 N, so each pin bears 75, not 50.
    """
    bottom = frame(body(1e-9, (200.0, 150.0, 0.0)))
    load = Push(body=0, at=(200.0, 75.0, 0.0), force_n=(0.0, 0.0, -100.0))
    pins = [pin(0, (0.0, 150.0, 0.0), 41.0), pin(0, (400.0, 150.0, 0.0), 41.0)]
    rails = [push_down(0, (x, y, 0.0)) for x in (0.0, 400.0) for y in (0.0, 300.0)]
    found = strength_of(bottom, [*pins, *rails], [load])
    assert found.factor == pytest.approx(41.0 / 75.0, rel=1e-6)
    assert found.gives == (0,)


def test_a_weight_that_is_not_borne_at_all_has_no_factor():
    plate = frame(body(2.0, (200.0, 150.0, 5.0)))
    rails = [push_down(0, (x, y, 0.0)) for x in (0.0, 400.0) for y in (0.0, 300.0)]
    assert strength_of(plate, rails, [weight(plate)]).factor == 0.0
    motion = motion_of(plate, rails, [weight(plate)])
    assert motion is not None
    assert motion.way == pytest.approx((0.0, 0.0, -1.0))


def test_action_is_reaction_between_two_bodies():
    """A 3 kg block on a 2 kg block: the lower one presses on its supports with both."""
    pile = frame(body(2.0, (50.0, 50.0, 10.0)), body(3.0, (50.0, 50.0, 30.0)))
    floor = [push_up(0, (x, y, 0.0), 20.0) for x in (0.0, 100.0) for y in (0.0, 100.0)]
    between = [push_up(1, (x, y, 20.0), second=0) for x in (0.0, 100.0) for y in (0.0, 100.0)]
    found = strength_of(pile, [*floor, *between], [weight(pile, 0), weight(pile, 1)])
    assert found.factor == pytest.approx(80.0 / (5.0 * KG_N), rel=1e-6)


def case(*pushes, dead=(), ground=()):
    return Case(
        told="a case", standing=Standing.ON_ITS_FEET, ground=tuple(ground), pushes=tuple(pushes),
        dead=tuple(dead),
    )  # fmt: skip


def test_what_only_play_stops_is_captured_and_its_glue_may_go():
    """A plate held up by glue, with a ledge 2 mm below it: dry it drops on the ledge and stays."""
    corners = [(0.0, 0.0, 0.0), (400.0, 0.0, 0.0), (400.0, 300.0, 0.0), (0.0, 300.0, 0.0)]
    glue = [pin(0, at, 10.0, carries=Carries.SIDE_GLUE) for at in corners]
    ledge = [
        Link(
            first=0, second=GROUND, at=at, direction=UP, least_n=0.0, most_n=math.inf,
            carries=Carries.PUSH, play_mm=2.0,
        )
        for at in corners
    ]  # fmt: skip
    with_ledge = frame(body(2.0, (200.0, 150.0, 5.0)), links=[*glue, *ledge])
    without = frame(body(2.0, (200.0, 150.0, 5.0)), links=glue)
    own = case(weight(without))
    glued = held_in(with_ledge, own)
    assert glued.is_held
    assert not glued.is_captured
    assert glued.factor == pytest.approx(40.0 / (2.0 * KG_N), rel=1e-6)
    dry = held_in(with_ledge, own, State.DRY)
    assert dry.is_captured
    assert dry.factor == MOST
    assert not held_in(without, own, State.DRY).is_held


def test_a_push_tips_a_block_by_the_ratio_of_its_arms():
    """12 kg, 100 mm from its edge, pushed at 900 mm: 12 g 100 / 900 = 13.08 N."""
    ground = [
        push_up(0, (x, y, 0.0)) for x in (0.0, 400.0) for y in (-100.0, 100.0)
    ] + [
        Link(
            first=0, second=GROUND, at=(x, y, 0.0), direction=way, least_n=-math.inf,
            most_n=math.inf, carries=Carries.PUSH,
        )
        for x in (0.0, 400.0) for y in (-100.0, 100.0)
        for way in ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    ]  # fmt: skip
    block = frame(body(12.0, (200.0, 0.0, 450.0)))
    push = Push(body=0, at=(200.0, 0.0, 900.0), force_n=(0.0, -1.0, 0.0))
    pushed = case(push, dead=[weight(block)], ground=ground)
    assert push_as_one_n(block, pushed) == pytest.approx(12.0 * KG_N * 100.0 / 900.0, rel=1e-6)
