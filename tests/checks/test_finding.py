"""Findings: figures are real numbers, and a verdict follows its limit."""

from __future__ import annotations

import math

import pytest

from furniture.checks.finding import Finding, Sense, Verdict, verdict_of, worst_verdict


def _finding(value: float | None, verdict: Verdict = Verdict.OK) -> Finding:
    return Finding(
        check="a check",
        subject="a thing",
        value=value,
        limit=None,
        sense=None,
        unit="mm",
        verdict=verdict,
        basis="why",
        advice="",
    )


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_a_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="not a number"):
        _finding(value)


def test_what_does_not_exist_is_none() -> None:
    assert _finding(None).value is None


@pytest.mark.parametrize(
    ("value", "sense", "expected"),
    [
        (9.9, Sense.AT_LEAST, Verdict.FAIL),
        (10.0, Sense.AT_LEAST, Verdict.OK),
        (10.1, Sense.AT_MOST, Verdict.FAIL),
        (10.0, Sense.AT_MOST, Verdict.OK),
        (10.0 + 1e-12, Sense.AT_MOST, Verdict.OK),
    ],
)
def test_verdict_follows_the_limit(value: float, sense: Sense, expected: Verdict) -> None:
    assert verdict_of(value, 10.0, sense, Verdict.FAIL) is expected


def test_worst_of_many() -> None:
    assert worst_verdict(()) is Verdict.OK
    mixed = (_finding(1.0), _finding(1.0, Verdict.FAIL), _finding(1.0, Verdict.CAUTION))
    assert worst_verdict(mixed) is Verdict.FAIL
