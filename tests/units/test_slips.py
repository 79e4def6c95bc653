"""Slips of the pen in a figure or a word: the answer says what was meant, and is taken."""

from __future__ import annotations

import re

import pytest

from furniture import DesignError, Problem
from furniture.units import inches, nearest_word, read_length
from furniture.units.reader import Reader
from furniture.units.reading import ReadingError, read_mass, read_percent

SLIPS = [
    ("12,5 in", "12.5 in", 317.5),
    ("30,5 cm", "30.5 cm", 305.0),
    ("0,25 in", "0.25 in", 6.35),
    ("12,5", "12.5 mm", 12.5),
    ("1,250 mm", "1.250 mm", 1.25),
    ("31 1/ in", "31 1/2 in", 800.1),
    ("31 1/", "31 1/2 mm", 31.5),
    ("3/ in", "3/4 in", 19.05),
]


@pytest.mark.parametrize(("given", "meant", "mm"), SLIPS)
def test_the_remedy_of_a_slip_is_read(given: str, meant: str, mm: float) -> None:
    """The first figure in quotes is what was meant, and can be read."""
    with pytest.raises(ReadingError) as caught:
        read_length(given)
    found = re.findall(r"'([^']*)'", caught.value.remedy)
    assert found[0] == meant
    assert read_length(found[0]) == pytest.approx(mm)


def test_thousands_are_offered_too() -> None:
    """`1,250 mm` may be either; both are said."""
    assert "'1.250 mm', or '1250 mm' if" in _remedy("1,250 mm")


def _remedy(given: str) -> str:
    with pytest.raises(ReadingError) as caught:
        read_length(given)
    return caught.value.remedy


def test_a_mass_with_a_comma() -> None:
    """`1,1 kg` is answered with `1.1 kg`."""
    with pytest.raises(ReadingError) as caught:
        read_mass("1,1 kg")
    assert caught.value.remedy == "write '1.1 kg'"


def test_a_comma_is_not_all_that_is_wrong() -> None:
    """`12,5 in in` is not answered with `12.5 in in`, which is no length either."""
    assert "'12.5 in in'" not in _remedy("12,5 in in")


@pytest.mark.parametrize(("given", "meant"), [("8", "8 %"), ("8,5 %", "8.5 %"), (" 8,5", "8.5 %")])
def test_a_share_without_its_sign(given: str, meant: str) -> None:
    """The moisture that was meant is told, and is read."""
    with pytest.raises(ReadingError) as caught:
        read_percent(given)
    assert caught.value.remedy == f"write '{meant}'"
    assert read_percent(meant) > 0


def test_a_comma_between_feet_and_inches_is_no_slip() -> None:
    """`1 ft, 3 in` is read."""
    assert read_length("1 ft, 3 in") == pytest.approx(381.0)


@pytest.mark.parametrize(
    ("given", "words", "meant"),
    [
        ("teirs", ["rails", "tiers", "front rail"], "tiers"),
        ("weight", ["on", "mass", "footprint"], "mass"),
        ("knott", ["board", "width", "knot"], "knot"),
        ("bord", ["board", "width", "knot"], "board"),
        ("xyzzy", ["board", "width"], None),
    ],
)
def test_the_word_that_was_meant(given: str, words: list[str], meant: str | None) -> None:
    """The nearest in letters, the one that says the same, or none."""
    assert nearest_word(given, words) == meant


@pytest.mark.parametrize(
    ("low", "high"), [(80.0, 1200.0), (31.0, 31.2), (2.0, 3.67), (0.0, 400.0), (5.0, 1e9)]
)
def test_what_is_missing_is_answered_with_a_length_that_is_allowed(low: float, high: float) -> None:
    """The example in the remedy lies in the range, in the piece's unit."""
    for shown in (None, inches(32)):
        reader = Reader(shown)
        reader.length("size", None, at_least=low, at_most=high, why="so")
        (problem,) = reader.problems
        (example,) = re.findall(r"'([^']*)'", problem.remedy)
        assert low - 1e-6 <= read_length(example) <= high + 1e-6
        assert shown is None or " mm" not in str(problem)


def test_one_problem_of_many_parameters_is_told_once() -> None:
    """Eight splines with one wrong figure are one problem that names them all."""
    problems = [
        Problem(parameter=f"p{number}", given="3", allowed="4", why="so", remedy="make it 4")
        for number in range(8)
    ]
    text = str(DesignError(problems))
    assert "1 problem to mend, then run again\n" in text
    assert text.count("make it 4") == 1
    assert all(f"p{number}" in text for number in range(8))
    assert len(DesignError(problems).problems) == 8


def test_a_long_list_stands_once() -> None:
    """Two misspelt names in one design do not print all its parameters twice."""
    words = ", ".join(f"parameter_{number}" for number in range(20))
    problems = [
        Problem(parameter=name, given="a value", allowed=words, why="so", remedy=f"write {name}s")
        for name in ("one", "two")
    ]
    text = str(DesignError(problems))
    assert text.count("parameter_19") == 1
    assert "allowed the same as for one" in text
