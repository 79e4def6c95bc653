"""Overall sizes as one says them: what a maker leaves out of the tiers follows from them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from furniture.builders.rules import DesignReader
from furniture.units import Given, figure_with_unit, said
from furniture.units.showing import without_mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowed:
    """What a figure may be [mm], and why."""

    least: float
    most: float
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Overall:
    """An overall size that was asked for [mm].

    `rest` is what of it the tiers have no part in: below them, above them or behind them [mm].
    """

    parameter: str
    given: Given
    mm: float
    rest: float
    what: str

    def shared_rise(self, reader: DesignReader, allowed: Sequence[Allowed], others: float) -> float:
        """The rise of each tier that shares, in the mean [mm]; not-a-number where it is refused.

        Args:
            reader: keeps the problems.
            allowed: of each tier that shares.
            others: the rises that are given, in all [mm].
        """
        return self._share(reader, allowed, len(allowed), self.rest + others)

    def shared_depth(self, reader: DesignReader, allowed: Allowed) -> float:
        """The depth with which a tier ends on the overall depth [mm], likewise."""
        return self._share(reader, [allowed], 1, self.rest)

    def _share(
        self, reader: DesignReader, allowed: Sequence[Allowed], count: int, taken: float
    ) -> float:
        total = reader.limit(
            self.parameter,
            self.mm,
            at_least=taken + count * max(each.least for each in allowed),
            at_most=taken + count * min(each.most for each in allowed),
            why=f"{self.what}: {allowed[0].why}",
            given=self.given,
        )
        return (total - taken) / count

    def agrees(self, reader: DesignReader, sum_mm: float, remedy: str) -> None:
        """Note figures that were all given and come to another size, with the difference.

        What a printed figure cannot tell apart is one size.

        Args:
            reader: keeps the problems.
            sum_mm: what they come to [mm].
            remedy: what to leave out instead.
        """
        off = sum_mm - self.mm
        shown = reader.shown
        if math.isnan(off) or abs(off) <= shown.step_mm / 2 + 1e-6:
            return
        text, by = (without_mark(figure_with_unit(each, shown)) for each in (sum_mm, abs(off)))
        reader.refuse(
            self.parameter, said(self.given), text,
            f"the figures given come to {text}, {by} {'more' if off > 0 else 'less'}",
            f"make it {text}, or {remedy}",
        )  # fmt: skip


def read_overall(
    reader: DesignReader, parameter: str, given: Given | None, rest: float, what: str
) -> Overall | None:
    """The overall size; none where it is left to follow; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        parameter: its name.
        given: what was written.
        rest: what the tiers have no part in [mm].
        what: that the tiers do, in words.
    """
    if given is None:
        return None
    value = reader.length(parameter, given, at_least=0.0, why="it is a size")
    return Overall(parameter=parameter, given=given, mm=value, rest=rest, what=what)
