"""Small helpers for the rules of a builder: limits that hang on figures which may not be known."""

from __future__ import annotations

import math
from collections.abc import Callable

from furniture.parts.part import slug_of
from furniture.rules import USUAL_RULES, read_rules
from furniture.units import Reader, Shown, said


class DesignReader(Reader):
    """A reader that goes by the shop's own limits while it reads a design."""

    def __init__(self, shown: Shown | None = None) -> None:
        super().__init__(shown)
        self.rules = USUAL_RULES


DEVICES = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))]
)
"""Names that no file may have, whatever its ending, on one wide-spread system (from memory)."""


def at_least_known(limit: float, otherwise: float = 0.0) -> float:
    """A lower limit worked out from other figures [mm], never below `otherwise` [mm].

    When one of those figures could not be read, `otherwise` is the limit.
    """
    return otherwise if math.isnan(limit) else max(limit, otherwise)


def at_most_known(limit: float) -> float:
    """An upper limit worked out from other figures; none when one of those could not be read."""
    return math.inf if math.isnan(limit) else limit


def is_room(
    reader: DesignReader,
    parameter: str,
    value: float,
    least: float,
    why: str,
    remedy: Callable[[str], str],
) -> bool:
    """Whether another figure leaves room at all; when not, that figure is the one refused.

    Args:
        reader: keeps the problems.
        parameter: the figure that leaves no room.
        value: as it is [mm].
        least: what it would have to be [mm].
        why: the reason.
        remedy: says the change, given the least allowed length as text.
    """
    if math.isnan(value) or math.isnan(least) or value >= least - 1e-6:
        return True
    reader.need(parameter, value, least, why, remedy)
    return False


def read_name(reader: DesignReader, name: object) -> str:
    """The piece's name; one that no file can be called by is noted."""
    if isinstance(name, str) and slug_of(name) in DEVICES:
        reader.refuse(
            "name", said(name), "a name that no computer keeps for a device",
            "files are called by it, and some computers cannot open one of this name",
            f"write '{name} piece'",
        )  # fmt: skip
    if isinstance(name, str) and slug_of(name):
        return reader.text("name", name) or "piece"
    reader.refuse(
        "name", said(name), "text with a letter or a figure", "files and sheets are called by it",
        "write 'stepped stand'",
    )  # fmt: skip
    return "piece"


def reader_of(shown: object, rules: object) -> DesignReader:
    """A reader that shows lengths as the piece does and goes by the shop's own limits.

    Args:
        shown: the piece's unit; what is none is noted.
        rules: a `ShopRules`, or nothing for the usual ones; what is wrong with them is noted.
    """
    reader = DesignReader(shown if isinstance(shown, Shown) else None)
    if not isinstance(shown, Shown):
        reader.refuse(
            "shown", said(shown), "millimetres(), inches(64) or decimal_inches()",
            "every figure of the packet is shown in it", "write millimetres()",
        )  # fmt: skip
    reader.rules = read_rules(reader, rules)
    return reader
