"""Lengths are read as a maker writes them; pint, another library, says what they are worth."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from furniture.units import ReadingError, quantity, read_length, read_mass
from furniture.units.reading import read_angle, read_percent

PINT = pint.UnitRegistry()

WRITTEN = [
    ("260 mm", 260.0),
    ("26cm", 260.0),
    (".5 in", 12.7),
    ('3/4"', 19.05),
    ("10 1/4 in", 260.35),
    ("10-1/4 in", 260.35),
    ("10¼ in", 260.35),
    ("1 ft 3 1/2 in", 393.7),
    ("2' 3\"", 685.8),
    ("1.5e2 mm", 150.0),
    ("-3 mm", -3.0),
]


@pytest.mark.parametrize(("text", "mm"), WRITTEN)
def test_a_length_is_read_as_written(text, mm):
    assert read_length(text) == pytest.approx(mm, abs=1e-9)


@given(st.integers(0, 400), st.integers(0, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_inch_fractions_agree_with_pint(whole, numerator, denominator):
    expected = PINT.Quantity(whole + Fraction(numerator, denominator), "inch").to("mm").magnitude
    text = f"{whole} {numerator}/{denominator} in"
    assert read_length(text) == pytest.approx(float(expected), abs=1e-9)


@given(
    st.floats(0.001, 1e5, allow_nan=False),
    st.sampled_from(["mm", "cm", "m", "inch", "foot", "yard"]),
)
def test_quantities_agree_with_pint(value, unit):
    expected = PINT.Quantity(value, unit).to("mm").magnitude
    assert read_length(quantity(value, unit)) == pytest.approx(expected, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize(
    "given_value",
    [260, 260.0, "260", "abc", "3 parsnips", "5 kg", float("nan"), float("inf"), "", "1/0 in",
     True, None, "nan mm", "inf mm", "10 mm nonsense", "3 mm / 2", [1], quantity(3, "kg")],
)  # fmt: skip
def test_what_is_not_a_length_is_refused_with_a_way_out(given_value):
    with pytest.raises(ReadingError) as caught:
        read_length(given_value)
    assert "mm" in caught.value.allowed
    assert caught.value.why
    assert caught.value.remedy


def test_a_bare_number_is_shown_how_to_be_written():
    with pytest.raises(ReadingError, match="bare number"):
        read_length(260)
    with pytest.raises(ReadingError) as caught:
        read_length(260)
    assert caught.value.remedy == "write '260 mm' if you mean it"


def test_masses_angles_and_percentages_have_their_units():
    assert read_mass("2 lb") == pytest.approx(0.90718474)  # exact: international pound, 1959
    assert read_mass("450 g") == pytest.approx(0.45)
    assert read_angle("0.5 turn") == pytest.approx(180.0)
    assert read_percent("8 %") == 8.0
    for wrong in (8, "8", "8 mm"):
        with pytest.raises(ReadingError):
            read_percent(wrong)
