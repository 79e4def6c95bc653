"""Beams and a notched post against a general frame program, PyNite."""

from __future__ import annotations

from functools import partial

import pytest

from furniture.checks import beams
from furniture.checks.beams import Loading, Support
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
from tests.published.case import Case, How, from_source
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


def _even(support: Support) -> Frame:
    return Frame(support=support, stretches=((_LENGTH, _SHELF),), even_n=100.0)


def _loaded(support: Support, loading: Loading) -> Frame:
    end = _LENGTH if support is Support.CANTILEVER else _LENGTH / 2.0
    points: tuple[tuple[float, float], ...] = ((end, 100.0),)
    if loading is Loading.QUARTERS:
        points = ((_LENGTH / 4.0, 50.0), (3.0 * _LENGTH / 4.0, 50.0))
    return Frame(support=support, stretches=((_LENGTH, _SHELF),), points=points)


def _table_cases() -> list[Case]:
    cases = []
    for support, loading in beams.CASES:
        frame = _even(support) if loading is Loading.EVEN else _loaded(support, loading)
        at = _LENGTH if support is Support.CANTILEVER else _LENGTH / 2.0
        cases.append(
            Case(
                id=f"pynite-{support.name}-{loading.name}",
                quantity=f"sag of a shelf {support.value}, load {loading.value.split(':')[0]}",
                place="deflection of the finished model",
                how=How.LIBRARY,
                expected=partial(frames.deflection_mm, frame, at),
                unit="mm",
                tolerance=1e-4,
                reason="the same beam theory, solved by stiffness instead of a table",
                compute=partial(
                    beams.deflection_mm, support, loading, 100.0, _LENGTH, _SHELF, E_GPA
                ),
            )
        )
    return cases


def _moment_case(support: Support, loading: Loading) -> Case:
    frame = _even(support) if loading is Loading.EVEN else _loaded(support, loading)
    at = 0.0 if support in (Support.CANTILEVER, Support.FIXED) else _LENGTH / 2.0
    return Case(
        id=f"pynite-moment-{support.name}-{loading.name}",
        quantity=f"greatest moment, {support.value}, load {loading.value.split(':')[0]}",
        place="moment of the finished model",
        how=How.LIBRARY,
        expected=partial(frames.moment_nmm, frame, at),
        unit="N mm",
        tolerance=0.1,
        reason="the same beam theory",
        compute=partial(beams.greatest_moment_nmm, support, loading, 100.0, _LENGTH),
    )


CASES = from_source(
    "PyNite 3 (frame finite elements)",
    *_table_cases(),
    *(_moment_case(support, loading) for support, loading in beams.CASES),
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
