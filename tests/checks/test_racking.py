"""What folds sideways: as made, under one who sits on it, and once its joints have loosened."""

from __future__ import annotations

import functools

import pytest

from furniture.checks.finding import Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.rows.standing import TILT
from furniture.checks.rows.structure import LOOSENED, RACKING
from furniture.solids.measure import weigh
from tests.hazards.frames import framed
from tests.hazards.making import (
    OAK,
    PINE,
    Z,
    board,
    butt,
    case,
    dado,
    dowels,
    piece,
    screws,
    sitting,
)

SCREWED = functools.partial(screws, size=4.2, through=19, bite=26, edge=50)


def racking(design):
    """What is told of its folding."""
    made = design.build()
    return [each for each in findings_of(made, weigh(made)) if each.check in (RACKING, LOOSENED)]


def through_the_sides(what, *sides):
    return [joint for side in sides for joint in SCREWED(side, what)]


def a_case(how, let_in, *, height=900.0, rail=0.0):
    """Two sides and three boards between them, with a rail under the top one where it has one."""
    levels = (60.0, height / 2, height - 19)
    boards, joints = case(PINE, 600, 250, height, 19, levels, how, let_in=let_in)
    if rail > 0.0:
        boards.append(board("rail", PINE, (19, 231, height - 19 - rail), (562, 19, rail)))
        joints += dowels("rail", "left side", "right side", size=8, length=40, deep=12)
    return piece(boards, joints)


def test_a_case_on_screws_in_end_grain_is_a_row_of_hinges_and_a_rail_cures_it():
    (found,) = racking(a_case(through_the_sides, 0.0))
    assert (found.check, found.verdict) == (LOOSENED, Verdict.FAIL)
    assert "rail" in found.advice
    assert all(
        each.verdict is Verdict.OK for each in racking(a_case(through_the_sides, 0, rail=90))
    )


def test_an_open_case_in_dadoes_hangs_on_their_glue_and_a_rail_cures_it():
    (found,) = racking(a_case(dado, 6.0))
    assert (found.check, found.verdict) == (LOOSENED, Verdict.CAUTION)
    assert all(each.verdict is Verdict.OK for each in racking(a_case(dado, 6.0, rail=90.0)))


def test_a_low_case_needs_no_brace():
    assert all(each.verdict is Verdict.OK for each in racking(a_case(dado, 6.0, height=190.0)))


def test_legs_glued_under_a_top_fold_and_rails_hold_them():
    top = board("top", OAK, (0, 0, 400), (500, 300, 18))
    legs = [
        board(f"leg {x} {y}", OAK, (x, y, 0), (35, 35, 400), Z)
        for x in (10, 455)
        for y in (10, 255)
    ]
    (found,) = racking(piece([top, *legs], butt("top", *(each.name for each in legs))))
    assert (found.check, found.verdict) == (LOOSENED, Verdict.FAIL)
    boards, joints = framed(OAK, 445, 280, 400, 35, 70)
    posts = [each.name for each in boards if each.name.startswith("post")]
    railed = piece(
        [*boards, board("top", OAK, (0, 0, 400), (445, 280, 18))], joints + butt("top", *posts)
    )
    assert all(each.verdict is Verdict.OK for each in racking(railed))


def test_one_who_sits_folds_legs_that_only_his_weight_holds_upright():
    """Without its screws a stool folds as a parallelogram: its weights rise on the legs' edges."""
    legs = [
        board(f"leg {x} {y}", PINE, (x, y, 0), (40, 40, 400), Z)
        for x in (20, 290)
        for y in (20, 290)
    ]
    top = board("top", PINE, (0, 0, 400), (350, 350, 20))
    on = screws("top", *(each.name for each in legs), size=4.5, through=20, bite=40, count=1)
    design = piece([top, *legs], on, sitting("top", 80))
    (found,) = racking(design)
    masses = dict.fromkeys(("top", "leg"), 0.0)
    made = design.build()
    weighed = weigh(made)
    for each in made.placed:
        masses["top" if each.instance == "top" else "leg"] += weighed.parts[each.part.id].mass_kg
    by_hand = ((80.0 + masses["top"]) * 40.0 + masses["leg"] * 20.0) * 9.80665 / 400.0
    assert found.value == pytest.approx(by_hand, rel=0.01)
    assert (found.check, found.verdict) == (RACKING, Verdict.FAIL)


@pytest.mark.parametrize("deep", [40.0, 80.0])
def test_what_falls_anyhow_is_not_told_as_folding(deep):
    """A shelf on one edge of an upright overhangs a foot that is too short: it tips at no push."""
    boards = [
        board("foot", OAK, (0, 0, 0), (300, deep, 30)),
        board("back", OAK, (0, 10, 30), (300, 18, 200), Z),
        board("shelf", OAK, (0, 28, 210), (300, 300, 20), thin=Z),
    ]
    joints = [*dowels("back", "foot", length=40, deep=20), *dowels("shelf", "back", deep=12)]
    made = piece(boards, joints).build()
    told = findings_of(made, weigh(made))
    assert any(each.check == TILT and each.verdict is Verdict.FAIL for each in told)
    assert not [each for each in told if each.check in (RACKING, LOOSENED)]


def test_one_whose_weight_tips_it_over_is_not_said_to_fold_it():
    """He sits past the foot; that he tips it is told, and nothing is said of his pushing."""
    boards = [
        board("foot", OAK, (0, 0, 0), (300, 200, 30)),
        board("back", OAK, (0, 10, 30), (300, 18, 400), Z),
        board("seat", OAK, (0, 28, 410), (300, 500, 20), thin=Z),
    ]
    joints = [*dowels("back", "foot", length=40, deep=20), *dowels("seat", "back", deep=12)]
    made = piece(boards, joints, sitting("seat", 80.0)).build()
    told = findings_of(made, weigh(made))
    assert any(each.verdict is Verdict.FAIL for each in told)
    assert not any("who pushes" in each.basis for each in told if each.check == RACKING)
