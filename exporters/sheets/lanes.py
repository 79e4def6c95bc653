"""Lanes beside a view: which dimension line may run where without touching another's words."""

from __future__ import annotations

from collections.abc import Sequence
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
    """What a figure takes up, with the clearance of words."""
    words = [each for each in made.drawn if isinstance(each, Lettering)]
    lines = [each for each in made.drawn if not isinstance(each, Lettering)]
    # A running figure has no line of its own, only the one from its feature to its words.
    extensions, own = (lines, lines[-1:]) if made.kind.is_running else (lines[:2], lines[2:])
    return Taken(
        line=items_box(own).grown(style.text_clearance_mm / 2),
        words=items_box(words).grown(style.text_clearance_mm),
        extensions=tuple(item_box(each).grown(0.2) for each in extensions),
    )


def all_free(
    choices: Sequence[Sequence[Figure]], style: SheetStyle, standing: Sequence[Figure] = ()
) -> tuple[Figure, ...] | None:
    """One figure of each lot such that none touches another; none where no such choice is found.

    The first that will do of each lot is taken, the first lot before the second and so on.

    Args:
        choices: by figure, where it might stand, the best place first.
        style: clearances.
        standing: figures that have their places already, which none may touch.
    """
    there = [taken_by(each, style) for each in standing]
    lots = [
        [
            (each, room)
            for each in lot
            for room in (taken_by(each, style),)
            if not any(room.touches(other) for other in there)
        ]
        for lot in choices
    ]
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
