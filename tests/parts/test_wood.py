"""The least wood that cuts leave, alone and together, against figures worked out by hand."""

from __future__ import annotations

import pytest

from furniture.parts.blank import Blank
from furniture.parts.cuts import ALL_CUTS, Cut
from furniture.parts.wood import cut_through, wood_left
from furniture.solids.make import solid_from
from tests.parts.wood_cases import BY_DESIGN, ENOUGH, PAIRS, RAIL, TOO_LITTLE, Case, Together


def test_every_kind_of_cut_is_tried() -> None:
    assert set(TOO_LITTLE) == set(ENOUGH) == set(ALL_CUTS)


def _least(blank: Blank, *cuts: Cut) -> float:
    assert not any(cut.misfits(blank) for cut in cuts)
    return min(each.wood_mm for each in wood_left(blank, cuts))


@pytest.mark.parametrize("case", [*TOO_LITTLE.values(), *ENOUGH.values()],
                         ids=lambda case: f"{case.cut.kind} {case.least_mm:.3g}")  # fmt: skip
def test_the_least_wood_of_one_cut(case: Case) -> None:
    assert _least(case.blank, case.cut) == pytest.approx(case.least_mm, abs=1e-6)
    assert not cut_through(case.blank, (case.cut,))


@pytest.mark.parametrize("case", [*PAIRS, *BY_DESIGN], ids=lambda case: str(case.what))
def test_the_least_wood_of_cuts_together(case: Together) -> None:
    assert _least(RAIL, *case.cuts) == pytest.approx(case.least_mm, abs=0.005)
    assert _least(RAIL, *case.cuts[::-1]) == pytest.approx(case.least_mm, abs=0.005)


@pytest.mark.parametrize("case", PAIRS, ids=lambda case: str(case.what))
def test_cuts_that_leave_nothing_between_them_are_named(case: Together) -> None:
    met = [{each.cut, each.other} for each in cut_through(RAIL, case.cuts)]
    assert met == ([] if case.least_mm > 0.0 else [{0, 1}])


@pytest.mark.parametrize("case", BY_DESIGN, ids=lambda case: str(case.what))
def test_cuts_that_are_meant_to_meet_are_let_be(case: Together) -> None:
    assert not cut_through(RAIL, case.cuts)
    assert solid_from(RAIL, case.cuts).isValid()
