"""Findings: figures are real numbers, and the check's row decides the verdict."""

from __future__ import annotations

import math

import pytest

from furniture.checks.check import NO_LIMITS, Check, Level, Limits
from furniture.checks.finding import Finding, Sense, Verdict, not_checked

ROW = Check(
    name="a check",
    unit="mm",
    sense=Sense.AT_LEAST,
    fails=Level(when="it is gone", at=1.0),
    cautions=Level(when="little is left"),
    notes=Level(when="less than usual", at=9.0),
)
NEVER_FAILS = Check(name="a mild check", sense=Sense.AT_MOST, cautions=Level(when="too much"))


def _finding(
    value: float | None, stated: Verdict | None = None, check: Check = ROW,
    limits: Limits = NO_LIMITS,
) -> Finding:  # fmt: skip
    return Finding(
        check=check, subject="a thing", value=value, limits=limits, stated=stated, basis="why"
    )


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_a_number_is_refused(value: float) -> None:
    with pytest.raises(ValueError, match="not a number"):
        _finding(value)
    with pytest.raises(ValueError, match="not a number"):
        _finding(5.0, limits=Limits(cautions=value))


def test_what_does_not_exist_is_none_and_states_its_verdict() -> None:
    assert _finding(None, Verdict.OK).value is None
    with pytest.raises(ValueError, match="no verdict"):
        _finding(None)


@pytest.mark.parametrize(
    ("value", "expected", "asked"),
    [
        (12.0, Verdict.OK, 9.0),
        (9.0, Verdict.OK, 9.0),
        (8.9, Verdict.NOTE, 9.0),
        (5.0, Verdict.NOTE, 9.0),
        (5.0 - 1e-12, Verdict.NOTE, 9.0),
        (4.9, Verdict.CAUTION, 5.0),
        (1.1, Verdict.CAUTION, 5.0),
        (1.0, Verdict.FAIL, 5.0),
        (-3.0, Verdict.FAIL, 5.0),
    ],
)
def test_the_row_decides(value: float, expected: Verdict, asked: float) -> None:
    found = _finding(value, limits=ROW.limits(cautions=5.0))
    assert found.verdict is expected
    assert found.limit == asked
    assert (found.sense, found.unit) == (Sense.AT_LEAST, "mm")


def test_a_row_takes_no_level_that_it_does_not_have_and_none_that_it_fixes() -> None:
    with pytest.raises(ValueError, match="no such level"):
        NEVER_FAILS.limits(fails=3.0)
    with pytest.raises(ValueError, match="never comes to fail"):
        _finding(9.0, check=NEVER_FAILS, limits=Limits(fails=3.0))
    with pytest.raises(ValueError, match="never comes to fail"):
        _finding(9.0, Verdict.FAIL, check=NEVER_FAILS)
    with pytest.raises(ValueError, match="figure of its own"):
        ROW.limits(fails=3.0)


def test_without_a_sense_nothing_is_judged() -> None:
    told = Check(name="told", notes=Level(when="never"))
    assert _finding(9.0, check=told, limits=told.limits(notes=3.0)).verdict is Verdict.OK


def test_a_bound_warns_and_cannot_condemn() -> None:
    gone = _finding(0.0, limits=ROW.limits(cautions=5.0))
    assert gone.at_most(Verdict.CAUTION).verdict is Verdict.CAUTION
    assert gone.at_most(Verdict.NOTE).verdict is Verdict.NOTE
    fine = _finding(20.0, limits=ROW.limits(cautions=5.0))
    assert fine.at_most(Verdict.NOTE) is fine


def test_what_was_not_looked_at_is_a_caution_without_a_value() -> None:
    found = not_checked(ROW, "tread", "its hold in left side is not stated", advice="state it")
    assert (found.verdict, found.value, found.limit) == (Verdict.CAUTION, None, None)
    assert found.basis.startswith("not checked: ")
