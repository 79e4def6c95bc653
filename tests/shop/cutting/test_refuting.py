"""The bound board by board: never above a plan that exists, and met where it must be."""

from __future__ import annotations

import ctypes
import math
from dataclasses import replace

import pytest
from hypothesis import given
from shapely.geometry import Polygon, box

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.conflicts import boxes_inside
from furniture.shop.cutting.cover import fits_alone
from furniture.shop.cutting.plan import Bound, BoundKind
from furniture.shop.cutting.refuting import refuted_bound
from furniture.shop.cutting.values import (
    CuttingRequest,
    MatchGroup,
    MatchRule,
    OddOne,
    Saw,
    ZoneKind,
)
from tests.fresh import law
from tests.shop.boards.bench import outcome_of_model
from tests.shop.cutting.bench import oak, part, requests
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone


def bound_of(request: CuttingRequest, enough: float = math.inf) -> Bound | None:
    """The bound as the planner asks for it; None where some part lies on no board at all."""
    blanks = blanks_of(request, frozenset())
    on_board = fits_alone(request, blanks)
    if len(set().union(*on_board)) < len(blanks):
        return None
    return refuted_bound(request, blanks, on_board, enough, lambda: False)


@law(few=15, full=400)
@given(requests())
def test_no_plan_beats_the_bound(request: CuttingRequest) -> None:
    """Law: a bound is at most what any plan costs, and a refused whole has no whole plan."""
    plan = plan_cutting(request)
    bound = bound_of(request)
    if plan.unplaced or bound is None:
        return
    assert bound.all_may_fit
    assert bound.price <= plan.cost + 1e-6


def test_the_herb_stand_is_proven_best() -> None:
    outcome = outcome_of_model("herb_stand")
    plan = outcome.plan
    assert plan is not None
    assert faults_of_plan(outcome.job.request, plan) == []
    assert plan.unplaced == ()
    assert plan.proof.is_proven
    assert plan.proof.kind is BoundKind.BOARD_BY_BOARD
    tiers = {"tier 1", "tier 2", "tier 3"}
    assert any(tiers < {name for name, _ in each.parts} for each in plan.proof.conflicts)


def test_two_that_cannot_share_a_board_cost_two_boards() -> None:
    # By area both lie on one board; 500 + 3 + 500 is longer than 1000, and 60 + 3 + 60 than 120.
    request = CuttingRequest(
        boards=(oak("a", 1000, 120, price=30), oak("b", 1000, 120, price=30)),
        parts=(part("p", 2, 500, 60),),
        saw=Saw(kerf_mm=3),
    )
    bound = bound_of(request)
    assert bound is not None
    assert bound.price == 60
    wider = tuple(oak(name, 1000, 123, price=30) for name in "ab")
    roomy = bound_of(replace(request, boards=wider))
    assert roomy is not None
    assert roomy.price == 30


def test_a_knot_in_the_way_is_counted() -> None:
    knot = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=490, y=0, length=20, width=100)
    parts = (part("p", 2, 450, 100), part("q", 1, 60, 50))
    for zones, price in (((), 20.0), ((knot,), 40.0)):
        boards = (oak("a", 1000, 100, *zones, price=20), oak("b", 1000, 100, price=20))
        request = CuttingRequest(boards=boards[:1], parts=parts, saw=Saw(kerf_mm=3))
        one = bound_of(request)
        assert one is not None
        assert one.all_may_fit is (price == 20.0)
        two = bound_of(replace(request, boards=(*boards[:1], oak("b", 300, 60, price=20))))
        assert two is not None
        assert (two.price, two.all_may_fit) == (price, True)


def test_a_match_that_must_break_is_in_the_bound() -> None:
    match = MatchGroup(
        name="alike", rule=MatchRule.SAME_BOARD, members=("p", "p", "p"), price=7,
        odd_one=OddOne.NONE,
    )  # fmt: skip
    request = CuttingRequest(
        boards=(oak("a", 1000, 100, price=20), oak("b", 1000, 100, price=20)),
        parts=(part("p", 3, 450, 90),),
        matches=(match,),
        saw=Saw(kerf_mm=3),
    )
    bound = bound_of(request)
    assert bound is not None
    assert bound.price == 47
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.cost == 47
    assert plan.proof.is_proven
    spared = replace(request, matches=(replace(match, odd_one=OddOne.LAST_NAMED),))
    kept = bound_of(spared)
    assert kept is not None
    assert kept.price == 40


def test_what_cannot_be_placed_whole_is_proved() -> None:
    # 95 % of the area, but three of 340 are longer than 1000 and two of 60 wider than 110.
    request = CuttingRequest(
        boards=(oak("a", 1000, 110),), parts=(part("p", 3, 340, 60),), saw=Saw(kerf_mm=3)
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert (plan.proof.measure, plan.proof.value, plan.proof.bound) == ("copies left out", 1, 1)


def test_boxes_lie_inside_their_outline() -> None:
    outlines = [
        ((0.0, 92.0), (0.0, 131.0), (210.0, 131.0)),
        ((0.0, 214.0), (1460.0, 204.0), (1460.0, 224.0), (730.0, 238.0), (0.0, 246.0)),
        ((10.0, 10.0), (40.0, 10.0), (40.0, 30.0), (10.0, 30.0)),
    ]
    for outline in outlines:
        shape = Polygon(outline)
        boxes = [box(b.x_mm, b.y_mm, b.x_end_mm, b.y_end_mm) for b in boxes_inside(outline)]
        assert boxes
        for each in boxes:
            assert each.difference(shape.buffer(1e-6)).area < 1e-6
    notched = ((0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (15.0, 5.0), (0.0, 30.0))
    assert list(boxes_inside(notched)) == []


def test_planning_writes_nothing_of_its_own(capfd: pytest.CaptureFixture[str]) -> None:
    """A solver that prints its banner would stand in the middle of the maker's report."""
    request = CuttingRequest(boards=(oak("a", 1000, 110),), parts=(part("p", 3, 300, 60),))
    assert plan_cutting(request).unplaced == ()
    ctypes.CDLL(None).fflush(None)  # what C code printed waits in a buffer of its own
    assert capfd.readouterr() == ("", "")


def test_faults_over_one_another_bar_no_more_than_they_cover() -> None:
    """A knot in the pale edge: by hand, 60 of 100 are clear of both, and hold the part."""
    zones = (
        rectangular_zone(name="pale", kind=ZoneKind.SAPWOOD, x=0, y=0, length=500, width=40),
        rectangular_zone(name="knot", kind=ZoneKind.KNOT, x=200, y=30, length=20, width=10),
        rectangular_zone(name="check", kind=ZoneKind.CHECK, x=210, y=20, length=60, width=15),
    )
    for width, is_possible in ((60, True), (61, False)):
        request = CuttingRequest(
            boards=(oak("b", 500, 100, *zones),),
            parts=(part("p", 1, 450, width),),
            saw=Saw(kerf_mm=0),
        )
        blanks = blanks_of(request, frozenset())
        found = refuted_bound(request, blanks, [{0}], math.inf, lambda: False)
        assert found.all_may_fit is is_possible
