"""What the saw, its kerf and its limits allow: every plan goes through the checker."""

from __future__ import annotations

import pytest

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.plan import UnplacedReason
from furniture.shop.cutting.values import CuttingRequest, Saw, ZoneKind
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone


@pytest.mark.parametrize(
    ("length", "width", "quantity", "parts_length", "parts_width"),
    [
        (900, 150, 8, 51, 34),  # feet, all from one strip
        (900, 150, 40, 51, 34),  # too many for two strips
        (340, 150, 4, 51, 34),  # only just long enough to rip
        (700, 140, 4, 160, 60),  # two strips of two
        (620, 131, 2, 255, 116),  # a length each, ripped before it is cut to size
        (1000, 200, 3, 250, 170),  # wider than long
    ],
)
def test_short_parts_leave_longer_pieces(
    length: float, width: float, quantity: int, parts_length: float, parts_width: float
) -> None:
    request = CuttingRequest(
        boards=(oak("b", length, width),),
        parts=(part("small", quantity, parts_length, parts_width),),
        saw=shop(),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()


def test_short_parts_of_unlike_widths_come_off_one_crosscut_length() -> None:
    # 20 + 320 + 3.2 + 320 trimmed: two lengths of 320, each ripped into an 80 and a 60.
    request = CuttingRequest(
        boards=(oak("b", 663.2, 150),),
        parts=(part("wide", 2, 250, 80), part("slim", 2, 240, 60)),
        saw=shop(),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()


def test_a_board_too_short_to_rip_gives_nothing_and_says_so() -> None:
    request = CuttingRequest(
        boards=(oak("b", 305, 150),), parts=(part("small", 1, 100, 60),), saw=shop()
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert [each.reason for each in plan.unplaced] == [UnplacedReason.UNSAFE]


def test_a_narrow_board_is_not_ripped() -> None:
    for width, placed in ((60, 1), (45, 0), (40, 1)):  # 40 wide it needs no rip at all
        request = CuttingRequest(
            boards=(oak("b", 900, width),), parts=(part("slat", 1, 400, 40),), saw=shop()
        )
        plan = plan_cutting(request)
        assert faults_of_plan(request, plan) == []
        assert sum(len(board.placements) for board in plan.boards) == placed


def test_no_rip_leaves_a_sliver() -> None:
    # 5 mm off is the kerf and a strip of 1.8, so all goes as dust, in two passes.
    request = CuttingRequest(
        boards=(oak("b", 1000, 100),), parts=(part("rail", 1, 800, 95),), saw=shop()
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    (board,) = plan.boards
    rips = [cut.position_mm for cut in board.cuts if cut.direction.value == "rip"]
    assert rips == pytest.approx([98.2, 95.0])
    assert all(offcut.place.width_mm > 3.2 for offcut in board.offcuts)


def test_kerf_decides_whether_two_parts_fit() -> None:
    # 500 + 500 + one kerf: 1000 + 3.2 fits exactly, a hair less does not.
    parts = (part("rail", 2, 500, 100),)
    for length, placed in ((1003.2, 2), (1003.1, 1)):
        request = CuttingRequest(boards=(oak("b", length, 100),), parts=parts, saw=Saw(kerf_mm=3.2))
        plan = plan_cutting(request)
        assert faults_of_plan(request, plan) == []
        assert sum(len(board.placements) for board in plan.boards) == placed


def test_an_end_that_no_part_lies_at_is_not_trimmed_for_itself() -> None:
    """By hand: a check bars the first 60 mm, and 437 mm or more are left over: two cuts do."""
    check = rectangular_zone(name="c", kind=ZoneKind.CHECK, x=0, y=0, length=60, width=100)
    request = CuttingRequest(
        boards=(oak("b", 1000, 100, check),),
        parts=(part("rail", 1, 500, 100),),
        saw=Saw(kerf_mm=3, end_trim_mm=10),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    (board,) = plan.boards
    assert len(board.cuts) == 2
    assert {leaf.place.length_mm for leaf in board.offcuts} in ({57.0, 437.0}, {7.0, 487.0})
