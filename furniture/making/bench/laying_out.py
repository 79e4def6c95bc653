"""Laying out a row of places: three ways, the error that each gathers, and which to choose."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise
from typing import assert_never

from furniture.rules import USUAL_RULES, Rules
from furniture.rules.tools import BLOCK_ERROR, MARK_ERROR, SEAT_ERROR

_SAME_MM = 1e-6


class LayOut(Enum):
    """How a row of places is laid out."""

    ONE_END = "measure every place from one end"
    LAST_SHOULDER = "measure each place from the one before"
    SPACER = "step off from the end with one spacer block"
    SPACER_FROM_FIRST = "measure the first place, step off the others with one spacer block"


class Matters(Enum):
    """What of a row of places must be right."""

    RISES = "the distances between neighbours"
    PLACES = "each place, because something else meets it"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """What is to be expected of one way to lay out a row [mm].

    The bias goes the same way each time, the spread by chance (a standard deviation). Of the last
    place, which is the worst, and of the distance between two neighbours.
    """

    way: LayOut
    place_bias_mm: float
    place_spread_mm: float
    rise_bias_mm: float
    rise_spread_mm: float

    def off_mm(self, matters: Matters) -> float:
        """The error to expect of what matters [mm]: root of the mean square.

        Args:
            matters: rises or places.
        """
        if matters is Matters.RISES:
            return math.hypot(self.rise_bias_mm, self.rise_spread_mm)
        return math.hypot(self.place_bias_mm, self.place_spread_mm)


def gathered(way: LayOut, count: int, rules: Rules = USUAL_RULES) -> Gathered:
    """What a way to lay out so many places gathers.

    Args:
        way: how they are laid out.
        count: of places, 1 or more.
        rules: what a mark, a block and its seat are off.

    Raises:
        ValueError: no place at all.

    **Source:** own derivation: independent errors add by their squares, equal ones by their sum.
    From one end two marks part neighbours; each of a chain adds one more; a block adds its own
    error and that of its seat at every step.
    """
    if count < 1:
        raise ValueError("a row has at least one place")
    mark, block, seat = (rules[each] for each in (MARK_ERROR, BLOCK_ERROR, SEAT_ERROR))
    match way:
        case LayOut.ONE_END:
            place, rise = (0.0, mark), (0.0, mark * math.sqrt(2.0))
        case LayOut.LAST_SHOULDER:
            place, rise = (0.0, mark * math.sqrt(count)), (0.0, mark)
        case LayOut.SPACER:
            place, rise = (count * block, seat * math.sqrt(count)), (block, seat)
        case LayOut.SPACER_FROM_FIRST:
            steps = count - 1
            place = (steps * block, math.hypot(mark, seat * math.sqrt(steps)))
            rise = (block, seat)
        case _:
            assert_never(way)
    return Gathered(
        way=way, place_bias_mm=place[0], place_spread_mm=place[1], rise_bias_mm=rise[0],
        rise_spread_mm=rise[1],
    )  # fmt: skip


def ways_to_lay_out(
    places_mm: Sequence[float], matters: Matters, rules: Rules = USUAL_RULES
) -> tuple[Gathered, ...]:
    """The ways that a row of places may be laid out, the one to choose first.

    A spacer serves where all rises between the places are equal, from the end where the first place
    lies as high. Of two ways that are as good the one from one end, then the chain.

    Args:
        places_mm: from the named end, rising [mm].
        matters: what must be right.
        rules: what a mark, a block and its seat are off.

    Raises:
        ValueError: no place at all.

    **Source:** own derivation.
    """
    rises = [after - before for before, after in pairwise(places_mm)]
    ways = [LayOut.ONE_END, LayOut.LAST_SHOULDER]
    if len(rises) > 1 and max(rises) - min(rises) <= _SAME_MM:
        starts = abs(places_mm[0] - rises[0]) <= _SAME_MM
        ways.append(LayOut.SPACER if starts else LayOut.SPACER_FROM_FIRST)
    found = [gathered(way, len(places_mm), rules) for way in ways]
    return tuple(sorted(found, key=lambda each: each.off_mm(matters)))
