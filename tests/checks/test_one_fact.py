"""One fact, one line: what several checks measure is cautioned once, and the others are figures."""

from __future__ import annotations

import pytest

from furniture.checks.check import Verdict
from furniture.checks.finding import Finding
from furniture.checks.left import bore_findings
from furniture.checks.of_piece import findings_of
from furniture.checks.of_piece.setting import Setting
from furniture.checks.rows.standing import CHILD, TILT, TOP_PUSH, WALL_FIXING
from furniture.checks.rows.structure import BEARS, END_GRAIN_ALONE
from furniture.checks.rows.wood_left import BORE_END
from furniture.checks.tall import StandsOn
from furniture.rules.staying import MOST_SWING
from furniture.solids.measure import weigh
from furniture.structure.cases import hung_straight
from furniture.structure.rigid import Push
from tests.checks.cases import millimetres
from tests.hazards.dangers import DANGERS
from tests.hazards.sound import SOUND
from tests.hazards.telling import told_of_row
from tests.models import piece_of
from tests.structure.bench import placed


def _told(row_id: str) -> dict[str, Finding]:
    row = next(each for each in (*DANGERS, *SOUND) if each.id == row_id)
    return {each.check.name: each for each in told_of_row(row).findings}


@pytest.mark.parametrize(
    ("row", "speaks", "figures"),
    [
        ("S25", TILT, (TOP_PUSH, CHILD)),
        ("D14", TILT, (TOP_PUSH, WALL_FIXING)),
        ("D24", CHILD, (TOP_PUSH,)),
    ],
)
def test_that_it_tips_easily_is_cautioned_once(row, speaks, figures) -> None:
    told = _told(row)
    assert told[speaks.name].verdict is Verdict.CAUTION
    for each in figures:
        assert told[each.name].verdict is Verdict.NOTE
        assert told[each.name].value is not None
        assert each.name in told[speaks.name].basis


def test_a_joint_that_end_grain_holds_is_told_by_what_it_bears() -> None:
    told = _told("S24")
    assert told[BEARS.name].verdict is Verdict.CAUTION
    assert told[END_GRAIN_ALONE.name].verdict is Verdict.NOTE
    assert END_GRAIN_ALONE.name in told[BEARS.name].basis


@pytest.mark.parametrize(
    ("to_end", "verdict"),
    [(16.0, Verdict.OK), (15.9, Verdict.NOTE), (9.0, Verdict.NOTE), (7.9, Verdict.CAUTION)],
)
def test_a_dowel_near_an_end(to_end: float, verdict: Verdict) -> None:
    """8 mm: two diameters are asked, 9 mm is a board of 18 dowelled on flush, 7.9 is a bad hole."""
    found = bore_findings("side", "bore 1", 8.0, 40.0, to_end, 18.0, millimetres)
    (end,) = [each for each in found if each.check == BORE_END]
    assert end.verdict is verdict


def test_what_hangs_on_a_handle_swings_a_little_and_no_more() -> None:
    """10 N, 5 aside and 200 under a bar hang straight; 30 aside of it is more than a swing."""
    bar = placed("bar", (400.0, 25.0, 25.0), (0.0, 0.0, 300.0), (1.0, 0, 0), (0, 1.0, 0))
    for aside, swings in ((5.0, True), (-5.0, True), (30.0, False)):
        assert (abs(aside) <= MOST_SWING.value * 212.5) is swings
        weight = Push(body=0, at=(170.0, 12.5 + aside, 100.0), force_n=(0.0, 0.0, -10.0))
        (hung,) = hung_straight((weight,), bar)
        assert hung.at == pytest.approx((170.0, 12.5 if swings else 12.5 + aside, 100.0))


def test_no_wall_is_named_of_what_is_light_and_stands_on_a_table() -> None:
    """On the floor, where it is tall, the same stand is told what such a fixing must bear."""
    piece = piece_of("herb_stand")
    told = {}
    for stands_on in StandsOn:
        setting = Setting(stands_on=stands_on)
        told[stands_on] = {each.check for each in findings_of(piece, weigh(piece), setting)}
    assert WALL_FIXING not in told[StandsOn.TABLE]
    assert WALL_FIXING in told[StandsOn.FLOOR]
