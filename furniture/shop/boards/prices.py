"""Prices as text: an amount and perhaps a currency; one currency in a plan."""

from __future__ import annotations

import math
import re
from collections import Counter

from furniture.units import Reader, said

_PRICE = re.compile(
    r"\s*(?P<before>[^\d\s.+-]*)\s*(?P<amount>[0-9]{1,12}(?:\.[0-9]+)?)\s*(?P<after>[^\d]*?)\s*"
)
_SIGNS = {"€": "EUR", "£": "GBP", "$": "USD"}
LONGEST = 40
"""Letters of a price."""
DEAREST = 1e9
"""What a board costs at most, in any currency. Own rule."""
LOOKS_LIKE = "a price, such as '48 EUR' or '48'"


class Purse:
    """Reads prices and remembers their currency; settle what they are in when all are read."""

    def __init__(self, reader: Reader) -> None:
        self._reader = reader
        self._named: list[tuple[str, str, str]] = []

    @property
    def currency(self) -> str:
        """The currency as most prices name it; empty when none does."""
        counts = Counter(currency for currency, _, _ in self._named)
        return counts.most_common(1)[0][0] if counts else ""

    def settle(self) -> None:
        """Note every price that is not in the currency of most."""
        first = next((at for currency, at, _ in self._named if currency == self.currency), "")
        for currency, parameter, given in self._named:
            if currency != self.currency:
                self._reader.refuse(
                    parameter, given, f"a price in {self.currency}, as {first} is",
                    "amounts of two currencies cannot be weighed", f"write it in {self.currency}",
                )  # fmt: skip

    def price(self, parameter: str, given: object) -> float:
        """The amount [money]; 0 when nothing is given, not-a-number with the problem noted.

        Args:
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
                "write it like '48 EUR'",
            )  # fmt: skip
            return math.nan
        currency = match["before"] or match["after"].removesuffix("per board").strip()
        currency = _SIGNS.get(currency, currency)
        if currency:
            self._named.append((currency, parameter, said(given)))
        return float(match["amount"])
