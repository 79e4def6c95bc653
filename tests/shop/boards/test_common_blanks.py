"""Common blanks in the cutting plan: put together, parted, and never at the cost of a part."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from furniture import MUST, CuttingWishes, GrainRule, Match, MatchRule, OddOne, PartWish, ZoneKind
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import CuttingOutcome, outcome_of
from furniture.shop.cutting import plan_cutting
from tests.everywhere.designs import drawn
from tests.shop.boards.bench import (
    board,
    box,
    by_itself,
    outcome_of_model,
    places_of,
    thin_board,
)
from tests.shop.boards.members import faults_of_members
from tests.shop.cutting.checker import faults_of_plan

RAILS = ("left side rail", "front rail", "right side rail", "back rail")
ROUND = Match(rule=MatchRule.IN_SEQUENCE, on=list(RAILS), name="round", price="20 EUR")
ONE = CuttingWishes(matches=[ROUND])


def off(outcome: CuttingOutcome) -> set[tuple[str, ...]]:
    """What comes off the common blanks of a plan."""
    return {each.instances for each in outcome.blanks if len(each.instances) > 1}


def planned(boards, wishes=ONE, piece=None, saw=None) -> CuttingOutcome:
    outcome = outcome_of(cutting_job(piece or box(), boards, wishes, saw))
    assert faults_of_plan(outcome.job.request, outcome.plan) == []
    assert faults_of_members(outcome) == []
    return outcome


@pytest.mark.parametrize(
    ("name", "cost", "cuts"),
    [
        ("herb_stand", 114, {"A": 5, "E": 3}),
        ("tea_box", 56, {"1": 3}),
        ("yarn_steps", 145, {"S": 3}),
        ("key_rack", 53, {}),
    ],
)
def test_the_models_cost_no_more_and_take_fewer_cuts(name, cost, cuts):
    """Cut singly they cost as much, and took 9, 7, 6 and 6 cuts on these boards."""
    outcome = outcome_of_model(name)
    assert outcome.plan.unplaced == ()
    assert outcome.plan.cost == pytest.approx(cost)
    assert outcome.plan.proof.is_proven
    made = {each.board: len(each.cuts) for each in outcome.used}
    assert {board: made[board] for board in cuts} == cuts
    assert faults_of_members(outcome) == []


def test_rails_of_a_box_are_one_length_with_what_the_saw_takes_at_each_corner():
    """By hand: 240 + 160 twice, three corners of 3.2 sqrt 2 and a skim of 0.5, 15 left on."""
    outcome = planned([board(), thin_board()])
    assert off(outcome) == {RAILS}
    (laid,) = (each for each in outcome.blanks if each.common is not None)
    length = 800 + 3 * (3.2 * math.sqrt(2) + 0.5) + 15
    assert laid.placement.place.length_mm == pytest.approx(length)
    assert [each.group for each in outcome.plan.matches if each.is_kept] == ["round"]


def test_no_board_long_enough_parts_the_blank_at_a_corner():
    """By hand: two rails are 400 and a corner, 420 mm rough, 440 with the trims of the ends."""
    outcome = planned([board(length="470 mm"), board(name="B", length="470 mm"), thin_board()])
    assert off(outcome) == {RAILS[:2], RAILS[2:]}
    assert outcome.plan.unplaced == ()


def test_no_board_for_two_rails_leaves_each_by_itself():
    boards = [board(name=name, length="400 mm", widths="90 mm") for name in "ABCD"]
    outcome = planned([*boards, thin_board()], saw=_safe())
    assert off(outcome) == set()
    assert outcome.plan.unplaced == ()


def _safe():
    from furniture import SawSetUp

    nothing = {f"shortest_{cut}": "0 mm" for cut in ("rip", "crosscut")}
    return SawSetUp(narrowest_rip="0 mm", **nothing)


def test_a_fault_in_the_way_parts_the_blank_too():
    """A check right across the middle leaves 740 mm on either side, less than all four rails."""
    from furniture import BoardZone

    check = BoardZone(kind=ZoneKind.CHECK, x="745 mm", y="0 mm", length="10 mm", width="100 mm")
    outcome = planned([board(widths="100 mm", zones=[check]), thin_board()])
    assert off(outcome) == {RAILS[:2], RAILS[2:]}


def test_a_blank_that_only_a_dearer_board_takes_is_not_worth_more_than_its_match():
    """Two short boards take two rails each; the long one costs more, the match is worth 1 or 50."""
    short = [board(name=name, length="470 mm", widths="90 mm", price="5 EUR") for name in "AB"]
    boards = [*short, board(name="L", widths="90 mm", price="40 EUR"), thin_board()]
    for price, used in (("1 EUR", {"A", "B"}), ("50 EUR", {"L"})):
        wishes = CuttingWishes(matches=[replace(ROUND, price=price)])
        outcome = planned(boards, wishes)
        assert {each.board for each in outcome.used} - {"T"} == used
        assert (RAILS in off(outcome)) == (used == {"L"})
        assert outcome.plan.proof.bound <= outcome.plan.cost + 1e-9


def test_what_is_wished_of_a_part_alone_leaves_it_out_of_the_blank():
    boards = [board(), thin_board()]
    turned = replace(ONE, parts=[PartWish(on="back rail", grain=GrainRule.EITHER)])
    assert off(planned(boards, turned)) == {RAILS[:3]}
    wanted = replace(ONE, parts=[PartWish(on="front rail", wants=ZoneKind.EVEN_GRAIN)])
    assert off(planned(boards, wanted)) == {RAILS[2:]}
    middle = Match(rule=MatchRule.CENTRED_ON_FIGURE, on="front rail", price="1 EUR", name="middle")
    assert off(planned(boards, replace(ONE, matches=[ROUND, middle]))) == {RAILS[2:]}


def test_a_sequence_runs_on_over_blanks_and_parts_that_are_cut_by_themselves():
    wishes = replace(
        ONE,
        parts=[PartWish(on="front rail", wants=ZoneKind.EVEN_GRAIN, want_price="0 EUR")],
        matches=[replace(ROUND, price=MUST)],
    )
    outcome = planned([board(), thin_board()], wishes)
    assert off(outcome) == {RAILS[2:]}
    along = [places_of(outcome)[name][1].x_mm for name in RAILS]
    assert along == sorted(along)
    assert [each.is_kept for each in outcome.plan.matches] == [True]


def test_a_blank_puts_up_with_what_all_its_parts_put_up_with():
    wishes = replace(
        ONE,
        parts=[
            PartWish(on="rails", show_face=[ZoneKind.SAPWOOD, ZoneKind.STAIN]),
            PartWish(on="back rail", show_face=[ZoneKind.STAIN, ZoneKind.KNOT]),
        ],
    )
    (rails,) = (p for p in cutting_job(box(), [board()], wishes).request.parts if p.length_mm > 400)
    assert rails.show_face_tolerates == {ZoneKind.STAIN}


def test_parts_off_one_board_have_their_blank_as_a_member():
    together = Match(rule=MatchRule.SAME_BOARD, on=[*RAILS, "lid"], price="5 EUR", name="alike")
    one_stock = replace(box(), placed=tuple(
        replace(each, part=replace(each.part, timber=box().placed[0].part.timber))
        if each.instance != "lid" else each
        for each in box().placed
    ))  # fmt: skip
    job = cutting_job(one_stock, [board()], CuttingWishes(matches=[together]))
    (match,) = job.request.matches
    assert [job.instances(name) for name in match.members] == [RAILS, ("lid",)]
    odd = replace(together, odd_one=OddOne.SMALLEST)
    alone = cutting_job(one_stock, [board()], CuttingWishes(matches=[odd]))
    assert alone.commons is None


def test_without_boards_the_blank_is_bought_as_one_length():
    """By hand: 815 mm and more, so no board of two feet, 610 mm, will do."""
    job = cutting_job(box(), (), ONE)
    thick = [
        each for each in outcome_of(job).to_buy if each.species == job.request.parts[0].species
    ]
    assert min(each.length_mm for buy in thick for each in buy.pieces) > 816


@pytest.mark.seeds(few=4, full=60)
def test_no_part_is_left_out_and_nothing_is_dearer_for_a_common_blank(seed):
    """Random lopsided designs on tight boards, against the same job with every part by itself."""
    design = drawn(seed)
    boards = design.boards[: 1 + seed % len(design.boards)]
    job = cutting_job(design.piece, boards, CuttingWishes(rounds=2, seconds=60.0))
    outcome = outcome_of(job)
    assert faults_of_plan(outcome.job.request, outcome.plan) == []
    assert faults_of_members(outcome) == []
    apart = plan_cutting(by_itself(job))
    missing, known = (sum(e.copies for e in p.unplaced) for p in (outcome.plan, apart))
    assert not any(outcome.job.copies[e.part][0].is_common for e in outcome.plan.unplaced)
    assert missing <= known
    if missing == known == 0:
        worth = sum(each.price or 0.0 for each in outcome.job.kept)
        assert outcome.plan.cost <= apart.cost + worth + 1e-6


def _with(outcome: CuttingOutcome, change) -> CuttingOutcome:
    """The outcome with the stretches of its common blank changed."""
    copies = {
        key: replace(copy, stretches=change(copy.stretches)) if copy.is_common else copy
        for key, copy in outcome.copies.items()
    }
    return replace(outcome, copies=copies)


def _closer(stretches):
    """The second part 2 mm nearer to the first: the blade takes of one of them."""
    first, second, *others = stretches
    return (first, replace(second, at_mm=second.at_mm - 2.0), *others)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda s: (*s[:-1], replace(s[-1], instance="left side rail")), "wood 2 times"),
        (lambda s: s[:-1], "without wood"),
        (_closer, "takes of a part"),
        (lambda s: (*s[:-1], replace(s[-1], length_mm=s[-1].length_mm + 20)), "not inside"),
        (lambda s: (*s[:-1], replace(s[-1], length_mm=s[-1].length_mm + 1)), "mm long"),
        (lambda s: (replace(s[0], part="lid"), *s[1:]), "told to be lid"),
        (lambda s: (replace(s[1], at_mm=0.0), replace(s[0], at_mm=s[1].length_mm + 5), *s[2:]),
         "in another order"),
    ],
)  # fmt: skip
def test_the_checker_of_members_finds_what_is_wrong(change, told):
    outcome = planned([board(), thin_board()])
    assert any(told in fault for fault in faults_of_members(_with(outcome, change)))


def test_the_checker_of_members_finds_a_turned_blank_and_a_zone_that_a_part_does_not_put_up_with():
    wishes = replace(ONE, parts=[PartWish(on="rails", show_face=[ZoneKind.STAIN])])
    from furniture import BoardZone

    stain = BoardZone(kind=ZoneKind.STAIN, x="300 mm", y="10 mm", length="20 mm", width="20 mm")
    outcome = planned([board(zones=[stain]), thin_board()], wishes)
    commons = outcome.job.commons
    strict = {
        name: replace(wish, show=frozenset()) for name, wish in commons.demands.wish_of.items()
    }
    job = replace(
        outcome.job,
        commons=replace(commons, demands=replace(commons.demands, wish_of=strict)),
    )
    assert any("on stain" in fault for fault in faults_of_members(replace(outcome, job=job)))
