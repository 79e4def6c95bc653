"""A finding: what was checked, against what, with which result, and what to change."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import Enum

from furniture.checks.advice import Remedy
from furniture.checks.advice import Sense as Sense
from furniture.checks.check import NO_LIMITS, Check, Limits
from furniture.checks.check import Kind as Kind
from furniture.checks.check import Verdict as Verdict
from furniture.units import Amounts

Show = Amounts
"""Puts lengths and other amounts into the words of the piece's unit."""

GRAVEST_FIRST = (Verdict.FAIL, Verdict.CAUTION, Verdict.NOTE, Verdict.OK)


class Way(Enum):
    """A way in which a piece goes over."""

    BACKWARD = "backward"
    FORWARD = "forward"
    LEFT = "to the left"
    RIGHT = "to the right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tipping:
    """How a piece would go over: which way, whether with its loads, whether it slides before."""

    ways: tuple[Way, ...]
    is_loaded: bool = False
    slides_first: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One checked quantity, judged by its check's row.

    A value or a limit that does not exist is None, with the reason in `basis`; neither is ever
    infinite or not a number. `limits` are those of this case, and `stated` is the verdict where
    nothing is measured against them. `advice` says what to change and by how much in words fit
    for paper, or is empty; `remedies` are the changes in it that have an amount.
    """

    check: Check
    subject: str
    value: float | None
    limits: Limits = NO_LIMITS
    basis: str
    advice: str = ""
    remedies: tuple[Remedy, ...] = ()
    stated: Verdict | None = None
    tipping: Tipping | None = None

    def __post_init__(self) -> None:
        limits = (self.limits.notes, self.limits.cautions, self.limits.fails)
        for figure in (self.value, *limits):
            if figure is not None and not math.isfinite(figure):
                raise ValueError(f"{self.check.name} of {self.subject}: {figure} is not a number")
        for verdict, figure in zip(
            (Verdict.NOTE, Verdict.CAUTION, Verdict.FAIL), limits, strict=True
        ):
            if figure is not None and not self.check.may_be(verdict):
                raise ValueError(f"{self.check.name} never comes to {verdict.value}")
        if self.value is None and self.stated is None:
            raise ValueError(f"{self.check.name} of {self.subject}: no value and no verdict")
        is_not_checked = self.value is None and self.stated is Verdict.CAUTION
        if self.stated is not None and not (is_not_checked or self.check.may_be(self.stated)):
            raise ValueError(f"{self.check.name} never comes to {self.stated.value}")

    @property
    def verdict(self) -> Verdict:
        """What the check's row says of it."""
        if self.stated is not None:
            return self.stated
        assert self.value is not None, "without a value the verdict is stated"
        return self.check.verdict(self.value, self.limits)

    @property
    def parameters(self) -> tuple[str, ...]:
        """What of a script the advice would change, each once: for a screen, never for paper."""
        names = (name for each in self.remedies for name in each.all_parameters)
        return tuple(dict.fromkeys(names))

    @property
    def is_amiss(self) -> bool:
        """Whether it fails or cautions: a note is not amiss."""
        return self.verdict in (Verdict.CAUTION, Verdict.FAIL)

    @property
    def limit(self) -> float | None:
        """What is asked [the check's unit]: the limit that is missed, or else the strictest."""
        limits = self.limits
        strictest_first = (limits.notes, limits.cautions, limits.fails)
        if self.verdict in (Verdict.CAUTION, Verdict.FAIL):
            strictest_first = (limits.cautions, limits.fails, limits.notes)
        return next((each for each in strictest_first if each is not None), None)

    @property
    def sense(self) -> Sense | None:
        """The side of the limit on which the value should lie; None where nothing is asked."""
        return None if self.limit is None else self.check.sense

    @property
    def unit(self) -> str:
        """The unit of value and limit."""
        return self.check.unit

    def at_most(self, verdict: Verdict) -> Finding:
        """The same, never graver than a verdict: for a bound, which warns and cannot condemn."""
        if GRAVEST_FIRST.index(self.verdict) >= GRAVEST_FIRST.index(verdict):
            return self
        if self.stated is not None:
            return replace(self, stated=verdict)
        limits = self.limits
        cautions = limits.fails if limits.cautions is None else limits.cautions
        if verdict is Verdict.CAUTION:
            return replace(self, limits=replace(limits, cautions=cautions, fails=None))
        notes = cautions if limits.notes is None else limits.notes
        return replace(self, limits=Limits(notes=notes))


def without_figure(
    check: Check, verdict: Verdict, basis: str, *, subject: str = "the piece", advice: str = ""
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
        check=check, subject=subject, value=None, stated=verdict, basis=basis, advice=advice
    )


def not_checked(check: Check, subject: str, path: str, *, advice: str) -> Finding:
    """What a check could not look at, told as a caution so that nobody takes silence for an answer.

    Args:
        check: what should have been checked
        subject: what it speaks of
        path: what is not known, and through which part or joint it matters
        advice: what would settle it
    """
    return without_figure(
        check, Verdict.CAUTION, f"not checked: {path}", subject=subject, advice=advice
    )
