"""What is driven through a joint, in a maker's words: how many; where, its part's sheet shows."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator

from furniture.joints.joint import Fastener, HoldBy
from furniture.making.glue_ups.values import DrivenIn
from furniture.units import plural


def driven_in_words(driven: Iterable[DrivenIn]) -> Iterator[str]:
    """What is driven once the joints are home, like things of one part told together.

    No cut is made for a pin, which splits the wood near its end unless it is bored for.

    Args:
        driven: each in its place.
    """
    of: dict[tuple[str, str], list[Fastener]] = defaultdict(list)
    for each in driven:
        of[each.pair[1], each.fastener.name].append(each.fastener)
    for (instance, name), several in of.items():
        count = f"{len(several)} {plural(name)}" if len(several) > 1 else f"1 {name}"
        where = " in pilot holes, placed as its sheet shows" if several[0].by is HoldBy.PIN else ""
        yield f"fix {instance} with {count}{where}"
