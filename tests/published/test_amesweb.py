"""A timber beam worked on a mechanical engineer's web site."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks.beams import Support
from furniture.checks.sections import Rectangle
from furniture.checks.spans import EvenLoad, PointLoad, Span, left_reaction_n, moment_nmm, shear_n
from tests.published.case import Case, How, from_source

_SECTION = Rectangle(width_mm=100.0, thickness_mm=200.0)
_I = "second_moment_mm4"
_BEAM = Span(
    support=Support.SIMPLE,
    length_mm=3000.0,
    section=_SECTION,
    points=(
        PointLoad(at_mm=500.0, force_n=10_000.0),
        PointLoad(at_mm=1500.0, force_n=5_000.0),
        PointLoad(at_mm=2500.0, force_n=10_000.0),
    ),
    evens=(EvenLoad(from_mm=0.0, to_mm=3000.0, force_n=3.0 * 117.7),),
)


def _case(name: str, expected: float, unit: str, tolerance: float, compute: partial[float]) -> Case:
    return Case(
        id=f"ames-{name}",
        quantity=f"timber beam 100 x 200 mm, span 3 m: {name}",
        place="sample problem, steps 2 and 4",
        how=How.READ,
        expected=expected,
        unit=unit,
        tolerance=tolerance,
        reason="half a step of the printed figure; the page carries single precision",
        compute=compute,
    )


CASES = from_source(
    "amesweb.info, timber beam deflection calculations, sample problem",
    _case("area", 20_000.0, "mm2", 0.5, partial(getattr, _SECTION, "area_mm2")),
    _case("second moment", 66_666_668.0, "mm4", 2.0, partial(getattr, _SECTION, _I)),
    _case("section modulus", 666_666.688, "mm3", 0.03, partial(getattr, _SECTION, "modulus_mm3")),
    _case("left reaction", 12_676.5, "N", 0.06, partial(left_reaction_n, _BEAM)),
    _case("greatest moment", 8_882_400.0, "N mm", 50.0, partial(moment_nmm, _BEAM, 1500.0)),
    _case("shear just left of the middle", 2_500.0, "N", 0.06, partial(shear_n, _BEAM, 1499.999)),
    _case("greatest shear", 12_676.5, "N", 0.06, partial(shear_n, _BEAM, 0.0)),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
