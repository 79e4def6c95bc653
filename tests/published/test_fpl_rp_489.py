"""Green (1989), Moisture content and the shrinkage of lumber, FPL-RP-489."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.timber.density import shrinkage_from_green_pct
from tests.published.case import Case, How, from_source


def _case(what: str, total: float, at_15: float) -> Case:
    return Case(
        id=f"rp489-{what}",
        quantity=f"shrinkage of a lumber's {what} from green (28 %) to 15 % moisture",
        place="highlights: the American Softwood Lumber Standard's figure, and the line S(M)",
        how=How.READ,
        expected=at_15,
        unit="%",
        tolerance=0.01,
        reason="printed to 0.05, the line's constants to 0.001",
        compute=partial(shrinkage_from_green_pct, total, 15.0, 28.0),
    )


CASES = from_source(
    "Green (1989), Moisture content and the shrinkage of lumber, FPL-RP-489",
    _case("width", 6.031, 2.80),
    _case("thickness", 5.062, 2.35),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
