"""Cautions judged on the piece in hand: with a plan by its cuts, without one by the parts."""

from __future__ import annotations

from exporters.work import work_of
from furniture import SawSetUp, Shop
from furniture.checks.finding import Verdict
from furniture.checks.of_piece.saw import saw_findings_of
from furniture.making.at_the_saw import saw_findings
from furniture.making.settings import Guide, Machine
from furniture.shop.cutting.at_the_saw import HoldingRule, unsafe_cuts
from furniture.shop.cutting.values import Saw
from furniture.shop.tools.reading import usual_or
from furniture.units import Amounts
from tests.models import NAMES, piece_of
from tests.shop.boards.bench import outcome_of_model


def test_a_plan_within_its_saw_has_no_unsafe_cut() -> None:
    outcome = outcome_of_model("herb_stand")
    assert outcome.plan is not None
    assert unsafe_cuts(outcome.plan, outcome.job.request.saw) == ()


def test_a_stricter_saw_names_every_cut_under_its_limits() -> None:
    outcome = outcome_of_model("herb_stand")
    plan = outcome.plan
    assert plan is not None
    strict = Saw(shortest_rip_mm=400, narrowest_rip_mm=70, shortest_crosscut_mm=250)
    found = {(each.board, each.cut.number, each.rule) for each in unsafe_cuts(plan, strict)}
    expected = set()
    for board in plan.boards:
        for cut in board.cuts:
            hand = cut.workpiece
            if cut.direction.value == "rip":
                if hand.length_mm < 400:
                    expected.add((board.board, cut.number, HoldingRule.SHORT_RIP))
                if hand.width_mm < 70:
                    expected.add((board.board, cut.number, HoldingRule.NARROW_RIP))
            elif hand.length_mm < 250:
                expected.add((board.board, cut.number, HoldingRule.SHORT_CROSSCUT))
    assert found == expected != set()


def test_feet_by_themselves_are_too_small_to_hold_and_off_a_long_blank_are_not() -> None:
    piece, outcome = piece_of("herb_stand"), outcome_of_model("herb_stand")
    blanket = {each.check.name: each for each in saw_findings_of(piece)}
    assert blanket["short rip at the saw"].verdict is Verdict.CAUTION
    shown = Amounts(shown=piece.shown)
    making = work_of(piece, None, outcome).making
    planned = {each.check.name: each for each in saw_findings(making, shown)}
    for check in ("short rip at the saw", "narrow rip at the saw", "short crosscut at the saw"):
        assert planned[check].verdict is Verdict.OK


def test_a_shop_that_keeps_smaller_limits_is_warned_of_what_it_saws() -> None:
    piece = piece_of("herb_stand")
    shop = usual_or(Shop(saw=SawSetUp(shortest_rip="0 mm", narrowest_rip="0 mm")), piece.shown)
    making = work_of(piece, shop).making
    found = {each.check.name: each for each in saw_findings(making, Amounts(shown=piece.shown))}
    assert found["short rip at the saw"].verdict is Verdict.CAUTION
    assert found["narrow rip at the saw"].verdict is Verdict.CAUTION


def test_the_wood_in_hand_is_never_smaller_than_the_shop_keeps() -> None:
    for name in NAMES:
        making, saw = work_of(piece_of(name)).making, usual_or(None, piece_of(name).shown).saw
        for each in making.operations:
            if each.rig is None or each.in_hand is None:
                continue
            if each.rig.machine is Machine.TABLE_SAW and each.rig.guide is Guide.FENCE:
                assert each.in_hand.length_mm >= saw.shortest_rip_mm, each.key
