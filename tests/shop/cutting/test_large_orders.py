"""Large orders on equal boards: the strip beam and boards chosen anew, through the planner."""

from __future__ import annotations

import random

import pytest

from furniture.shop.cutting import plan_cutting
from furniture.shop.cutting.blanks import blanks_of
from furniture.shop.cutting.cover import cheapest_cover, fits_alone
from furniture.shop.cutting.equal_boards import EqualBoards
from furniture.shop.cutting.finishing import Finishing
from furniture.shop.cutting.patterns import Patterns
from furniture.shop.cutting.plan import Placement, Rectangle
from furniture.shop.cutting.values import CuttingRequest, Limits, Saw
from tests.shop.cutting.bench import oak, part, shop
from tests.shop.cutting.checker import faults_of_plan


def _cut_up(boards: int, kerf: float, seed: int) -> CuttingRequest:
    """An order that boards of 1000 x 400 are known to hold: each is cut up by chance, kerf lost."""
    dice = random.Random(seed)
    sizes: list[tuple[float, float]] = []
    for _ in range(boards):
        v = 0.0
        while v < 400:
            high = min(dice.choice((80.0, 110.0, 140.0)), 400 - v)
            high = 400 - v if 400 - v - high < 80 else high
            u = 0.0
            while u < 1000:
                long = min(dice.choice((180.0, 240.0, 310.0)), 1000 - u)
                long = 1000 - u if 1000 - u - long < 180 else long
                ends = (kerf if u + long < 1000 else 0.0, kerf if v + high < 400 else 0.0)
                sizes.append((long - ends[0], high - ends[1]))
                u += long
            v += high
    names = {size: f"p{n}" for n, size in enumerate(dict.fromkeys(sizes))}
    return CuttingRequest(
        boards=tuple(oak(f"b{n}", 1000, 400) for n in range(2 * boards)),
        parts=tuple(part(name, sizes.count(size), *size) for size, name in names.items()),
        saw=Saw(kerf_mm=kerf),
        limits=Limits(seconds=60, rounds=4),
    )


def test_an_order_known_to_fill_its_boards_takes_hardly_more() -> None:
    """The wood is used to the last millimetre, so one board more is all that is allowed."""
    request = _cut_up(4, 3.2, 4)
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()
    assert len(plan.boards) <= 4 + 1
    assert plan.proof.bound <= 10 * 4


def test_what_a_dive_has_left_over_is_finished_by_the_strip_beam(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Without it this order takes a board more, as few orders do: a sample may show none."""
    dice = random.Random(5)
    sizes = [(10.0 * dice.randint(1, 35), 10.0 * dice.randint(1, 35)) for _ in range(42)]
    request = CuttingRequest(
        boards=tuple(oak(f"b{n}", 400, 400) for n in range(12)),
        parts=tuple(part(f"p{n}", 1, *size) for n, size in enumerate(sizes)),
        saw=Saw(kerf_mm=0),
        limits=Limits(seconds=60, rounds=1),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert (len(plan.boards), plan.proof.is_proven) == (8, True)
    monkeypatch.setattr(Finishing, "of", lambda *_: None)
    assert len(plan_cutting(request).boards) == 9


def test_the_strip_beam_loses_a_kerf_between_pieces_and_none_at_the_edge() -> None:
    """By hand: 3 x 330 + 2 x 5 is 1000, and 2 x 197.5 + 5 is 400."""
    request = CuttingRequest(
        boards=(oak("a", 1000, 400), oak("b", 1000, 400)),
        parts=(part("p", 12, 330, 197.5),),
        saw=Saw(kerf_mm=5),
    )
    found = list(EqualBoards(request).packings(lambda: False, 1e12))
    assert {each.board for each in found[-1]} == {"a", "b"}
    assert sorted({each.place.x_mm for each in found[-1]}) == pytest.approx([0, 335, 670])
    assert sorted({each.place.y_mm for each in found[-1]}) == pytest.approx([0, 202.5])


def test_one_board_and_few_pieces_are_left_to_the_other_search() -> None:
    request = _cut_up(2, 0.0, 1)
    assert list(EqualBoards(request).packings(lambda: False, 1e12))
    one = CuttingRequest(boards=request.boards[:1], parts=request.parts)
    few = CuttingRequest(boards=request.boards, parts=(part("p", 11, 300, 100),))
    for other in (one, few):
        assert list(EqualBoards(other).packings(lambda: False, 1e12)) == []


def _laid(name: str, board: str, x: float) -> Placement:
    return Placement(
        part=name, copy=1, board=board, place=Rectangle(x_mm=x, y_mm=0, length_mm=90, width_mm=90)
    )


def test_boards_of_two_packings_are_chosen_together() -> None:
    """Neither packing is good, but the first board of each holds all between them."""
    request = CuttingRequest(
        boards=tuple(oak(name, 200, 100, price=10) for name in "xyz"),
        parts=tuple(part(name, 1, 90, 90) for name in "abcd"),
        saw=Saw(kerf_mm=0),
    )
    patterns = Patterns(request)
    for packing in ((("a", "b"), ("c",), ("d",)), (("c", "d"), ("a",), ("b",))):
        patterns.add(
            _laid(name, board, 100.0 * n)
            for board, names in zip("xyz", packing, strict=True)
            for n, name in enumerate(names)
        )
    chosen = patterns.choice(30.0, 5.0)
    assert chosen is not None
    assert sorted(each.part for each in chosen) == ["a", "b", "c", "d"]
    assert len({each.board for each in chosen}) == 2
    assert patterns.choice(20.0, 5.0) is None


def test_what_two_chosen_boards_both_hold_is_cut_once() -> None:
    request = CuttingRequest(
        boards=tuple(oak(name, 200, 100, price=10) for name in "xy"),
        parts=tuple(part(name, 1, 90, 90) for name in "abc"),
        saw=Saw(kerf_mm=0),
    )
    patterns = Patterns(request)
    patterns.add((_laid("a", "x", 0), _laid("b", "x", 100)))
    patterns.add((_laid("b", "x", 0), _laid("c", "x", 100)))
    chosen = patterns.choice(100.0, 5.0)
    assert chosen is not None
    assert sorted(each.part for each in chosen) == ["a", "b", "c"]


def test_the_bound_of_many_boards_alike_is_that_of_their_number() -> None:
    """By hand: 510 of 1000 fits once along a board, so thirty take thirty of the hundred boards."""
    request = CuttingRequest(
        boards=tuple(oak(f"b{n}", 1000, 100, price=10) for n in range(100)),
        parts=(part("p", 30, 510, 60),),
    )
    blanks = blanks_of(request, frozenset())
    bound = cheapest_cover(request, blanks, fits_alone(request, blanks), 5.0)
    assert bound.price == pytest.approx(300.0)


def test_what_no_safe_cut_frees_comes_off_a_board_that_is_whole() -> None:
    """Of what was begun one piece could not be held; it had no place beside a whole board."""
    dice = random.Random(7)
    request = CuttingRequest(
        boards=tuple(
            oak(f"b{n}", dice.randint(900, 2400), dice.randint(120, 260)) for n in range(4)
        ),
        parts=tuple(
            part(f"p{n}", 1, dice.randint(60, 700), dice.randint(30, 115)) for n in range(12)
        ),
        saw=shop(),
        limits=Limits(seconds=600, rounds=1),
    )
    plan = plan_cutting(request)
    assert faults_of_plan(request, plan) == []
    assert plan.unplaced == ()
