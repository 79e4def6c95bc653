"""The plane geometry under the views: intervals, conics through points, bounds."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exporters.views.bounds import bounds_of
from exporters.views.kernel import fitted
from exporters.views.spans import difference, rolled, union, unrolled
from exporters.views.values import Arc, EllipseArc, Line, Polyline
from tests.exporters.chains import points_of

SPANS = st.lists(
    st.tuples(st.integers(0, 60), st.integers(1, 20)).map(lambda pair: (pair[0], sum(pair))),
    max_size=8,
)
RADII = st.floats(1.0, 200.0)
ANGLES = st.floats(-math.pi, math.pi)
SWEEPS = st.floats(0.3, 2 * math.pi - 0.1)


def cells(spans: list[tuple[float, float]]) -> set[int]:
    """The whole steps that spans of whole numbers cover."""
    return {cell for low, high in spans for cell in range(round(low), round(high))}


@given(SPANS, SPANS)
def test_unions_and_differences_agree_with_counting_cells(
    first: list[tuple[float, float]], second: list[tuple[float, float]]
) -> None:
    one, other = union(first, 1e-9), union(second, 1e-9)
    assert cells(one) == cells(first)
    assert all(a[1] < b[0] for a, b in pairwise(one))
    assert cells(difference(one, other, 1e-9)) == cells(first) - cells(second)


@given(st.floats(-720.0, 720.0), st.floats(1.0, 359.0))
def test_a_span_round_a_circle_comes_back_whole(start: float, sweep: float) -> None:
    pieces = union(unrolled((start, start + sweep), 360.0), 1e-9)
    (whole,) = rolled(pieces, 360.0, 1e-9)
    assert whole[1] - whole[0] == pytest.approx(sweep)
    assert whole[0] == pytest.approx(start % 360.0, abs=1e-9)


@given(RADII, ANGLES, SWEEPS, st.booleans())
def test_points_of_a_circle_give_the_circle_back(
    radius: float, start: float, sweep: float, is_backward: bool
) -> None:
    angles = [start + sweep * step / 14 for step in range(15)]
    points = [(3.0 + radius * math.cos(a), -7.0 + radius * math.sin(a)) for a in angles]
    (arc,) = fitted(points[::-1] if is_backward else points)
    assert isinstance(arc, Arc)
    assert (arc.radius, *arc.centre) == pytest.approx((radius, 3.0, -7.0), rel=1e-6, abs=1e-6)
    assert arc.end_deg - arc.start_deg == pytest.approx(math.degrees(sweep), rel=1e-6)
    assert math.cos(math.radians(arc.start_deg)) == pytest.approx(math.cos(start), abs=1e-6)


@given(st.floats(20.0, 200.0), st.floats(0.2, 0.9), ANGLES, ANGLES, st.floats(1.2, 6.0))
def test_points_of_an_ellipse_give_a_curve_through_them_all(
    major: float, ratio: float, turn: float, start: float, sweep: float
) -> None:
    axis = (major * math.cos(turn), major * math.sin(turn))
    steps = [start + sweep * step / 14 for step in range(15)]
    points = [
        (
            5.0 + axis[0] * math.cos(t) - axis[1] * ratio * math.sin(t),
            6.0 + axis[1] * math.cos(t) + axis[0] * ratio * math.sin(t),
        )
        for t in steps
    ]
    (shape,) = fitted(points)
    assert isinstance(shape, EllipseArc)
    chain = points_of(shape, 1e-4)
    for end in (points[0], points[-1]):
        assert min(math.dist(end, chain[0]), math.dist(end, chain[-1])) < 2e-3


def test_points_on_a_line_there_and_back_give_one_line() -> None:
    there_and_back = [(math.cos(t), 2.0 * math.cos(t)) for t in (0.0, 1.0, 2.0, 3.14159265, 4.0)]
    (line,) = fitted(there_and_back)
    assert isinstance(line, Line)
    ends = sorted((line.start, line.end))
    assert ends == [pytest.approx((-1.0, -2.0), abs=1e-6), pytest.approx((1.0, 2.0), abs=1e-6)]


def test_a_curve_that_is_no_conic_stays_a_chain_of_its_points() -> None:
    points = [(x, math.sin(x)) for x in range(12)]
    assert fitted(points) == [Polyline(points=tuple(points))]


@given(RADII, st.floats(0.1, 1.0), ANGLES, ANGLES, SWEEPS)
def test_bounds_hold_every_point_and_touch_some(
    major: float, ratio: float, turn: float, start: float, sweep: float
) -> None:
    axis = (major * math.cos(turn), major * math.sin(turn))
    ellipse = EllipseArc(centre=(1.0, 2.0), major=axis, ratio=ratio, start=start, end=start + sweep)
    circle = Arc(
        centre=(1.0, 2.0),
        radius=major,
        start_deg=math.degrees(start),
        end_deg=math.degrees(start + sweep),
    )
    for shape in (ellipse, circle):
        low, high = bounds_of([shape])
        chain = points_of(shape, 1e-5 * major)
        for axis_index in (0, 1):
            values = [point[axis_index] for point in chain]
            assert min(values) == pytest.approx(low[axis_index], abs=1e-4 * major)
            assert max(values) == pytest.approx(high[axis_index], abs=1e-4 * major)
            assert min(values) >= low[axis_index] - 1e-9 * major
            assert max(values) <= high[axis_index] + 1e-9 * major


def test_nothing_has_no_bounds() -> None:
    with pytest.raises(ValueError, match="no shapes"):
        bounds_of([])
