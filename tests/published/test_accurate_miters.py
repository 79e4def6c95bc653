"""A page on accurate mitres by a maker of alignment tools."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.tolerances import last_gap_mm
from tests.published.case import Case, How, from_source

_GAP = 25.4 / 64.0

CASES = from_source(
    "Accurate Miters, web page of a maker of alignment tools: sixteen cuts of an octagon",
    *(
        Case(
            id=f"octagon-{face}in",
            quantity=f"gap of the last of eight {face} in mitres with {each:g} deg in every cut",
            place="accuracy required",
            how=How.READ,
            expected=_GAP,
            unit="mm",
            tolerance=0.03 * _GAP,
            reason="the angle is printed to 0.001 deg in 0.028",
            compute=partial(last_gap_mm, face * 25.4, each, 8),
        )
        for face, each in ((2, 0.028), (3, 0.019))
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
