"""Where parts may lie: faults, tapers, grain, figure, pale edges, widths glued up."""

from __future__ import annotations

import math
import random

import pytest
from shapely.geometry import Polygon

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.cover import fits_alone
from furniture.shop.cutting.values import (
    Board,
    CuttingRequest,
    GlueUp,
    GrainRule,
    MatchGroup,
    MatchRule,
    Saw,
    Station,
    ZoneKind,
    ZoneShows,
)
from furniture.shop.cutting.zones import kept_off
from tests.shop.cutting.bench import SAPWOOD, oak, part
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone


def test_a_part_lies_beside_a_knot_by_its_touch() -> None:
    knot = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=400, y=0, length=20, width=100)
    request = CuttingRequest(
        boards=(oak("b", 820, 100, knot),), parts=(part("rail", 2, 400, 100),), saw=Saw(kerf_mm=3)
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()
    assert plan.proof.is_proven


def test_the_board_is_turned_over_for_the_show_face() -> None:
    stain = rectangular_zone(
        name="s",
        kind=ZoneKind.STAIN,
        x=0,
        y=0,
        length=500,
        width=100,
        shows=ZoneShows.UPPER,
    )
    tolerant = part("rail", 1, 480, 90, hidden_face_tolerates=frozenset({ZoneKind.STAIN}))
    request = CuttingRequest(boards=(oak("b", 500, 100, stain),), parts=(tolerant,))
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.boards[0].placements[0].is_flipped


def test_a_taper_is_kept_off() -> None:
    # Straight lines: at x = 500 the board is 150 wide, so a part 150 wide ends there at most.
    board = Board(
        name="b",
        length_mm=1000,
        stations=(Station(at_mm=0, width_mm=200), Station(at_mm=1000, width_mm=100)),
        thickness_mm=24,
        species="oak",
    )
    for length, fits in ((500.0, True), (501.0, False)):
        request = CuttingRequest(boards=(board,), parts=(part("p", 1, length, 150),))
        plan = plan_cutting(request)
        assert faults_of_plan(request, plan) == []
        assert (plan.unplaced == ()) is fits


def test_grain_turns_only_when_the_part_says_so() -> None:
    for grain, fits in ((GrainRule.ALONG, False), (GrainRule.EITHER, True)):
        request = CuttingRequest(
            boards=(oak("b", 200, 300),), parts=(part("p", 1, 300, 200, grain=grain),)
        )
        plan = plan_cutting(request)
        assert faults_of_plan(request, plan) == []
        assert (plan.unplaced == ()) is fits


def test_pale_edges_are_kept_equal() -> None:
    pale = (
        rectangular_zone(name="near", kind=ZoneKind.SAPWOOD, x=0, y=0, length=900, width=30),
        rectangular_zone(name="far", kind=ZoneKind.SAPWOOD, x=0, y=150, length=900, width=50),
    )
    match = MatchGroup(name="pale", rule=MatchRule.EQUAL_PALE_EDGES, members=("lid",))
    lid = part("lid", 1, 400, 160, show_face_tolerates=SAPWOOD, hidden_face_tolerates=SAPWOOD)
    request = CuttingRequest(
        boards=(oak("b", 900, 200, *pale),), parts=(lid, part("r", 1, 400, 100)), matches=(match,)
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    place = next(p.place for b in plan.boards for p in b.placements if p.part == "lid")
    assert 30 - place.y_mm == pytest.approx(place.y_mm + 160 - 150)


def test_members_of_one_zone_lie_in_it() -> None:
    zone = rectangular_zone(
        name="even", kind=ZoneKind.EVEN_GRAIN, x=600, y=20, length=900, width=130
    )
    match = MatchGroup(
        name="alike",
        rule=MatchRule.SAME_ZONE,
        members=("shelf", "shelf"),
        zone_kind=ZoneKind.EVEN_GRAIN,
    )
    request = CuttingRequest(
        boards=(oak("b", 1600, 170, zone),),
        parts=(part("shelf", 2, 400, 120), part("rail", 1, 500, 100)),
        matches=(match,),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()


def test_a_part_wider_than_any_board_is_glued_up_clear_of_its_cuts() -> None:
    lid = part(
        "lid",
        1,
        400,
        300,
        glue_up=GlueUp(jointing_allowance_mm=2, keep_clear_mm=((140, 160),)),
    )
    request = CuttingRequest(boards=(oak("b", 1000, 180),), parts=(lid,))
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    strips = sorted(p.place.width_mm for p in plan.boards[0].placements)
    # One joint moved from 150 to 140 or 160: strips 140 and 160, each 2 mm over for jointing.
    assert strips == pytest.approx([142, 162])


@pytest.mark.parametrize("kind", [ZoneKind.KNOT, ZoneKind.CHECK, ZoneKind.HOLE, ZoneKind.SAPWOOD])
@pytest.mark.parametrize("room", [402.0, 404.0])
def test_a_part_keeps_off_a_fault_whose_edge_wanders(kind: ZoneKind, room: float) -> None:
    """By hand: 400 mm and 3 mm of margin need 403 mm beside a fault; sapwood may be touched."""
    fault = rectangular_zone(name="f", kind=kind, x=room, y=0, length=30, width=100)
    saw = Saw(kerf_mm=3, off_faults_mm=3)
    request = CuttingRequest(
        boards=(oak("b", room + 40, 100, fault),), parts=(part("rail", 1, 400, 90),), saw=saw
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert (not plan.unplaced) is (room > 403 or kind is ZoneKind.SAPWOOD)


def test_a_margin_goes_round_a_slanting_fault_too() -> None:
    """By hand: at 45 degrees a margin of 3 moves each edge out by 3 square to it."""
    slant = ((0.0, 10.0), (10.0, 0.0), (20.0, 10.0), (10.0, 20.0))
    grown = Polygon(kept_off(slant, 3.0))
    assert grown.area == pytest.approx((10 * math.sqrt(2) + 6) ** 2)
    assert grown.exterior.distance(Polygon(slant)) == pytest.approx(3.0)


@pytest.mark.seeds(few=6, full=60)
def test_among_many_faults_a_part_lies_where_a_look_at_every_corner_finds_room(seed: int) -> None:
    """By plain looking: a part that lies somewhere can be pushed down, then left, to a corner."""
    dice = random.Random(seed)
    size = dice.choice((6, 25, 60))
    zones = [
        rectangular_zone(name=f"k{n}", kind=ZoneKind.STAIN, length=size, width=size / 2,
                         x=dice.uniform(0, 700 - size), y=dice.uniform(0, 150 - size))
        for n in range(60)
    ]  # fmt: skip
    wanted = part("p", 1, dice.uniform(60, 200), dice.uniform(20, 60))
    request = CuttingRequest(boards=(oak("b", 700, 150, *zones),), parts=(wanted,))
    boxes = [(z.outline[0], z.outline[2]) for z in zones]
    is_free = any(
        x + wanted.length_mm <= 700
        and y + wanted.width_mm <= 150
        and not any(
            x < right and x + wanted.length_mm > left and y < top and y + wanted.width_mm > low
            for (left, low), (right, top) in boxes
        )
        for x in (0.0, *(right for _, (right, _) in boxes))
        for y in (0.0, *(top for _, (_, top) in boxes))
    )
    assert fits_alone(request, blanks_of(request, frozenset())) == [{0} if is_free else set()]
