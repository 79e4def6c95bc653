"""Large requests keep to their time, and beyond a stated size they are refused."""

from __future__ import annotations

import random
import time
from collections.abc import Callable

import pytest
from ortools.sat.python import cp_model

from furniture.errors import DesignError
from furniture.shop.cutting import beds, plan_cutting
from furniture.shop.cutting.arrangements import arrangements_for
from furniture.shop.cutting.beds import FirstCut
from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.conflicts import (
    MOST_APART,
    Confined,
    boxes_barred,
    cannot_fit_together,
)
from furniture.shop.cutting.cover import cheapest_cover, fits_alone
from furniture.shop.cutting.obstacles import Obstacles
from furniture.shop.cutting.packing import BOARDS_TRIED, Packer
from furniture.shop.cutting.plan import UnplacedReason
from furniture.shop.cutting.values import (
    Board,
    CuttingRequest,
    Limits,
    Saw,
    Station,
    Zone,
    ZoneKind,
)
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan
from tests.shop.cutting.zones import rectangular_zone

QUICK = Limits(seconds=1.5)
PARTS = (part("long", 2, 700, 120), part("rail", 6, 250, 60), part("block", 4, 90, 50))


def _knots(count: int) -> tuple[Zone, ...]:
    dice = random.Random(count)
    return tuple(
        rectangular_zone(
            name=f"k{n}", kind=ZoneKind.KNOT, length=6, width=6,
            x=dice.randint(5, 1190), y=dice.randint(1, 150),
        )
        for n in range(count)
    )  # fmt: skip


def _many_knots() -> CuttingRequest:
    boards = (oak("a", 1200, 160, *_knots(500)), oak("b", 600, 100))
    return CuttingRequest(boards=boards, parts=PARTS, saw=shop(off_faults_mm=3), limits=QUICK)


def _many_widths() -> CuttingRequest:
    stations = tuple(Station(at_mm=n * 3.0, width_mm=160 - n % 7 / 10) for n in range(400))
    board = Board(name="a", length_mm=1200, stations=stations, thickness_mm=24, species="oak")
    return CuttingRequest(boards=(board,), parts=PARTS, saw=shop(), limits=QUICK)


def _many_boards() -> CuttingRequest:
    boards = tuple(oak(f"b{n}", 600 + n, 130, price=5 + n % 9) for n in range(200))
    return CuttingRequest(boards=boards, parts=PARTS, saw=shop(), limits=QUICK)


def _many_of_all() -> CuttingRequest:
    """Unlike boards and unlike parts, each as many as are planned for in the test's time."""
    dice = random.Random(9)
    boards = tuple(
        oak(f"b{n}", dice.randint(1200, 1500), dice.randint(160, 220), price=dice.randint(5, 20))
        for n in range(150)
    )
    parts = tuple(part(f"p{n}", 2, dice.randint(60, 700), dice.randint(30, 120)) for n in range(60))
    return CuttingRequest(boards=boards, parts=parts, saw=shop(), limits=QUICK)


def _barred() -> CuttingRequest:
    """Boards with so many faults that no part has a place, each of which has to be told why."""
    boards = tuple(oak(f"b{n}", 1200 + n, 160, *_knots(500 - n)) for n in range(8))
    parts = tuple(part(f"p{n}", 1, 500 + n, 120) for n in range(20))
    return CuttingRequest(boards=boards, parts=parts, saw=shop(off_faults_mm=3), limits=QUICK)


@pytest.fixture(scope="module")
def _is_loaded() -> None:
    """What is loaded once in a process is no part of a plan's time."""
    plan_cutting(_many_boards())


@pytest.mark.parametrize("request_of", [_many_knots, _many_widths, _barred, _many_of_all])
@pytest.mark.usefixtures("_is_loaded")
def test_a_large_request_is_answered_in_its_time(
    request_of: Callable[[], CuttingRequest], monkeypatch: pytest.MonkeyPatch
) -> None:
    """On the clock of the process, since the machine that tests may be busy."""
    monkeypatch.setattr(time, "monotonic", time.process_time)
    request = request_of()
    began = time.process_time()
    plan = plan_cutting(request)
    assert time.process_time() - began < 1.2 * request.limits.seconds + 0.3
    assert plan.boards or request_of is _barred
    assert faults_of_plan(request, plan) == []


