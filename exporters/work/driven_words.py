"""What is driven through a joint, in a maker's words: how many, through what into what."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence

from furniture.joints.joint import HoldBy
from furniture.making.glue_ups.values import DrivenIn
from furniture.units import plural

Called = Callable[[Sequence[str]], str]
"""What several instances are called together."""


def driven_in_words(driven: Iterable[DrivenIn], called: Called) -> Iterator[str]:
    """What is driven once the joints are home, like things of one part told together.

    No cut is made for a pin, which splits the wood near its end unless it is bored for, nor for
    the point of a screw.

    Args:
        driven: each in its place.
        called: what several instances are called together.
    """
    screws: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)
    others: Counter[tuple[str, str, HoldBy]] = Counter()
    for each in driven:
        (into, through), fastener = each.pair, each.fastener
        if fastener.by is HoldBy.SCREW:
            screws[through, fastener.name][into] += 1
        else:
            others[through, fastener.name, fastener.by] += 1
    for (instance, name, by), count in others.items():
        where = " in pilot holes, placed as its sheet shows" if by is HoldBy.PIN else ""
        yield f"fix {instance} with {_counted(count, name)}{where}"
    alike: dict[tuple[str, int, tuple[str, ...]], list[str]] = defaultdict(list)
    for (through, name), into_each in screws.items():
        alike[name, into_each.total(), tuple(into_each)].append(through)
    for (name, count, onto), through_all in alike.items():
        holes = "in pilot holes" if count > 1 else "in a pilot hole"
        each_of = "each of " if len(through_all) > 1 else ""
        yield (
            f"drive {_counted(count, name)} through {each_of}{called(through_all)} "
            f"into {called(onto)}, {holes}"
        )


def _counted(count: int, name: str) -> str:
    return f"{count} {plural(name)}" if count > 1 else f"1 {name}"
