"""What is nearly a figure: read where only one thing can be meant, or else refused."""

from __future__ import annotations

import time

import numpy as np
import pytest

from furniture.units import ReadingError, quantity, read_length, read_mass
from furniture.units.reading import read_angle, read_percent

READERS = {
    "length": read_length, "mass": read_mass, "angle": read_angle, "percent": read_percent,
}  # fmt: skip

MEANT = [
    ("5 in.", 127.0),
    ("1 ft. 3 in.", 381.0),
    ("1⁄2 in", 12.7),  # U+2044, as word processors write it
    ("1∕2 in", 12.7),
    ("1／2 in", 12.7),
    ("2½ in", 63.5),
    ("10 ¾″", 273.05),
    ("2′ 3″", 685.8),
    ("5\u00a0mm", 5.0),
    ("5\u202fmm", 5.0),
    ("\u22123 mm", -3.0),
    ("5 Inches", 127.0),
    ("25 µm", 0.025),
    ("25 μm", 0.025),
    ("4 thou", 0.1016),
    ("+3 mm", 3.0),
]


@pytest.mark.parametrize(("text", "mm"), MEANT)
def test_letters_that_look_alike_are_read_as_what_they_stand_for(text, mm):
    assert read_length(text) == pytest.approx(mm, abs=1e-12)


NO_LENGTH = [
    "5 mm)", "5 (mm", "5 #mm", "5 mm#x", "5 mm?", "5 !mm", "5 $mm", "5 =mm", "5\0mm", "5 mm\x1f",
    "5 mm..", "5² mm", "² mm", "① mm", "5½4 in", "3/½ in", "⅟ in", "٥ mm", "5 pc", "5 Mm", "5 km",
    "5 ly", "5 mm**2", "5 mm*mm", "5 mm mm", "5 mm, 6 mm", "3 in 1 ft", "10 - 1/4 in", "5 kg mm",
    "1e400 mm", "1e-400 mm", "1e9999999 mm", "1" * 400 + " mm", "1" * 5000, "0x10 mm", "1_000 mm",
    "mm", "5 5", "--5 mm", "5--1/2 in", "1/0 mm", "1,2,3 mm", "\ud800 mm", "5 \u200bmm", "5 m m",
    10**400, 10**5000, 1e300, float("-inf"), np.float64(5.0), np.int64(5), np.array([1.0, 2.0]),
    np.array(5.0), quantity(np.array([1.0, 2.0]), "mm"), quantity(np.array(5.0), "mm"),
    quantity(10**400, "mm"), quantity("5", "mm"), quantity(5, "kelvin"), object(), [1], {}, b"5 mm",
]  # fmt: skip


@pytest.mark.parametrize("given", NO_LENGTH, ids=range(len(NO_LENGTH)))
@pytest.mark.parametrize("reader", READERS)
def test_what_could_be_misread_is_refused_at_once(reader, given):
    begun = time.perf_counter()
    with pytest.raises(ReadingError) as caught:
        READERS[reader](given)
    assert time.perf_counter() - begun < 1.0
    assert caught.value.why
    assert caught.value.remedy


@pytest.mark.parametrize(
    ("given", "remedy"),
    [
        ("5 mm)", "write '5 mm'"),
        ("5 #mm", "write '5 mm'"),
        ("5 MM", "write '5 mm'"),
        ("5 milimeters", "write '5 millimeters'"),
        ("5 pc", "write '5 mm' if you mean it, or use mm, cm, m, in or ft"),
    ],
)
def test_the_remedy_is_the_figure_that_was_meant(given, remedy):
    with pytest.raises(ReadingError) as caught:
        read_length(given)
    assert caught.value.remedy == remedy


@pytest.mark.parametrize(
    ("reader", "text", "value"),
    [
        ("mass", "1 lb 4 oz", 0.45359237 * 1.25),  # by hand: 4 oz are a quarter of a pound
        ("mass", "1.5 Kilograms", 1.5),
        ("angle", "45°", 45.0),
        ("angle", "100 gon", 90.0),
        ("percent", "8 per cent", 8.0),
        ("percent", "8.5\u00a0%", 8.5),
    ],
)
def test_other_figures_are_written_the_same_way(reader, text, value):
    assert READERS[reader](text) == pytest.approx(value, abs=1e-9)
