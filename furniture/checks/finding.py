"""A finding: what was checked, against what, with which result, and what to change."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

Show = Callable[[float], str]
"""Puts a length [mm] into the words of the piece's unit."""


class Verdict(Enum):
    """What a finding says of the design."""

    OK = "ok"
    CAUTION = "caution"
    FAIL = "fail"


class Sense(Enum):
    """On which side of the limit a value should lie."""

    AT_LEAST = "at_least"
    AT_MOST = "at_most"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One checked quantity.

    A value or a limit that does not exist is None, with the reason in `basis`; neither is ever
    infinite or not a number. `advice` says what to change and by how much, or is empty.
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

    def __post_init__(self) -> None:
        for figure in (self.value, self.limit):
            if figure is not None and not math.isfinite(figure):
                raise ValueError(f"{self.check} of {self.subject}: {figure} is not a number")


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


def worst_verdict(findings: tuple[Finding, ...]) -> Verdict:
    """The worst verdict among findings; OK when there are none.

    Args:
        findings: any findings, in any order
    """
    order = (Verdict.OK, Verdict.CAUTION, Verdict.FAIL)
    return max((finding.verdict for finding in findings), key=order.index, default=Verdict.OK)
