"""A load that stands over the edge of what it stands on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from furniture.checks.finding import Verdict
from furniture.checks.of_piece import findings_of
from furniture.checks.over_edge import over_edge_finding
from furniture.solids.measure import weigh
from tests.checks.cases import POT, TOP, millimetres
from tests.checks.of_piece_cases import loaded_stand, named


def test_a_load_that_covers_its_tier_is_in_order() -> None:
    # TOP is 200 wide and 210 deep.
    assert over_edge_finding(replace(POT, footprint_mm=(200.0, 210.0)), millimetres) is None


@pytest.mark.parametrize(
    ("footprint", "over", "words"),
    [
        ((230.0, 100.0), 30.0, "30.000000 mm in width"),
        ((100.0, 215.5), 5.5, "5.500000 mm in depth"),
        ((201.0, 212.0), 2.0, "1.000000 mm in width and 2.000000 mm in depth"),
    ],
)
def test_by_how_much_it_stands_over_is_said(footprint, over, words) -> None:
    found = over_edge_finding(replace(POT, footprint_mm=footprint), millimetres)
    assert found is not None
    assert found.value == pytest.approx(over)
    assert found.verdict is Verdict.CAUTION
    assert words in found.basis
    assert TOP.name in found.advice


def test_a_piece_with_such_a_load_is_told() -> None:
    """The first tier is 200 wide and 100 deep; a tray of 230 by 90 stands 30 over it."""
    piece = loaded_stand().build()
    (pot,) = piece.loads
    wide = replace(piece, loads=(replace(pot, name="tray", footprint_mm=(230.0, 90.0)),))
    weighed = weigh(piece)
    told = named(findings_of(wide, weighed), "load over its edge")
    assert told.subject == "tray on tier 1"
    assert told.value == pytest.approx(30.0)
    assert all(each.check != told.check for each in findings_of(piece, weighed))
