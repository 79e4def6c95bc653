"""Prices as text: an amount and perhaps a currency; one currency in a plan."""

from __future__ import annotations

import math
import re

from furniture.units import Reader, said

_PRICE = re.compile(
    r"\s*(?P<before>[^\d\s.+-]*)\s*(?P<amount>\d+(?:\.\d+)?)\s*(?P<after>[^\d]*?)\s*"
)
LOOKS_LIKE = "'48 EUR' or '48'"


class Purse:
    """Reads prices and remembers their currency."""

    def __init__(self, reader: Reader) -> None:
        self._reader = reader
        self._first: tuple[str, str] | None = None

    @property
    def currency(self) -> str:
        """The currency as written; empty when no price names one."""
        return self._first[0] if self._first else ""

    def price(self, parameter: str, given: object) -> float:
        """The amount [money]; 0 when nothing is given, not-a-number with the problem noted.

        Args:
            parameter: its name.
            given: text such as `48 EUR`, or a number.
        """
        if given is None or given == "":
            return 0.0
        text = str(given) if isinstance(given, (int, float, str)) else ""
        match = None if isinstance(given, bool) else _PRICE.fullmatch(text)
        if match is None:
            self._reader.refuse(
                parameter, said(given), LOOKS_LIKE, "an amount is 0 or more, with one currency",
                "write the amount and its currency",
            )  # fmt: skip
            return math.nan
        currency = match["before"] or match["after"].removesuffix("per board").strip()
        if currency and self._first is None:
            self._first = (currency, parameter)
        elif currency and self._first is not None and currency != self._first[0]:
            self._reader.refuse(
                parameter, said(given), f"a price in {self._first[0]}, as {self._first[1]} is",
                "amounts of two currencies cannot be weighed", f"write it in {self._first[0]}",
            )  # fmt: skip
            return math.nan
        return float(match["amount"])
