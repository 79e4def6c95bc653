"""What wood is called in a line of words: numbered names as a run, others as they are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from furniture.parts.part import Kin
from furniture.pieces.piece import Piece
from furniture.units import listed, plural


@dataclass(frozen=True, slots=True)
class WoodName:
    """What a piece of wood is called, and its place among others like it, where it is numbered."""

    text: str
    kin: Kin | None = None

    @classmethod
    def numbered(cls, noun: str, number: int) -> WoodName:
        """What goes by its number among its like, such as `glue-up 2`."""
        return cls(f"{noun} {number}", Kin(noun, number))

    @property
    def in_row(self) -> tuple[str, int] | None:
        """The noun of its row and its number there; None for what goes by its own name."""
        if self.kin is None or self.kin.number is None:
            return None
        return self.kin.noun, self.kin.number


Rows = Mapping[str, WoodName]
"""What numbered wood is called that is no instance."""


def named_in(
    piece: Piece, names: Iterable[str], rows: Rows = MappingProxyType({})
) -> tuple[WoodName, ...]:
    """The names in their order, each once, with what the piece knows of its instances.

    Args:
        piece: that they are of.
        names: of its instances, or of other wood.
        rows: of that other wood, where it is numbered.
    """
    kin = {each.instance: each.kin for each in piece.placed}
    return tuple(
        rows[name] if name in rows else WoodName(name, kin.get(name))
        for name in dict.fromkeys(names)
    )


def woods_in_words(names: Sequence[WoodName]) -> str:
    """The names in their order, such as `lid and tiers 1 to 4`.

    Args:
        names: each once.
    """
    runs: list[list[WoodName]] = []
    for name in names:
        before, own = runs[-1][-1].in_row if runs else None, name.in_row
        if before is not None and own == (before[0], before[1] + 1):
            runs[-1].append(name)
        else:
            runs.append([name])
    return listed([_run_in_words(run) for run in runs])


def _run_in_words(run: Sequence[WoodName]) -> str:
    first, last = run[0].in_row, run[-1].in_row
    if len(run) == 1 or first is None or last is None:
        return run[0].text
    between = "and" if len(run) == 2 else "to"
    return f"{plural(first[0])} {first[1]} {between} {last[1]}"
