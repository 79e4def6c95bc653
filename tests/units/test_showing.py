"""Text is made in one place; inch fractions against examples worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.units import (
    decimal_figure,
    decimal_inches,
    figure,
    figure_with_unit,
    inches,
    millimetres,
    read_length,
    shown_value_mm,
)

FRACTIONS = [  # worked by hand: mm / 25.4 as the nearest 64th, in lowest terms
    (82.55, 64, "3 1/4"),
    (6.35, 64, "1/4"),
    (25.4, 64, "1"),
    (0.0, 64, "0"),
    (25.4 * 47 / 64, 64, "47/64"),
    (25.4 * (2 + 62 / 64), 64, "2 31/32"),
    (25.4 * (1 - 1 / 256), 64, "1"),
    (-6.35, 64, "-1/4"),
]


@pytest.mark.parametrize(("mm", "denominator", "text"), FRACTIONS)
def test_fractions_are_in_lowest_terms(mm, denominator, text):
    assert figure(mm, inches(denominator)) == text


def test_a_figure_rounded_beyond_its_tolerance_is_marked():
    # 19.7 mm is 0.77559 in; the nearest 64th, 25/32, is 19.844 mm: 0.144 mm off.
    assert figure(19.7, inches(64, tolerance=0.1)) == "~25/32"
    assert figure(19.7, inches(64, tolerance=0.15)) == "25/32"
    assert figure(10.43, millimetres(0.1)) == "10.4"
    assert figure(10.43, millimetres(0.1, tolerance=0.02)) == "~10.4"


def test_millimetres_drop_idle_zeros_and_units_are_named():
    assert figure_with_unit(10.0, millimetres()) == "10 mm"
    assert figure_with_unit(9.84, millimetres()) == "9.8 mm"
    assert figure_with_unit(9.95, millimetres(0.5)) == "10 mm"
    assert figure_with_unit(9.75, millimetres(0.5)) == "~10 mm"
    assert figure_with_unit(82.55, inches()) == "3 1/4 in"


def test_decimal_inches_keep_their_places():
    assert figure(25.4 * 2.7408, decimal_inches(3)) == "2.741"
    assert figure(25.4, decimal_inches(3)) == "1.000"
    assert decimal_figure(19.7, inches()) == "0.776"
    assert decimal_figure(10.38, millimetres()) == "10.38"


@given(st.floats(0.0, 3000.0), st.sampled_from([2, 4, 8, 16, 32, 64, 128]))
def test_what_is_shown_is_never_off_by_more_than_half_a_step(mm, denominator):
    shown = inches(denominator, tolerance=100.0)
    text = figure(mm, shown)
    back = sum(Fraction(word) for word in text.split()) * Fraction(254, 10)
    assert abs(float(back) - mm) <= 25.4 / denominator / 2 + 1e-9
    assert shown_value_mm(mm, shown) == pytest.approx(float(back), abs=1e-9)


@given(st.floats(0.0, 3000.0))
def test_shown_text_can_be_typed_back(mm):
    shown = inches(64, tolerance=100.0)
    again = read_length(figure_with_unit(mm, shown))
    assert again == pytest.approx(shown_value_mm(mm, shown), abs=1e-6)


@pytest.mark.parametrize(("make", "bad"), [(millimetres, 0.3), (inches, 10), (decimal_inches, 9)])
def test_steps_that_no_rule_carries_are_refused(make, bad):
    with pytest.raises(ValueError, match="choose"):
        make(bad)
