"""What to change, by how much, and within which limits: every figure in an advice is tested here.

An amount is worked out, rounded to a figure that a shop can measure, on the side that is enough,
and offered only where it lies within what the rest of the design allows.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import Enum

from furniture.units import Amounts

_DUST = 1e-6


class Sense(Enum):
    """On which side of the limit a value should lie."""

    AT_LEAST = "at least"
    AT_MOST = "at most"


class Change(Enum):
    """What a remedy changes."""

    BASE = "reach of the base"
    BALLAST = "mass in the box"
    WALL = "hold at the wall"
    LOAD = "mass of the loads"
    INWARD = "tier drawn in"
    THICKNESS = "thickness"
    SPAN = "span"
    BRACKET = "reach of a bracket"
    CLEAT = "thickness of cleats"
    DADO = "depth of a dado"
    SHALLOWER = "depth taken off a cut"
    PLAY = "play of a fit"
    GAP = "gap of a loose part"
    GLUED = "glued length"
    PLACE = "place of a cut"
    BIT = "diameter of a bit"
    WOOD_ABOVE = "wood above a dado"
    SPLINES = "width of a spline"
    KEYS = "number of keys"
    SCREW = "length of screws"
    SLOT = "length of a slot"
    ROUGH = "rough size at the saw"
    SHIM = "thickness of a shim"
    TOGETHER = "two changes together"


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One change that meets a limit, in words, and the figures behind it.

    `amount` is what the words say; it is enough when it lies on the `sense` side of `enough`, and
    the design allows `least` to `most`, all in `unit`. Changes that only help together are `parts`.
    `parameters` are those of the builder that are changed, where some are: the words never name
    them, so that they may stand on paper.
    """

    change: Change
    words: str
    amount: float
    unit: str
    enough: float
    sense: Sense = Sense.AT_LEAST
    least: float = 0.0
    most: float = math.inf
    parts: tuple[Remedy, ...] = ()
    parameters: tuple[str, ...] = ()

    @property
    def all_parameters(self) -> tuple[str, ...]:
        """Its own parameters and those of its parts."""
        return (*self.parameters, *(name for each in self.parts for name in each.all_parameters))

    @property
    def is_enough(self) -> bool:
        """Whether the amount, with its parts, meets what is asked."""
        if self.parts:
            return all(each.is_enough for each in self.parts)
        slack = _DUST * max(1.0, abs(self.enough))
        if self.sense is Sense.AT_LEAST:
            return self.amount >= self.enough - slack
        return self.amount <= self.enough + slack

    @property
    def is_allowed(self) -> bool:
        """Whether the amount, with its parts, lies within what the design allows."""
        if self.parts:
            return all(each.is_allowed for each in self.parts)
        return self.least - _DUST <= self.amount <= self.most + _DUST


def longer(
    change: Change, words: str, enough_mm: float, show: Amounts, most_mm: float
) -> tuple[Remedy, ...]:
    """A length that must grow by so much or reach so far; nothing where the design forbids it.

    Args:
        change: what it changes
        words: with `{}` where the amount stands
        enough_mm: the least that meets what is asked [mm]
        show: puts the amount into the piece's unit, and rounds it up to a shop figure
        most_mm: the most that the design allows [mm]

    **Source:** own rule: rounded to the side that is enough.
    """
    return _allowed(
        change, words, enough_mm, show.up(enough_mm), show, Sense.AT_LEAST, 0.0, most_mm
    )


def shorter(
    change: Change, words: str, enough_mm: float, show: Amounts, least_mm: float
) -> tuple[Remedy, ...]:
    """A length that may be at most so much; nothing where the design needs more.

    Args:
        change: what it changes
        words: with `{}` where the amount stands
        enough_mm: the most that meets what is asked [mm]
        show: puts the amount into the piece's unit, and rounds it down to a shop figure
        least_mm: the least that the design allows [mm]

    **Source:** own rule: rounded to the side that is enough.
    """
    amount = show.down(enough_mm)
    return _allowed(change, words, enough_mm, amount, show, Sense.AT_MOST, least_mm, math.inf)


def lighter(
    words: str, enough_kg: float, show: Amounts, least_kg: float = 0.0
) -> tuple[Remedy, ...]:
    """A mass that may be at most so much; nothing where next to nothing would be left.

    Args:
        words: with `{}` where the amount stands
        enough_kg: the most that meets what is asked [kg]
        show: puts the amount into the piece's unit, and rounds it down to a scale's figure
        least_kg: the least that is worth stating [kg]

    **Source:** own rule: rounded to the side that is enough.
    """
    amount = show.mass_down(enough_kg)
    if amount <= 0.0 or amount < least_kg - _DUST:
        return ()
    return (
        Remedy(
            change=Change.LOAD, words=words.format(show.mass(amount)), amount=amount, unit="kg",
            enough=enough_kg, sense=Sense.AT_MOST, least=least_kg,
        ),
    )  # fmt: skip


def together(first: Remedy, second: Remedy) -> Remedy:
    """Two changes that are enough only together."""
    return Remedy(
        change=Change.TOGETHER, words=f"{first.words} and {second.words}", amount=second.amount,
        unit=second.unit, enough=second.enough, parts=(first, second),
    )  # fmt: skip


def said(remedies: Iterable[Remedy], *otherwise: str) -> str:
    """The remedies in words, and what else would do.

    Args:
        remedies: each of them alone is enough
        otherwise: other ways, without an amount that could be tested
    """
    return ", or ".join([*(each.words for each in remedies), *(each for each in otherwise if each)])


def least_that(
    holds: Callable[[float], bool], low: float, high: float, within: float = 1e-3
) -> float | None:
    """The least figure from which on a condition holds, within a hair; None if not even at `high`.

    Args:
        holds: false up to some figure and true from there on [the figure's unit]
        low: where to begin [the figure's unit]
        high: the most that is allowed [the figure's unit]
        within: how near the answer is, on the side that holds [the figure's unit]

    **Source:** bisection.
    """
    if not high > low or not holds(high):
        return low if high == low and holds(low) else None
    if holds(low):
        return low
    while high - low > within:
        middle = (low + high) / 2.0
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def _allowed(
    change: Change, words: str, enough: float, amount: float, show: Amounts, sense: Sense,
    least: float, most: float,
) -> tuple[Remedy, ...]:  # fmt: skip
    remedy = Remedy(
        change=change, words=words.format(show(amount)), amount=amount, unit="mm", enough=enough,
        sense=sense, least=least, most=most,
    )  # fmt: skip
    return (remedy,) if remedy.is_allowed and remedy.is_enough else ()
