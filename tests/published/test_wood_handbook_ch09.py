"""Beams: Wood Handbook, chapter 9, Table 9-1, against virtual work and statics."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.beams import CASES as BEAM_CASES
from furniture.checks.beams import Loading, Support
from furniture.checks.sections import Rectangle
from furniture.checks.spans import EvenLoad, PointLoad, Span, deflection_at_mm
from tests.published.case import Case, How, from_source

# One unit of everything: E I = 1, W = 1, L = 1, so that a deflection is the factor itself.
_UNIT = Rectangle(width_mm=12.0, thickness_mm=1.0)
_E_GPA = 0.001


def _by_virtual_work(support: Support, loading: Loading, at: float) -> float:
    points: tuple[PointLoad, ...] = ()
    evens: tuple[EvenLoad, ...] = ()
    if loading is Loading.EVEN:
        evens = (EvenLoad(from_mm=0.0, to_mm=1.0, force_n=1.0),)
    elif loading is Loading.QUARTERS:
        points = (PointLoad(at_mm=0.25, force_n=0.5), PointLoad(at_mm=0.75, force_n=0.5))
    else:
        end = 1.0 if support is Support.CANTILEVER else 0.5
        points = (PointLoad(at_mm=end, force_n=1.0),)
    span = Span(support=support, length_mm=1.0, section=_UNIT, points=points, evens=evens)
    return deflection_at_mm(span, at, _E_GPA)


def _factor(support: Support, loading: Loading) -> float:
    return BEAM_CASES[support, loading].bending


def _case(name: str, printed: float, note: str, compute: partial[float]) -> Case:
    return Case(
        id=f"table-9-1-{name}",
        quantity=f"deflection factor k_b, {name}",
        place=f"Table 9-1 (p. 9-3){note}",
        how=How.READ,
        expected=printed,
        unit="-",
        tolerance=1e-9,
        reason="an exact fraction",
        compute=compute,
    )


CASES = from_source(
    "Wood Handbook, FPL-GTR-282 (2021), chapter 9",
    _case(
        "resting, even load",
        5 / 384,
        "",
        partial(_by_virtual_work, Support.SIMPLE, Loading.EVEN, 0.5),
    ),
    _case(
        "resting, load in the middle",
        1 / 48,
        "",
        partial(_by_virtual_work, Support.SIMPLE, Loading.POINT, 0.5),
    ),
    _case(
        "resting, loads at the quarters, in the middle",
        11 / 768,
        "",
        partial(_by_virtual_work, Support.SIMPLE, Loading.QUARTERS, 0.5),
    ),
    _case(
        "resting, loads at the quarters, at a load",
        1 / 96,
        "; a transcription has it under beams held at both ends, where it cannot be",
        partial(_by_virtual_work, Support.SIMPLE, Loading.QUARTERS, 0.25),
    ),
    _case("held, even load", 1 / 384, "", partial(_factor, Support.FIXED, Loading.EVEN)),
    _case("held, load in the middle", 1 / 192, "", partial(_factor, Support.FIXED, Loading.POINT)),
    _case(
        "projecting, even load",
        1 / 8,
        "",
        partial(_by_virtual_work, Support.CANTILEVER, Loading.EVEN, 1.0),
    ),
    _case(
        "projecting, load at the end",
        1 / 3,
        "",
        partial(_by_virtual_work, Support.CANTILEVER, Loading.POINT, 1.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
