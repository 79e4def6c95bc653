"""Whole-number boards, items and answers of the classical problems."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum


class BoundFrom(Enum):
    """Where a bound comes from."""

    EXACT = "exact dynamic programme"
    AREA = "area"
    SCALES = "conservative scales"
    PRICES = "part prices"
    SEARCH = "search exhausted"
    NOTHING = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A rectangle that no item may overlap; cuts may run through it."""

    x: int
    y: int
    length: int
    width: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One board."""

    length: int
    width: int
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A size wanted up to `quantity` times (None: any number), each worth `value`."""

    length: int
    width: int
    quantity: int | None
    value: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Laying:
    """One item on a board."""

    item: int
    x: int
    y: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """Layings board by board, their value (or number of boards), and the best bound known."""

    boards: tuple[tuple[Laying, ...], ...]
    value: int
    bound: int
    bound_from: BoundFrom

    @property
    def is_proven(self) -> bool:
        """Whether the bound meets the value."""
        return self.value == self.bound


Report = Callable[[int, int, float], bool]
"""Told (value, bound, seconds); False stops the search."""
