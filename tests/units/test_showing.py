"""Text is made in one place; inch fractions against examples worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture import DesignError
from furniture.units import (
    decimal_figure,
    decimal_inches,
    dialled,
    figure,
    figure_with_unit,
    finished_size,
    inches,
    millimetres,
    read_length,
    shown_value_mm,
)
from furniture.units.showing import without_mark

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
    assert figure(19.7, inches(64, tolerance=0.1)) == "25/32 -"
    assert figure(19.7, inches(64, tolerance=0.15)) == "25/32"
    assert figure(10.43, millimetres(0.1)) == "10.4"
    assert figure(10.43, millimetres(0.1, tolerance=0.02)) == "10.4 +"


def test_millimetres_drop_idle_zeros_and_units_are_named():
    assert figure_with_unit(10.0, millimetres()) == "10 mm"
    assert figure_with_unit(9.84, millimetres()) == "9.8 mm"
    assert figure_with_unit(9.95, millimetres(0.5)) == "10 mm"
    assert figure_with_unit(9.75, millimetres(0.5)) == "10 mm -"
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
    """What it proposes is taken."""
    with pytest.raises(DesignError) as caught:
        make(bad)
    (problem,) = caught.value.problems
    nearest = problem.remedy.removeprefix(f"write {make.__name__}(").removesuffix(")")
    assert make(float(nearest) if "." in nearest else int(nearest))


WAYS = [
    *(millimetres(step) for step in (1.0, 0.5, 0.1, 0.05, 0.01)),
    *(inches(denominator) for denominator in (8, 32, 64, 128)),
    *(decimal_inches(places) for places in (1, 2, 3, 4)),
]
HALF_STEPS = [  # a half goes away from nought, and so does a sum of floats that falls short of it
    (13.55, "13.6"), (13.45, "13.5"), (13.549999, "13.6"), (0.1 + 0.2 - 0.05, "0.3"),
    (13.549, "13.5"), (-13.55, "-13.6"), (-0.04, "0"), (2.25, "2.3"), (2.35, "2.4"),
]  # fmt: skip


@pytest.mark.parametrize(("mm", "text"), HALF_STEPS)
def test_every_half_step_goes_the_same_way(mm, text):
    assert figure(mm, millimetres()) == text


def test_what_is_set_on_a_dial_keeps_its_hundredths():
    assert str(dialled(13.53, millimetres())) == "13.53"
    assert str(dialled(13.5, millimetres())) == "13.5"
    assert str(dialled(7.0, millimetres(1.0))) == "7"
    assert str(dialled(13.535, millimetres())) == "13.54"
    assert str(dialled(19.7, inches(64))) == "25/32 - (0.776)"
    assert str(dialled(12.7, inches(64))) == "1/2"
    assert str(dialled(204.4, inches(64))) == "8 3/64"  # 8.047 in both ways
    assert str(dialled(10.39, inches(64))) == "13/32 (0.409)"
    assert str(dialled(76.2, inches(64))) == "3"
    assert str(dialled(19.7, decimal_inches(2))) == "0.776"
    assert str(dialled(19.7, decimal_inches(4))) == "0.7756"
    assert finished_size((707.53, 110.0, 13.43), millimetres()) == "707.5 x 110 x 13.43"
    assert finished_size((82.55, 25.4, 19.7), inches()) == "3 1/4 x 1 x 25/32 -"


def test_two_shoulders_and_what_lies_between_agree():
    lower, width = dialled(92.944, millimetres()), dialled(13.534, millimetres())
    assert (str(lower), str(width), str(lower + width)) == ("92.94", "13.53", "106.47")
    lower, width = dialled(92.944, inches(64)), dialled(13.534, inches(64))
    assert [*lower.figures, *width.figures] == ["3 21/32", "3.659", "17/32", "0.533"]
    assert (lower + width).figures == ("4 3/16 +", "4.192")


def _numbers(length):
    return [
        sum(Fraction(word) for word in without_mark(text).replace("-", "").split())
        for text in length.figures
    ]


@given(st.floats(0.0, 3000.0), st.floats(0.0, 100.0), st.sampled_from(WAYS))
def test_printed_figures_add_up(first, second, shown):
    """Whatever is printed of a place, a width and the place beyond it adds up as it stands."""
    one, other = dialled(first, shown), dialled(second, shown)
    for made, sign in ((one + other, 1), (one - other, -1)):
        figures = [made.steps, one.steps, other.steps]
        assert all(whole == a + sign * b for whole, a, b in zip(*figures, strict=True))
        assert abs(made.mm - (first + sign * second)) < 1e-9
    if len(one.figures) == len(other.figures) == len((one + other).figures):
        sums = [a + b for a, b in zip(_numbers(one), _numbers(other), strict=True)]
        assert _numbers(one + other) == sums


@given(st.floats(0.0, 3000.0), st.sampled_from(WAYS))
def test_rounding_is_near_odd_and_settled(mm, shown):
    """Within half a step; the same both sides of nought; what is shown is shown as itself."""
    step, back = shown.step_mm, shown_value_mm(mm, shown)
    assert abs(back - mm) <= step / 2 + 2e-5
    assert shown_value_mm(-mm, shown) == -back
    assert figure(back, shown) == without_mark(figure(mm, shown))
    assert without_mark(figure(back - 5e-6, shown)) == figure(back, shown)


@given(st.integers(0, 30_000), st.sampled_from(WAYS))
def test_a_half_step_goes_up_however_it_was_summed(steps, shown):
    half = (steps + 0.5) * shown.step_mm
    for mm in (half, half - 1e-9, half + 1e-9, half - 4e-6):
        assert shown_value_mm(mm, shown) == pytest.approx((steps + 1) * shown.step_mm)


@given(st.floats(0.0, 500.0), st.floats(0.0, 500.0), st.sampled_from(WAYS))
def test_a_longer_length_is_never_shown_shorter(first, second, shown):
    low, high = sorted((first, second))
    assert shown_value_mm(low, shown) <= shown_value_mm(high, shown)
    pairs = zip(dialled(low, shown).steps, dialled(high, shown).steps, strict=True)
    assert all(a <= b for a, b in pairs)
