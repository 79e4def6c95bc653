"""Which way the grain of a part that lies flat runs, and its faces and places seen in the piece.

A script names the edges and places of a level part by where they are seen, whichever way its grain
runs; the part itself is measured along its grain.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from furniture.builders.rules import DesignReader
from furniture.parts.faces import Arris, Face
from furniture.parts.vectors import BACK, FRONT, RIGHT, Vector
from furniture.units import said, word_remedy

_ACROSS: Mapping[Face, Face] = {
    Face.FACE_EDGE: Face.FAR_END,
    Face.BACK_EDGE: Face.NAMED_END,
    Face.NAMED_END: Face.FACE_EDGE,
    Face.FAR_END: Face.BACK_EDGE,
}
"""The own face of a part with its grain across, for each as it were with its grain along."""


class PanelGrain(Enum):
    """Which way the grain of a panel or tier runs, along the piece's width or across it."""

    ALONG = "along"
    """From left to right."""
    ACROSS = "across"
    """From front to back; of a back panel, up."""

    @property
    def axes(self) -> tuple[Vector, Vector]:
        """Along and across the grain of a part that lies face side up, in the piece."""
        return (RIGHT, BACK) if self is PanelGrain.ALONG else (FRONT, RIGHT)

    def face(self, seen: Face) -> Face:
        """The part's own face, of one that is named as if its grain ran from left to right."""
        return seen if self is PanelGrain.ALONG else _ACROSS.get(seen, seen)

    def arris(self, seen: Arris) -> Arris:
        """The part's own arris, of one that is named so."""
        return Arris(self.face(seen.first), self.face(seen.second))

    def point(self, seen: tuple[float, float], depth: float) -> tuple[float, float]:
        """A place along and across the grain, of one from the left and from the front [mm].

        Args:
            seen: from the left edge and from the front edge.
            depth: of the part, front to back.
        """
        left, front = seen
        return (left, front) if self is PanelGrain.ALONG else (depth - front, left)


def read_own_grain(
    reader: DesignReader, given: object, groups: Mapping[str, tuple[str, ...]]
) -> dict[str, PanelGrain]:
    """The grain of each level part that has one of its own; problems are noted with the reader.

    Args:
        reader: keeps the problems.
        given: names with a `PanelGrain` each.
        groups: what each name that may be written means, of level parts alone.
    """
    if not isinstance(given, Mapping):
        reader.refuse(
            "own_grain", said(given), "names with a PanelGrain each", "it says whose grain runs so",
            f"write {{{next(iter(groups), 'tiers')!r}: PanelGrain.ACROSS}}",
        )  # fmt: skip
        return {}
    found: dict[str, PanelGrain] = {}
    for name, value in given.items():
        where = f"own_grain[{name!r}]"
        meant = groups.get(name, ()) if isinstance(name, str) else ()
        if not meant:
            reader.refuse(
                where, said(name), ", ".join(groups), "it names what lies flat",
                word_remedy(name, list(groups)),
            )  # fmt: skip
        grain = reader.choice(where, value, PanelGrain, PanelGrain.ALONG)
        found.update(dict.fromkeys(meant, grain))
    return found
