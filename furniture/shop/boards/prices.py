"""Prices as text: an amount and perhaps a currency; one currency in a plan."""

from __future__ import annotations

import math
import re

from furniture.units import Reader, said

_PRICE = re.compile(
    r"\s*(?P<before>[^\d\s.+-]*)\s*(?P<amount>[0-9]{1,12}(?:\.[0-9]+)?)\s*(?P<after>[^\d]*?)\s*"
)
LONGEST = 40
"""Letters of a price."""
DEAREST = 1e9
"""What a board costs at most, in any currency. Own rule."""
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
        if given is None or (isinstance(given, str) and not given):
            return 0.0
        is_taken = isinstance(given, (int, float, str)) and not isinstance(given, bool)
        text = said(given).strip("'") if is_taken else ""
        match = _PRICE.fullmatch(text) if len(text) <= LONGEST else None
        if match is None or float(match["amount"]) > DEAREST:
            self._reader.refuse(
                parameter, said(given), LOOKS_LIKE,
                f"an amount is 0 to {DEAREST:.0f}, with one currency",
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
