"""What bears a part that sags or is stressed: tried by building the piece with it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from furniture.checks.advice import Remedy
from furniture.checks.finding import Show
from furniture.checks.of_piece.bent import Level, bends_of
from furniture.checks.tried import put_under
from furniture.pieces import Offered, Piece, Under
from furniture.structure.frame import masses_by_cuts

_TRIED = (0.0, 0.35, 0.7)
"""Which shorter ones are tried where the longest does: shares of the way to it [-]. Own rule."""

Suits = Callable[[Sequence[Level]], bool]
"""Whether a part is borne well enough, of how it bends under each load."""


class BorneBy:
    """What may be put under the parts of a piece; a piece that was built once is kept."""

    def __init__(self, piece: Piece, show: Show) -> None:
        self._piece, self._show = piece, show
        self._bent: dict[tuple[Offered, float], list[Level]] = {}

    def remedies(self, instance: str, suits: Suits) -> tuple[Remedy, ...]:
        """The first that is enough: brackets, from short to long and from one to two, then cleats.

        Args:
            instance: the part.
            suits: whether that is enough.

        **Source:** how the piece that it makes bends; how far a bracket must reach hangs on where
        loads stand and on how its joints give, and no simple formula tells.
        """
        for offered in self._piece.intent.offered(instance) or ():
            bearer = offered.bearer
            longest = self._show.down(bearer.most_mm)
            if not suits(self._levels(offered, longest)):
                continue
            spare = longest - bearer.least_mm
            for share in _TRIED:
                reach = self._show.up(bearer.least_mm + share * spare)
                if suits(self._levels(offered, reach)):
                    return put_under(offered, _words(offered), reach, self._show)
            return put_under(offered, _words(offered), longest, self._show)
        return ()

    def _levels(self, offered: Offered, reach_mm: float) -> list[Level]:
        """How the part bends in the piece that has it; none where that is refused or not held."""
        key = (offered, reach_mm)
        if key not in self._bent:
            made = offered.built(reach_mm)
            bends = None if made is None else bends_of(made, masses_by_cuts(made))
            self._bent[key] = [
                each
                for each in (() if bends is None else bends.levels())
                if each.placed.instance == offered.instance
            ]
        return self._bent[key]


def _words(offered: Offered) -> str:
    bearer = offered.bearer
    if bearer.under is Under.CLEAT:
        return f"put cleats {{}} thick under both ends of {offered.instance}"
    many, each = ("a bracket", "reaches") if bearer.count == 1 else ("two brackets", "reach")
    return f"put {many} under {offered.instance} against what holds it that {each} {{}}"
