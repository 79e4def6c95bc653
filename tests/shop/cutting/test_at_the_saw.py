"""Cautions judged on the piece in hand: with a plan by its cuts, without one by the parts."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from exporters.cutting.at_the_saw import saw_findings_with
from exporters.cutting.steps import Guide, saw_steps
from furniture.checks.finding import Verdict
from furniture.checks.of_piece.saw import saw_findings_of
from furniture.checks.rows.bench import LAST_CROSSCUT
from furniture.shop.boards.outcome import outcome_of
from furniture.shop.cutting.at_the_saw import HoldingRule, unsafe_cuts
from furniture.shop.cutting.values import Saw
from tests.models import piece_of
from tests.shop.boards.bench import job_of_model, outcome_of_model


def test_a_plan_within_its_saw_has_no_unsafe_cut() -> None:
    outcome = outcome_of_model("herb_stand")
    assert outcome.plan is not None
    assert unsafe_cuts(outcome.plan, outcome.job.request.saw) == ()


def test_a_stricter_saw_names_every_cut_under_its_limits() -> None:
    outcome = outcome_of_model("herb_stand")
    plan = outcome.plan
    assert plan is not None
    strict = Saw(shortest_rip=400, narrowest_rip=70, shortest_crosscut=250)
    found = {(each.board, each.cut.number, each.rule) for each in unsafe_cuts(plan, strict)}
    expected = set()
    for board in plan.boards:
        for cut in board.cuts:
            hand = cut.workpiece
            if cut.direction.value == "rip":
                if hand.length < 400:
                    expected.add((board.board, cut.number, HoldingRule.SHORT_RIP))
                if hand.width < 70:
                    expected.add((board.board, cut.number, HoldingRule.NARROW_RIP))
            elif hand.length < 250:
                expected.add((board.board, cut.number, HoldingRule.SHORT_CROSSCUT))
    assert found == expected != set()


def test_feet_cut_from_a_long_strip_are_no_short_rip() -> None:
    piece, outcome = piece_of("herb_stand"), outcome_of_model("herb_stand")
    blanket = {each.check.name: each for each in saw_findings_of(piece)}
    assert blanket["short rip at the saw"].verdict is Verdict.CAUTION
    planned = {each.check.name: each for each in saw_findings_with(piece, outcome)}
    for check in ("short rip at the saw", "narrow rip at the saw", "short cross-cut at the saw"):
        assert planned[check].verdict is Verdict.OK
        assert planned[check].subject.startswith("board ")


def test_feet_off_a_common_blank_are_cut_to_length_off_the_long_piece() -> None:
    outcome = outcome_of_model("herb_stand")
    checks = [each.check for each in saw_findings_with(piece_of("herb_stand"), outcome)]
    assert LAST_CROSSCUT not in checks


def test_a_foot_by_itself_is_still_not_to_be_trimmed_alone() -> None:
    job = job_of_model("herb_stand")
    assert job.commons is not None
    piece, outcome = piece_of("herb_stand"), outcome_of(job.commons.apart)
    assert outcome.plan is not None
    (last,) = (e for e in saw_findings_with(piece, outcome) if e.check.name.startswith("last"))
    assert last.verdict is Verdict.CAUTION
    told = re.match(
        r"set the stop to the finished 36 mm in cuts (\d+) to (\d+) of board (\w+) instead of "
        r"([\d.]+) mm",
        last.advice,
    )
    assert told, last.advice
    # The cuts of that board's sheet: their stop is the rough length, and each frees a foot.
    board = next(each for each in outcome.plan.boards if each.board == told[3])
    steps = {each.number: each for each in saw_steps(outcome, board)}
    named = range(int(told[1]), int(told[2]) + 1)
    for number in named:
        assert steps[number].guide is Guide.STOP
        assert steps[number].setting == pytest.approx(float(told[4]))
        freed = (steps[number].comes_off, steps[number].goes_on)
        assert any(each is not None and each.name.endswith("foot") for each in freed)
    feet = [each for each in board.placements if each.part == "foot"]
    assert ("once more" in last.advice) is (len(feet) > len(named))


def test_without_a_whole_plan_every_part_is_judged_by_itself() -> None:
    piece, outcome = piece_of("herb_stand"), outcome_of_model("herb_stand")
    assert saw_findings_with(piece, None) == saw_findings_of(piece)
    assert saw_findings_with(piece, replace(outcome, plan=None)) == saw_findings_of(piece)