def test_what_bars_parts_of_one_kind_is_worked_out_once_for_all_of_them(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """And only for boards that the search comes to: of a hundred unlike ones these are few."""
    made: list[int] = []
    monkeypatch.setattr(
        beds, "Obstacles", lambda outlines: made.append(len(outlines)) or Obstacles(outlines)
    )
    boards = tuple(oak(f"b{n}", 800 + n, 150, *_knots(40)[: 30 + n % 9]) for n in range(100))
    parts = tuple(part(f"p{n}", 1, 60 + n, 40) for n in range(40))
    request = CuttingRequest(boards=boards, parts=parts, saw=shop(off_faults_mm=3))
    (arrangement,) = (each for each in arrangements_for(request) if each.first_cut is FirstCut.RIP)
    packer = Packer(request, arrangement.blanks, arrangement.beds, FirstCut.RIP)
    start = packer.start(())
    assert start is not None
    assert list(packer.children(start, lambda: False))
    assert 1 <= len(made) <= 2 * BOARDS_TRIED


def test_a_question_knows_of_few_enough_faults_to_be_answered_in_its_time(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The solver looks at no limit before it has compared all that lies apart with all."""
    asked: list[int] = []
    state = cp_model.CpModel.add_no_overlap_2d

    def counted(model: cp_model.CpModel, *spans: list[cp_model.IntervalVar]) -> object:
        asked.append(len(spans[0]))
        return state(model, *spans)

    monkeypatch.setattr(cp_model.CpModel, "add_no_overlap_2d", counted)
    board, two = oak("b", 1200, 160, *_knots(500)), (part("p", 2, 300, 60),)
    request = CuttingRequest(boards=(board,), parts=two)
    (blank,) = blanks_of(request, frozenset())
    barred = boxes_barred(board, blank, request.saw)
    assert len(barred) > 2 * MOST_APART
    cannot_fit_together(board, [Confined(blank)] * 2, [barred] * 2, request.saw, seconds=0.1)
    (count,) = asked
    assert count <= MOST_APART + 2


def test_of_many_faults_those_of_the_best_place_are_named() -> None:
    """Three knots bar every place; behind the first two only the last one is in the way."""
    knots = [
        rectangular_zone(name=name, kind=ZoneKind.KNOT, x=x, y=y, length=10, width=10)
        for name, x, y in (("low", 200, 10), ("high", 200, 60), ("end", 480, 30))
    ]
    request = CuttingRequest(boards=(oak("b", 700, 80, *knots),), parts=(part("p", 1, 450, 70),))
    (entry,) = plan_cutting(request).unplaced
    assert (entry.reason, entry.blocked_by) == (UnplacedReason.FAULTS, ("end on board b",))


def test_more_than_is_planned_in_the_time_is_refused() -> None:
    request = CuttingRequest(
        boards=tuple(oak(f"b{n}", 500, 100, *_knots(501)[: 501 * (n == 0)]) for n in range(501)),
        parts=(part("p", 501, 300, 50),),
    )
    with pytest.raises(DesignError) as caught:
        plan_cutting(request)
    refused = {each.parameter: (each.given, each.allowed) for each in caught.value.problems}
    for parameter in ("boards", "parts", "board 'b0' zones"):
        assert refused[parameter] == ("501", "up to 500")


def test_more_faults_than_are_planned_round_in_the_time_are_refused() -> None:
    crowded = tuple(oak(f"b{n}", 1200, 160, *_knots(477)) for n in range(42))
    with pytest.raises(DesignError) as caught:
        plan_cutting(CuttingRequest(boards=crowded, parts=PARTS))
    (refused,) = caught.value.problems
    assert (refused.given, refused.allowed) == ("20034", "up to 20000")


def test_parts_over_a_third_of_a_board_each_way_count_as_a_quarter_of_it() -> None:
    """By hand: 340 of 1000 and 34 of 100 lie two by two, though the area of eight would fit."""
    boards = tuple(oak(f"b{n}", 1000, 100, price=10) for n in range(3))
    parts, saw = (part("p", 5, 340, 34),), Saw(kerf_mm=0.0)
    request = CuttingRequest(boards=boards, parts=parts, saw=saw)
    blanks = blanks_of(request, frozenset())
    bound = cheapest_cover(request, blanks, fits_alone(request, blanks), 5.0)
    assert bound.price == pytest.approx(20.0)
