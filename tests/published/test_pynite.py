"""Beams and a notched post against a general frame program, PyNite."""

from __future__ import annotations

import pytest

from furniture.checks.beams import Support
from furniture.checks.sections import Rectangle
from furniture.checks.spans import (
    EvenLoad,
    PointLoad,
    Span,
    Stretch,
    deflection_at_mm,
    greatest_deflection_mm,
    moment_nmm,
)
from tests.published import frames
from tests.published.case import Case, How, Source, from_source
from tests.published.frames import E_GPA, Frame

_SHELF = Rectangle(width_mm=200.0, thickness_mm=18.0)
_WAIST = Rectangle(width_mm=200.0, thickness_mm=12.0)
_LENGTH = 600.0

# A shelf that projects, with a groove across it that leaves 12 of 18 mm.
_GROOVED = Span(
    support=Support.CANTILEVER,
    length_mm=_LENGTH,
    section=_SHELF,
    points=(PointLoad(at_mm=450.0, force_n=60.0),),
    evens=(EvenLoad(from_mm=0.0, to_mm=_LENGTH, force_n=40.0),),
    cuts=(Stretch(from_mm=100.0, to_mm=140.0, section=_WAIST),),
)
# A shelf that rests on its ends, with a wide recess and two loads out of the middle.
_RECESSED = Span(
    support=Support.SIMPLE,
    length_mm=_LENGTH,
    section=_SHELF,
    points=(PointLoad(at_mm=120.0, force_n=80.0), PointLoad(at_mm=430.0, force_n=50.0)),
    evens=(EvenLoad(from_mm=0.0, to_mm=_LENGTH, force_n=40.0),),
    cuts=(Stretch(from_mm=200.0, to_mm=400.0, section=_WAIST),),
)


def _frame(span: Span) -> Frame:
    cut = span.cuts[0]
    stretches = (
        (cut.from_mm, span.section),
        (cut.to_mm - cut.from_mm, cut.section),
        (span.length_mm - cut.to_mm, span.section),
    )
    return Frame(
        support=span.support,
        stretches=stretches,
        points=tuple((load.at_mm, load.force_n) for load in span.points),
        even_n=span.evens[0].force_n,
    )


CASES = from_source(
    Source(title="PyNite 3 (frame finite elements)", found="PyPI, PyNiteFEA"),
    Case(
        id="pynite-grooved",
        quantity="sag at the free end of a projecting shelf with a groove across it",
        place="members of three sections end to end",
        how=How.LIBRARY,
        expected=lambda: frames.deflection_mm(_frame(_GROOVED), _LENGTH),
        unit="mm",
        tolerance=1e-4,
        reason="the same beam theory, virtual work against stiffness",
        compute=lambda: greatest_deflection_mm(_GROOVED, E_GPA),
    ),
    Case(
        id="pynite-recessed",
        quantity="sag in the middle of a resting shelf with a wide recess",
        place="members of three sections end to end",
        how=How.LIBRARY,
        expected=lambda: frames.deflection_mm(_frame(_RECESSED), 300.0),
        unit="mm",
        tolerance=1e-4,
        reason="the same beam theory, virtual work against stiffness",
        compute=lambda: deflection_at_mm(_RECESSED, 300.0, E_GPA),
    ),
    Case(
        id="pynite-recessed-moment",
        quantity="moment under the greater load of that shelf",
        place="members of three sections end to end",
        how=How.LIBRARY,
        expected=lambda: frames.moment_nmm(_frame(_RECESSED), 120.0),
        unit="N mm",
        tolerance=0.1,
        reason="statics",
        compute=lambda: moment_nmm(_RECESSED, 120.0),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_agrees(case: Case) -> None:
    assert case.agrees, str(case)
