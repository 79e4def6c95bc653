"""A plan is tidied: fewer passes for the same parts at the same price, never an unsafe one."""

from __future__ import annotations

from hypothesis import given

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import Placement, Rectangle
from furniture.shop.cutting.settling import costs_of, outcomes_of, settled_boards
from furniture.shop.cutting.tidying import tidied
from furniture.shop.cutting.tree import worth_of_offcuts
from furniture.shop.cutting.values import (
    CuttingRequest,
    MatchGroup,
    MatchRule,
    ZoneKind,
)
from tests.fresh import law
from tests.shop.cutting.bench import oak, part, requests, shop
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone


def lying(name: str, x: float, y: float, length: float, width: float) -> Placement:
    """One part on board b."""
    place = Rectangle(x_mm=x, y_mm=y, length_mm=length, width_mm=width)
    return Placement(part=name, copy=1, board="b", place=place)


def test_a_part_adrift_goes_to_an_edge() -> None:
    request = CuttingRequest(
        boards=(oak("b", 900, 150),), parts=(part("p", 1, 400, 90),), saw=shop()
    )
    before = settled_boards(request, [lying("p", 110, 37, 400, 90)])
    assert before is not None
    after = tidied(request, before, lambda: False)
    (old,), (new,) = before.boards, after.boards
    assert len(old.cuts) == 4  # both sides and both ends of the part
    assert len(new.cuts) == 3  # an end of the part is where the board is trimmed
    (placement,) = new.placements
    assert placement.place.y_mm in (0, 60)
    assert placement.place.x_mm in (10, 490)


def test_a_part_is_not_pushed_onto_a_knot_or_out_of_its_match() -> None:
    knot = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=0, y=0, length=900, width=20)
    zone = rectangular_zone(
        name="even", kind=ZoneKind.EVEN_GRAIN, x=300, y=30, length=450, width=100
    )
    match = MatchGroup(
        name="in it", rule=MatchRule.SAME_ZONE, members=("p",), zone="even", price=5.0
    )
    request = CuttingRequest(
        boards=(oak("b", 900, 150, knot, zone),),
        parts=(part("p", 1, 400, 90),),
        matches=(match,),
        saw=shop(),
    )
    before = settled_boards(request, [lying("p", 320, 35, 400, 90)])
    assert before is not None
    (board,) = tidied(request, before, lambda: False).boards
    (outcome,) = outcomes_of(request, board.placements)
    assert outcome.is_kept
    assert board.placements[0].place.y_mm >= 30


def test_a_stop_leaves_the_plan_as_it_was() -> None:
    request = CuttingRequest(
        boards=(oak("b", 900, 150),), parts=(part("p", 1, 400, 90),), saw=shop()
    )
    before = settled_boards(request, [lying("p", 110, 37, 400, 90)])
    assert before is not None
    assert tidied(request, before, lambda: True) == before


@law(few=16, full=200)
@given(requests())
def test_tidying_twice_gains_no_price_and_keeps_every_rule(request: CuttingRequest) -> None:
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    placements = [p for board in plan.boards for p in board.placements]
    settled = settled_boards(request, placements)
    assert settled is not None
    again = tidied(request, settled, lambda: False)
    moved = [p for board in again.boards for p in board.placements]
    before, after = (outcomes_of(request, some) for some in (placements, moved))
    assert before == after
    assert (
        costs_of(request, moved, after).total <= costs_of(request, placements, before).total + 1e-9
    )
    for old, new in zip(settled.boards, again.boards, strict=True):
        gained = worth_of_offcuts(new.tree, request.saw) - worth_of_offcuts(old.tree, request.saw)
        assert len(new.cuts) - len(old.cuts) <= gained + 1e-6
