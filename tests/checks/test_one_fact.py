"""One fact, one line: what several checks measure is cautioned once, and the others are figures."""

from __future__ import annotations

import pytest

from furniture.checks.check import Verdict
from furniture.checks.finding import Finding
from furniture.checks.left import bore_findings
from furniture.checks.of_piece import findings_of
from furniture.checks.of_piece.joints import hand_levers_of
from furniture.checks.of_piece.reading import shown_by, worst_alone
from furniture.checks.of_piece.setting import Setting
from furniture.checks.of_piece.supported import supported_of
from furniture.checks.rows.joints import HAND_LEVER
from furniture.checks.rows.shelves import HAND_BENDING
from furniture.checks.rows.standing import CHILD, TILT, TOP_PUSH, WALL_FIXING
from furniture.checks.rows.structure import BEARS, END_GRAIN_ALONE
from furniture.checks.rows.wood_left import BORE_END
from furniture.checks.tall import StandsOn
from furniture.rules import USUAL_RULES
from furniture.rules.bearing import MOST_SWING
from furniture.solids.measure import weigh
from furniture.structure.cases import hung_straight
from furniture.structure.rigid import Push
from furniture.units import Amounts
from furniture.units import millimetres as in_millimetres
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
        (hung,) = hung_straight((weight,), bar, MOST_SWING.value)
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


def test_a_hand_on_an_edge_is_one_caution_that_names_every_shelf_with_its_figure() -> None:
    """It breaks the wood of tier 1 and presses both dados beyond theirs: tier 1 is worse off."""
    told = _told("S50")
    breaks, lever = told[HAND_BENDING.name], told[HAND_LEVER.name]
    assert (breaks.verdict, lever.verdict) == (Verdict.CAUTION, Verdict.NOTE)
    row = next(each for each in SOUND if each.id == "S50")
    piece = row.build().build()
    shelves = supported_of(piece, weigh(piece), USUAL_RULES, is_fixed=False)
    show = shown_by(piece)
    levers = {each.subject.partition(",")[0]: each for each in hand_levers_of(shelves, show)}
    assert sorted(levers) == ["tier 1", "tier 2"]
    assert all(each.verdict is Verdict.CAUTION for each in levers.values())
    assert levers["tier 1"].value > levers["tier 2"].value
    second = show.stress(levers["tier 2"].value)
    assert f"tier 2, a hand on its front edge: {second} beside 9.6 MPa" in lever.basis
    first = breaks.basis.index(show.stress(levers["tier 1"].value))
    assert first < breaks.basis.index("9.6 MPa") < breaks.basis.index(second)


def test_one_that_is_amiss_in_several_cases_is_named_once() -> None:
    limits = HAND_LEVER.limits(cautions=10.0)
    cases = [("tier 1", 12.0), ("tier 2", 30.0), ("tier 1", 15.0), ("tier 1", 11.0)]
    findings = [
        Finding(check=HAND_LEVER, subject=name, value=value, limits=limits, basis="so")
        for name, value in cases
    ]
    (told,) = worst_alone(findings)
    assert (told.subject, told.basis) == (
        "tier 2 (also 1)",
        "the worst of 4: so; the same of tier 1",
    )


def test_others_are_told_with_their_figures_the_furthest_over_its_limit_first() -> None:
    limits = HAND_LEVER.limits(cautions=10.0)
    values = {"tier 1": 12.0, "tier 2": 30.0, "tier 3": 9.0, "tier 4": 20.0}
    findings = [
        Finding(check=HAND_LEVER, subject=name, value=value, limits=limits, basis="so")
        for name, value in values.items()
    ]
    (told,) = worst_alone(findings, Amounts(shown=in_millimetres(0.1)))
    assert told.subject == "tier 2 (also 1 and 4)"
    assert told.basis.endswith("; the same of tier 4: 20 MPa beside 10 MPa, tier 1: 12 MPa")
