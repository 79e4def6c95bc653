"""What bears a sagging part: brackets or cleats that were tried by building the piece with them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from furniture.checks.advice import Change, Remedy, longer
from furniture.checks.finding import Show
from furniture.checks.of_piece.bent import bends_of
from furniture.checks.of_piece.sagging import time_fall_mm
from furniture.pieces import Bearer, Piece, Under
from furniture.structure.frame import masses_by_cuts

_TRIED = (0.0, 0.35, 0.7)
"""Which shorter ones are tried where the longest does: shares of the way to it [-]. Own rule."""
_KEPT = 0.95
"""How much of the sag that is allowed one may come to: weights are by cuts alone here. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BorneBy:
    """A piece whose parts may be borne, and what puts a length into its unit."""

    piece: Piece
    show: Show

    def remedies(self, instance: str, most_mm: float) -> tuple[Remedy, ...]:
        """The first that is enough: brackets, from short to long and from one to two, then cleats.

        Args:
            instance: the part that sags.
            most_mm: how far it may [mm]: as it was judged bare, however little of its span brackets
                leave free.

        **Source:** the sag of the piece that it makes; how far a bracket must reach hangs on where
        loads stand and on how its joints give, and no simple formula tells.
        """
        for bearer in self.piece.intent.bearers_of(instance) or ():
            longest = self.show.down(bearer.most_mm)
            if not self._does(instance, bearer, longest, most_mm):
                continue
            reaches = [bearer.least_mm + share * (longest - bearer.least_mm) for share in _TRIED]
            reach = next(
                (
                    each
                    for each in map(self.show.up, reaches)
                    if self._does(instance, bearer, each, most_mm)
                ),
                longest,
            )
            return _named(instance, bearer, reach, self.show)
        return ()

    def _does(self, instance: str, bearer: Bearer, reach_mm: float, most_mm: float) -> bool:
        """Whether the piece is taken with so long a one, and its part is level enough then."""
        again = self.piece.intent.again
        made = None if again is None else again.with_under(instance, bearer, reach_mm)
        return made is not None and _falls_mm(made, instance) <= _KEPT * most_mm


def _named(instance: str, bearer: Bearer, reach_mm: float, show: Show) -> tuple[Remedy, ...]:
    """So long a bracket, or so thick a cleat, in words."""
    change = Change.CLEAT
    words = f"put cleats {{}} thick under both ends of {instance}"
    if bearer.under is Under.BRACKET:
        change = Change.BRACKET
        many = "a bracket" if bearer.count == 1 else "two brackets"
        each = "reaches" if bearer.count == 1 else "reach"
        words = f"put {many} under {instance} against what holds it that {each} {{}}"
    found = longer(change, words, reach_mm, show, bearer.most_mm)
    return tuple(replace(each, parameters=(bearer.parameter,)) for each in found)


def _falls_mm(piece: Piece, instance: str) -> float:
    """How far a part of a piece sags in time under any load [mm]; without end if it is not held."""
    bends = bends_of(piece, masses_by_cuts(piece))
    if bends is None:
        return math.inf
    return max(
        (time_fall_mm(each) for each in bends.levels() if each.placed.instance == instance),
        default=math.inf,
    )
