"""Textbook pieces that tip, and a frame whose last mitre gapes."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.stability import Body, empty_leaning, tipping_press_n, tipping_push_n
from furniture.checks.support import Edge, support_edges
from furniture.checks.tolerances import last_gap_mm
from furniture.units.gravity import GRAVITY_M_S2
from tests.published.case import Case, How, Source, from_source


def _edge(left: float, right: float) -> Edge:
    """The edge to the right of feet from left to right, 1 m deep."""
    edges = support_edges(((left, 0.0), (right, 0.0), (right, 1000.0), (left, 1000.0)))
    return max(edges, key=lambda edge: edge.outward[0])


# 2.00 m wide, 1.80 m tall, 1500 N, on legs 0.10 m in from its sides.
_BOOKCASE = Body(mass_kg=1500.0 / GRAVITY_M_S2, centre_mm=(1000.0, 500.0, 900.0))
_LEGS = _edge(100.0, 1900.0)
_BLOCK = Body(mass_kg=1.0, centre_mm=(250.0, 500.0, 500.0))

CASES = (
    *from_source(
        Source(
            title="Young and Freedman, University Physics, 11th edition, problem 11.93 (13th "
            "edition, ISBN 9780321675460: problem 11.97)",
            found="coursehero.com/file/7962/problem11-93",
        ),
        Case(
            id="bookcase-pull",
            quantity="pull at the upper corner that tips a bookcase on short legs",
            place="part a",
            how=How.READ,
            expected=750.0,
            unit="N",
            tolerance=0.5,
            reason="printed to 1",
            compute=partial(tipping_push_n, _BOOKCASE, (), _LEGS, 1800.0),
        ),
        Case(
            id="bookcase-press",
            quantity="downward force at that corner, 0.10 m past the legs, that tips it",
            place="part b: 13.5 kN",
            how=How.READ,
            expected=13_500.0,
            unit="N",
            tolerance=50.0,
            reason="printed to 0.1 kN",
            compute=lambda: tipping_press_n(_BOOKCASE, (), _LEGS, (2000.0, 500.0)) or 0.0,
        ),
    ),
    *from_source(
        Source(
            title="Wolfson, Essential University Physics, 3rd edition, chapter 12, problem 48",
            found="p. 217; the solution read as worked on a study site",
        ),
        Case(
            id="block-on-slope",
            quantity="slope at which a block twice as tall as wide tips",
            place="problem 48: before it slides at 32.2",
            how=How.READ,
            expected=26.56,
            unit="deg",
            tolerance=0.01,
            reason="printed to 0.01, cut off",
            compute=lambda: empty_leaning(_BLOCK, _edge(0.0, 500.0)).angle_deg,
        ),
    ),
    *from_source(
        Source(title="Accurate Miters", found="ts-aligner.com/accuratemiters.htm"),
        Case(
            id="octagon",
            quantity="gap of the last of eight 2 in mitres with 0.028 deg in each of 16 cuts",
            place="accuracy required: 1/64 in",
            how=How.READ,
            expected=25.4 / 64.0,
            unit="mm",
            tolerance=0.02 * 25.4 / 64.0,
            reason="the angle is printed to 0.001 deg in 0.028",
            compute=partial(last_gap_mm, 2.0 * 25.4, 0.028, 8),
        ),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
