"""Serway, Physics for Scientists and Engineers, ch. 12: cabinets, as a tutor works them."""

from __future__ import annotations

from functools import partial

import pytest

from tests.published.case import Case, How, from_source
from tests.published.statics import push_n


def _friction(width: float, weight: float, height: float) -> float:
    return push_n(width, weight, height) / weight


def _cases(width: float, height: float, force: float, friction: float) -> tuple[Case, Case]:
    told = f"400 N cabinet {width:g} mm wide and {height:g} mm tall"
    return (
        Case(
            id=f"cabinet-{width:g}-force",
            quantity=f"push at the top edge that tips a {told}",
            place="problem 12.36/12.44 with other numbers, part a",
            how=How.READ,
            expected=force,
            unit="N",
            tolerance=0.05,
            reason="printed to 0.1",
            compute=partial(push_n, width, 400.0, height),
        ),
        Case(
            id=f"cabinet-{width:g}-friction",
            quantity=f"friction below which a {told} slides instead",
            place="problem 12.36/12.44 with other numbers, part b",
            how=How.READ,
            expected=friction,
            unit="-",
            tolerance=0.0005,
            reason="printed to 0.001",
            compute=partial(_friction, width, 400.0, height),
        ),
    )


CASES = from_source(
    "Serway, Physics for Scientists and Engineers, ch. 12, cabinet problem as worked by a tutor",
    *_cases(510.0, 1200.0, 85.0, 0.2125),
    *_cases(610.0, 1100.0, 110.9, 0.277),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
