"""What is driven through a joint, in a maker's words: how many, through what into what."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator

from exporters.work.names import counted_woods
from furniture.joints.joint import HoldBy
from furniture.joints.pilots import pilot_for
from furniture.making.glue_ups.values import DrivenIn
from furniture.pieces.piece import Piece, placed_named
from furniture.units import figure, plural


def driven_in_words(driven: Iterable[DrivenIn], piece: Piece) -> Iterator[str]:
    """What is driven once the joints are home, like things of one part told together.

    No cut is made for a pin, which splits the wood near its end unless it is bored for, nor for
    the point of a screw, whose hole is bored as for a hinge's.

    Args:
        driven: each in its place.
        piece: that it is driven into.
    """
    screws: dict[tuple[str, str, float], Counter[str]] = defaultdict(Counter)
    others: Counter[tuple[str, str, HoldBy]] = Counter()
    for each in driven:
        (into, through), fastener = each.pair, each.fastener
        if fastener.by is HoldBy.SCREW:
            timber = placed_named(piece, into).part.timber
            bore = pilot_for(fastener.diameter_mm, timber, piece.rules, piece.shown)
            screws[through, fastener.name, bore][into] += 1
        else:
            others[through, fastener.name, fastener.by] += 1
    for (instance, name, by), count in others.items():
        where = " in pilot holes, placed as its sheet shows" if by is HoldBy.PIN else ""
        yield f"fix {instance} with {_counted(count, name)}{where}"
    alike: dict[tuple[str, float, int, tuple[str, ...]], list[str]] = defaultdict(list)
    for (through, name, bore), into_each in screws.items():
        alike[name, bore, into_each.total(), tuple(into_each)].append(through)
    for (name, bore, count, onto), through_all in alike.items():
        holes = "pilot holes" if count > 1 else "a pilot hole"
        each_of = "each of " if len(through_all) > 1 else ""
        yield (
            f"drive {_counted(count, name)} through {each_of}{counted_woods(piece, through_all)} "
            f"into {counted_woods(piece, onto)}, in {holes} dia {figure(bore, piece.shown)}"
        )


def _counted(count: int, name: str) -> str:
    return f"{count} {plural(name)}" if count > 1 else f"1 {name}"
