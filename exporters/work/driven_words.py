"""What is driven through a joint, in a maker's words: how many, and where."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from exporters.faces import SIDES
from furniture.joints.joint import Fastener, HoldBy
from furniture.making.glue_ups.values import DrivenIn
from furniture.parts.placement import box_of
from furniture.pieces.piece import Piece, placed_named
from furniture.units import figure, listed, plural

_BORED_FIRST = frozenset({HoldBy.PIN})
"""What has no bore on any sheet, and splits the wood near its end without one."""


def driven_in_words(piece: Piece, driven: Iterable[DrivenIn]) -> Iterator[str]:
    """What is driven once the joints are home, like things of one part told together.

    Args:
        piece: that it is driven into.
        driven: each in its place.
    """
    of: dict[tuple[str, str], list[Fastener]] = defaultdict(list)
    for each in driven:
        of[each.pair[1], each.fastener.name].append(each.fastener)
    for (instance, name), several in of.items():
        count = f"{len(several)} {plural(name)}" if len(several) > 1 else f"1 {name}"
        is_told = several[0].by in _BORED_FIRST  # all others have bores on their parts' sheets
        where = f" in pilot holes: {_where(piece, instance, several)}" if is_told else ""
        yield f"fix {instance} with {count}{where}"


def _where(piece: Piece, instance: str, several: Sequence[Fastener]) -> str:
    """How far in from two sides of the part, where what is driven stands in rows."""
    placed = placed_named(piece, instance)
    low, _ = box_of(placed.part.blank, placed.placement)
    driven = several[0].axis
    along = max(range(3), key=lambda axis: abs(driven[axis]))
    first, second = (axis for axis in range(3) if axis != along)
    at = {
        tuple(figure(each.at[axis] - low[axis], piece.shown) for axis in (first, second)): each.at
        for each in several
    }
    rows = [list(dict.fromkeys(each[n] for each in sorted(at, key=at.__getitem__))) for n in (0, 1)]
    if len(rows[0]) * len(rows[1]) == len(at):
        sides = zip(rows, (first, second), strict=True)
        return " and ".join(f"{listed(mm)} from its {SIDES[axis][0]}" for mm, axis in sides)
    pairs = (f"{a} and {b}" for a, b in sorted(at, key=at.__getitem__))
    return f"from its {SIDES[first][0]} and its {SIDES[second][0]}, {'; '.join(pairs)}"
