"""The checker itself: one error of each kind is planted in a right plan, and each is found."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import (
    BoardPlan,
    CutNode,
    CuttingPlan,
    LeftOut,
    LeftOutReason,
    Placement,
)
from furniture.shop.cutting.values import (
    CuttingRequest,
    GlueUp,
    GrainRule,
    Limits,
    ZoneKind,
    straight_board,
)
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone

Wrong = tuple[CuttingRequest, CuttingPlan]


@cache
def _right() -> Wrong:
    """A lid of two strips and rails on one board with a knot; everything on it is right."""
    knot = rectangular_zone(name="k", kind=ZoneKind.KNOT, x=700, y=20, length=30, width=30)
    request = CuttingRequest(
        boards=(oak("b", 1500, 130, knot),),
        parts=(
            part("lid", 1, 400, 200, glue_up=GlueUp()),
            part("rail", 3, 250, 50),
        ),
        saw=shop(),
        limits=Limits(rounds=3, seconds=600),
    )
    plan = plan_cutting(request)
    assert plan.unplaced == ()
    return request, plan


def test_the_plan_that_errors_are_planted_in_is_right() -> None:
    request, plan = _right()
    assert faults_of_plan(request, plan) == []


def _changed(plan: CuttingPlan, change: Callable[[BoardPlan], BoardPlan]) -> CuttingPlan:
    return replace(plan, boards=tuple(change(board) for board in plan.boards))


def _moved(board: BoardPlan, name: str, **changes: object) -> BoardPlan:
    """The first placement of a part changed, in the list and in the tree of cuts alike."""
    old = next(p for p in board.placements if p.part == name)
    new = replace(old, **changes)  # type: ignore[arg-type]

    def walk(node: CutNode) -> CutNode:
        if node.placement == old:
            return replace(node, placement=new, piece=new.place)
        return replace(node, children=tuple(walk(child) for child in node.children))

    placements = tuple(new if p == old else p for p in board.placements)
    return replace(board, placements=placements, tree=walk(board.tree))


def _first(board: BoardPlan, name: str) -> Placement:
    return next(p for p in board.placements if p.part == name)


def _strip_missing() -> Wrong:
    request, plan = _right()

    def without(board: BoardPlan) -> BoardPlan:
        return replace(board, placements=tuple(p for p in board.placements if p.strip != 2))

    return request, _changed(plan, without)


def _overlapping() -> Wrong:
    request, plan = _right()
    board = plan.boards[0]
    first, other = [p for p in board.placements if p.part == "rail"][:2]
    place = replace(first.place, x_mm=other.place.x_mm + 5, y_mm=other.place.y_mm)
    return request, _changed(plan, lambda b: _moved(b, "rail", place=place))


def _off_the_board() -> Wrong:
    request, plan = _right()
    place = replace(_first(plan.boards[0], "rail").place, y_mm=90.0)
    return request, _changed(plan, lambda b: _moved(b, "rail", place=place))


def _kerf_too_small() -> Wrong:
    request, plan = _right()
    return replace(request, saw=replace(request.saw, kerf_mm=3.3)), plan


def _across_a_fault() -> Wrong:
    request, plan = _right()
    place = _first(plan.boards[0], "rail").place
    knot = rectangular_zone(
        name="new", kind=ZoneKind.KNOT, x=place.x_mm + 20, y=place.y_mm + 5, length=9, width=9
    )
    board = replace(request.boards[0], zones=(*request.boards[0].zones, knot))
    return replace(request, boards=(board,)), plan


def _cuts_out_of_order() -> Wrong:
    request, plan = _right()

    def turned(board: BoardPlan) -> BoardPlan:
        cuts = board.cuts[::-1]
        return replace(
            board, cuts=tuple(replace(cut, number=n) for n, cut in enumerate(cuts, start=1))
        )

    return request, _changed(plan, turned)


def _part_twice() -> Wrong:
    request, plan = _right()
    extra = replace(_first(plan.boards[0], "rail"), copy=4)
    return request, _changed(plan, lambda b: replace(b, placements=(*b.placements, extra)))


def _copy_twice() -> Wrong:
    request, plan = _right()
    other = [p for p in plan.boards[0].placements if p.part == "rail"][1].copy
    return request, _changed(plan, lambda b: _moved(b, "rail", copy=other))


def _too_thin() -> Wrong:
    request, plan = _right()
    board = replace(request.boards[0], thickness_mm=17.0)
    return replace(request, boards=(board,)), plan


def _wrong_stock() -> Wrong:
    request, plan = _right()
    ash = straight_board(
        name="b", length_mm=1500, width_mm=130, thickness_mm=24, species="ash", price=10
    )
    return replace(request, boards=(replace(ash, zones=request.boards[0].zones),)), plan


def _grain_turned() -> Wrong:
    request, plan = _right()
    assert all(each.grain is GrainRule.ALONG for each in request.parts)
    return request, _changed(plan, lambda b: _moved(b, "rail", is_turned=True))


def _joint_in_a_cut() -> Wrong:
    request, plan = _right()
    lid, rail = request.parts
    return replace(
        request, parts=(replace(lid, glue_up=GlueUp(keep_clear_mm=((90, 110),))), rail)
    ), plan


def _strip_too_narrow() -> Wrong:
    request, plan = _right()
    place = _first(plan.boards[0], "lid").place
    narrower = replace(place, width_mm=place.width_mm - 1.0)
    return request, _changed(plan, lambda b: _moved(b, "lid", place=narrower))


def _glued_for_nothing() -> Wrong:
    request, plan = _right()
    return replace(request, boards=(*request.boards, oak("wide", 450, 210))), plan


def _too_short_in_hand() -> Wrong:
    request, plan = _right()
    return replace(request, saw=replace(request.saw, shortest_crosscut_mm=500.0)), plan


def _cheaper_than_its_boards() -> Wrong:
    request, plan = _right()
    return request, replace(plan, costs=replace(plan.costs, boards=plan.costs.boards - 1))


def _worth_not_told() -> Wrong:
    request, plan = _right()
    lid, rail = request.parts
    request = replace(request, parts=(lid, replace(rail, quantity=5, worth=3.0)))
    entry = LeftOut(part="rail", copies=2, worth=3.0, reason=LeftOutReason.NO_ROOM)
    return request, replace(plan, left_out=(entry,))


def _must_told_as_spared() -> Wrong:
    request, plan = _right()
    lid, rail = request.parts
    request = replace(request, parts=(lid, replace(rail, quantity=4)))
    entry = LeftOut(part="rail", copies=1, worth=3.0, reason=LeftOutReason.NO_ROOM)
    return request, replace(plan, left_out=(entry,))


@pytest.mark.parametrize(
    ("planted", "found"),
    [
        (_strip_missing, "made of strips [1]"),
        (_strip_too_narrow, "its strips make 199.0 mm of 200"),
        (_glued_for_nothing, "glued up, though board wide keeps 210"),
        (_overlapping, "apart"),
        (_off_the_board, "is not wholly on sound wood"),
        (_kerf_too_small, "apart"),
        (_across_a_fault, "lies on knot new"),
        (_cuts_out_of_order, "holds a piece that is not there"),
        (_part_twice, "4 cut"),
        (_copy_twice, "copies are numbered"),
        (_too_thin, "is thicker than the board"),
        (_wrong_stock, "is of another species"),
        (_grain_turned, "is turned across the grain"),
        (_joint_in_a_cut, "in a cut"),
        (_too_short_in_hand, "holds"),
        (_cheaper_than_its_boards, "is less than the boards'"),
        (_worth_not_told, "said, 6.0 counted"),
        (_must_told_as_spared, "but told as if it had another"),
    ],
)
def test_a_planted_error_is_found(planted: Callable[[], Wrong], found: str) -> None:
    assert any(found in fault for fault in faults_of_plan(*planted())), faults_of_plan(*planted())
