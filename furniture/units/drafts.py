"""Problems whose lengths wait for the piece's unit: what joints and cuts find."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass

from furniture.errors import Problem
from furniture.units.amounts import Amounts
from furniture.units.limits import (
    at_least_text,
    nearest_as_text,
    outside_as_text,
    range_as_text,
)
from furniture.units.showing import Shown

_SLACK_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Length:
    """A length in a sentence [mm]."""

    mm: float

    def told(self, shown: Shown) -> str:
        """As text in the piece's unit."""
        return Amounts(shown=shown)(self.mm)


@dataclass(frozen=True, slots=True)
class Least(Length):
    """A least length in a sentence [mm], rounded up."""

    def told(self, shown: Shown) -> str:
        """As text in the piece's unit."""
        return at_least_text(self.mm, shown)


Words = str | tuple[str | Length, ...]
"""A sentence, with its lengths left open."""


def told(words: Words, shown: Shown) -> str:
    """The sentence in the piece's unit."""
    if isinstance(words, str):
        return words
    return "".join(each if isinstance(each, str) else each.told(shown) for each in words)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft(ABC):
    """A problem before it is told."""

    parameter: str
    why: Words

    @abstractmethod
    def told(self, shown: Shown) -> Problem:
        """The problem in the piece's unit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WordedDraft(Draft):
    """A problem in words."""

    given: Words
    allowed: Words
    remedy: Words

    def told(self, shown: Shown) -> Problem:
        """The problem in the piece's unit."""
        return Problem(
            parameter=self.parameter,
            given=told(self.given, shown),
            allowed=told(self.allowed, shown),
            why=told(self.why, shown),
            remedy=told(self.remedy, shown),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeDraft(Draft):
    """A length outside what it may be [mm]; a range that ends before it starts allows nothing."""

    given_mm: float
    low_mm: float
    high_mm: float

    def told(self, shown: Shown) -> Problem:
        """The problem in the piece's unit."""
        low, high = self.low_mm, self.high_mm
        if high < low - _SLACK_MM:
            allowed = "nothing as the parts stand"
            remedy = "move or resize one of the two parts"
        else:
            high = max(low, high)
            allowed = range_as_text(low, high, shown)
            remedy = f"make it {nearest_as_text(self.given_mm, low, high, shown)}"
        given = self.given_mm
        return Problem(
            parameter=self.parameter,
            given="nothing" if given != given else outside_as_text(given, low, high, shown),
            allowed=allowed,
            why=told(self.why, shown),
            remedy=remedy,
        )
