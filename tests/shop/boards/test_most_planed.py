"""How much may be planed off a board that is thicker than the stock."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from exporters.cutting.record import cutting_record
from furniture import CuttingWishes, DesignError, SawSetUp, inches, millimetres
from furniture.shop.boards.job import cutting_job
from furniture.shop.boards.outcome import outcome_of
from furniture.shop.cutting.blanks import suits
from tests.shop.boards.bench import board, by_itself, stand, thin_board
from tests.shop.cutting.checker import faults_of_plan

QUICK = CuttingWishes(rounds=1)


def _gives(saw: SawSetUp, **figures: str) -> tuple[bool, bool]:
    """Whether a board gives the thick stock (19.7 mm) and the thin one (10.2 mm)."""
    whole = [board(name="whole"), thin_board(name="whole thin")]
    request = by_itself(cutting_job(stand(), [board(**figures), *whole], saw=saw))
    parts = {each.name: each for each in request.parts}
    rail, tier = (
        suits(request.boards[0], parts[name], request.saw) for name in ("front rail", "tier 1")
    )
    return rail, tier


@pytest.mark.parametrize(
    ("measured", "gives_thick", "gives_thin"),
    [
        ("10.2 mm", False, True),
        ("10.7 mm", False, True),
        ("12.0 mm", False, True),
        ("13.2 mm", False, True),
        ("13.3 mm", False, False),
        ("19.7 mm", True, False),
        ("20.3 mm", True, False),
        ("22.7 mm", True, False),
        ("22.8 mm", False, False),
    ],
)
def test_a_board_is_planed_by_no_more_than_the_figure(measured, gives_thick, gives_thin):
    """By hand: 3 mm off at most, so 10.2 to 13.2 mm gives one stock, 19.7 to 22.7 mm the other."""
    saw = SawSetUp(most_planed="3 mm")
    found = _gives(saw, stock="white oak", thickness=measured)
    assert found == (gives_thick, gives_thin)


def test_a_board_kept_for_a_stock_is_planed_by_no_more_either():
    assert _gives(SawSetUp(most_planed="3 mm"), thickness="22.7 mm") == (True, False)
    assert _gives(SawSetUp(most_planed="3 mm"), thickness="22.8 mm") == (False, False)
    assert _gives(SawSetUp(), thickness="40 mm") == (True, False)


def test_what_is_too_thick_lies_aside_and_says_why():
    """It lies beside a board that serves; the plan takes nothing from it."""
    boards = [board(name="plank", thickness="45 mm"), board(name="B"), thin_board()]
    job = cutting_job(stand(), boards, QUICK, saw=SawSetUp(most_planed="1/8 in"))
    (aside,) = job.left_aside
    assert aside.name == "plank"
    assert aside.why == "it measures 45 mm; at most 22.8 mm for 'thick'"
    outcome = outcome_of(job)
    assert outcome.plan is not None
    assert outcome.plan.unplaced == ()
    assert faults_of_plan(outcome.job.request, outcome.plan) == []
    assert "plank" not in {each.board for each in outcome.used}
    assert cutting_record(outcome)["saw"]["most_planed_mm"] == pytest.approx(3.175)


@pytest.mark.parametrize("shown", [millimetres(), inches()], ids=["mm", "in"])
@pytest.mark.parametrize("stock", ["thick", "white oak"])
def test_where_every_board_is_too_thick_the_figure_that_would_do_is_told(stock, shown):
    boards = [board(name="plank", stock=stock, thickness="26.37 mm"), thin_board()]

    def job(saw: SawSetUp):
        return cutting_job(replace(stand(), shown=shown), boards, QUICK, saw=saw)

    with pytest.raises(DesignError) as caught:
        job(SawSetUp(most_planed="2 mm"))
    (problem,) = caught.value.problems
    assert "planed off" in problem.why
    (figure,) = re.findall(r"most_planed='([^']+)'", problem.remedy)
    assert job(SawSetUp(most_planed=figure)).left_aside == ()
    assert job(SawSetUp()).left_aside == ()


def test_a_figure_that_cannot_be_is_refused():
    with pytest.raises(DesignError) as caught:
        cutting_job(stand(), [board(), thin_board()], saw=SawSetUp(most_planed="-1 mm"))
    assert [each.parameter for each in caught.value.problems] == ["shop.saw.most_planed"]


def test_the_checker_finds_a_part_planed_out_of_what_is_kept():
    """Planted: the boards of a sound plan are said to be kept for thicker parts."""
    outcome = outcome_of(cutting_job(stand(), [board(), thin_board()], QUICK))
    request, plan = outcome.job.request, outcome.plan
    assert plan is not None
    kept = replace(request, boards=tuple(replace(b, thinnest_mm=50.0) for b in request.boards))
    assert any("thicker parts" in each for each in faults_of_plan(kept, plan))
