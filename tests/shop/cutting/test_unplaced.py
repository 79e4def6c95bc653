"""Parts without a place say why and what would do; bad requests are refused."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from furniture.errors import DesignError
from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import UnplacedReason
from furniture.shop.cutting.values import (
    Board,
    CutPart,
    CuttingRequest,
    Limits,
    MatchGroup,
    MatchRule,
    Station,
    ZoneKind,
    straight_board,
)
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone


def test_unplaced_parts_say_why_and_what_would_do() -> None:
    knot = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=240, y=40, length=20, width=20)
    request = CuttingRequest(
        boards=(oak("b", 500, 100, knot),),
        parts=(
            part("long", 1, 600, 50),
            part("wide", 1, 300, 90),
            CutPart(
                name="ash", quantity=2, length_mm=10, width_mm=10, thickness_mm=5, species="ash"
            ),
        ),
    )
    plan = plan_cutting(request)
    reasons = {entry.part: entry.reason for entry in plan.unplaced}
    assert reasons == {
        "long": UnplacedReason.TOO_LONG,
        "wide": UnplacedReason.FAULTS,
        "ash": UnplacedReason.NO_SPECIES,
    }
    assert plan.proof.value == plan.proof.bound == 4
    wanted = {entry.part: entry for entry in plan.unplaced}
    would_do = wanted["long"].would_do
    assert (would_do.length_mm, would_do.width_mm) == (600, 50)
    near = [(miss.board, miss.short_mm) for miss in wanted["long"].near]
    assert near == [("b", 360)], "50 mm wide it is clear up to the knot alone"
    assert wanted["wide"].blocked_by == ("k on board b",)


def test_a_whole_board_that_the_search_did_not_come_to_is_no_want_of_wood() -> None:
    """With no time at all nothing is tried; only what the board could not take is wanted."""
    request = CuttingRequest(
        boards=(oak("b", 500, 100),),
        parts=(part("rail", 3, 400, 50), part("wide", 1, 300, 120)),
        limits=Limits(seconds=1e-6),
    )
    entries = {each.part: each for each in plan_cutting(request).unplaced}
    assert entries["rail"].reason is UnplacedReason.NOT_REACHED
    assert entries["rail"].blocked_by == ("b",)
    assert entries["wide"].reason is UnplacedReason.TIME_UP


def test_the_rule_that_keeps_a_part_off_is_named() -> None:
    knots = [
        rectangular_zone(name=name, kind=ZoneKind.KNOT, x=x, y=60, length=20, width=20)
        for name, x in (("near", 150), ("middle", 480), ("far", 800))
    ]
    must = MatchGroup(name="pair", rule=MatchRule.SAME_BOARD, members=("rail", "rail"))
    cases = [
        (oak("b", 500, 200), part("p", 1, 150, 300), UnplacedReason.GRAIN, ()),
        (oak("b", 500, 200), part("p", 1, 450, 260), UnplacedReason.TOO_WIDE, ()),
        (oak("b", 1000, 140, *knots), part("p", 1, 600, 100), UnplacedReason.FAULTS,
         ("middle on board b",)),
        (oak("b", 280, 200), part("p", 1, 100, 60), UnplacedReason.UNSAFE, ("shortest rip",)),
        (oak("b", 900, 45), part("p", 1, 400, 30), UnplacedReason.UNSAFE, ("narrowest rip",)),
        (oak("b", 190, 60), part("p", 1, 100, 60), UnplacedReason.UNSAFE, ("shortest crosscut",)),
        (oak("b", 700, 100), part("p", 2, 500, 90), UnplacedReason.NO_ROOM, ()),
    ]  # fmt: skip
    for board, wanted, reason, blocked_by in cases:
        request = CuttingRequest(boards=(board,), parts=(wanted,), saw=shop(end_trim_mm=0.0))
        plan = plan_cutting(request)
        assert faults_of_plan(request, plan) == []
        (entry,) = plan.unplaced
        assert (entry.reason, entry.blocked_by) == (reason, blocked_by), entry
    apart = CuttingRequest(
        boards=(oak("a", 500, 100), oak("b", 500, 100)),
        parts=(part("rail", 2, 450, 90),),
        matches=(must,),
    )
    (entry,) = plan_cutting(apart).unplaced
    assert (entry.reason, entry.blocked_by) == (UnplacedReason.MATCH, ("pair",))


@settings(max_examples=40, deadline=None)
@given(
    st.floats(20, 900),
    st.floats(15, 300),
    st.sampled_from([0.0, 100.0, 300.0]),
    st.sampled_from([0.0, 50.0]),
    st.sampled_from([0.0, 200.0]),
    st.sampled_from([0.0, 3.0]),
)
def test_the_board_that_would_do_does(
    length: float, width: float, rip: float, narrow: float, cut: float, edge: float
) -> None:
    wanted = part("p", 1, length, width)
    saw = shop(
        shortest_rip_mm=rip, narrowest_rip_mm=narrow, shortest_crosscut_mm=cut, edge_trim_mm=edge
    )
    nothing = CuttingRequest(boards=(oak("tiny", 22, 8),), parts=(wanted,), saw=saw)
    (entry,) = plan_cutting(nothing).unplaced
    board = oak("new", entry.would_do.length_mm, entry.would_do.width_mm)
    request = replace(nothing, boards=(board,))
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()


def test_every_problem_of_a_bad_request_is_named_at_once() -> None:
    zone = rectangular_zone(name="z", kind=ZoneKind.KNOT, x=950, y=0, length=100, width=10)
    thin = straight_board(name="thin", length_mm=1000, width_mm=100, thickness_mm=10, species="ash")
    crossing = Board(
        name="crossing",
        length_mm=1000,
        stations=(Station(at_mm=600, width_mm=100), Station(at_mm=200, width_mm=90)),
        thickness_mm=24,
        species="oak",
        zones=(zone,),
    )
    request = CuttingRequest(
        boards=(thin, crossing),
        parts=(
            part("rail", 1, 500, 80),
            CutPart(
                name="lid", quantity=1, length_mm=300, width_mm=80, thickness_mm=18, species="ash"
            ),
        ),
        matches=(
            MatchGroup(name="run", rule=MatchRule.IN_SEQUENCE, members=("rail", "lid"), price=None),
        ),
    )
    with pytest.raises(DesignError) as caught:
        plan_cutting(request)
    named = " ".join(problem.parameter for problem in caught.value.problems)
    for word in ("part 'lid' thickness", "crossing' widths", "zone 'z'", "match 'run'"):
        assert word in named
