"""The support polygon."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from furniture.checks.support import support_corners, support_edges

numbers = st.floats(-500.0, 500.0).map(lambda value: round(value, 1))
points = st.lists(st.tuples(numbers, numbers), min_size=3, max_size=12, unique=True)


@given(points=points)
def test_hull_is_that_of_an_independent_library(points: list[tuple[float, float]]) -> None:
    # scipy's qhull; slivers are left out, on which the two may differ by a rounding.
    try:
        theirs = ConvexHull(points)
    except Exception:
        assume(False)
    assume(theirs.volume > 1000.0)
    edges = support_edges(points)
    assert sum(math.dist(edge.start_mm, edge.end_mm) for edge in edges) == pytest.approx(
        theirs.area
    )
    for edge in edges:
        assert min(edge.inside_mm(point) for point in points) == pytest.approx(0.0, abs=1e-6)


def test_rectangle_has_four_named_edges() -> None:
    feet = ((0, 0), (300, 0), (300, 180), (0, 180), (150, 90))
    inside = {edge.name: edge.inside_mm((100, 60)) for edge in support_edges(feet)}
    assert inside == {"front": 60.0, "right": 200.0, "back": 120.0, "left": 100.0}
    assert len(support_corners(feet)) == 4


def test_slanting_edge_has_both_names() -> None:
    names = {edge.name for edge in support_edges(((0, 0), (200, 0), (0, 200)))}
    assert names == {"front", "left", "back right"}


@pytest.mark.parametrize("feet", [((0, 0), (10, 10), (20, 20)), ((0, 0), (10, 0)), ((5, 5),)])
def test_a_line_is_nothing_to_stand_on(feet: tuple[tuple[float, float], ...]) -> None:
    with pytest.raises(ValueError, match="one line"):
        support_edges(feet)
