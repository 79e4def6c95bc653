"""Limits as text: a reader who writes what he is told is within them."""

from __future__ import annotations

import math

from hypothesis import given
from hypothesis import strategies as st

from furniture.units import Shown, decimal_inches, inches, millimetres, read_length
from furniture.units.limits import (
    at_most_text,
    limits_as_text,
    nearest_as_text,
    outside_as_text,
    range_as_text,
)
from furniture.units.reader import Reader

UNITS = st.sampled_from(
    [
        *(millimetres(step) for step in (1.0, 0.5, 0.1, 0.05, 0.01)),
        *(inches(each) for each in (2, 8, 16, 32, 64, 128)),
        *(decimal_inches(each) for each in (1, 2, 3, 4)),
    ]
)
LENGTHS = st.floats(-50.0, 1500.0)
WIDTHS = st.one_of(st.just(0.0), st.floats(0.0, 2.0), st.floats(2.0, 500.0))
SLACK = 2e-6


@given(LENGTHS, WIDTHS, UNITS)
def test_the_texts_of_both_limits_lie_within_them(low: float, width: float, shown: Shown) -> None:
    """Read back, each text is allowed."""
    high = low + width
    for text in limits_as_text(low, high, shown):
        assert low - SLACK <= read_length(text) <= high + SLACK


@given(LENGTHS, UNITS)
def test_one_limit_is_rounded_to_its_own_side(limit: float, shown: Shown) -> None:
    """A lower limit alone is rounded up by less than a step, an upper one down."""
    low, none = limits_as_text(limit, math.inf, shown)
    assert not none
    assert -SLACK <= read_length(low) - limit <= shown.step_mm + SLACK
    high = at_most_text(limit, shown)
    assert -SLACK <= limit - read_length(high) <= shown.step_mm + SLACK


@given(LENGTHS, WIDTHS, st.floats(1e-3, 300.0), st.booleans(), UNITS)
def test_a_refusal_takes_its_own_remedy(
    low: float, width: float, beyond: float, is_over: bool, shown: Shown
) -> None:
    """The reader refuses a length, and takes the one that the refusal states."""
    high = low + width
    value = high + beyond if is_over else low - beyond
    reader = Reader(shown)
    assert math.isnan(reader.limit("size", value, at_least=low, at_most=high, why="so"))
    (problem,) = reader.problems
    text = problem.remedy.removeprefix("make it ")
    again = Reader(shown)
    again.length("size", text, at_least=low - SLACK, at_most=high + SLACK, why="so")
    assert not again.problems
    assert "~" not in str(problem)


@given(LENGTHS, WIDTHS, st.floats(1e-2, 300.0), UNITS)
def test_a_refused_length_does_not_read_as_allowed(
    low: float, width: float, beyond: float, shown: Shown
) -> None:
    """`given 14.3 mm; allowed at most 14.3 mm` tells nobody anything."""
    value = low + width + beyond
    assert read_length(outside_as_text(value, low, low + width, shown)) > low + width


def test_the_spline_s_depth() -> None:
    """3.6719 mm is not 3.672 mm."""
    tenths = millimetres()
    assert range_as_text(2.0, 3.6719, tenths) == "2 mm to 3.6 mm"
    assert nearest_as_text(5.0, 2.0, 3.6719, tenths) == "3.6 mm"
    assert range_as_text(2.0, 3.6719, inches(32)) == "3/32 in to 9/64 in"


def test_a_narrow_range_is_told_finely() -> None:
    """A range narrower than the piece's step is told in finer figures of the same unit."""
    assert range_as_text(0.0, 0.5, inches(32)) == "0 in to 1/64 in"
    assert range_as_text(0.1, 0.2, inches(8)) == "0.004 in to 0.007 in"
    assert range_as_text(18.3, 18.3, inches(32)) == "18.3 mm"  # no fraction shows it
