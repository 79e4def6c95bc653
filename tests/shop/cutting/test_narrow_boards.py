"""A board a little narrower than the rough width is used, and says how much it leaves."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from exporters.cutting.words import nearly
from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import NearPlace, UnplacedReason
from furniture.shop.cutting.values import (
    Board,
    CuttingRequest,
    GlueUp,
    MatchGroup,
    MatchRule,
    Station,
    ZoneKind,
)
from furniture.units import millimetres
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone

RAIL = part(
    "rail", 4, 255, 90, width_allowance_mm=4.0, least_width_allowance_mm=1.5, glue_up=GlueUp()
)  # fmt: skip


@pytest.mark.parametrize(
    ("width", "strip", "sawn"), [(94.0, 0, 94.0), (93.9, 0, 93.9), (91.5, 0, 91.5), (91.4, 1, 48.5)]
)
def test_a_part_is_split_only_where_too_little_would_be_left(
    width: float, strip: int, sawn: float
) -> None:
    """By hand: 90 wide, 4 mm asked for, 1.5 mm will do; in strips each is 45 + 2 + 1.5 wide."""
    request = CuttingRequest(
        boards=(oak("b", 1100, width), oak("c", 1100, width)), parts=(RAIL,), saw=shop()
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()
    first = plan.boards[0].placements[0]
    assert (min(first.strip, 1), first.place.width_mm) == (strip, pytest.approx(sawn))


def test_a_narrow_board_serves_beside_a_wide_one_that_is_full() -> None:
    """The wide board holds one of the two; the narrow one gives the other less on its width."""
    request = CuttingRequest(
        boards=(oak("wide", 300, 120), oak("narrow", 300, 93)),
        parts=(part("rail", 2, 255, 90, width_allowance_mm=4.0, least_width_allowance_mm=1.5),),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    widths = {b.board: [p.place.width_mm for p in b.placements] for b in plan.boards}
    assert widths == {"wide": [94], "narrow": [93]}
    assert plan.proof.is_proven


def test_a_sequence_comes_off_a_narrow_board() -> None:
    must = MatchGroup(name="round", rule=MatchRule.IN_SEQUENCE, members=("rail",) * 4)
    request = CuttingRequest(
        boards=(oak("b", 1060, 93.9),), parts=(RAIL,), matches=(must,), saw=shop()
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert (plan.unplaced, plan.matches[0].is_kept) == ((), True)


def test_a_board_that_tapers_out_of_the_rough_width_is_used() -> None:
    """By hand: 94.2 at one end and 93 at the other is nowhere 94 over 255 mm, but 93 all along."""
    board = Board(
        name="b",
        length_mm=600,
        stations=(Station(at_mm=0, width_mm=94.2), Station(at_mm=600, width_mm=93)),
        thickness_mm=24,
        species="oak",
    )
    wanted = part("rail", 2, 255, 90, width_allowance_mm=4.0, least_width_allowance_mm=1.5)
    request = CuttingRequest(boards=(board,), parts=(wanted,))
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert [p.place.width_mm for p in plan.boards[0].placements] == [93, 93]


def test_boards_that_all_but_do_are_named() -> None:
    request = CuttingRequest(
        boards=(oak("short", 299, 120), oak("slim", 400, 99), oak("far off", 400, 60)),
        parts=(part("shelf", 1, 300, 100),),
    )
    (entry,) = plan_cutting(request).unplaced
    assert entry.reason is UnplacedReason.TOO_LARGE
    named = sorted((miss.board, miss.short_mm, miss.narrow_mm) for miss in entry.near)
    assert named == [("short", 1, 0), ("slim", 0, 1)]


def test_what_may_be_missing_of_the_rough_width_is_said_beside_what_is() -> None:
    """By hand: 94 rough, 1.5 of 4 mm must be left, so 2.5 may be missing; at 91.3 mm 2.7 are."""
    request = CuttingRequest(
        boards=(oak("b", 400, 91.3),), parts=(replace(RAIL, quantity=1, glue_up=None),)
    )
    (entry,) = plan_cutting(request).unplaced
    (miss,) = entry.near
    assert (miss.board, miss.narrow_mm, miss.allowed_mm) == ("b", *map(pytest.approx, (2.7, 2.5)))
    assert nearly(miss, millimetres(0.1)) == (
        "board b is 2.7 mm too narrow at its rough width (allowed: 2.5 mm)"
    )


def test_the_nearest_clear_place_and_offcut_are_named_with_what_they_lack() -> None:
    """By hand: a knot from 480 to 500 of 1000 leaves 500; 700 less 400 and a kerf are 296.8."""
    knot = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=480, y=0, length=20, width=100)
    barred = CuttingRequest(boards=(oak("b", 1000, 100, knot),), parts=(part("p", 1, 510, 90),))
    (entry,) = plan_cutting(barred).unplaced
    assert (entry.near[0].place, entry.near[0].short_mm) == (NearPlace.CLEAR, pytest.approx(10))
    full = CuttingRequest(
        boards=(oak("b", 700, 100),), parts=(part("p", 1, 400, 100), part("q", 1, 300, 100))
    )
    (entry,) = plan_cutting(full).unplaced
    assert entry.reason is UnplacedReason.NO_ROOM
    assert [(each.place, each.short_mm) for each in entry.near] == [
        (NearPlace.OFFCUT, pytest.approx(3.2))
    ]


def test_a_wide_board_that_is_too_short_keeps_no_part_from_being_glued_up() -> None:
    request = CuttingRequest(
        boards=(oak("long", 1100, 60), oak("stub", 200, 150)),
        parts=(replace(RAIL, quantity=1),), saw=shop(),
    )  # fmt: skip
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert (plan.unplaced, {each.board for each in plan.boards}) == ((), {"long"})
    (glued,) = plan.in_strips
    assert (glued.strips, glued.near[0].board) == (2, "long")
    assert glued.near[0].narrow_mm == pytest.approx(34)


@pytest.mark.seeds(few=12, full=200)
def test_a_part_is_glued_up_only_where_no_board_leaves_enough(seed: int) -> None:
    """At the border, in millimetres and inches, on straight boards and on tapering ones."""
    dice = random.Random(seed)
    unit = dice.choice((1.0, 25.4 / 64))
    width, allowance = dice.randint(90, 400) // unit * unit, dice.randint(1, 12) * unit
    least = dice.randint(0, round(allowance / unit)) * unit
    there = width + least + dice.choice((-unit, -1e-3, 0.0, 0.0, 1e-3, unit))
    length = dice.uniform(210, 500)
    far = dice.choice((0.0, 0.0, dice.uniform(0.5, 30.0)))
    board = Board(
        name="b", length_mm=3000, thickness_mm=24, species="oak",
        stations=(Station(at_mm=0, width_mm=there), Station(at_mm=length, width_mm=there),
                  Station(at_mm=3000, width_mm=there - far)),
    )  # fmt: skip
    wanted = part(
        "p", 1, length, width, width_allowance_mm=allowance, least_width_allowance_mm=least
    )
    wanted = replace(wanted, glue_up=GlueUp(narrowest_strip_mm=20.0))
    request = CuttingRequest(boards=(board, oak("stub", length - 1, 900)), parts=(wanted,))
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    strips = [each.strip for each in plan.boards[0].placements]
    assert (strips == [0]) == (there >= width + least - 1e-6), (strips, there, width + least)


def test_a_taper_is_told_as_a_taper() -> None:
    """Nothing is in the way of a part that no stretch of the board is wide enough for."""
    board = Board(
        name="b",
        length_mm=1000,
        stations=(Station(at_mm=0, width_mm=200), Station(at_mm=1000, width_mm=100)),
        thickness_mm=24,
        species="oak",
    )
    request = CuttingRequest(boards=(board,), parts=(part("p", 1, 600, 150),))
    (entry,) = plan_cutting(request).unplaced
    assert (entry.reason, entry.blocked_by) == (UnplacedReason.NARROWS, ())
