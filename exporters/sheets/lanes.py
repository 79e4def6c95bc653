"""Lanes beside a view: which dimension line may run where without touching another's words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from exporters.sheets.geometry import item_box, items_box
from exporters.sheets.paper import Box2
from exporters.sheets.pens import SheetStyle
from exporters.sheets.values import Figure, Lettering

_MOST_TRIES = 20_000
"""After so many tries no choice is looked for any more. Own rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What a figure takes up: its line with its arrowheads, its words, its extension lines."""

    line: Box2
    words: Box2
    extensions: tuple[Box2, ...]

    def touches(self, other: Taken) -> bool:
        """Whether lines or words meet, or an extension line runs through words."""
        return (
            self.line.overlaps(other.line)
            or self.words.overlaps(other.words)
            or self.words.overlaps(other.line)
            or self.line.overlaps(other.words)
            or any(self.words.overlaps(each) for each in other.extensions)
            or any(other.words.overlaps(each) for each in self.extensions)
        )


def taken_by(made: Figure, style: SheetStyle) -> Taken:
    """What a linear figure takes up, with the clearance of words."""
    drawn = made.drawn
    words = [each for each in drawn if isinstance(each, Lettering)]
    lines = [each for each in drawn[2:] if not isinstance(each, Lettering)]
    return Taken(
        line=items_box(lines).grown(style.text_clearance_mm / 2),
        words=items_box(words).grown(style.text_clearance_mm),
        extensions=tuple(item_box(each).grown(0.2) for each in drawn[:2]),
    )


def all_free(choices: Sequence[Sequence[Figure]], style: SheetStyle) -> tuple[Figure, ...] | None:
    """One figure of each lot such that none touches another; none where no such choice is found.

    The first that will do of each lot is taken, the first lot before the second and so on.

    Args:
        choices: by figure, where it might stand, the best place first.
        style: clearances.
    """
    lots = [[(each, taken_by(each, style)) for each in lot] for lot in choices]
    stands: list[int] = []
    at = 0
    for _ in range(_MOST_TRIES):
        if len(stands) == len(lots):
            return tuple(lots[index][which][0] for index, which in enumerate(stands))
        lot = lots[len(stands)]
        if at < len(lot):
            room = lot[at][1]
            if any(room.touches(lots[n][which][1]) for n, which in enumerate(stands)):
                at += 1
            else:
                stands.append(at)
                at = 0
        elif stands:
            at = stands.pop() + 1
        else:
            return None
    return None


def first_free(made: Iterable[Figure], taken: list[Taken], style: SheetStyle) -> Figure | None:
    """The first of these figures that touches none that stands; it is added to what is taken."""
    for each in made:
        room = taken_by(each, style)
        if not any(room.touches(other) for other in taken):
            taken.append(room)
            return each
    return None
