"""A finding: what was checked, against what, with which result, and what to change."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from furniture.checks.advice import Remedy
from furniture.checks.advice import Sense as Sense
from furniture.units import Amounts

Show = Amounts
"""Puts lengths and other amounts into the words of the piece's unit."""


class Verdict(Enum):
    """What a finding says of the design."""

    OK = "ok"
    CAUTION = "caution"
    FAIL = "fail"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One checked quantity.

    A value or a limit that does not exist is None, with the reason in `basis`; neither is ever
    infinite or not a number. `advice` says what to change and by how much, or is empty; `remedies`
    are the changes in it that have an amount.
    """

    check: str
    subject: str
    value: float | None
    limit: float | None
    sense: Sense | None
    unit: str
    verdict: Verdict
    basis: str
    advice: str
    remedies: tuple[Remedy, ...] = ()

    def __post_init__(self) -> None:
        for figure in (self.value, self.limit):
            if figure is not None and not math.isfinite(figure):
                raise ValueError(f"{self.check} of {self.subject}: {figure} is not a number")


def without_figure(
    check: str, verdict: Verdict, basis: str, *, subject: str = "the piece", advice: str = ""
) -> Finding:
    """A finding that is true or not, or worth knowing, with nothing measured against a limit.

    Args:
        check: what was checked
        verdict: what came of it
        basis: why
        subject: what it speaks of; the whole piece when left out
        advice: what to change, or to know
    """
    return Finding(
        check=check,
        subject=subject,
        value=None,
        limit=None,
        sense=None,
        unit="",
        verdict=verdict,
        basis=basis,
        advice=advice,
    )


def verdict_of(value: float, limit: float, sense: Sense, otherwise: Verdict) -> Verdict:
    """OK when the value is on the right side of the limit, else the stated verdict.

    Args:
        value: what was found [the check's unit]
        limit: what is asked [the same unit]
        sense: the side on which the value should lie; equal is right, to rounding of one in 1e9
        otherwise: the verdict on the wrong side

    **Source:** own rule: a limit that is met exactly is met.
    """
    slack = 1e-9 * max(1.0, abs(limit))
    right = value >= limit - slack if sense is Sense.AT_LEAST else value <= limit + slack
    return Verdict.OK if right else otherwise


def graded(value: float, limit: float, fails_at: float | None, sense: Sense) -> Verdict:
    """OK on the right side of the limit, a caution beyond it, a failure at or beyond `fails_at`.

    Args:
        value: what was found [the check's unit]
        limit: what is asked [the same unit]
        fails_at: where something gives way, falls or is gone [the same unit]; None where the check
            only cautions
        sense: the side on which the value should lie

    **Source:** own rule: the table of grades says for each check where it fails, and why.
    """
    if verdict_of(value, limit, sense, Verdict.CAUTION) is Verdict.OK:
        return Verdict.OK
    if fails_at is None:
        return Verdict.CAUTION
    gone = value <= fails_at if sense is Sense.AT_LEAST else value >= fails_at
    return Verdict.FAIL if gone else Verdict.CAUTION


def worst_verdict(findings: tuple[Finding, ...]) -> Verdict:
    """The worst verdict among findings; OK when there are none.

    Args:
        findings: any findings, in any order
    """
    order = (Verdict.OK, Verdict.CAUTION, Verdict.FAIL)
    return max((finding.verdict for finding in findings), key=order.index, default=Verdict.OK)
