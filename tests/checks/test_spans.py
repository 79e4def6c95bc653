"""Beams and spans against statics and closed forms."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.checks.beams import Support
from furniture.checks.sections import Rectangle, axial_stress_mpa, bending_stress_mpa
from furniture.checks.spans import (
    EvenLoad,
    PointLoad,
    Span,
    Stretch,
    deflection_at_mm,
    greatest_bending,
    greatest_deflection_mm,
    greatest_shear,
    left_reaction_n,
    moment_nmm,
    section_at,
    shear_n,
)

BOARD = Rectangle(width_mm=200.0, thickness_mm=18.0)
THIN = Rectangle(width_mm=200.0, thickness_mm=9.0)


@st.composite
def spans(draw: st.DrawFn) -> Span:
    """Spans of either support with up to three point loads, an even load and a cut."""
    length = draw(st.floats(100.0, 1200.0))
    where = st.floats(0.0, 1.0).map(lambda share: share * length)
    points = tuple(
        PointLoad(at_mm=draw(where), force_n=draw(st.floats(1.0, 200.0)))
        for _ in range(draw(st.integers(0, 3)))
    )
    low = draw(st.floats(0.0, 0.6)) * length
    evens = (EvenLoad(from_mm=low, to_mm=length, force_n=draw(st.floats(1.0, 200.0))),)
    start = draw(st.floats(0.0, 0.8)) * length
    cuts = (Stretch(from_mm=start, to_mm=start + 0.1 * length, section=THIN),)
    support = draw(st.sampled_from([Support.SIMPLE, Support.CANTILEVER]))
    return Span(
        support=support, length_mm=length, section=BOARD, points=points, evens=evens, cuts=cuts
    )


@pytest.mark.parametrize(
    ("support", "load", "sag_mm", "moment_nmm", "force_n"),
    [
        (Support.SIMPLE, "even", 0.2756, 7357.5, 49.05),
        (Support.CANTILEVER, "even", 2.6456, 29_430.0, 98.1),
        (Support.CANTILEVER, "end", 7.0550, 58_860.0, 98.1),
    ],
)
def test_cherry_shelf_worked_by_hand(
    support: Support, load: str, sag_mm: float, moment_nmm: float, force_n: float
) -> None:
    # 200 x 18 mm, 600 mm, 98.1 N, 10.3 GPa: I = 97,200 mm4, Z = 10,800 mm3, area 3,600 mm2.
    span = Span(
        support=support,
        length_mm=600.0,
        section=BOARD,
        points=(PointLoad(at_mm=600.0, force_n=98.1),) if load == "end" else (),
        evens=(EvenLoad(from_mm=0.0, to_mm=600.0, force_n=98.1),) if load == "even" else (),
    )
    assert greatest_deflection_mm(span, 10.3) == pytest.approx(sag_mm, abs=0.0005)
    assert greatest_bending(span).stress_mpa == pytest.approx(moment_nmm / 10_800.0)
    assert greatest_shear(span).stress_mpa == pytest.approx(1.5 * force_n / 3600.0)


@given(span=spans())
def test_forces_and_moments_balance(span: Span) -> None:
    load = span.load_n
    middle = sum(p.at_mm * p.force_n for p in span.points) + sum(
        (e.from_mm + e.to_mm) / 2 * e.force_n for e in span.evens
    )
    if span.support is Support.CANTILEVER:
        assert left_reaction_n(span) == pytest.approx(load)
        assert moment_nmm(span, 0.0) == pytest.approx(-middle)
    else:
        right = load - left_reaction_n(span)
        assert right * span.length_mm == pytest.approx(middle)
        assert moment_nmm(span, 0.0) == pytest.approx(0.0, abs=1e-6 * (1.0 + middle))
    assert moment_nmm(span, span.length_mm) == pytest.approx(0.0, abs=1e-6)


@given(span=spans(), share=st.floats(0.02, 0.98))
def test_shear_is_the_slope_of_the_moment(span: Span, share: float) -> None:
    x, step = share * span.length_mm, 1e-4 * span.length_mm
    if any(abs(p.at_mm - x) < 2 * step for p in span.points):
        return
    slope = (moment_nmm(span, x + step) - moment_nmm(span, x - step)) / (2 * step)
    assert shear_n(span, x) == pytest.approx(slope, rel=1e-3, abs=0.05 + 1e-3 * span.load_n)


@given(span=spans(), one=st.floats(0.0, 1.0), other=st.floats(0.0, 1.0))
def test_maxwells_law_of_reciprocal_deflections(span: Span, one: float, other: float) -> None:
    # A load at a bends b as much as the same load at b bends a, through any change of section.
    a, b = one * span.length_mm, other * span.length_mm

    def under(at: float, seen: float) -> float:
        loaded = Span(
            support=span.support,
            length_mm=span.length_mm,
            section=span.section,
            points=(PointLoad(at_mm=at, force_n=100.0),),
            cuts=span.cuts,
        )
        return deflection_at_mm(loaded, seen, 10.0)

    assert under(a, b) == pytest.approx(under(b, a), rel=1e-9, abs=1e-12)


@given(span=spans())
def test_a_cut_never_stiffens_nor_strengthens(span: Span) -> None:
    whole = Span(
        support=span.support,
        length_mm=span.length_mm,
        section=span.section,
        points=span.points,
        evens=span.evens,
    )
    assert greatest_deflection_mm(span, 10.0) >= greatest_deflection_mm(whole, 10.0) - 1e-12
    assert greatest_bending(span).stress_mpa >= greatest_bending(whole).stress_mpa - 1e-9
    assert greatest_shear(span).stress_mpa >= greatest_shear(whole).stress_mpa - 1e-9


@given(span=spans())
def test_no_sampled_stress_exceeds_the_greatest(span: Span) -> None:
    greatest = greatest_bending(span).stress_mpa
    for step in range(101):
        x = span.length_mm * step / 100.0
        stress = bending_stress_mpa(moment_nmm(span, x), section_at(span, x))
        assert stress <= greatest * (1 + 1e-9) + 1e-9


def test_even_load_is_its_point_loads_in_the_limit() -> None:
    even = Span(
        support=Support.SIMPLE,
        length_mm=600.0,
        section=BOARD,
        evens=(EvenLoad(from_mm=0.0, to_mm=600.0, force_n=100.0),),
    )
    many = Span(
        support=Support.SIMPLE,
        length_mm=600.0,
        section=BOARD,
        points=tuple(PointLoad(at_mm=3.0 + 6.0 * step, force_n=1.0) for step in range(100)),
    )
    assert greatest_deflection_mm(many, 10.0) == pytest.approx(
        greatest_deflection_mm(even, 10.0), rel=1e-3
    )


def test_held_ends_are_not_found_by_statics() -> None:
    with pytest.raises(ValueError, match="statics alone"):
        Span(support=Support.FIXED, length_mm=600.0, section=BOARD)


def test_no_wood_is_refused() -> None:
    with pytest.raises(ValueError, match="no wood left"):
        Rectangle(width_mm=100.0, thickness_mm=0.0)


def test_axial_stress() -> None:
    assert axial_stress_mpa(3600.0, BOARD) == pytest.approx(1.0)
